"""How the least gap between a valve and the piston, or the roof over it, is worked out."""

from __future__ import annotations

import math

import numpy as np

from firstfire.engine.engine import Engine
from firstfire.engine.geometry import mechanism, swept_volume
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import slider_crank
from firstfire.heat.assumed import POCKET_ROOF
from firstfire.loads.cam_profile import Profile
from firstfire.runs.valve_gaps import lift_over, through, thrown_lift, worked
from firstfire.setup.cams.gaps import Case
from firstfire.setup.number import Number
from firstfire.setup.opened.sheet import Sheet

_WHY = (
    "room over the piston, less the lean of the valve's edge and its lift; the chamber is taken as "
    "high everywhere as its volume asks, with the valves' faces in its roof"
)
_WHY_ROOF = (
    "height of a roof as flat over bore and valves as the chamber's volume asks, less the greatest "
    "lift; over the valves no real roof is lower"
)
_CAM = "its cam, as late as is said"
_THROWN = "off its cam as a mass on its spring, lived in steps of crank"


def gap_sheet(engine: Engine, plain: PlainEngine, case: Case) -> tuple[Number, Sheet] | None:
    """A gap of cylinder 1 and its working; None of what isn't between a valve and its room."""
    made = next((one for one in worked(plain.cylinders[0])
                 if case.gap.what.startswith(f"{one.which} valve")), None)  # fmt: skip
    if made is None:
        return None
    sheet, roof = Sheet(engine.values(1)), case.gap.what.endswith("roof")
    (_to_roof if roof else _to_piston)(sheet, plain, case, made)
    why = _WHY_ROOF if roof else _WHY
    told = Number(case.id, case.words, case.gap.gap, "m", 0.0, "at least", why, "plane geometry")
    return told, sheet


def _to_piston(sheet: Sheet, plain: PlainEngine, case: Case, made: Profile) -> None:
    parts, angle = plain.cylinders[0], case.gap.angle
    sheet.put("travel", "piston below its top",
              slider_crank.piston_travel(angle, *mechanism(parts)), "m",
              f"crank and rod at {math.degrees(angle):.1f}° after firing top")  # fmt: skip
    lift = _lift(sheet, case, made)
    head = sheet.path(f"valves.{made.which}.head_diameter")
    lean = parts.head.valve_axis_angle
    by = f"head.valve_axis_angle, {math.degrees(lean):.1f}°"
    sheet.put("sine", "sine of the valve's lean", math.sin(lean), "", by)
    sheet.put("cosine", "cosine of the valve's lean", math.cos(lean), "", by)
    bore, squeeze = _swept(sheet, plain)
    sheet.found("chamber", "height of the chamber", "m",
                f"swept / ({squeeze} - 1) / (pi / 4 * {bore}**2)")  # fmt: skip
    sheet.found("low", "how low its edge hangs, shut", "m", f"{head} / 2 * sine")
    sheet.found("value", "room that is left", "m", f"chamber + travel - low - {lift} * cosine")


def _to_roof(sheet: Sheet, plain: PlainEngine, case: Case, made: Profile) -> None:
    lift = _lift(sheet, case, made)
    bore, squeeze = _swept(sheet, plain)
    inlet, exhaust = (sheet.path(f"valves.{which}.head_diameter") for which in ("inlet", "exhaust"))
    sheet.put("pocket", "roof over the valves against their faces", POCKET_ROOF, "",
              "common practice, no source", "assumed")  # fmt: skip
    sheet.found("plan", "chamber in plan", "m^2",
                f"pi / 4 * ({bore}**2 + pocket * ({inlet}**2 + {exhaust}**2))")  # fmt: skip
    sheet.found("roof", "height of a flat roof", "m", f"swept / ({squeeze} - 1) / plan")
    sheet.found("value", "room that is left", "m", f"roof - {lift}")


def _swept(sheet: Sheet, plain: PlainEngine) -> tuple[str, str]:
    sheet.put("swept", "swept volume", swept_volume(plain.cylinders[0]), "m^3", "bore and stroke")
    return sheet.path("cylinder.bore"), sheet.path("cylinder.compression_ratio")


def _lift(sheet: Sheet, case: Case, made: Profile) -> str:
    """Put in how far the valve is open at the gap; its name."""
    if case.id.startswith("hung"):
        return sheet.path(f"valves.{made.which}.lift")
    angle, speed = case.gap.angle, case.thrown_at
    if speed is None:
        lift = float(lift_over(made, np.array([angle]), case.later, case.lash)[0])
        return sheet.put("lift", "lift of the valve there", lift, "m", _CAM)
    along = through(made, math.pi / 2)
    lift = float(np.interp(angle, along, thrown_lift(made, along, speed)))
    by = f"{_THROWN} at {speed * 30 / math.pi:.0f} rpm"
    return sheet.put("lift", "lift of the valve there", lift, "m", by)
