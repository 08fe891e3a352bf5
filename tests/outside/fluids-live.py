#!/usr/bin/env python3
"""Works a fresh grid of cases with another library, for tests/tests/numbers/outside.rs to compare.

    python3 -m venv VENV && VENV/bin/pip install fluids==1.3.1
    VENV/bin/python tests/outside/fluids-live.py target/outside-cases.jsonl [--seed 2026-01-31]

The grid is drawn from the seed: the day's date, unless one is given, so that it is another one each day and can be had
again. Sizing of liquid, gas and steam comes from `fluids`; springs, which it does not have, from the arithmetic here.

One case a line: {"relation", "arguments", and "expected" with "named" where there is a name, or "refused"}. Arguments
stand in the order of the registry, separated by spaces: a quantity as the bits of its SI value in hexadecimal, a choice
by its name.
"""

import argparse
import datetime
import json
import math
import random
import struct
import sys
from importlib.metadata import version

from fluids import safety_valve as other
from fluids.compressible import P_critical_flow, is_critical_flow

PINNED = "1.3.1"
LEAST_POINTS = 2000
ATMOSPHERE = 101325.0
# The density that `fluids` counts specific gravity from.
WATER = 999.0107539518483
# The editions of the viscosity factor by their names here: the other library's name, and the least Reynolds number.
EDITIONS = {"7": ("7E", 30.0), "10": ("10E", 80.001)}


class Grid:
    """The cases so far, and the draw they come from."""

    def __init__(self, seed):
        self.draw = random.Random(seed)
        self.lines = []

    def wide(self, low, high):
        """A number between two, with every order of magnitude as likely."""
        return math.exp(self.draw.uniform(math.log(low), math.log(high)))

    def factor(self):
        return self.draw.uniform(0.6, 1.0)

    def add(self, relation, arguments, expected, named=None):
        line = {"relation": relation, "arguments": " ".join(map(argument, arguments)), "expected": expected}
        self.lines.append(line if named is None else {**line, "named": named})

    def refuse(self, relation, arguments, error):
        self.lines.append({"relation": relation, "arguments": " ".join(map(argument, arguments)), "refused": error})


def argument(value):
    if isinstance(value, str):
        return value
    return struct.pack(">d", value).hex()


def viscosity(grid):
    for edition, (theirs, lowest) in EDITIONS.items():
        for _ in range(150):
            reynolds = grid.wide(lowest, 1e8)
            grid.add("viscosity_factor", [reynolds, edition], float(other.API520_Kv(reynolds, theirs)))
        for _ in range(10):
            grid.refuse("viscosity_factor", [grid.draw.uniform(1.0, lowest * 0.999), edition], "out_of_range")


def heat_ratio(grid):
    """A ratio of specific heats; one itself now and then, where the laws take their limit."""
    return 1.0 if grid.draw.random() < 0.05 else grid.draw.uniform(1.01, 2.0)


def gas_laws(grid):
    for _ in range(150):
        k = heat_ratio(grid)
        grid.add("gas_coefficient", [k], other.API520_C(k))
    for _ in range(150):
        k, inlet = grid.draw.uniform(1.01, 2.0), grid.wide(1e5, 1e8)
        grid.add("critical_ratio", [k], P_critical_flow(inlet, k) / inlet)
    for _ in range(150):
        k, inlet, ratio = grid.draw.uniform(1.01, 2.0), grid.wide(1e5, 1e7), grid.draw.uniform(0.45, 0.99)
        outlet = inlet * ratio
        grid.add("subcritical_factor", [k, outlet / inlet], other.API520_F2(k, inlet, outlet))
    for _ in range(100):
        inlet = grid.draw.uniform(1e5, 2.2e7)
        grid.add("napier_factor", [inlet], other.API520_N(inlet))


def gas_areas(grid):
    for _ in range(500):
        mass, temperature, z = grid.wide(1e-3, 100.0), grid.draw.uniform(200.0, 900.0), grid.draw.uniform(0.5, 1.2)
        molar_mass, k, inlet = grid.draw.uniform(2.0, 200.0), grid.draw.uniform(1.01, 1.9), grid.wide(1.2e5, 2e7)
        kd, kb, kc = grid.factor(), grid.factor(), grid.factor()
        critical = P_critical_flow(inlet, k) / inlet
        share = grid.draw.choice([critical * grid.draw.uniform(0.05, 0.999), grid.draw.uniform(critical * 1.001, 0.99)])
        outlet = inlet * share
        area = other.API520_A_g(mass, temperature, z, molar_mass, k, inlet, outlet, Kd=kd, Kb=kb, Kc=kc)
        state = [mass, temperature, z, molar_mass * 1e-3, k, inlet, outlet, kd]
        if is_critical_flow(inlet, outlet, k):
            grid.add("gas_area", [*state, kb, kc], area)
            grid.refuse("subcritical_gas_area", [*state[:-1], 0.8, kd, kc], "critical")
        else:
            factor = other.API520_F2(k, inlet, outlet)
            grid.add("subcritical_gas_area", [*state[:-1], factor, kd, kc], area)
            grid.refuse("gas_area", [*state, kb, kc], "subcritical")


def steam_areas(grid):
    """Saturated steam: cool enough that the superheat factor, a table there, is one."""
    for _ in range(150):
        mass, inlet = grid.wide(1e-2, 100.0), grid.draw.uniform(1.5e5, 2e7)
        kd, kb, kc = grid.factor(), grid.factor(), grid.factor()
        edition, temperature = grid.draw.choice([("7E", 420.0), ("10E", 470.0)])
        area = other.API520_A_steam(mass, temperature, inlet, Kd=kd, Kb=kb, Kc=kc, edition=edition)
        grid.add("steam_area", [mass, inlet, kd, kb, kc, other.API520_N(inlet), 1.0], area)


def liquids(grid):
    for _ in range(250):
        flow, gravity, set_pressure = grid.wide(1e-5, 1.0), grid.draw.uniform(0.4, 2.0), grid.wide(5e4, 2e7)
        overpressure, back = grid.draw.choice([0.1, 0.16, 0.21, 0.25]), set_pressure * grid.draw.uniform(0.0, 0.5)
        kd, kw, kc, kv = (grid.factor() for _ in range(4))
        relieving, density = set_pressure * (1.0 + overpressure), gravity * WATER
        area = other.API520_A_l(
            flow * density, density, relieving + ATMOSPHERE, back + ATMOSPHERE, overpressure, Kd=kd, Kc=kc, Kw=kw, Kv=kv
        )
        corrections = [kd, kw, kc, kv]
        grid.add("liquid_area", [flow, gravity, relieving, back, *corrections], area)
        grid.add("liquid_capacity", [area, gravity, relieving, back, *corrections], flow)


def orifices(grid):
    edges = [area * (1.0 + shift) for area in other.API526_A for shift in (-1e-6, 0.0, 1e-6)]
    for area in [grid.wide(1e-6, max(other.API526_A)) for _ in range(150)] + edges:
        if area > max(other.API526_A):
            grid.refuse("standard_orifice", [area], "too_large")
            continue
        rounded = other.API520_round_size(area)
        grid.add("standard_orifice", [area], rounded, other.API526_letters[other.API526_A.index(rounded)])


def springs(grid):
    for _ in range(40):
        wire, index, active = grid.wide(1e-3, 0.05), grid.draw.uniform(3.0, 15.0), grid.draw.uniform(3.0, 20.0)
        coil, shear, force = wire * index, grid.draw.uniform(4e10, 8.5e10), grid.wide(10.0, 1e5)
        rate = shear * wire**4 / (8.0 * coil**3 * active)
        wahl = (4.0 * index - 1.0) / (4.0 * index - 4.0) + 0.615 / index
        grid.add("spring_rate", [wire, coil, active, shear], rate)
        grid.add("spring_index", [wire, coil], index)
        grid.add("wahl_factor", [index], wahl)
        # The stress in terms of the index: another way to the same number.
        grid.add("spring_stress", [force, wire, coil], wahl * 8.0 * force * index / (math.pi * wire**2))
        total = active + 2.0
        solid = wire * total
        grid.add("solid_length", [wire, total], solid)
        preload, lift = solid * grid.draw.uniform(0.05, 0.5), solid * grid.draw.uniform(0.01, 0.2)
        share = grid.draw.uniform(0.2, 0.95)
        grid.add("travel_margin", [solid + (preload + lift) / share, solid, preload, lift], share)
    for _ in range(40):
        bore, rate, preload = grid.wide(6e-3, 0.2), grid.wide(5e3, 2e6), grid.wide(2e-3, 0.1)
        area = math.pi * bore * bore / 4.0
        opening = rate * preload / area
        if opening > 1e8:
            continue
        lift, loss, ratio = bore * grid.draw.uniform(0.02, 0.25), grid.draw.uniform(0.0, 0.5), grid.draw.uniform(0.7, 1.0)
        shortening = preload * grid.draw.uniform(0.0, 0.8)
        grid.add("opening_after_load_loss", [opening, loss], rate * preload * (1.0 - loss) / area)
        grid.add("opening_after_shortening", [opening, rate, shortening, area], rate * (preload - shortening) / area)
        grid.add("opening_when_hot", [opening, ratio], rate * ratio * preload / area)
        full = rate * ratio * (preload + lift) / area
        grid.add("full_open_when_hot", [opening, area, rate, lift, ratio], full)


def main():
    command = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    command.add_argument("file", help="where the cases go")
    command.add_argument("--seed", default=datetime.datetime.now(datetime.timezone.utc).date().isoformat())
    given = command.parse_args()
    if version("fluids") != PINNED:
        sys.exit(f"fluids {PINNED} is wanted, here is {version('fluids')}")
    grid = Grid(given.seed)
    for part in (viscosity, gas_laws, gas_areas, steam_areas, liquids, orifices, springs):
        part(grid)
    points = sum("expected" in line for line in grid.lines)
    if points < LEAST_POINTS:
        sys.exit(f"only {points} points")
    with open(given.file, "w", encoding="utf-8") as out:
        out.writelines(json.dumps(line) + "\n" for line in grid.lines)
    refused = len(grid.lines) - points
    print(f"{points} points and {refused} refusals from fluids {PINNED}, seed {given.seed}, to {given.file}")


if __name__ == "__main__":
    main()
