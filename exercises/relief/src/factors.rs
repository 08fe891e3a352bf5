//! Exact factors of units to SI, once: the unit table and the laws that state limits in a unit take them from here.

/// One inch (metre): international inch, exact.
pub(crate) const INCH: f64 = 0.0254;
/// One square inch (square metre).
pub(crate) const SQUARE_INCH: f64 = 0.000_645_16;
/// One square millimetre (square metre).
pub(crate) const SQUARE_MILLIMETRE: f64 = 1e-6;
/// One pound (kilogram): international avoirdupois pound, exact.
pub(crate) const POUND: f64 = 0.453_592_37;
/// One pound-force (newton): the pound times standard gravity, exact.
pub(crate) const POUND_FORCE: f64 = 4.448_221_615_260_5;
/// One kilogram-force (newton): standard gravity, exact.
pub(crate) const KILOGRAM_FORCE: f64 = 9.806_65;
/// One pound-force per square inch (pascal).
pub(crate) const POUND_PER_SQUARE_INCH: f64 = POUND_FORCE / SQUARE_INCH;
/// One kilopascal (pascal).
pub(crate) const KILOPASCAL: f64 = 1e3;
/// One bar (pascal).
pub(crate) const BAR: f64 = 1e5;
/// The standard atmosphere (pascal): exact by definition.
pub(crate) const ATMOSPHERE: f64 = 101_325.0;
/// One cubic foot (cubic metre).
pub(crate) const CUBIC_FOOT: f64 = 0.028_316_846_592;
/// One United States gallon (cubic metre): 231 cubic inches.
pub(crate) const GALLON: f64 = 0.003_785_411_784;
/// One International Table British thermal unit (joule), exact.
pub(crate) const BTU: f64 = 1_055.055_852_62;
/// One litre per minute (cubic metre per second).
pub(crate) const LITRE_PER_MINUTE: f64 = 1e-3 / 60.0;
/// One cubic centimetre per hour (cubic metre per second).
pub(crate) const CUBIC_CENTIMETRE_PER_HOUR: f64 = 1e-6 / 3600.0;
/// One United States gallon per minute (cubic metre per second).
pub(crate) const GALLON_PER_MINUTE: f64 = GALLON / 60.0;
/// One pound per hour (kilogram per second).
pub(crate) const POUND_PER_HOUR: f64 = POUND / 3600.0;
/// One degree Rankine (kelvin), exact.
pub(crate) const RANKINE: f64 = 5.0 / 9.0;
/// One kilogram per hour (kilogram per second).
pub(crate) const KILOGRAM_PER_HOUR: f64 = 1.0 / 3600.0;
/// One gram per mole (kilogram per mole).
pub(crate) const GRAM_PER_MOLE: f64 = 1e-3;
/// One centipoise (pascal second).
pub(crate) const CENTIPOISE: f64 = 1e-3;
/// Once a minute (per second).
pub(crate) const PER_MINUTE: f64 = 1.0 / 60.0;
/// One mechanical horsepower (watt): 550 foot pound-force per second.
pub(crate) const HORSEPOWER: f64 = 550.0 * FOOT * POUND_FORCE;
/// One foot (metre): twelve inches.
pub(crate) const FOOT: f64 = 0.3048;
/// One conventional inch of mercury (pascal), from the density 13 595.1 kg/m³ and standard gravity, as NIST SP 811 has it.
pub(crate) const INCH_OF_MERCURY: f64 = 13_595.1 * KILOGRAM_FORCE * INCH;
/// One conventional inch of water (pascal), from the density 1000 kg/m³ and standard gravity.
pub(crate) const INCH_OF_WATER: f64 = 1_000.0 * KILOGRAM_FORCE * INCH;
