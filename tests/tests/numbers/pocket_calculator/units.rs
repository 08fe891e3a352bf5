//! The units that problems are printed in, a pair for each measure, and the exact factor from one to the other.

use problems::System;

/// A measure in both systems of units.
pub(crate) struct Measure {
    /// The customary symbols: one number means the same in each of them.
    us: &'static [&'static str],
    /// The SI symbols, likewise.
    si: &'static [&'static str],
    /// How many of the SI unit make one customary unit.
    si_per_us: f64,
    /// What the zero of the SI scale is called on the customary scale.
    us_at_si_zero: f64,
}

const fn measure(us: &'static [&'static str], si: &'static [&'static str], si_per_us: f64) -> Measure {
    Measure { us, si, si_per_us, us_at_si_zero: 0.0 }
}

const fn same(symbols: &'static [&'static str]) -> Measure {
    measure(symbols, symbols, 1.0)
}

/// Newton in a pound-force: exact, from the pound (0.45359237 kg) and standard gravity (9.80665 m/s²).
const NEWTON_PER_LBF: f64 = 4.448_221_615_260_5;

/// Millimetre in an inch: exact (NIST SP 811).
const MM_PER_IN: f64 = 25.4;

/// Newton per square millimetre in a psi: exact.
const MPA_PER_PSI: f64 = NEWTON_PER_LBF / (MM_PER_IN * MM_PER_IN);

/// Pressure: psi and bar (0.1 N/mm²).
pub(crate) const PRESSURE: Measure = measure(&["psig", "psi", "psia"], &["barg", "bar", "bara"], MPA_PER_PSI * 10.0);
/// Area: square inch and square millimetre.
pub(crate) const AREA: Measure = measure(&["in2"], &["mm2"], MM_PER_IN * MM_PER_IN);
/// Length: inch and millimetre.
pub(crate) const LENGTH: Measure = measure(&["in"], &["mm"], MM_PER_IN);
/// Flow of a liquid: US gallon (231 in³, exactly 3.785411784 L) a minute and litre a minute.
pub(crate) const LIQUID_FLOW: Measure = measure(&["gpm"], &["L/min"], 3.785_411_784);
/// Flow of a gas or of steam: pound (exactly 0.45359237 kg) an hour and kilogram an hour.
pub(crate) const MASS_FLOW: Measure = measure(&["lb/h"], &["kg/h"], 0.453_592_37);
/// Temperature: degree Fahrenheit and degree Celsius.
pub(crate) const TEMPERATURE: Measure =
    Measure { us: &["degF"], si: &["degC"], si_per_us: 1.0 / 1.8, us_at_si_zero: 32.0 };
/// Force: pound-force and newton.
pub(crate) const FORCE: Measure = measure(&["lbf"], &["N"], NEWTON_PER_LBF);
/// Rate of a spring: pound-force an inch and newton a millimetre.
pub(crate) const SPRING_RATE: Measure = measure(&["lbf/in"], &["N/mm"], NEWTON_PER_LBF / MM_PER_IN);
/// Stress: psi and megapascal (N/mm²).
pub(crate) const STRESS: Measure = measure(&["psi"], &["MPa"], MPA_PER_PSI);
/// Modulus of a material: psi and gigapascal.
pub(crate) const MODULUS: Measure = measure(&["psi"], &["GPa"], MPA_PER_PSI / 1000.0);
/// Density: pound a cubic foot (1728 in³) and kilogram a cubic metre.
pub(crate) const DENSITY: Measure =
    measure(&["lb/ft3"], &["kg/m3"], 0.453_592_37 / (1728.0 * MM_PER_IN * MM_PER_IN * MM_PER_IN) * 1e9);
/// Heat: British thermal unit (international table, exactly 1055.05585262 J) an hour and kilowatt.
pub(crate) const HEAT: Measure = measure(&["Btu/h"], &["kW"], 1.055_055_852_62 / 3600.0);
/// Specific heat: Btu for a pound and a degree Fahrenheit, and kilojoule for a kilogram and a kelvin: exact.
pub(crate) const SPECIFIC_HEAT: Measure = measure(&["Btu/(lb degF)"], &["kJ/(kg K)"], 4.1868);
/// Expansion for each degree Fahrenheit and for each kelvin.
pub(crate) const EXPANSION: Measure = measure(&["1/degF"], &["1/K"], 1.8);
/// Viscosity: centipoise in both.
pub(crate) const VISCOSITY: Measure = same(&["cP"]);
/// Nominal sizes of pipe: inch in both.
pub(crate) const NOMINAL_SIZE: Measure = same(&["in"]);
/// Leakage: cubic centimetre an hour in both.
pub(crate) const LEAKAGE: Measure = same(&["cm3/h"]);
/// A bare number.
pub(crate) const NUMBER: Measure = same(&[""]);
/// Percent.
pub(crate) const PERCENT: Measure = same(&["%"]);
/// A pressure ratio, which the trade writes as a number.
pub(crate) const RATIO: Measure = same(&[""]);
/// Turns of a screw.
pub(crate) const TURN: Measure = same(&["turn"]);

impl Measure {
    /// A number in a unit of this measure, in the unit of a system.
    ///
    /// # Panics
    /// Where the unit is none of this measure: the recipe has changed, and the calculation has to follow.
    pub(crate) fn in_system(&self, system: System, value: f64, symbol: &str) -> f64 {
        let (is_us, is_si) = (self.us.contains(&symbol), self.si.contains(&symbol));
        assert!(is_us || is_si, "{symbol} is neither in {:?} nor in {:?}", self.us, self.si);
        match system {
            System::Us if !is_us => value / self.si_per_us + self.us_at_si_zero,
            System::Si if !is_si => (value - self.us_at_si_zero) * self.si_per_us,
            _ => value,
        }
    }

    /// A number in the unit of a system, in a unit of this measure.
    pub(crate) fn out_of_system(&self, system: System, value: f64, symbol: &str) -> f64 {
        let symbols = if system == System::Us { self.us } else { self.si };
        if symbols.contains(&symbol) {
            return value;
        }
        let other = if system == System::Us { System::Si } else { System::Us };
        assert!(self.us.contains(&symbol) || self.si.contains(&symbol), "{symbol} is not in {symbols:?}");
        self.in_system(other, value, symbols[0])
    }
}
