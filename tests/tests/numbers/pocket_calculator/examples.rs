//! The laws here against the worked examples of API Std 520 Part I in both systems, so that what the core is held against
//! is held against something, too.

use problems::System::{self, Si, Us};

use super::laws;

/// The examples round between steps, so that half a percent is allowed.
const WORKED: f64 = 0.005;

/// What a law gives, and what is printed for it.
fn assert_printed(what: &str, found: f64, printed: f64) {
    let off = (found / printed - 1.0).abs();
    assert!(off <= WORKED, "{what}: {found} and not {printed}");
}

/// Crude oil: 1800 gpm or 6814 L/min, gravity 0.90, 250 psig with 10 %, back pressure 50 psi, Kd 0.65, Kw 0.97. 4.752 in²
/// from memory; the SI numbers and the Reynolds number as cited for the standard; 4.840 in² computed.
#[test]
fn crude_oil() {
    let duty = |form: System| if form == Us { (1800.0, 275.0 - 50.0) } else { (6814.0, 1896.0 - 345.0) };
    for (form, thin, orifice, thick) in [(Us, 4.752, 6.38, 4.840), (Si, 3066.0, 4116.0, 3122.0)] {
        let (flow, drop) = duty(form);
        let first = laws::liquid_area(form, flow, 0.90, drop, 0.65 * 0.97);
        assert_printed("first area", first, thin);
        assert_printed("the law turned round", laws::liquid_capacity(form, thin, 0.90, drop, 0.65 * 0.97), flow);
        assert_printed("area by the tenth edition", first / laws::viscosity_factor(4525.0), thick);
        // 2000 Saybolt universal seconds over 4.632 (ASTM D2161, read) and times 0.90: 388.601 cP, computed, and 4621.2
        // and 4624.5 for it.
        let reynolds = laws::reynolds(form, flow, 0.90, 388.601, orifice);
        assert_printed("Reynolds number", reynolds, if form == Us { 4621.2 } else { 4624.5 });
    }
}

/// Hydrocarbon vapour: 53 500 lb/h or 24 270 kg/h, 627 °R or 348 K, Z 0.90, M 51, k 1.11, 97.2 psia or 670 kPa, Kd 0.975;
/// against 77.2 psia or 532 kPa subcritical. Customary areas from memory, SI inputs and 3699 mm² as cited for the standard;
/// 6.55 in² takes F2 as 0.86; 4248.359 mm² computed.
#[test]
fn hydrocarbon_vapour() {
    let k = 1.11;
    assert_printed("critical ratio", laws::critical_ratio(k), 0.583);
    assert_printed("customary C", laws::gas_coefficient(Us, k), 328.0);
    for (form, mass, temperature, relieving, back) in
        [(Us, 53_500.0, 627.0, 97.2, 77.2), (Si, 24_270.0, 348.0, 670.0, 532.0)]
    {
        let state = temperature * 0.90 / 51.0;
        let critical = laws::critical_area(mass, laws::gas_coefficient(form, k), 0.975, relieving, state);
        assert_printed("critical area", critical, if form == Us { 5.73 } else { 3699.0 });
        let factor = laws::subcritical_factor(k, back / relieving);
        assert_printed("F2", factor, 0.855);
        let factor = if form == Us { 0.86 } else { factor };
        let subcritical = laws::subcritical_area(form, mass, factor * 0.975, state, (relieving, back));
        assert_printed("subcritical area", subcritical, if form == Us { 6.55 } else { 4248.359 });
    }
}

/// Saturated steam: 153 500 lb/h or 69 615 kg/h at 1774.7 psia or 12 236 kPa, Kd 0.975, KN printed as 1.01. 1.705 in² from
/// memory; the SI inputs and 1100 mm² as cited for the standard.
#[test]
fn saturated_steam() {
    for (form, mass, relieving, area) in [(Us, 153_500.0, 1774.7, 1.705), (Si, 69_615.0, 12_236.0, 1100.0)] {
        assert_printed("KN", laws::napier_factor(form, relieving), 1.01);
        assert_printed("area", laws::steam_area(form, mass, relieving, 0.975 * 1.01), area);
    }
}

/// C for air: 356 in ASME (read), and 0.0270332 in the SI form (computed).
#[test]
fn air() {
    assert_printed("customary C", laws::gas_coefficient(Us, 1.4), 356.0);
    assert_printed("SI C", laws::gas_coefficient(Si, 1.4), 0.027_033_2);
}

/// 0.0005 for each °F, 500 000 Btu/h, gravity 0.85, 0.5 Btu/(lb °F): 1.176471 gpm by B H/(500 G C). 0.001 for each K,
/// 100 kW, 0.85, 2.1 kJ/(kg K): 3.361345 L/min. API Std 521, both forms from memory, values computed.
#[test]
fn shut_in_liquid() {
    assert_printed("gpm", laws::expansion_flow(Us, 0.0005, 500_000.0, 0.85, 0.5), 1.176_471);
    assert_printed("L/min", laws::expansion_flow(Si, 0.001, 100.0, 0.85, 2.1), 3.361_345);
}
