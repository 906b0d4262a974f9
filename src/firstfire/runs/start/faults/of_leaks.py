"""Faults that let gas out: leaks beside those that an engine has anyway, and valves held open."""

from __future__ import annotations

import math

from firstfire.engine.quantity import write_quantity
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import FirstfireError
from firstfire.runs.start.faults.fault import Does, Fault, Layer, Obeyed

MOST = 20e-6
"""The largest leak that an engine file takes, m²."""
_FLOWS = 0.68
"""Discharge coefficient of a barely lifted valve: the first of those that the gas side takes."""


def _more(kind: str) -> Does:
    """So much more leaks there, in every cylinder."""

    def does(plain: PlainEngine, size: float) -> tuple[Layer, Obeyed]:
        return _leaks(plain, kind, [size] * len(plain.cylinders)), {}

    return does


def _held_open(valve: str) -> Does:
    """A gap all round the seat as high as the lift that is left."""

    def does(plain: PlainEngine, lift: float) -> tuple[Layer, Obeyed]:
        areas = [
            _FLOWS * math.pi * getattr(parts.valves, valve).throat_diameter * lift
            for parts in plain.cylinders
        ]
        return _leaks(plain, f"{valve}_seat", areas), {}

    return does


def _leaks(plain: PlainEngine, kind: str, areas: list[float]) -> Layer:
    each = [
        getattr(parts.leak, kind) + area for parts, area in zip(plain.cylinders, areas, strict=True)
    ]
    if max(each) > MOST:
        most, much = (write_quantity(area, "area", digits=2) for area in (MOST, max(each)))
        raise FirstfireError(f"It would leak through {much}, over {most}. Ask for less of it.")
    if max(each) - min(each) < 1e-12:
        return {f"leak.{kind}": write_quantity(each[0], "area", digits=9)}
    return {
        f"cylinders.{number}.leak.{kind}": write_quantity(area, "area", digits=9)
        for number, area in enumerate(each, start=1)
    }


_AREA = ("effective area beside what leaks anyway", "area", "1.5 mm^2", "0 mm^2", "20 mm^2")
_LIFT = ("lift that is left", "length", "0.4 mm", "0 mm", "20 mm")

LEAKS: tuple[Fault, ...] = (
    Fault("ring_leak", "leaking rings", "it breathes through its breather; oil helps",
          _more("ring"), *_AREA),
    Fault("gasket_leak", "leaking head gasket", "soap water bubbles at the gasket",
          _more("gasket"), *_AREA),
    Fault("plug_leak", "a loose plug", "it hisses at the plug", _more("plug"), *_AREA),
    Fault("worn_seat", "a worn exhaust seat", "it hisses in the exhaust",
          _more("exhaust_seat"), *_AREA),
    Fault("worn_inlet_seat", "a worn inlet seat", "it hisses in the carburettor or throttle",
          _more("inlet_seat"), *_AREA),
    Fault("stuck_exhaust", "an exhaust valve held open", "no compression, it puffs in the exhaust",
          _held_open("exhaust"), *_LIFT),
    Fault("stuck_inlet", "an inlet valve held open", "no compression, it spits back",
          _held_open("inlet"), *_LIFT),
)  # fmt: skip
"""In the order in which they are listed."""
