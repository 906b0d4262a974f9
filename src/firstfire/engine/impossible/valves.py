"""What can't be of valves and cams."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

from firstfire.engine.impossible.fault import Check, Fault, mm
from firstfire.engine.values import Values


def _valves_in_bore(ask: Values) -> Iterator[Fault]:
    if ask["valves.placed"] == "side":
        return
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


def _lift_tables(ask: Values) -> Iterator[Fault]:
    """A table has to open the valve, and to shut it again within the cycle."""
    for name in ("inlet", "exhaust"):
        table = ask[f"valves.{name}.lift_table"]
        if table is None:
            continue
        lifts = [lift for _, lift in table]
        cure = 'It begins and ends shut: [["0 deg", "0 mm"], ["120 deg", "6 mm"], ...].'
        fault = ""
        if len(table) < _FEWEST_ROWS:
            fault = f"has {len(table)} rows: too few to follow a valve"
        elif lifts[0] > _SHUT or lifts[-1] > _SHUT:
            fault = "leaves the valve off its seat at its first or last angle"
        elif max(lifts) < _LEAST_LIFT:
            fault = f"opens the valve by {mm(max(lifts))} at most"
        elif any(_leaps(before, after) for before, after in itertools.pairwise(table)):
            fault = "leaps: two rows nearer than 0.05° or steeper than 2 mm a degree"
        if fault:
            yield (f"valves.{name}.lift_table", fault, cure)
        elif abs(max(lifts) - ask.number(f"valves.{name}.lift")) > _ALIKE:
            yield (
                f"valves.{name}.lift",
                f"is {mm(ask.number(f'valves.{name}.lift'))}, and its lift_table goes to "
                f"{mm(max(lifts))}",
                f"Write {mm(max(lifts))}, or leave it out.",
            )


def _leaps(before: tuple[float, float], after: tuple[float, float]) -> bool:
    """Whether no cam can lead from one row to the next."""
    apart = math.degrees(after[0] - before[0])
    return apart < 0.05 or abs(after[1] - before[1]) > 2e-3 * apart


_FEWEST_ROWS = 5
_SHUT, _LEAST_LIFT = 1e-5, 0.3e-3  # m
_ALIKE = 0.05e-3  # m: between a lift and the most of its table


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


def _riders(ask: Values) -> Iterator[Fault]:
    """A round follower has a radius."""
    for name in ("inlet", "exhaust"):
        here, kind = f"valves.{name}", ask[f"valves.{name}.follower"]
        if ask[f"{here}.worked"] != "cam" or kind == "flat":
            continue
        if ask.number(f"{here}.follower_radius") < _LEAST_RADIUS:
            usual = 0.8 * ask.number(f"{here}.base_radius")
            yield (
                f"{here}.follower_radius",
                f"is {mm(ask.number(f'{here}.follower_radius'))}: a {kind} follower needs one",
                f"{mm(usual)} suits this cam; {mm(_LEAST_RADIUS)} is the least. Or write "
                'follower = "flat".',
            )


def _wheels(ask: Values) -> Iterator[Fault]:
    """The wheels of a belt or chain stand clear of each other."""
    teeth = ask.number("cam_drive.teeth_crank") + ask.number("cam_drive.teeth_cam")
    least = teeth * ask.number("cam_drive.pitch") / (2.0 * math.pi)
    apart = ask.number("cam_drive.centre_distance")
    if ask["cam_drive.kind"] != "gear" and apart <= least:
        yield (
            "cam_drive.centre_distance",
            f"is {mm(apart)}: its wheels reach to {mm(least)}, and overlap",
            f"Make it {mm(least + 5e-3)} at least.",
        )


_LEAST_RADIUS = 0.1e-3  # m

CHECKS: tuple[Check, ...] = (
    _valves_in_bore,
    _valve_itself,
    _suction_exhaust,
    _lift_tables,
    _cam,
    _riders,
    _wheels,
)
