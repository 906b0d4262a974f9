"""How the least gap between a valve on its cam and the piston is worked out."""

from __future__ import annotations

import math

import numpy as np

from firstfire.engine.engine import Engine
from firstfire.engine.geometry import mechanism, swept_volume
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import slider_crank
from firstfire.runs.valve_gaps import lift_over, worked
from firstfire.setup.cams.gaps import Case
from firstfire.setup.number import Number
from firstfire.setup.opened.sheet import Sheet

_WHY = (
    "room over the piston, less the lean of the valve's edge and its lift; the chamber is taken as "
    "high everywhere as its volume asks, with the valves' faces in its roof"
)


def gap_sheet(engine: Engine, plain: PlainEngine, case: Case) -> tuple[Number, Sheet] | None:
    """A gap of cylinder 1 and its working; None where no valve on its cam meets the piston."""
    made = next((one for one in worked(plain.cylinders[0])
                 if case.gap.what == f"{one.which} valve and piston"), None)  # fmt: skip
    if made is None or case.id.startswith(("floating", "hung")):
        return None
    sheet, parts, angle = Sheet(engine.values(1)), plain.cylinders[0], case.gap.angle
    lift = float(lift_over(made, np.array([angle]), case.later, case.lash)[0])
    sheet.put("travel", "piston below its top",
              slider_crank.piston_travel(angle, *mechanism(parts)), "m",
              f"crank and rod at {math.degrees(angle):.1f}° after firing top")  # fmt: skip
    sheet.put("lift", "lift of the valve there", lift, "m", "its cam, as late as is said")
    sheet.put("swept", "swept volume", swept_volume(parts), "m^3", "bore and stroke")
    bore, squeeze = sheet.path("cylinder.bore"), sheet.path("cylinder.compression_ratio")
    head = sheet.path(f"valves.{made.which}.head_diameter")
    lean = parts.head.valve_axis_angle
    by = f"head.valve_axis_angle, {math.degrees(lean):.1f}°"
    sheet.put("sine", "sine of the valve's lean", math.sin(lean), "", by)
    sheet.put("cosine", "cosine of the valve's lean", math.cos(lean), "", by)
    sheet.found("chamber", "height of the chamber", "m",
                f"swept / ({squeeze} - 1) / (pi / 4 * {bore}**2)")  # fmt: skip
    sheet.found("low", "how low its edge hangs, shut", "m", f"{head} / 2 * sine")
    sheet.found("value", "room that is left", "m", "chamber + travel - low - lift * cosine")
    told = Number(case.id, case.words, case.gap.gap, "m", 0.0, "at least", _WHY, "plane geometry")
    return told, sheet
