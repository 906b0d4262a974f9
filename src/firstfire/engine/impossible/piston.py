"""What can't be of piston, rings, pin and rod."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.impossible.fault import Check, Fault, mm
from firstfire.engine.rules.piston import above_pin
from firstfire.engine.values import Values


def _rod(ask: Values) -> Iterator[Fault]:
    stroke, rod = ask.number("cylinder.stroke"), ask.number("rod.length")
    offset = abs(ask.number("cylinder.offset"))
    if rod <= stroke / 2 + offset:
        yield (
            "rod.length",
            f"is {mm(rod)}: too short to turn with a stroke of {mm(stroke)}",
            f"A rod is 1.7 to 2 times the stroke, {mm(1.7 * stroke)} to {mm(2 * stroke)}.",
        )
    elif rod < 1.2 * stroke:
        yield (
            "rod.length",
            f"is {mm(rod)} for a stroke of {mm(stroke)}: the piston's skirt meets the crank",
            f"A rod is 1.7 to 2 times the stroke, {mm(1.7 * stroke)} to {mm(2 * stroke)}.",
        )


def _ring_in_groove(ask: Values) -> Iterator[Fault]:
    if ask["rings.kind"] != "o_ring" or ask["rings.count"] == 0:
        return
    section, depth = ask.number("rings.section"), ask.number("rings.groove_depth")
    width, clearance = ask.number("rings.groove_width"), ask.number("piston.skirt_clearance")
    gland = depth + clearance / 2
    right = f"{mm(section)} wants a groove {mm(0.9 * section - clearance / 2)} deep"
    if width <= section:
        yield (
            "rings.groove_width",
            f"is {mm(width)}: narrower than the O-ring's section ({mm(section)})",
            f"A groove is 1.3 to 1.5 sections wide, {mm(1.4 * section)}.",
        )
    squeeze = 1 - gland / section
    if squeeze > 0.35:
        yield (
            "rings.groove_depth",
            f"is {mm(depth)}: it squeezes a section of {mm(section)} by {squeeze:.0%}",
            f"Running O-rings are squeezed 5 to 18 %: {right}.",
        )
    elif squeeze <= 0:
        yield (
            "rings.groove_depth",
            f"is {mm(depth)}: an O-ring of {mm(section)} wouldn't touch the bore",
            f"Running O-rings are squeezed 5 to 18 %: {right}.",
        )


def _oring_on_piston(ask: Values) -> Iterator[Fault]:
    if ask["rings.kind"] != "o_ring" or ask["rings.count"] == 0:
        return
    groove = ask.number("cylinder.bore") - ask.number("piston.skirt_clearance")
    groove -= 2 * ask.number("rings.groove_depth")
    inside = ask.number("rings.inside_diameter")
    if groove <= 0.3 * ask.number("cylinder.bore"):
        return
    stretch = (groove - inside) / inside
    if not -0.03 <= stretch <= 0.12:
        word = "stretched" if stretch > 0 else "loose"
        path = "rings.oring" if ask.said("rings.oring") else "rings.inside_diameter"
        yield (
            path,
            f"is {mm(inside)} inside: {word} by {abs(stretch):.0%} on a groove of {mm(groove)}",
            f"Stretch is 1 to 5 %: an inside diameter of {mm(groove / 1.05)} to "
            f"{mm(groove / 1.01)}. `firstfire catalog oring` lists sizes.",
        )


def _groove_in_piston(ask: Values) -> Iterator[Fault]:
    depth, bore = ask.number("rings.groove_depth"), ask.number("cylinder.bore")
    if int(ask["rings.count"]) and depth >= 0.35 * bore:
        yield (
            "rings.groove_depth",
            f"is {mm(depth)}: it cuts the piston through (bore {mm(bore)})",
            f"A groove is about as deep as the ring's section, {mm(ask.number('rings.section'))}.",
        )


def _rings_above_pin(ask: Values) -> Iterator[Fault]:
    count = int(ask["rings.count"])
    needed = above_pin(ask)
    height = ask.number("piston.compression_height")
    if needed > height + 1e-6 and count:
        yield (
            "piston.compression_height",
            f"is {mm(height)}: land, {count} ring{'s' * (count > 1)} and half the pin need "
            f"{mm(needed)} above the pin's axis",
            f"Make it {mm(needed + 1e-3)} or more, or the top land lower.",
        )


def _squeeze_agrees(ask: Values) -> Iterator[Fault]:
    if not (ask.said("rings.squeeze") and ask.said("rings.groove_depth")):
        return
    if ask["rings.kind"] != "o_ring":
        return
    gland = ask.number("rings.groove_depth") + ask.number("piston.skirt_clearance") / 2
    real = 1 - gland / ask.number("rings.section")
    if abs(real - ask.number("rings.squeeze")) > 0.03:
        yield (
            "rings.squeeze",
            f"is {ask.number('rings.squeeze'):.0%}, but the groove makes it {real:.0%}",
            "Say one of the two; the other follows.",
        )


def _shield_in_bore(ask: Values) -> Iterator[Fault]:
    bore, disc = ask.number("cylinder.bore"), ask.number("piston.shield.diameter")
    if ask.number("piston.shield.thickness") > 0 and disc >= bore:
        yield (
            "piston.shield.diameter",
            f"is {mm(disc)}: it doesn't enter the bore ({mm(bore)})",
            f"Leave 1 to 2 mm all round: {mm(bore - 3e-3)}.",
        )


CHECKS: tuple[Check, ...] = (
    _rod,
    _ring_in_groove,
    _oring_on_piston,
    _groove_in_piston,
    _rings_above_pin,
    _squeeze_agrees,
    _shield_in_bore,
)
