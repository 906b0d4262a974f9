"""What can't be of layout, crank and sizes against the bore."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.impossible.fault import Check, Fault, mm
from firstfire.engine.values import Values


def _layout(ask: Values) -> Iterator[Fault]:
    kind = str(ask["layout.kind"])
    name = kind.replace("_", " ")
    angle = ask.number("layout.v_angle")
    if kind != "v_twin" and angle > 0:
        yield ("layout.v_angle", f"is said, but a {name} has none", "Take the line out.")
    if kind == "v_twin" and angle < math.radians(10):
        yield ("layout.v_angle", "is too small to stand two cylinders", "A V is 30° to 120° wide.")
    if kind == "single" and ask.number("layout.crank_offset") > 0:
        yield ("layout.crank_offset", "is said, but a single has one pin", "Take the line out.")
    if kind == "single" and ask["intake.kind"] in ("y", "plenum"):
        yield (
            "intake.kind",
            f'is "{ask["intake.kind"]}", but there is one cylinder to feed',
            'Write kind = "single".',
        )


def _sizes_against_bore(ask: Values) -> Iterator[Fault]:
    bore = ask.number("cylinder.bore")
    for path, name, low, high, limit in (
        ("crank.crankpin_diameter", "A crankpin", 0.25, 0.45, 1.0),
        ("pin.diameter", "A piston pin", 0.2, 0.3, 0.7),
        ("intake.throttle_diameter", "A throttle", 0.2, 0.4, 1.2),
    ):
        size = ask.number(path)
        if size >= limit * bore:
            yield (
                path,
                f"is {mm(size)}: too large for a bore of {mm(bore)}",
                f"{name} of this bore is {mm(low * bore)} to {mm(high * bore)}.",
            )
    if ask.number("pin.inside_diameter") >= ask.number("pin.diameter"):
        yield ("pin.inside_diameter", "is as large as the pin", "Make it smaller, or 0 for solid.")
    if ask.number("pin.length") > bore:
        yield (
            "pin.length",
            f"is {mm(ask.number('pin.length'))}: longer than the bore ({mm(bore)})",
            f"Make it {mm(0.85 * bore)}.",
        )


def _joint(ask: Values) -> Iterator[Fault]:
    cheek, engaged = ask.number("crank.cheek_thickness"), ask.number("crank.joint.length")
    if ask["crank.joint.kind"] != "solid" and engaged > 2 * cheek:
        yield (
            "crank.joint.length",
            f"is {mm(engaged)}: the cheek is {mm(cheek)} thick",
            f"At most the cheek's thickness, {mm(cheek)}.",
        )
    rod = ask.number("crank.through_rod_diameter")
    if rod and rod >= ask.number("crank.crankpin_diameter"):
        yield (
            "crank.through_rod_diameter",
            f"is {mm(rod)}: as thick as the pin around it",
            "Make it thinner than the crankpin, or the pin itself of steel.",
        )


def _points(ask: Values) -> Iterator[Fault]:
    if ask["spark.source"] == "points" and ask["spark.advance_table"]:
        yield (
            "spark.advance_table",
            "is said, but breaker points fire at one angle at every speed",
            'Take it out, or write spark.source = "sensor".',
        )


def _laid_in_one(ask: Values) -> Iterator[Fault]:
    """What is printed in one piece lies one way."""
    for place, joint in (("crankpin", "crank.joint.kind"), ("journal", "crank.journal.joint.kind")):
        lies, cheeks = ask[f"crank.{place}.layers_stacked"], ask["crank.layers_stacked"]
        if ask[joint] == "solid" and ask["crank.made"] == "printed" and lies != cheeks:
            yield (
                f"crank.{place}.layers_stacked",
                f'is "{lies}", but it is one print with its cheeks, which are "{cheeks}"',
                f'Write "{cheeks}", or another {joint} than solid.',
            )


CHECKS: tuple[Check, ...] = (
    _points,
    _laid_in_one,
    _layout,
    _sizes_against_bore,
    _joint,
)
