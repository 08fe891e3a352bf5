//! The sizing laws as they are printed: the customary form with its constants, and the SI form with its own.
//!
//! Customary: gpm, lb/h, psi, psia, °R, cP, in². SI: L/min, kg/h, kPa, kPa absolute, K, cP, mm².

use libm::{pow, sqrt};
use problems::System;

/// The atmosphere as the questions print it: 14.696 psi, 1.01325 bar.
pub(crate) fn atmosphere(form: System) -> f64 {
    match form {
        System::Us => 14.696,
        System::Si => 1.01325,
    }
}

/// A pressure as the laws take it: psi as it is, and bar as kilopascal.
pub(crate) fn in_law(form: System, pressure: f64) -> f64 {
    match form {
        System::Us => pressure,
        System::Si => pressure * 100.0,
    }
}

/// Absolute temperature: °F plus 459.67 is °R, °C plus 273.15 is K (exact, NIST SP 811).
pub(crate) fn absolute_temperature(form: System, temperature: f64) -> f64 {
    match form {
        System::Us => temperature + 459.67,
        System::Si => temperature + 273.15,
    }
}

/// Customary constant of the liquid law (gpm, psi, in²): API Std 520 Part I, from memory.
const LIQUID_US: f64 = 38.0;
/// SI constant of the liquid law (L/min, kPa, mm²): API Std 520 Part I, as cited for the standard.
const LIQUID_SI: f64 = 11.78;

/// Area that a liquid needs. `drop` as the law takes it, `factors` multiplied.
pub(crate) fn liquid_area(form: System, flow: f64, gravity: f64, drop: f64, factors: f64) -> f64 {
    match form {
        System::Us => flow / (LIQUID_US * factors) * sqrt(gravity / drop),
        System::Si => LIQUID_SI * flow / factors * sqrt(gravity / drop),
    }
}

/// The same law turned round: the flow that an area passes.
pub(crate) fn liquid_capacity(form: System, area: f64, gravity: f64, drop: f64, factors: f64) -> f64 {
    match form {
        System::Us => LIQUID_US * factors * area * sqrt(drop / gravity),
        System::Si => area * factors / LIQUID_SI * sqrt(drop / gravity),
    }
}

/// Reynolds number for the area of the standard orifice. 2800: API Std 520 Part I, read; 18800: as cited for it.
pub(crate) fn reynolds(form: System, flow: f64, gravity: f64, viscosity: f64, area: f64) -> f64 {
    let constant = match form {
        System::Us => 2800.0,
        System::Si => 18_800.0,
    };
    constant * flow * gravity / (viscosity * sqrt(area))
}

/// Viscosity factor of the tenth edition of API Std 520 Part I, as cited for it.
pub(crate) fn viscosity_factor(reynolds: f64) -> f64 {
    1.0 / sqrt(1.0 + 170.0 / reynolds)
}

/// Critical pressure ratio: API Std 520 Part I, read.
pub(crate) fn critical_ratio(k: f64) -> f64 {
    pow(2.0 / (k + 1.0), k / (k - 1.0))
}

/// Coefficient C of a gas. 520: API Std 520 Part I, read; 0.03948: as cited for it.
pub(crate) fn gas_coefficient(form: System, k: f64) -> f64 {
    let constant = match form {
        System::Us => 520.0,
        System::Si => 0.03948,
    };
    constant * sqrt(k * pow(2.0 / (k + 1.0), (k + 1.0) / (k - 1.0)))
}

/// Area for critical flow of a gas: API Std 520 Part I, customary form read. C carries the system of units.
/// `state` is temperature times compressibility factor over molar mass.
pub(crate) fn critical_area(mass: f64, c: f64, kd: f64, relieving: f64, state: f64) -> f64 {
    mass / (c * kd * relieving) * sqrt(state)
}

/// Factor F2 of subcritical flow: API Std 520 Part I, as cited for it.
pub(crate) fn subcritical_factor(k: f64, ratio: f64) -> f64 {
    let bracket = (1.0 - pow(ratio, (k - 1.0) / k)) / (1.0 - ratio);
    sqrt(k / (k - 1.0) * pow(ratio, 2.0 / k) * bracket)
}

/// Area for subcritical flow of a gas. 735: API Std 520 Part I, read; 17.9: as cited for it.
/// `state` is temperature times compressibility factor over molar mass.
pub(crate) fn subcritical_area(form: System, mass: f64, factors: f64, state: f64, pressures: (f64, f64)) -> f64 {
    let (relieving, back) = pressures;
    let root = sqrt(state / (relieving * (relieving - back)));
    match form {
        System::Us => mass / (735.0 * factors) * root,
        System::Si => 17.9 * mass / factors * root,
    }
}

/// Area for steam, Napier's law. 51.5: API Std 520 Part I, read; 190.5: as cited for it.
pub(crate) fn steam_area(form: System, mass: f64, relieving: f64, factors: f64) -> f64 {
    match form {
        System::Us => mass / (51.5 * relieving * factors),
        System::Si => 190.5 * mass / (relieving * factors),
    }
}

/// Factor KN: one up to 1500 psia or 10 339 kPa. API Std 520 Part I, customary form read, SI form as cited for it.
pub(crate) fn napier_factor(form: System, relieving: f64) -> f64 {
    match form {
        System::Us if relieving > 1500.0 => (0.1906 * relieving - 1000.0) / (0.2292 * relieving - 1061.0),
        System::Si if relieving > 10_339.0 => (0.02764 * relieving - 1000.0) / (0.03324 * relieving - 1061.0),
        _ => 1.0,
    }
}

/// Effective areas of the standard orifices D to N as the course prints them (in², mm²): API Std 526, read.
const ORIFICES: [(f64, f64); 10] = [
    (0.110, 70.97),
    (0.196, 126.5),
    (0.307, 198.1),
    (0.503, 324.5),
    (0.785, 506.5),
    (1.287, 830.3),
    (1.838, 1186.0),
    (2.853, 1841.0),
    (3.60, 2323.0),
    (4.34, 2800.0),
];

/// The first standard orifice that is not smaller.
pub(crate) fn standard_orifice(form: System, needed: f64) -> f64 {
    let areas = ORIFICES.map(|(us, si)| if form == System::Us { us } else { si });
    areas.into_iter().find(|area| *area >= needed).expect("one that is large enough")
}

/// Flow through a sharp-edged opening, textbook law with standard gravity (32.174 ft/s²), 144 in² in a square foot, and
/// 448.83 gpm in a cubic foot a second; in SI with metre, pascal, and 60 000 L/min in a cubic metre a second.
pub(crate) fn orifice_flow(form: System, area: f64, coefficient: f64, drop: f64, density: f64) -> f64 {
    match form {
        System::Us => coefficient * (area / 144.0) * sqrt(2.0 * 32.174 * 144.0 * drop / density) * 448.83,
        System::Si => coefficient * (area * 1e-6) * sqrt(2.0 * drop * 1e5 / density) * 60_000.0,
    }
}

/// Flow by which shut-in liquid expands: API Std 521, from memory. A US gallon of water has a mass of 8.34 lb and a
/// litre 1 kg, as the hint of the recipe says; there are 60 minutes in the hour of the Btu/h, and 60 seconds in a minute.
pub(crate) fn expansion_flow(form: System, expansion: f64, heat: f64, gravity: f64, specific_heat: f64) -> f64 {
    match form {
        System::Us => expansion * heat / (8.34 * gravity * specific_heat) / 60.0,
        System::Si => expansion * heat / (gravity * specific_heat) * 60.0,
    }
}
