#!/usr/bin/env python3
"""Works the ten relations of tests/trades with a units library, for tests/tests/numbers/trades.rs to compare.

    python3 -m venv VENV && VENV/bin/pip install pint==0.25.3
    VENV/bin/python tests/outside/pint-live.py tests/outside/pint.csv [--seed 1]

The formulas are written here once more, with quantities of the library and its own factors; the seed draws the numbers. One
case a line: relation, system, inputs as `name=number unit` between semicolons, expected number, its unit.
"""

import argparse
import csv
import math
import random
from importlib.metadata import version

import pint

PINNED = "0.25.3"
CASES = 12

units = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
of = units.Quantity
GRAVITY = of(9.80665, "m/s^2")
MOLAR_GAS = of(8.314462618, "J/(mol*K)")

# A symbol of the unit table here, and the library's name for it.
NAMES = {
    "gpm": "gallon/minute", "L/min": "liter/minute", "psi": "psi", "bar": "bar", "kPa": "kPa", "%": "percent",
    "lb/ft3": "pound/foot^3", "kg/m3": "kg/m^3", "ft": "foot", "in": "inch", "m": "m", "mm": "mm",
    "Btu/(lb degF)": "Btu_it/(pound*delta_degF)", "kJ/(kg K)": "kJ/(kg*delta_degC)", "1/degF": "1/delta_degF",
    "1/K": "1/delta_degC", "degF": "degF", "degC": "degC", "ft lbf": "foot*force_pound", "N m": "N*m", "in2": "inch^2",
    "mm2": "mm^2", "cP": "centipoise", "lb/h": "pound/hour", "kg/h": "kg/hour", "psia": "psi", "bara": "bar",
    "lb/lbmol": "g/mol", "kg/kmol": "g/mol", "": "", "hp": "horsepower", "kW": "kW", "degF difference": "delta_degF",
    "K": "delta_degC", "gal": "gallon", "L": "liter", "MPa": "MPa",
}


def absolute(temperature):
    return of(temperature.to("kelvin").magnitude, "kelvin")


def hazen_williams(system, flow, roughness, bore, run):
    if system == "us":
        flow, bore, run = flow.m_as("gallon/minute"), bore.m_as("inch"), run.m_as("foot")
        return of(4.52 * flow**1.85 / (roughness.magnitude**1.85 * bore**4.87) * run, "psi")
    flow, bore, run = flow.m_as("liter/minute"), bore.m_as("mm"), run.m_as("m")
    return of(605000 * flow**1.85 / (roughness.magnitude**1.85 * bore**4.87) * run, "bar")


def reynolds(_, flow, bore, density, viscosity):
    velocity = flow / (math.pi * bore**2 / 4)
    return (density * velocity * bore / viscosity).to("")


def mixed(_, first, first_temperature, second, second_temperature):
    one, other = absolute(first_temperature), absolute(second_temperature)
    return ((first * one + second * other) / (first + second)).to("kelvin")


# By relation: what it takes with the range to draw from in each system, how it is worked, the unit of the result.
RELATIONS = {
    "pump_power": (
        {"flow": ("gpm", 10, 900, "L/min", 40, 4000), "rise": ("psi", 5, 900, "bar", 1, 60), "efficiency": ("%", 20, 95, "%", 20, 95)},
        lambda _, flow, rise, efficiency: flow * rise / efficiency, ("hp", "kW"),
    ),
    "hydrostatic_head": (
        {"density": ("lb/ft3", 40, 80, "kg/m3", 600, 1400), "depth": ("ft", 1, 300, "m", 1, 90)},
        lambda _, density, depth: density * GRAVITY * depth, ("psi", "kPa"),
    ),
    "heat_from_pump": (
        {"rise": ("psi", 5, 900, "bar", 1, 60), "efficiency": ("%", 20, 95, "%", 20, 95),
         "density": ("lb/ft3", 40, 80, "kg/m3", 600, 1400), "specific_heat": ("Btu/(lb degF)", 0.4, 1.1, "kJ/(kg K)", 1.8, 4.5)},
        lambda _, rise, efficiency, density, specific_heat: rise * (1 / efficiency.to("") - 1) / (density * specific_heat),
        ("degF difference", "K"),
    ),
    "tank_volume": (
        {"bore": ("ft", 2, 90, "m", 1, 30), "level": ("ft", 1, 60, "m", 1, 20)},
        lambda _, bore, level: math.pi * bore**2 / 4 * level, ("gal", "L"),
    ),
    "hazen_williams": (
        {"flow": ("gpm", 10, 900, "L/min", 40, 4000), "roughness": ("", 80, 150, "", 80, 150),
         "bore": ("in", 1, 12, "mm", 25, 300), "run": ("ft", 10, 900, "m", 3, 300)},
        hazen_williams, ("psi", "bar"),
    ),
    "pipe_growth": (
        {"run": ("ft", 10, 900, "m", 3, 300), "expansion": ("1/degF", 5e-6, 1.2e-5, "1/K", 1e-5, 2e-5),
         "cold": ("degF", 0, 90, "degC", -10, 30), "hot": ("degF", 200, 900, "degC", 100, 500)},
        lambda _, run, expansion, cold, hot: expansion * run * (hot - cold), ("in", "mm"),
    ),
    "bolt_stress": (
        {"torque": ("ft lbf", 10, 900, "N m", 10, 900), "nut_factor": ("", 0.1, 0.3, "", 0.1, 0.3),
         "diameter": ("in", 0.25, 2, "mm", 6, 50), "area": ("in2", 0.1, 3, "mm2", 20, 2000)},
        lambda _, torque, nut_factor, diameter, area: torque / (nut_factor * diameter) / area, ("psi", "MPa"),
    ),
    "reynolds_number": (
        {"flow": ("gpm", 10, 900, "L/min", 40, 4000), "bore": ("in", 1, 12, "mm", 25, 300),
         "density": ("lb/ft3", 40, 80, "kg/m3", 600, 1400), "viscosity": ("cP", 0.3, 900, "cP", 0.3, 900)},
        reynolds, ("", ""),
    ),
    "mixing_temperature": (
        {"first": ("lb/h", 10, 900, "kg/h", 10, 900), "first_temperature": ("degF", 33, 200, "degC", 1, 90),
         "second": ("lb/h", 10, 900, "kg/h", 10, 900), "second_temperature": ("degF", 33, 200, "degC", 1, 90)},
        mixed, ("degF", "degC"),
    ),
    "gas_density": (
        {"pressure": ("psia", 15, 900, "bara", 1, 60), "molar_mass": ("lb/lbmol", 2, 60, "kg/kmol", 2, 60),
         "temperature": ("degF", 0, 500, "degC", -10, 300), "compressibility": ("", 0.7, 1.1, "", 0.7, 1.1)},
        lambda _, pressure, molar_mass, temperature, compressibility:
            pressure * molar_mass / (compressibility * MOLAR_GAS * absolute(temperature)),
        ("lb/ft3", "kg/m3"),
    ),
}


def cases(seed):
    draw = random.Random(seed)
    for relation, (inputs, work, results) in RELATIONS.items():
        for place, system in enumerate(("us", "si")):
            for _ in range(CASES):
                texts, values = [], []
                for name, ranges in inputs.items():
                    unit, low, high = ranges[3 * place:3 * place + 3]
                    number = float(f"{draw.uniform(low, high):.4g}")
                    texts.append(f"{name}={number:.10f}".rstrip("0").rstrip(".") + (f" {unit}" if unit else ""))
                    values.append(of(number, NAMES[unit]))
                result = work(system, *values).to(NAMES[results[place]])
                yield relation, system, "; ".join(texts), repr(float(result.magnitude)), results[place]


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("out")
    options.add_argument("--seed", default="1")
    options = options.parse_args()
    if version("pint") != PINNED:
        raise SystemExit(f"pint {PINNED} is needed, not {version('pint')}")
    with open(options.out, "w", newline="") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow([f"relation (pint {PINNED})", "system", "inputs", "expected", "unit"])
        writer.writerows(cases(options.seed))


if __name__ == "__main__":
    main()
