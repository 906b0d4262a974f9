"""The cams of an engine on the terminal."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.loads import cam_forces
from firstfire.setup.cams.cam import Cam, Cams
from firstfire.setup.cams.gaps import Case
from firstfire.setup.cams.picture import picture
from firstfire.setup.cams.spring import WIRE, Winding
from firstfire.setup.cams.suction_inlet import AtSpeed, SuctionInlet
from firstfire.setup.number import Number
from firstfire.verdict.numbers import THIN, figures
from firstfire.verdict.words.text.lines import WIDTH, beside, heading, wrapped

FAMILIES = {
    "3-4-5": "polynomial_345",
    "4-5-6-7": "polynomial_4567",
    "cycloidal": "cycloidal",
    "modified-sine": "modified_sine",
    "modified-trapezoid": "modified_trapezoid",
    "harmonic": "harmonic",
}
"""Families by the trade's names."""
_NAMES = {law: name for name, law in FAMILIES.items()} | {"table": "lift table"}


def cams_text(found: Cams, *, full: bool = False, width: int = WIDTH) -> str:
    """All of it as text; with `full` each number opens with why and where from."""
    lines = wrapped(opening(found), width=width)
    if found.cams:
        lines += ["", *picture([one.made for one in found.cams])]
    for one in found.cams:
        lines += _cam(one, full=full, width=width)
    if found.suction is not None:
        lines += _suction(found.suction, width=width)
    lines += _gaps(found, width=width)
    if found.values:
        lines += [*heading("In the engine file"), *_settings(dict(found.values))]
    lines += ["", *wrapped(
        "`firstfire explain FILE cam` lists the numbers by their ids; with an id it opens one.",
        width=width,
    )]  # fmt: skip
    lines += ["", *wrapped(
        "All of it is an estimate. Turn the engine by hand through two full turns, plug out and "
        "fuel off, before anything drives it; where it stops, don't force it.", width=width
    )]  # fmt: skip
    return "\n".join(lines)


def opening(found: Cams) -> str:
    """The sum of it in a sentence."""
    bad = [one for one in found.cams if one.faults]
    if bad:
        names = " and ".join(one.which for one in bad)
        return f"{found.plain.name}: the {names} cam can't be made as it is asked for."
    broken = [f"{one.which}: {n.words}" for one in found.cams for n in one.numbers if not n.holds]
    if broken:
        return f"{found.plain.name}: its cams can be made, but look at {'; '.join(broken)}."
    if not found.cams:
        return f"{found.plain.name} has no cam."
    return f"{found.plain.name}: its cams can be made, and keep to every limit told here."


def _cam(one: Cam, *, full: bool, width: int) -> Iterator[str]:
    yield from heading(f"The {one.which} cam")
    yield from wrapped(events(one), width=width)
    for fault in one.faults:
        yield from wrapped(f"Can't be: {fault}", width=width, hang=2)
    if one.nearest is not None:
        yield from wrapped(f"The nearest that can be made: {one.nearest.words}.", width=width)
        yield from _settings(one.nearest.values)
    elif one.faults:
        yield from wrapped("None near it can be made: ask for less lift or open it longer.",
                           width=width)  # fmt: skip
    for number in one.numbers:
        yield from _number(number, full=full, width=width)
    yield from _spring(one, width=width)


def events(one: Cam) -> str:
    """Law, lift and events in words, also at a lift that a gauge can tell."""
    made = one.made
    law = _NAMES[made.valve.cam_law]
    smooth = "" if made.valve.cam_law != "polynomial_4567" else ", smooth to the third derivative"
    told = (
        f"{law} flanks{smooth}; {figures(1e3 * made.valve.lift)}{THIN}mm of lift; open for "
        f"{math.degrees(made.shuts - made.opens):.0f}°, nose {_after_top(made.centre)}; lash "
        f"{figures(1e3 * made.valve.lash, 2)}{THIN}mm on ramps of "
        f"{math.degrees(made.valve.cam_ramp):.0f}°."
    )
    at = 1e-3 if made.valve.lift > 2e-3 else 0.2 * made.valve.lift
    over = made.angle[made.valve_lift >= at]
    early, late = (made.centre + 2 * float(over[end]) for end in (0, -1))
    return (
        f"{told} Leaves its seat {_after_top(made.opens)} and is back {_after_top(made.shuts)}; "
        f"past {figures(1e3 * at, 2)}{THIN}mm from {_after_top(early)} to {_after_top(late)}."
    )


def _after_top(angle: float) -> str:
    """A crank angle after firing top as one reads it off a wheel, by the nearer dead centre."""
    degrees = math.degrees(angle) % 720.0
    for centre, name in ((180.0, "bottom"), (360.0, "top"), (540.0, "bottom")):
        if abs(degrees - centre) <= 90.0:
            past = degrees - centre
            side = "after" if past >= 0 else "before"
            return f"{abs(past):.0f}° {side} {name}"
    return f"{degrees:.0f}° after firing top"


def _number(number: Number, *, full: bool, width: int) -> Iterator[str]:
    if not number.judged:
        yield from wrapped(f"{number.words}. {number.why}", 2, width=width, hang=4)
        return
    yield f"  {number.words:<48} {number.text:>12}  {number.against}".rstrip()
    if full:
        yield from wrapped(f"{number.why}. {number.source}", 6, width=width)


def _spring(one: Cam, *, width: int) -> Iterator[str]:
    valve, wound = one.made.valve, one.winding
    yield from wrapped(
        f"Spring: the file has {figures(valve.spring_preload)}{THIN}N on the seat and "
        f"{figures(valve.spring_rate / 1e3)}{THIN}N/mm. The least that holds at "
        f"{cam_forces.SURE:g} × top speed: {figures(one.line.preload)}{THIN}N and "
        f"{figures(one.line.rate / 1e3)}{THIN}N/mm.",
        2, width=width, hang=4,
    )  # fmt: skip
    if wound is None:
        yield from wrapped(one.no_winding, 4, width=width)
        return
    yield from wrapped(wound_as(wound), 4, width=width)


def wound_as(wound: Winding) -> str:
    """A winding as one orders it."""
    bows = " It is so long that it bows out without a guide." if wound.bows else ""
    return (
        f"Wound so: {WIRE} of {figures(1e3 * wound.wire, 2)}{THIN}mm, mean diameter "
        f"{figures(1e3 * wound.mean)}{THIN}mm, {wound.active:g} active coils and two dead ones, "
        f"free {figures(1e3 * wound.free)}{THIN}mm, fitted {figures(1e3 * wound.fitted)}{THIN}mm, "
        f"solid {figures(1e3 * wound.solid)}{THIN}mm; {figures(wound.stress / 1e6)}{THIN}MPa of "
        f"shear at full lift of {figures(wound.allowed / 1e6)} allowed; surges at "
        f"{figures(wound.surge)}{THIN}Hz, {wound.times:.0f} × the cam's turns. Fatigue not "
        f"judged.{bows}"
    )


def _suction(found: SuctionInlet, *, width: int) -> Iterator[str]:
    yield from heading("The suction-opened inlet")
    yield from wrapped(suction_words(found), width=width)
    yield f"  {'speed':>9}  {'filled':>6}  {'shuts after bottom':>18}  {'given back':>10}  opens"
    for one in found.speeds:
        yield _speed(one)
    for sentence in found.advice:
        yield from wrapped(sentence, width=width)
    if found.well_to > 0:
        yield from wrapped(f"Well up to {found.well_to * 30 / math.pi:.0f}{THIN}rpm.", width=width)


def suction_words(found: SuctionInlet) -> str:
    """When it opens, and how its spring shuts it."""
    return (
        f"Opens at {figures(found.opens_at / 100, 2)}{THIN}mbar of suction; its spring shuts it in "
        f"{figures(1e3 * found.shutting, 2)}{THIN}ms, {math.degrees(found.shutting_angle):.0f}° of "
        f"crank at top speed; swings at {figures(found.swing, 2)}{THIN}Hz."
    )


def _speed(one: AtSpeed) -> str:
    word = "" if one.well else "  late"
    return (
        f"  {one.speed * 30 / math.pi:>5.0f} rpm  {100 * one.filling:>4.0f} %  "
        f"{math.degrees(one.shuts):>17.0f}°  {100 * one.back:>8.0f} %  {one.openings} ×{word}"
    )


def _gaps(found: Cams, *, width: int) -> Iterator[str]:
    yield from heading("Least gaps, cylinder 1")
    for sentence in found.unjudged:
        yield from wrapped(sentence, 2, width=width)
    for case in found.gaps:
        told = f"{gap_words(case):<18} {_short(case.gap.where)}"
        yield from beside(f"  {case.words:<44}", told, 46,
                          width=max(width, WIDTH))  # fmt: skip
    yield from wrapped(_FLAT_ROOF if found.unjudged else _FLAT, 2, width=width)


_FLAT = "Chamber taken as flat: measure with soft wire or putty on the piston."
_FLAT_ROOF = (
    "Roof taken as flat over bore and valves: where it dips over the piston there is more room "
    "over the valves. Measure with soft wire or putty."
)


def gap_words(case: Case) -> str:
    """*Touches*, or by how much it clears."""
    word = "touches" if case.gap.gap <= 0.0 else "clears by"
    return f"{word} {1e3 * abs(case.gap.gap):.2f}{THIN}mm"


def _short(where: str) -> str:
    return where.replace(" the top between exhaust and intake", " top")


def _settings(values: dict[str, object]) -> Iterator[str]:
    for path, value in values.items():
        said = f"a table of {len(value)} rows" if isinstance(value, list) else f'"{value}"'
        yield f"    {path} = {said}"
