//! Gas, vapour and steam: when the flow is critical, and the size that a duty needs. Pressures here are absolute.
//!
//! The sizing relations keep the constants of both printed forms: 520, 735 and 51.5 in customary units as they were seen,
//! 0.03948, 17.9 and 190.5 in SI units as they are cited.

use super::rows::{
    PRESSURE, Takes, at_most, correction, each, number, one, output, printed, printed_in, quantity, relation, size,
};
use crate::compare::{above, below};
use crate::factors::{
    GRAM_PER_MOLE, KILOGRAM_PER_HOUR, KILOPASCAL, POUND_PER_HOUR, POUND_PER_SQUARE_INCH, RANKINE, SQUARE_INCH,
    SQUARE_MILLIMETRE,
};
use crate::law_units::{BARE_RATIO, SIZING_SI, SIZING_US};
use crate::quantity::{Absolute, Area, MassFlow, MolarMass, Number, Ratio, Temperature, Typed};
use crate::relation::{Forms, Printed, Range, Relation, RelationError, Source, Status};
use crate::relations::pressures::STANDARD_ATMOSPHERE;
use crate::system::Manner;

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

/// The constants of a printed form of the formulas for gas and steam, and what its units are in SI.
struct Constants {
    /// Mass flow (kilogram per second).
    mass: f64,
    /// Pressure (pascal).
    pressure: f64,
    /// Temperature (kelvin).
    temperature: f64,
    /// Area (square metre).
    area: f64,
    /// The constant of the coefficient C.
    coefficient: f64,
    /// The constant above the line of the subcritical formula.
    subcritical: f64,
    /// The constant above the line of the steam formula.
    steam: f64,
    /// The highest relieving pressure at which KN is one, in the unit of pressure.
    napier_above: f64,
    /// The four numbers of KN: factor and constant above the line, factor and constant below it.
    napier: [f64; 4],
}

/// lb/h, psia, degrees Rankine, in².
const CUSTOMARY: Constants = Constants {
    mass: POUND_PER_HOUR,
    pressure: POUND_PER_SQUARE_INCH,
    temperature: RANKINE,
    area: SQUARE_INCH,
    coefficient: 520.0,
    subcritical: 1.0 / 735.0,
    steam: 1.0 / 51.5,
    napier_above: 1500.0,
    napier: [0.1906, -1000.0, 0.2292, -1061.0],
};

/// kg/h, kPa, K, mm².
const METRIC: Constants = Constants {
    mass: KILOGRAM_PER_HOUR,
    pressure: KILOPASCAL,
    temperature: 1.0,
    area: SQUARE_MILLIMETRE,
    coefficient: 0.03948,
    subcritical: 17.9,
    steam: 190.5,
    napier_above: 10_339.0,
    napier: [0.02764, -1000.0, 0.03324, -1061.0],
};

fn constants(manner: Manner) -> &'static Constants {
    manner.choose(&CUSTOMARY, &METRIC)
}

/// Coefficient C of the gas formula. Its number belongs to the units of the form: √(lb·lbmol·°R)/(lbf·h), or
/// √(kg·kmol·K)/(mm²·h·kPa).
#[must_use]
pub fn gas_coefficient(k: Number, manner: Manner) -> Number {
    let k = k.si();
    let under = if is_one(k) { libm::exp(-1.0) } else { k * libm::pow(2.0 / (k + 1.0), (k + 1.0) / (k - 1.0)) };
    Number::from_si(manner.line(constants(manner).coefficient * under.sqrt()))
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

impl Gas {
    /// Temperature times compressibility over molar mass, in the units of a form.
    fn state(self, form: &Constants) -> f64 {
        let temperature = self.temperature.si() / form.temperature;
        temperature * self.compressibility.si() / (self.molar_mass.si() / GRAM_PER_MOLE)
    }
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
    manner: Manner,
) -> Result<Area, RelationError> {
    if above(back.si(), critical_ratio(gas.k).si() * relieving.si()) {
        return Err(RelationError::Subcritical { instead: "subcritical_gas_area" });
    }
    let form = constants(manner);
    let hourly = mass.si() / form.mass;
    let factors = gas_coefficient(gas.k, manner).si() * corrections[0].si() * corrections[1].si() * corrections[2].si();
    let area = hourly / (factors * (relieving.si() / form.pressure)) * gas.state(form).sqrt();
    Ok(Area::from_si(area * form.area))
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

/// Area for subcritical flow of gas or vapour (square metre), conventional and pilot valves. The first correction is F2.
///
/// # Errors
/// [`RelationError::Critical`] where the back pressure is not above the critical-flow pressure; [`RelationError::Order`]
/// where it is above the relieving pressure.
pub fn subcritical_gas_area(
    mass: MassFlow,
    gas: Gas,
    relieving: Absolute,
    back: Absolute,
    corrections: [Number; 3],
    manner: Manner,
) -> Result<Area, RelationError> {
    below(("back", back), ("relieving", relieving))?;
    let ratio = back.si() / relieving.si();
    if !above(ratio, critical_ratio(gas.k).si()) {
        return Err(RelationError::Critical { instead: "gas_area" });
    }
    let form = constants(manner);
    let (inlet, outlet) = (relieving.si() / form.pressure, back.si() / form.pressure);
    let factors = corrections[0].si() * corrections[1].si() * corrections[2].si();
    let area =
        form.subcritical * (mass.si() / form.mass) / factors * (gas.state(form) / (inlet * (inlet - outlet))).sqrt();
    Ok(Area::from_si(area * form.area))
}

/// Correction factor KN for steam at high pressure (dimensionless): one up to 1500 psia, or up to 10 339 kPa absolute.
#[must_use]
pub fn napier_factor(relieving: Absolute, manner: Manner) -> Number {
    let form = constants(manner);
    let pressure = relieving.si() / form.pressure;
    let [factor, constant, under, less] = form.napier;
    let is_one = !above(pressure, form.napier_above);
    Number::from_si(if is_one { 1.0 } else { (factor * pressure + constant) / (under * pressure + less) })
}

/// Area for steam (square metre). The fourth correction is KN.
///
/// # Errors
/// [`RelationError::FactorNeeded`] where KN is left at one at a pressure at which it is not.
pub fn steam_area(
    mass: MassFlow,
    relieving: Absolute,
    corrections: [Number; 5],
    manner: Manner,
) -> Result<Area, RelationError> {
    let form = constants(manner);
    let left_at_one = corrections[3].si().to_bits() == 1.0_f64.to_bits();
    if left_at_one && above(relieving.si() / form.pressure, form.napier_above) {
        return Err(RelationError::FactorNeeded { input: "kn", instead: "napier_factor" });
    }
    let factors = corrections.iter().fold(1.0, |product, factor| product * factor.si());
    Ok(Area::from_si(form.steam * (mass.si() / form.mass) / (relieving.si() / form.pressure * factors) * form.area))
}

const MASS: Takes<MassFlow> = quantity("W", Range::positive(1e5));
const TEMPERATURE: Takes<Temperature> = quantity("T", Range::between(50.0, 3000.0));
const COMPRESSIBILITY: Takes<Number> = correction("Z", 1.0, "ideal gas");
const MOLAR_MASS: Takes<MolarMass> = quantity("M", Range::between(0.001, 1.0));
const K: Takes<Number> = number("k", Range::between(1.0, 2.0));
const RELIEVING: Takes<Absolute> = quantity("p_1", Range::positive(PRESSURE));
const BACK: Takes<Absolute> =
    quantity("p_2", Range::from_zero(PRESSURE)).usually(STANDARD_ATMOSPHERE, "outlet open to the standard atmosphere");
const F2: Takes<Number> = number("F_2", Range::between(0.01, 1.0));
const KD: Takes<Number> =
    correction(r"K_\mathrm{d}", 0.975, "API Std 520 Part I: effective coefficient for gas and steam");
const KB: Takes<Number> = correction(r"K_\mathrm{b}", 1.0, "API Std 520 Part I: conventional and pilot valves");
const KC: Takes<Number> = correction(r"K_\mathrm{c}", 1.0, "API Std 520 Part I: no rupture disc");
const KN: Takes<Number> =
    correction(r"K_\mathrm{N}", 1.0, "up to 1500 psia (10 339 kPa absolute); above, take napier_factor");
const KSH: Takes<Number> = correction(r"K_\mathrm{SH}", 1.0, "API Std 520 Part I: saturated steam");

const fn source(document: &'static str) -> Source {
    Source { document, status: Status::Read }
}

const fn cited(document: &'static str) -> Source {
    Source { document, status: Status::Cited }
}

/// The customary form of a sizing formula, which was seen.
const fn customary(law: &'static str, document: &'static str) -> Printed {
    printed_in(law, SIZING_US, source(document))
}

/// The SI form of a sizing formula, as it is cited.
const fn metric(law: &'static str, document: &'static str) -> Printed {
    printed_in(law, SIZING_SI, cited(document))
}

const CRITICAL: &str = r"#area = \frac{#mass}{C(#k) \, #kd \, #relieving \, #kb \, #kc} \, \sqrt{#temperature \, #compressibility / #molar_mass},\quad #back \le r_\mathrm{c} \, #relieving";

/// The relations of this family.
pub const RELATIONS: &[Relation] = &[
    relation! {
        id: "critical_ratio",
        inputs: { k: K },
        outputs: &[output::<Ratio>("ratio", r"r_\mathrm{c}")],
        forms: Forms::Same(printed_in(
            r"#ratio = \left(\frac{2}{#k + 1}\right)^{\frac{#k}{#k - 1}}",
            BARE_RATIO,
            source("API Std 520 Part I, critical flow pressure ratio"),
        )),
        run: one(critical_ratio(k)),
    },
    relation! {
        id: "gas_coefficient",
        inputs: { k: K },
        outputs: &[output::<Number>("coefficient", "C")],
        forms: Forms::BySystem {
            us: printed(
                r"#coefficient = 520 \, \sqrt{#k \, (2 / (#k + 1))^{(#k + 1)/(#k - 1)}}",
                source("API Std 520 Part I, customary form"),
            ),
            si: printed(
                r"#coefficient = 0.03948 \, \sqrt{#k \, (2 / (#k + 1))^{(#k + 1)/(#k - 1)}}",
                cited("API Std 520 Part I, SI form, constant 0.03948"),
            ),
        },
        run(manner): one(gas_coefficient(k, manner)),
    },
    relation! {
        id: "gas_area",
        inputs: {
            mass: MASS,
            temperature: TEMPERATURE,
            compressibility: COMPRESSIBILITY,
            molar_mass: MOLAR_MASS,
            k: K,
            relieving: RELIEVING,
            back: BACK,
            kd: KD,
            kb: KB,
            kc: KC,
        },
        outputs: &[size("area", "A")],
        forms: each(
            customary(CRITICAL, "API Std 520 Part I, gas and vapour, customary form"),
            metric(CRITICAL, "API Std 520 Part I, gas and vapour, SI form"),
        ),
        run(manner): {
            let gas = Gas { temperature, compressibility, molar_mass, k };
            one(gas_area(mass, gas, relieving, back, [kd, kb, kc], manner)?)
        },
    },
    relation! {
        id: "subcritical_factor",
        inputs: { k: K, ratio: quantity::<Ratio>("r", Range::between(0.01, 0.9999)) },
        outputs: &[output::<Number>("factor", "F_2")],
        forms: Forms::Same(printed_in(
            r"#factor = \sqrt{(#k / (#k - 1)) \, #ratio^{2/#k} \, (1 - #ratio^{(#k - 1)/#k}) / (1 - #ratio)}",
            BARE_RATIO,
            source("API Std 520 Part I, coefficient of subcritical flow"),
        )),
        run: one(subcritical_factor(k, ratio)),
    },
    relation! {
        id: "subcritical_gas_area",
        inputs: {
            mass: MASS,
            temperature: TEMPERATURE,
            compressibility: COMPRESSIBILITY,
            molar_mass: MOLAR_MASS,
            k: K,
            relieving: RELIEVING,
            back: BACK,
            f2: F2,
            kd: KD,
            kc: KC,
        },
        outputs: &[size("area", "A")],
        forms: each(
            customary(
                r"#area = \frac{#mass}{735 \, #f2 \, #kd \, #kc} \, \sqrt{#temperature \, #compressibility / (#molar_mass \, #relieving \, (#relieving - #back))},\quad #back > r_\mathrm{c}(#k) \, #relieving",
                "API Std 520 Part I, subcritical gas and vapour, customary form",
            ),
            metric(
                r"#area = \frac{17.9 \, #mass}{#f2 \, #kd \, #kc} \, \sqrt{#temperature \, #compressibility / (#molar_mass \, #relieving \, (#relieving - #back))},\quad #back > r_\mathrm{c}(#k) \, #relieving",
                "API Std 520 Part I, subcritical gas and vapour, SI form, constant 17.9",
            ),
        ),
        run(manner): {
            let gas = Gas { temperature, compressibility, molar_mass, k };
            one(subcritical_gas_area(mass, gas, relieving, back, [f2, kd, kc], manner)?)
        },
    },
];

/// The relations for steam, on a page of their own.
pub const STEAM: &[Relation] = &[
    relation! {
        id: "napier_factor",
        inputs: { relieving: quantity::<Absolute>("p_1", Range { open: false, ..Range::positive(22.1e6) }) },
        outputs: &[at_most::<Number>("factor", r"K_\mathrm{N}")],
        forms: each(
            customary(
                r"#factor = \frac{0.1906 \, #relieving - 1000}{0.2292 \, #relieving - 1061}\quad\text{above 1500 psia, else 1}",
                "API Std 520 Part I, steam, customary form",
            ),
            metric(
                r"#factor = \frac{0.02764 \, #relieving - 1000}{0.03324 \, #relieving - 1061}\quad\text{above 10 339 kPa absolute, else 1}",
                "API Std 520 Part I, steam, SI form",
            ),
        ),
        run(manner): one(napier_factor(relieving, manner)),
    },
    relation! {
        id: "steam_area",
        inputs: { mass: MASS, relieving: RELIEVING, kd: KD, kb: KB, kc: KC, kn: KN, ksh: KSH },
        outputs: &[size("area", "A")],
        forms: each(
            customary(
                r"#area = \frac{#mass}{51.5 \, #relieving \, #kd \, #kb \, #kc \, #kn \, #ksh}",
                "API Std 520 Part I, steam, customary form",
            ),
            metric(
                r"#area = \frac{190.5 \, #mass}{#relieving \, #kd \, #kb \, #kc \, #kn \, #ksh}",
                "API Std 520 Part I, steam, SI form, constant 190.5",
            ),
        ),
        run(manner): one(steam_area(mass, relieving, [kd, kb, kc, kn, ksh], manner)?),
    },
];
