"""What can't be of valves and cams."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.impossible.fault import Check, Fault, mm
from firstfire.engine.values import Values


def _valves_in_bore(ask: Values) -> Iterator[Fault]:
    bore = ask.number("cylinder.bore")
    inlet = ask.number("valves.inlet.head_diameter")
    exhaust = ask.number("valves.exhaust.head_diameter")
    lean = math.cos(ask.number("head.valve_axis_angle"))
    for name, head in (("inlet", inlet), ("exhaust", exhaust)):
        if head * lean >= bore:
            yield (
                f"valves.{name}.head_diameter",
                f"is {mm(head)}: larger than the bore ({mm(bore)})",
                f"An {name} valve of this bore is {mm(0.35 * bore)} to {mm(0.45 * bore)}.",
            )
    if max(inlet, exhaust) * lean < bore and (inlet + exhaust) * lean + 1e-3 > bore:
        larger = "inlet" if inlet >= exhaust else "exhaust"
        yield (
            f"valves.{larger}.head_diameter",
            f"is {mm(max(inlet, exhaust))}: {mm(inlet)} and {mm(exhaust)} side by side don't "
            f"fit a bore of {mm(bore)}",
            f"With 1 mm between and around, about {mm(0.42 * bore)} and {mm(0.37 * bore)} fit.",
        )


def _valve_itself(ask: Values) -> Iterator[Fault]:
    for name in ("inlet", "exhaust"):
        here = f"valves.{name}"
        head, throat = ask.number(f"{here}.head_diameter"), ask.number(f"{here}.throat_diameter")
        stem = ask.number(f"{here}.stem_diameter")
        if throat >= head:
            yield (
                f"{here}.throat_diameter",
                f"is {mm(throat)}: the valve's head ({mm(head)}) falls through it",
                f"A throat is 0.85 to 0.9 of the head, {mm(0.87 * head)}.",
            )
        if stem >= 0.6 * throat:
            yield (
                f"{here}.stem_diameter",
                f"is {mm(stem)}: it fills the throat ({mm(throat)})",
                f"A stem is 0.2 to 0.25 of the head, {mm(0.22 * head)}.",
            )


def _suction_exhaust(ask: Values) -> Iterator[Fault]:
    if ask["valves.exhaust.worked"] == "suction":
        yield (
            "valves.exhaust.worked",
            'is "suction": pressure in the cylinder would hold it shut',
            'Only an inlet opens by suction. Write worked = "cam".',
        )


def _cam(ask: Values) -> Iterator[Fault]:
    for name, before, after in (
        ("inlet", "opens_before_top", "closes_after_bottom"),
        ("exhaust", "opens_before_bottom", "closes_after_top"),
    ):
        opening = math.pi + ask.number(f"valves.{name}.{before}")
        opening += ask.number(f"valves.{name}.{after}")
        if opening < math.radians(60):
            yield (
                f"valves.{name}.{before}",
                f"leaves the {name} valve open for {math.degrees(opening):.0f}° only",
                "A valve is open for 200° to 280° of crank.",
            )
        if ask[f"valves.{name}.cam_law"] == "table" and ask[f"valves.{name}.lift_table"] is None:
            yield (
                f"valves.{name}.cam_law",
                'is "table", and there is no table',
                'Write lift_table = [["0 deg", "0 mm"], ...], or choose a law.',
            )
    if ask["cam_drive.teeth_cam"] != 2 * ask["cam_drive.teeth_crank"]:
        yield (
            "cam_drive.teeth_cam",
            f"is {ask['cam_drive.teeth_cam']} against {ask['cam_drive.teeth_crank']} on the crank",
            f"A four-stroke's cam turns once for two of the crank: "
            f"{2 * ask['cam_drive.teeth_crank']} teeth.",
        )


CHECKS: tuple[Check, ...] = (
    _valves_in_bore,
    _valve_itself,
    _suction_exhaust,
    _cam,
)
