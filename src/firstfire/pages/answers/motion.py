"""A cycle in motion, as numbers for a browser: the mechanism's sizes, and its gas degree by degree.

What moves is reckoned there from the same lengths by the slider-crank's own law; all that the gas
does comes from the cycle that was run.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import Any

import numpy as np
from numpy.typing import NDArray

from firstfire.drawing.lifts import lifts
from firstfire.drawing.section import inlet_side
from firstfire.drawing.sizes import CylinderSizes, ValveSizes, bank, cylinder_sizes
from firstfire.engine.geometry import firing_angles, mechanism
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import slider_crank
from firstfire.pages.answers.joints import joints
from firstfire.report.charts.turned import on_its_angles
from firstfire.report.series import open_spans
from firstfire.runs.bout import Bout

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

DEGREES = np.arange(-360.0, 361.0)
"""Crank angles after a cylinder's own firing top centre at which its gas is told."""
_ZERO = 273.15
_SEEN = 2e-3
"""Share burned under which nothing is seen of it."""
_GROWS = 2e-4
"""Share that burns in a degree above which it is said to burn."""
_APART = 1.25
_MOSTLY = 0.5
"""Share of burned gas above which a cylinder holds what has burned, and not its residue."""

WORDS: Mapping[str, str] = {
    "both": "both valves are open: the charge changes",
    "leaves": "its exhaust valve is open: gas leaves",
    "back": "its exhaust valve is open: gas comes back in",
    "comes": "its inlet valve is open: charge comes in",
    "pushed": "its inlet valve is open: charge is pushed back out",
    "burns": "it burns",
    "works": "burned gas drives the piston",
    "squeezed": "it is compressed",
    "eases": "it expands, unburned",
}
"""What the gas does, by its state."""
_FILLS = {
    "both": "exhaust", "leaves": "exhaust", "back": "exhaust", "comes": "fresh", "pushed": "fresh",
    "burns": "fresh", "works": "burned", "squeezed": "fresh", "eases": "fresh",
}  # fmt: skip


def motion(bout: Bout, plain: PlainEngine) -> dict[str, Any]:
    """One bout's cycle as a browser moves it.

    Parameters
    ----------
    bout
        Fired or turned.
    plain
        Whose it is.

    Returns
    -------
    dict
        Lengths in mm, angles in degrees, pressures in bar absolute, temperatures in °C, volumes in
        cm³, flows into the cylinder in g/s; the gas of
        each cylinder at `DEGREES` of its own; ``joints`` as `firstfire.pages.answers.joints.joints`
        has them.
    """
    mirrored = plain.layout.rotation == "anticlockwise"
    return {
        "point": bout.point.name,
        "rpm": bout.point.speed * 30 / math.pi,
        "mirrored": mirrored,
        "cylinders": [_cylinder(bout, plain, row) for row in range(len(plain.cylinders))],
        "joints": joints(bout, plain),
    }


def _cylinder(bout: Bout, plain: PlainEngine, row: int) -> dict[str, Any]:
    gas, spark = gas_of(bout, row), bout.point.spark
    fires = spark is not None and bout.point.fired.burns[row] is not None
    return {
        "phase": math.degrees(firing_angles(plain)[row]),
        "spark": None if spark is None else math.degrees(spark),
        "fires": fires,
        **_sizes(plain, row, _suction(bout, row)),
        "pressure": _rounded(gas["pressure"] / 1e5, 3),
        "temperature": _rounded(gas["temperature"] - _ZERO, 1),
        "volume": _rounded(gas["volume"] * 1e6, 3),
        "flame": _rounded(gas["flame"], 3),
        "residue": _rounded(gas["residue"], 3),
        "inlet": _rounded(gas["inlet"] * 1e3, 3),
        "exhaust": _rounded(gas["exhaust"] * 1e3, 3),
        "states": states(bout, row, gas),
    }


def gas_of(bout: Bout, row: int) -> dict[str, Floats]:
    """Pressure, mean temperature, volume, shares of burned gas and flows in at `DEGREES`; SI.

    ``flame`` is the share within the burned zone, while there is one; ``residue`` all that has
    burned, what an earlier cycle left included.
    """
    curves, fired = bout.point.fired.cycle.curves, bout.point.fired
    named = {
        "pressure": curves.pressure[:, row],
        "temperature": curves.temperature[:, row],
        "volume": curves.volume[:, row],
        "flame": curves.burned_fraction[:, row],
        "residue": curves.mass_burned[:, row] / curves.mass[:, row],
        "inlet": curves.flow[:, fired.cycle.passages.index(f"inlet {row + 1}")],
        "exhaust": curves.flow[:, fired.cycle.passages.index(f"exhaust {row + 1}")],
    }
    angle, told = on_its_angles(bout, row, list(named.values()))
    each = zip(named, told, strict=True)
    return {name: np.interp(DEGREES, angle, curve, period=720.0) for name, curve in each}


def _burned(gas: Mapping[str, Floats]) -> Floats:
    """Share that has burned in this cycle: of the burned zone, and of all where the zones have
    become one again; 0 of a fresh charge with its residue."""
    flame, residue = gas["flame"], gas["residue"]
    found: Floats = np.where(flame > 0.0, flame, np.where(residue > _MOSTLY, residue, 0.0))
    return found


def states(bout: Bout, row: int, gas: Mapping[str, Floats]) -> list[tuple[float, str, str, str]]:
    """Stretches of the cycle: from which degree on, what the gas does in a word and in words, and
    how it is filled."""
    into, out = (_within(open_spans(bout, row, inlet)) for inlet in (True, False))
    burned = _burned(gas)
    grows = np.gradient(gas["flame"], DEGREES) > _GROWS
    each = [
        _state(bool(i), bool(o), bool(g), *(float(x) for x in numbers))
        for i, o, g, *numbers in zip(
            into, out, grows, burned, gas["inlet"], gas["exhaust"], DEGREES, strict=True
        )
    ]
    found, at = [], 0
    for state, stretch in groupby(each):
        found.append((float(DEGREES[at]), state, WORDS[state], _FILLS[state]))
        at += len(list(stretch))
    return found


def _state(
    into: bool, out: bool, grows: bool, burned: float, inlet: float, exhaust: float, angle: float
) -> str:
    if into and out:
        return "both"
    if out:
        return "back" if exhaust > 0.0 else "leaves"
    if into:
        return "pushed" if inlet < 0.0 else "comes"
    if burned > _SEEN:
        return "burns" if grows else "works"
    return "squeezed" if angle < 0.0 else "eases"


def _within(spans: Sequence[tuple[float, float]]) -> Flags:
    """At which of `DEGREES` one of some spans is, rad."""
    found = np.zeros(len(DEGREES), dtype=bool)
    for low, high in spans:
        found |= (math.degrees(low) <= DEGREES) & (math.degrees(high) >= DEGREES)
    return found


def _suction(bout: Bout, row: int) -> Flags:
    return _within(open_spans(bout, row, inlet=True))


def _sizes(plain: PlainEngine, row: int, breathes: Flags) -> dict[str, Any]:
    """A cylinder's lengths, and its valves' lifts, mm."""
    s = cylinder_sizes(plain, row, firing_angles(plain)[row], inlet_side(plain, row))
    top = slider_crank.top_centre_angle(*mechanism(s.parts))
    own = np.radians(DEGREES)
    each = zip(s.valves, lifts(s.parts, own), strict=True)
    return {
        "turned": _sense(plain) * math.degrees(bank(plain, row)),
        "shift": _shift(plain, s, row),
        "top": math.degrees(top),
        "x": s.x, "bore": s.bore, "throw": s.throw, "rod": s.rod,
        "crown": s.crown - s.pin, "skirt": s.pin - s.skirt,
        "pin": 500 * s.parts.pin.diameter, "crankpin": 500 * plain.crank.crankpin_diameter,
        "eye": 1e3 * s.parts.rod.eye_wall, "shank": 500 * s.parts.rod.shank_width,
        "main": 500 * plain.crank.main_journal_diameter,
        "deck": s.deck, "liner": s.liner_end, "block": s.block, "half": s.block_half,
        "tube": 500 * s.parts.liner.outside_diameter, "body": 500 * s.parts.body.outside_diameter,
        "roof": [[round(x, 3), round(y, 3)] for x, y, _ in s.roof_line()],
        "valves": [_valve(valve, lift, breathes) for valve, lift in each],
    }  # fmt: skip


def _sense(plain: PlainEngine) -> float:
    return -1.0 if plain.layout.rotation == "anticlockwise" else 1.0


def _shift(plain: PlainEngine, s: CylinderSizes, row: int) -> float:
    """Parallel cylinders, which hide each other, stand side by side; mm."""
    if plain.layout.kind != "parallel_twin":
        return 0.0
    wide = 2 * _APART * max(s.block_half, s.throw + s.bore)
    return wide * (row - 0.5)


def _valve(valve: ValveSizes, lift: Floats, breathes: Flags) -> dict[str, Any]:
    """One valve; one that suction opens is told open, to its stop, where gas flows through it."""
    by_gas = valve.valve.worked == "suction"
    told = np.where(breathes, valve.largest_lift, 0.0) if by_gas else 1e3 * lift
    return {
        "which": valve.which, "by_gas": by_gas, "x": valve.x, "y": valve.y,
        "lean": math.degrees(valve.lean), "head": valve.head, "stem": valve.stem,
        "throat": valve.throat, "port": valve.port, "port_top": valve.port_top, "long": valve.top,
        "lift": _rounded(told, 3),
    }  # fmt: skip


def _rounded(values: Floats, places: int) -> list[float]:
    return [round(float(value), places) for value in values]
