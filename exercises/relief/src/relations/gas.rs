//! Gas, vapour and steam: when the flow is critical, and the size that a duty needs. Pressures here are absolute.
//!
//! The sizing relations keep the constants of the SI form as they are cited (0.03948, 17.9, 190.5).

use super::{PRESSURE, below, number, one, output, quantity, ratio, size};
use crate::factors::{GRAM_PER_MOLE, KILOGRAM_PER_HOUR, KILOPASCAL, SQUARE_MILLIMETRE};
use crate::kind::Kind;
use crate::quantity::{Absolute, Area, MassFlow, MolarMass, Number, Ratio, Temperature, Typed};
use crate::relation::{
    Argument, Default, Form, Input, Output, Range, Relation, RelationError, SafeSide, Source, Status,
};
use crate::relations::pressures::STANDARD_ATMOSPHERE;

/// Critical-flow pressure ratio (a ratio of absolute pressures) for a ratio of specific heats.
#[must_use]
pub fn critical_ratio(k: Number) -> Ratio {
    let k = k.si();
    // The limit of the law as k goes to one is e to the power of minus one half.
    let ratio = if is_one(k) { libm::exp(-0.5) } else { libm::pow(2.0 / (k + 1.0), k / (k - 1.0)) };
    Ratio::from_si(ratio)
}

/// Near one the laws divide zero by zero; a millionth of it is below any table of k.
fn is_one(k: f64) -> bool {
    (k - 1.0).abs() < 1e-6
}

/// Coefficient C of the gas formula, SI form (dimension of √(kg·kmol·K)/(mm²·h·kPa)).
#[must_use]
pub fn gas_coefficient(k: Number) -> Number {
    let k = k.si();
    let under = if is_one(k) { libm::exp(-1.0) } else { k * libm::pow(2.0 / (k + 1.0), (k + 1.0) / (k - 1.0)) };
    Number::from_si(0.03948 * under.sqrt())
}

/// The state of a gas at the valve inlet.
#[derive(Clone, Copy, Debug)]
pub struct Gas {
    /// Relieving temperature.
    pub temperature: Temperature,
    /// Compressibility factor.
    pub compressibility: Number,
    /// Molar mass.
    pub molar_mass: MolarMass,
    /// Ratio of specific heats.
    pub k: Number,
}

/// Area for critical flow of gas or vapour (square metre).
///
/// # Errors
/// [`RelationError::Subcritical`] where the back pressure is above the critical-flow pressure.
pub fn gas_area(
    mass: MassFlow,
    gas: Gas,
    relieving: Absolute,
    back: Absolute,
    corrections: [Number; 3],
) -> Result<Area, RelationError> {
    if back.si() > critical_ratio(gas.k).si() * relieving.si() {
        return Err(RelationError::Subcritical { instead: "subcritical_gas_area" });
    }
    let hourly = mass.si() / KILOGRAM_PER_HOUR;
    let factors = gas_coefficient(gas.k).si() * corrections[0].si() * corrections[1].si() * corrections[2].si();
    let state = gas.temperature.si() * gas.compressibility.si() / (gas.molar_mass.si() / GRAM_PER_MOLE);
    Ok(Area::from_si(hourly / (factors * (relieving.si() / KILOPASCAL)) * state.sqrt() * SQUARE_MILLIMETRE))
}

/// Factor F2 of subcritical flow (dimensionless) for a ratio of specific heats and of back to relieving pressure.
#[must_use]
pub fn subcritical_factor(k: Number, ratio: Ratio) -> Number {
    let (k, r) = (k.si(), ratio.si());
    // The limit of the law as k goes to one.
    let under = if is_one(k) {
        -r * r * libm::log(r) / (1.0 - r)
    } else {
        k / (k - 1.0) * libm::pow(r, 2.0 / k) * ((1.0 - libm::pow(r, (k - 1.0) / k)) / (1.0 - r))
    };
    Number::from_si(under.max(0.0).sqrt())
}

/// Area for subcritical flow of gas or vapour (square metre), conventional and pilot valves.
///
/// # Errors
/// [`RelationError::Critical`] where the back pressure is not above the critical-flow pressure; [`RelationError::Order`]
/// where it is above the relieving pressure.
pub fn subcritical_gas_area(
    mass: MassFlow,
    gas: Gas,
    relieving: Absolute,
    back: Absolute,
    corrections: [Number; 2],
) -> Result<Area, RelationError> {
    below(("back", back), ("relieving", relieving))?;
    let ratio = back.si() / relieving.si();
    if ratio <= critical_ratio(gas.k).si() {
        return Err(RelationError::Critical { instead: "gas_area" });
    }
    let hourly = mass.si() / KILOGRAM_PER_HOUR;
    let factor = subcritical_factor(gas.k, Ratio::from_si(ratio)).si();
    let (inlet, outlet) = (relieving.si() / KILOPASCAL, back.si() / KILOPASCAL);
    let state = gas.temperature.si() * gas.compressibility.si()
        / (gas.molar_mass.si() / GRAM_PER_MOLE * inlet * (inlet - outlet));
    let factors = factor * corrections[0].si() * corrections[1].si();
    Ok(Area::from_si(17.9 * hourly / factors * state.sqrt() * SQUARE_MILLIMETRE))
}

/// Up to here KN is one (kilopascal, absolute).
const NAPIER_ABOVE: f64 = 10_339.0;

/// Correction factor KN for steam at high pressure (dimensionless): one up to 10 339 kPa, absolute.
#[must_use]
pub fn napier_factor(relieving: Absolute) -> Number {
    let pressure = relieving.si() / KILOPASCAL;
    let factor =
        if pressure > NAPIER_ABOVE { (0.02764 * pressure - 1000.0) / (0.03324 * pressure - 1061.0) } else { 1.0 };
    Number::from_si(factor)
}

/// Area for steam (square metre). The fourth correction is KN.
///
/// # Errors
/// [`RelationError::FactorNeeded`] where KN is left at one at a pressure at which it is not.
pub fn steam_area(mass: MassFlow, relieving: Absolute, corrections: [Number; 5]) -> Result<Area, RelationError> {
    let left_at_one = corrections[3].si().to_bits() == 1.0_f64.to_bits();
    if left_at_one && relieving.si() / KILOPASCAL > NAPIER_ABOVE {
        return Err(RelationError::FactorNeeded { input: "kn", instead: "napier_factor" });
    }
    let factors = corrections.iter().fold(1.0, |product, factor| product * factor.si());
    let hourly = mass.si() / KILOGRAM_PER_HOUR;
    Ok(Area::from_si(190.5 * hourly / (relieving.si() / KILOPASCAL * factors) * SQUARE_MILLIMETRE))
}

const MASS: Input = quantity("mass", "W", Kind::MassFlow, Range::positive(1e5));
const TEMPERATURE: Input = quantity("temperature", "T", Kind::Temperature, Range::between(50.0, 3000.0));
const COMPRESSIBILITY: Input = ratio("compressibility", "Z", 1.0, "ideal gas");
const MOLAR_MASS: Input = quantity("molar_mass", "M", Kind::MolarMass, Range::between(0.001, 1.0));
const K: Input = number("k", "k", Range::between(1.0, 2.0));
const RELIEVING: Input = quantity("relieving", "p_1", Kind::Absolute, Range::positive(PRESSURE));
const BACK: Input = Input {
    name: "back",
    symbol: "p_2",
    form: Form::Quantity(Kind::Absolute, Range::from_zero(PRESSURE)),
    default: Some(Default {
        value: Argument::Quantity(crate::Quantity::new(STANDARD_ATMOSPHERE, Kind::Absolute)),
        source: "outlet open to the standard atmosphere",
    }),
};
const KD: Input = ratio("kd", r"K_\mathrm{d}", 0.975, "API Std 520 Part I: effective coefficient for gas and steam");
const KB: Input = ratio("kb", r"K_\mathrm{b}", 1.0, "API Std 520 Part I: conventional and pilot valves");
const KC: Input = ratio("kc", r"K_\mathrm{c}", 1.0, "API Std 520 Part I: no rupture disc");
const KN: Input = ratio("kn", r"K_\mathrm{N}", 1.0, "up to 10 339 kPa absolute; above, take napier_factor");
const KSH: Input = ratio("ksh", r"K_\mathrm{SH}", 1.0, "API Std 520 Part I: saturated steam");
const GAS: &str = "API Std 520 Part I, gas and vapour (the customary form seen)";

const fn source(document: &'static str) -> Source {
    Source { document, status: Status::Read }
}

const fn cited(document: &'static str) -> Source {
    Source { document, status: Status::Cited }
}

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    Relation {
        id: "critical_ratio",
        inputs: &[K],
        outputs: &[output("ratio", r"r_\mathrm{c}", Kind::Ratio)],
        law: r"#ratio = \left(\frac{2}{#k + 1}\right)^{\frac{#k}{#k - 1}}",
        source: source("API Std 520 Part I, critical flow pressure ratio"),
        run: |a| one(critical_ratio(a.get(0))),
    },
    Relation {
        id: "gas_coefficient",
        inputs: &[K],
        outputs: &[output("coefficient", "C", Kind::Number)],
        law: r"#coefficient = 0.03948 \, \sqrt{#k \, (2 / (#k + 1))^{(#k + 1)/(#k - 1)}}",
        source: cited("API Std 520 Part I, SI form (0.03948 as cited; the customary form, 520, seen)"),
        run: |a| one(gas_coefficient(a.get(0))),
    },
    Relation {
        id: "gas_area",
        inputs: &[MASS, TEMPERATURE, COMPRESSIBILITY, MOLAR_MASS, K, RELIEVING, BACK, KD, KB, KC],
        outputs: &[size("area", "A")],
        law: r"#area = \frac{#mass}{C(#k) \, #kd \, #relieving \, #kb \, #kc} \, \sqrt{#temperature \, #compressibility / #molar_mass},\quad #back \le r_\mathrm{c} \, #relieving",
        source: cited(GAS),
        run: |a| {
            let gas = Gas { temperature: a.get(1), compressibility: a.get(2), molar_mass: a.get(3), k: a.get(4) };
            one(gas_area(a.get(0), gas, a.get(5), a.get(6), [a.get(7), a.get(8), a.get(9)])?)
        },
    },
    Relation {
        id: "subcritical_factor",
        inputs: &[K, quantity("ratio", "r", Kind::Ratio, Range::between(0.01, 0.9999))],
        outputs: &[output("factor", "F_2", Kind::Number)],
        law: r"#factor = \sqrt{(#k / (#k - 1)) \, #ratio^{2/#k} \, (1 - #ratio^{(#k - 1)/#k}) / (1 - #ratio)}",
        source: source("API Std 520 Part I, coefficient of subcritical flow"),
        run: |a| one(subcritical_factor(a.get(0), a.get(1))),
    },
    Relation {
        id: "subcritical_gas_area",
        inputs: &[MASS, TEMPERATURE, COMPRESSIBILITY, MOLAR_MASS, K, RELIEVING, BACK, KD, KC],
        outputs: &[size("area", "A")],
        law: r"#area = \frac{17.9 \, #mass}{F_2(#k) \, #kd \, #kc} \, \sqrt{#temperature \, #compressibility / (#molar_mass \, #relieving \, (#relieving - #back))}",
        source: cited(
            "API Std 520 Part I, subcritical gas and vapour, SI form (17.9 as cited; the customary form, 735, seen)",
        ),
        run: |a| {
            let gas = Gas { temperature: a.get(1), compressibility: a.get(2), molar_mass: a.get(3), k: a.get(4) };
            one(subcritical_gas_area(a.get(0), gas, a.get(5), a.get(6), [a.get(7), a.get(8)])?)
        },
    },
    Relation {
        id: "napier_factor",
        inputs: &[quantity("relieving", "p_1", Kind::Absolute, Range { open: false, ..Range::positive(22.1e6) })],
        outputs: &[Output { safe_side: SafeSide::Down, ..output("factor", r"K_\mathrm{N}", Kind::Number) }],
        law: r"#factor = \frac{0.02764 \, #relieving - 1000}{0.03324 \, #relieving - 1061}\quad\text{above 10 339 kPa, else 1}",
        source: cited("API Std 520 Part I, steam, SI form (the customary form seen)"),
        run: |a| one(napier_factor(a.get(0))),
    },
    Relation {
        id: "steam_area",
        inputs: &[MASS, RELIEVING, KD, KB, KC, KN, KSH],
        outputs: &[size("area", "A")],
        law: r"#area = \frac{190.5 \, #mass}{#relieving \, #kd \, #kb \, #kc \, #kn \, #ksh}",
        source: cited("API Std 520 Part I, steam, SI form (190.5 as cited; the customary form, 51.5, seen)"),
        run: |a| one(steam_area(a.get(0), a.get(1), [a.get(2), a.get(3), a.get(4), a.get(5), a.get(6)])?),
    },
];
