"""What can't be of cylinder, liner, gasket and head bolts."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.impossible.fault import Check, Fault, mm
from firstfire.engine.rules.cylinder import swept
from firstfire.engine.values import Values


def _ratio_agrees(ask: Values) -> Iterator[Fault]:
    if not (ask.said("cylinder.compression_ratio") and ask.said("cylinder.chamber_volume")):
        return
    real = 1 + swept(ask) / ask.number("cylinder.chamber_volume")
    said = ask.number("cylinder.compression_ratio")
    if abs(real / said - 1) > 0.02:
        yield (
            "cylinder.compression_ratio",
            f"is {said:.3g}, but the chamber makes it {real:.3g}",
            "Say one of the two; the other follows.",
        )


def _walls(ask: Values) -> Iterator[Fault]:
    bore, outside = ask.number("cylinder.bore"), ask.number("liner.outside_diameter")
    if outside <= bore:
        yield (
            "liner.outside_diameter",
            f"is {mm(outside)}: no larger than the bore ({mm(bore)})",
            f"A liner's wall is 1 to 5 mm: {mm(bore + 4e-3)}.",
        )
    elif ask.number("body.outside_diameter") <= outside:
        yield (
            "body.outside_diameter",
            f"is no larger than the liner's outside ({mm(outside)})",
            f"Leave 8 mm of body: {mm(outside + 16e-3)}.",
        )
    if ask["liner.tube"] is not None:
        inside = ask.catalog.row("tube", str(ask["liner.tube"])).si("bore")
        if inside - bore > 0.6e-3:
            yield (
                "cylinder.bore",
                f"is {mm(bore)}, but the tube it is cut from is {mm(inside)} inside",
                f'Write bore = "{mm(inside)}", or choose another tube.',
            )
    circle = ask.number("head.fasteners.circle_diameter")
    if circle <= bore:
        yield (
            "head.fasteners.circle_diameter",
            f"is {mm(circle)}: the bolts would stand in the bore ({mm(bore)})",
            f"A bolt circle is about 1.45 × bore, {mm(1.45 * bore)}.",
        )
    gasket = ask.number("gasket.inside_diameter")
    if ask["gasket.kind"] != "none" and gasket < bore - 1e-6:
        yield (
            "gasket.inside_diameter",
            f"is {mm(gasket)}: it reaches into the bore ({mm(bore)})",
            f"Make it {mm(bore + 1e-3)}.",
        )


def _fins(ask: Values) -> Iterator[Fault]:
    for part, room, what in (
        ("body", ask.number("liner.length"), "body is long"),
        ("head", ask.number("head.diameter"), "head is wide"),
    ):
        count, gap = int(ask[f"{part}.fins.count"]), ask.number(f"{part}.fins.gap")
        pitch = gap + ask.number(f"{part}.fins.thickness")
        if count and count * pitch - gap > room + 1e-6:
            fits = int((room + gap) / pitch)
            yield (
                f"{part}.fins.count",
                f"is {count}: they take {mm(count * pitch - gap)}, but the {what} {mm(room)}",
                f"{fits} fit, or take them thinner or closer.",
            )


def _foot(ask: Values) -> Iterator[Fault]:
    circle, wall = ask.number("body.foot.circle_diameter"), ask.number("body.outside_diameter")
    if circle <= wall:
        yield (
            "body.foot.circle_diameter",
            f"is {mm(circle)}: its screws would stand in the body's wall ({mm(wall)})",
            f"Leave room for their heads: {mm(wall + 12e-3)}.",
        )
    thick, fillet = ask.number("body.foot.thickness"), ask.number("body.foot.fillet")
    if fillet > thick:
        yield (
            "body.foot.fillet",
            f"is {mm(fillet)}: larger than the flange is thick ({mm(thick)})",
            f"A corner is rounded by a tenth to a third of it: {mm(0.2 * thick)}.",
        )


CHECKS: tuple[Check, ...] = (
    _ratio_agrees,
    _walls,
    _foot,
    _fins,
)
