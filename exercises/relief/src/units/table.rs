//! The rows of the unit table.

use super::unit::Unit;
use crate::factors::{
    ATMOSPHERE, BTU, CUBIC_FOOT, FOOT, GALLON, HORSEPOWER, INCH, INCH_OF_MERCURY, INCH_OF_WATER, KILOGRAM_FORCE, POUND,
    POUND_FORCE, SQUARE_INCH,
};
use crate::kind::Kind::{self, *};
use crate::system::System;
use crate::texts::text;

const US: Option<System> = Some(System::Us);
const SI: Option<System> = Some(System::Si);

const BARE: &[Kind] = &[Difference, Gauge, Absolute, Stress];

/// What a column of liquid measures.
const COLUMN: &[Kind] = &[Difference, Gauge, Absolute];
const WORK: &[Kind] = &[Torque, Energy];

const BY_DEFINITION: &str = text("SI Brochure, 9th edition: by definition");
const LIQUID: &str = text("NIST SP 811 (2008), Appendix B: conventional density of the liquid and standard gravity");
const SP811: &str = text("NIST SP 811 (2008), Appendix B: from the exact pound, inch and standard gravity");

const fn row(
    symbol: &'static str,
    names: &'static [&'static str],
    kinds: &'static [Kind],
    system: Option<System>,
    factor: (f64, f64),
    source: &'static str,
) -> Unit {
    Unit { symbol, names, kinds, system, upper: factor.0, lower: factor.1, offset: 0.0, source }
}

/// A temperature scale: its zero is so many of its degrees above absolute zero.
const fn scale(unit: Unit, offset: f64) -> Unit {
    Unit { offset, ..unit }
}

/// Every unit. The order within a kind is the order of the menus.
#[rustfmt::skip]
pub const UNITS: &[Unit] = &[
    row("psi", &["pound per square inch", "pounds per square inch", "lb/in2", "lbf/in2", "#/in2"], BARE, US, (POUND_FORCE, SQUARE_INCH), SP811),
    row("psig", &["psi gauge", "psi(g)", "psi g", "pound per square inch gauge", "pounds per square inch gauge"], &[Gauge], US, (POUND_FORCE, SQUARE_INCH), SP811),
    row("psia", &["psi absolute", "psi abs", "psi(a)", "psi a", "pound per square inch absolute", "pounds per square inch absolute"], &[Absolute], US, (POUND_FORCE, SQUARE_INCH), SP811),
    row("psid", &["psi difference", "psi differential", "psi(d)", "psi (d)", "psi d"], &[Difference], US, (POUND_FORCE, SQUARE_INCH), SP811),
    row("bar", &[], BARE, SI, (1e5, 1.0), BY_DEFINITION),
    row("barg", &["bar gauge", "bar(g)", "bar g"], &[Gauge], SI, (1e5, 1.0), BY_DEFINITION),
    row("bara", &["bar absolute", "bar abs", "bar(a)", "bar a"], &[Absolute], SI, (1e5, 1.0), BY_DEFINITION),
    row("mbar", &["millibar"], BARE, SI, (1e2, 1.0), BY_DEFINITION),
    row("kPa", &["kilopascal"], BARE, SI, (1e3, 1.0), BY_DEFINITION),
    row("kPag", &["kpa gauge", "kpa(g)", "kpa g", "kilopascal gauge"], &[Gauge], SI, (1e3, 1.0), BY_DEFINITION),
    row("kPaa", &["kpa absolute", "kpa abs", "kpa(a)", "kpa a", "kilopascal absolute"], &[Absolute], SI, (1e3, 1.0), BY_DEFINITION),
    row("MPa", &["megapascal", "n/mm2"], BARE, SI, (1e6, 1.0), BY_DEFINITION),
    row("MPag", &["mpa gauge", "mpa(g)", "mpa g", "megapascal gauge"], &[Gauge], SI, (1e6, 1.0), BY_DEFINITION),
    row("Pa", &["pascal", "n/m2"], BARE, SI, (1.0, 1.0), BY_DEFINITION),
    row("GPa", &["gigapascal"], &[Stress], SI, (1e9, 1.0), BY_DEFINITION),
    row("Mpsi", &["million psi", "million pounds per square inch"], &[Stress], US, (POUND_FORCE * 1e6, SQUARE_INCH), SP811),
    row("kgf/cm2", &["kilogram-force per square centimetre", "kg/cm2", "kilopond per square centimetre"], BARE, SI, (KILOGRAM_FORCE, 1e-4), SP811),
    row("atm", &["atmosphere", "standard atmosphere"], &[Absolute, Difference, Gauge], None, (ATMOSPHERE, 1.0), BY_DEFINITION),
    row("inHg", &["inch of mercury", "in hg"], COLUMN, US, (INCH_OF_MERCURY, 1.0), LIQUID),
    row("inH2O", &["inch of water", "in h2o", "in wc"], COLUMN, US, (INCH_OF_WATER, 1.0), LIQUID),
    row("mmH2O", &["millimetre of water", "mm h2o", "mm wc"], COLUMN, SI, (KILOGRAM_FORCE, 1.0), LIQUID),

    row("in", &["inch", "inches", "\"", "''"], &[Length], US, (INCH, 1.0), SP811),
    row("ft", &["foot", "feet", "'"], &[Length], US, (FOOT, 1.0), SP811),
    row("mm", &["millimetre", "millimeter"], &[Length], SI, (1.0, 1e3), BY_DEFINITION),
    row("cm", &["centimetre", "centimeter"], &[Length], SI, (1.0, 1e2), BY_DEFINITION),
    row("m", &["metre", "meter"], &[Length], SI, (1.0, 1.0), BY_DEFINITION),

    row("in2", &["square inch"], &[Area], US, (SQUARE_INCH, 1.0), SP811),
    row("ft2", &["square foot"], &[Area], US, (FOOT * FOOT, 1.0), SP811),
    row("mm2", &["square millimetre", "square mm"], &[Area], SI, (1.0, 1e6), BY_DEFINITION),
    row("cm2", &["square centimetre", "square cm"], &[Area], SI, (1.0, 1e4), BY_DEFINITION),
    row("m2", &["square metre", "square m"], &[Area], SI, (1.0, 1.0), BY_DEFINITION),

    row("lbf", &["pound-force", "pound force", "pounds-force", "pounds force", "lb", "pound", "#"], &[Force], US, (POUND_FORCE, 1.0), SP811),
    row("N", &["newton"], &[Force], SI, (1.0, 1.0), BY_DEFINITION),
    row("kN", &["kilonewton"], &[Force], SI, (1e3, 1.0), BY_DEFINITION),
    row("kgf", &["kilogram-force", "kilogram force", "kilopond"], &[Force], SI, (KILOGRAM_FORCE, 1.0), SP811),

    row("lbf/in", &["lb/in", "pound-force per inch", "pounds-force per inch", "pound per inch", "pounds per inch", "#/in"], &[SpringRate], US, (POUND_FORCE, INCH), SP811),
    row("N/mm", &["newton per millimetre", "newtons per millimetre", "newton per millimeter", "newtons per millimeter"], &[SpringRate], SI, (1e3, 1.0), BY_DEFINITION),
    row("kN/m", &["kilonewton per metre", "kilonewtons per metre"], &[SpringRate], SI, (1e3, 1.0), BY_DEFINITION),
    row("N/m", &["newton per metre", "newtons per metre", "newton per meter", "newtons per meter"], &[SpringRate], SI, (1.0, 1.0), BY_DEFINITION),

    row("gpm", &["us gpm", "gal/min", "gal per min", "us gal/min", "gallon per minute", "gallons per minute", "us gallon per minute", "us gallons per minute"], &[VolumeFlow], US, (GALLON, 60.0), SP811),
    row("ft3/h", &["cfh", "cu ft/h", "cubic foot per hour", "cubic feet per hour"], &[VolumeFlow], US, (CUBIC_FOOT, 3600.0), SP811),
    row("ft3/min", &["cfm"], &[VolumeFlow], US, (CUBIC_FOOT, 60.0), SP811),
    row("L/min", &["lpm", "l per min", "litre per minute", "litres per minute", "liter per minute", "liters per minute"], &[VolumeFlow], SI, (1e-3, 60.0), BY_DEFINITION),
    row("m3/h", &["cubic metre per hour", "cubic metres per hour", "cubic meter per hour", "cubic meters per hour"], &[VolumeFlow], SI, (1.0, 3600.0), BY_DEFINITION),
    row("cm3/h", &["cc/h", "ml/h", "cubic centimetre per hour", "cubic centimetres per hour"], &[VolumeFlow], None, (1e-6, 3600.0), BY_DEFINITION),
    row("m3/s", &["cubic metre per second", "cubic metres per second"], &[VolumeFlow], SI, (1.0, 1.0), BY_DEFINITION),

    row("lb/h", &["lbm/h", "pph", "pound per hour", "pounds per hour"], &[MassFlow], US, (POUND, 3600.0), SP811),
    row("kg/h", &["kilogram per hour", "kilo per hour"], &[MassFlow], SI, (1.0, 3600.0), BY_DEFINITION),
    row("kg/s", &["kilogram per second", "kilograms per second"], &[MassFlow], SI, (1.0, 1.0), BY_DEFINITION),

    row("lb/ft3", &["lbm/ft3", "pound per cubic foot", "pounds per cubic foot"], &[Density], US, (POUND, CUBIC_FOOT), SP811),
    row("kg/m3", &["kilogram per cubic metre", "kilograms per cubic metre", "kilogram per cubic meter"], &[Density], SI, (1.0, 1.0), BY_DEFINITION),

    row("cP", &["centipoise", "mpa s", "mpa·s"], &[Viscosity], None, (1e-3, 1.0), SP811),
    row("Pa·s", &["pa s", "pascal second"], &[Viscosity], SI, (1.0, 1.0), BY_DEFINITION),
    row("cSt", &["centistokes", "mm2/s"], &[KinematicViscosity], None, (1e-6, 1.0), SP811),
    row("m2/s", &["square metre per second", "square metres per second"], &[KinematicViscosity], SI, (1.0, 1.0), BY_DEFINITION),

    scale(row("degF", &["°f", "f", "fahrenheit", "degree fahrenheit", "degree f"], &[Temperature], US, (5.0, 9.0), SP811), 459.67),
    row("degR", &["°r", "rankine", "degree rankine"], &[Temperature], US, (5.0, 9.0), SP811),
    scale(row("degC", &["°c", "c", "celsius", "degree celsius", "degree c", "centigrade", "degree centigrade"], &[Temperature], SI, (1.0, 1.0), BY_DEFINITION), 273.15),
    row("K", &["kelvin"], &[Temperature, TemperatureDifference], SI, (1.0, 1.0), BY_DEFINITION),
    row("degF difference", &["fahrenheit difference", "°f difference"], &[TemperatureDifference], US, (5.0, 9.0), SP811),
    row("degC difference", &["celsius difference", "°c difference"], &[TemperatureDifference], SI, (1.0, 1.0), BY_DEFINITION),
    row("K difference", &["kelvin difference"], &[TemperatureDifference], SI, (1.0, 1.0), BY_DEFINITION),

    row("lb/lbmol", &["lbm/lbmol", "pound per pound-mole"], &[MolarMass], US, (1e-3, 1.0), BY_DEFINITION),
    row("kg/kmol", &["g/mol", "gram per mole", "grams per mole"], &[MolarMass], SI, (1e-3, 1.0), BY_DEFINITION),

    row("Btu/h", &["btu per hour"], &[HeatFlow], US, (BTU, 3600.0), SP811),
    row("hp", &["horsepower"], &[HeatFlow], US, (HORSEPOWER, 1.0), SP811),
    row("kW", &["kilowatt"], &[HeatFlow], SI, (1e3, 1.0), BY_DEFINITION),
    row("W", &["watt"], &[HeatFlow], SI, (1.0, 1.0), BY_DEFINITION),
    row("Btu/(lb degF)", &["btu/lb/f", "btu/(lb·°f)", "btu/(lb °f)", "btu/lb°f"], &[SpecificHeat], US, (BTU * 9.0, POUND * 5.0), SP811),
    row("kJ/(kg K)", &["kj/kg/k", "kj/(kg·k)"], &[SpecificHeat], SI, (1e3, 1.0), BY_DEFINITION),
    row("J/(kg K)", &["j/kg/k", "j/(kg·k)"], &[SpecificHeat], SI, (1.0, 1.0), BY_DEFINITION),
    row("1/degF", &["per fahrenheit", "1/°f", "/°f"], &[Expansion], US, (9.0, 5.0), SP811),
    row("1/K", &["per kelvin", "/k", "1/°c"], &[Expansion], SI, (1.0, 1.0), BY_DEFINITION),
    row("1/min", &["per minute", "/min", "min-1", "min⁻¹", "bubbles/min", "bubble per minute", "bubbles per minute"], &[CountRate], None, (1.0, 60.0), BY_DEFINITION),

    row("gal", &["gallon"], &[Volume], US, (GALLON, 1.0), SP811),
    row("ft3", &["cubic foot"], &[Volume], US, (CUBIC_FOOT, 1.0), SP811),
    row("L", &["litre"], &[Volume], SI, (1e-3, 1.0), BY_DEFINITION),
    row("m3", &["cubic metre"], &[Volume], SI, (1.0, 1.0), BY_DEFINITION),
    row("cm3", &["cubic centimetre", "cc", "ml"], &[Volume], SI, (1e-6, 1.0), BY_DEFINITION),

    row("lbm", &[], &[Mass], US, (POUND, 1.0), SP811),
    row("kg", &["kilogram"], &[Mass], SI, (1.0, 1.0), BY_DEFINITION),

    row("s", &["second"], &[Time], None, (1.0, 1.0), BY_DEFINITION),
    row("min", &["minute"], &[Time], None, (60.0, 1.0), BY_DEFINITION),
    row("h", &["hour"], &[Time], None, (3600.0, 1.0), BY_DEFINITION),

    row("ft/s", &["fps"], &[Velocity], US, (FOOT, 1.0), SP811),
    row("m/s", &[], &[Velocity], SI, (1.0, 1.0), BY_DEFINITION),
    row("ft/s2", &[], &[Acceleration], US, (FOOT, 1.0), SP811),
    row("m/s2", &[], &[Acceleration], SI, (1.0, 1.0), BY_DEFINITION),

    row("ft lbf", &["ft·lbf", "ft-lbf", "lbf·ft", "ft lb", "ft-lb", "lb-ft"], WORK, US, (FOOT * POUND_FORCE, 1.0), SP811),
    row("in lbf", &["in·lbf", "in-lbf", "lbf·in", "in lb", "in-lb"], WORK, US, (INCH * POUND_FORCE, 1.0), SP811),
    row("N m", &["n·m", "nm", "newton metre"], WORK, SI, (1.0, 1.0), BY_DEFINITION),
    row("Btu", &[], &[Energy], US, (BTU, 1.0), SP811),
    row("kJ", &["kilojoule"], &[Energy], SI, (1e3, 1.0), BY_DEFINITION),
    row("J", &["joule"], &[Energy], SI, (1.0, 1.0), BY_DEFINITION),

    row("Btu/(lbmol degR)", &["btu/(lbmol °r)"], &[MolarHeat], US, (BTU * 9.0, 1e3 * POUND * 5.0), SP811),
    row("J/(mol K)", &["j/(mol·k)", "kj/(kmol k)"], &[MolarHeat], SI, (1.0, 1.0), BY_DEFINITION),

    row("%", &["percent", "per cent", "pct"], &[Ratio], None, (1.0, 1e2), BY_DEFINITION),
    row("turn", &["rev", "revolution"], &[Turns], None, (1.0, 1.0), BY_DEFINITION),
];
