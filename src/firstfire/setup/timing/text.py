"""Timing on the terminal: how it fires, the picture, every event, what a tooth does, which top."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.setup.timing import words
from firstfire.setup.timing.facts import TimingFacts
from firstfire.setup.timing.picture import picture
from firstfire.setup.timing.places import degrees, where
from firstfire.setup.timing.tooth import Shifted
from firstfire.setup.timing.words import mm
from firstfire.verdict.numbers import figures
from firstfire.verdict.words.text.lines import WIDTH, heading, wrapped


def timing_text(found: TimingFacts, *, width: int = WIDTH) -> str:
    """All of it as text."""
    lines = [*wrapped(words.opening(found), width=width), "", *picture(found.plain, width)]
    lines += wrapped(_PICTURE, 2, width=width)
    lines += [*heading("Every event"), *_events(found), ""]
    lines += wrapped(words.rim_words(found), 2, width=width)
    for more in (*words.assumed_words(found), words.sparked_words(found.plain),
                 words.latency_words(found.plain)):  # fmt: skip
        lines += wrapped(more, 2, width=width) if more else []
    lines += [*heading("A tooth out"), *wrapped(words.tooth_words(found), 2, width=width), ""]
    lines += _teeth(found)
    lines += wrapped(TEETH, 2, width=width)
    lines += heading("Which top is which")
    for said in words.apart(found):
        lines += wrapped(said, 2, width=width)
    belt = words.belt_words(found)
    lines += [*heading("Cam drive"), *wrapped(belt, 2, width=width)] if belt else []
    return "\n".join([*lines, "", *wrapped(words.CAUTION, width=width)])


_PICTURE = (
    "Crank degrees. # open by more than half, = by less; T firing top, t overlap top; S start "
    "spark, R running spark where it is another."
)
TEETH = (
    "Kept: charge at cranking speed, of a cylinder full at bottom. Gauge: over the air, of one "
    "that leaks nothing. Room: least between valve and piston, the chamber taken as flat as its "
    "volume asks. All estimates, of cylinder 1."
)


def steps_text(found: TimingFacts, *, width: int = WIDTH) -> str:
    """How to set it, step by step."""
    from firstfire.setup.timing.steps import steps

    lines = [f"{found.engine.name}: how to set its timing. Every number is an estimate."]
    for number, step in enumerate(steps(found), 1):
        lines += ["", *wrapped(f"{number}. {step.title}", width=width)]
        for said in step.do:
            lines += wrapped(said, 3, width=width)
        if step.caution:
            lines += wrapped(f"Mind: {step.caution}", 3, width=width)
    return "\n".join(lines)


def _events(found: TimingFacts) -> Iterator[str]:
    """Columns: crank angle, event, where, then lengths in mm."""
    many = len(found.order) > 1
    yield f"  {'crank':>6}  {'event':<26}{'where':<25}{'rim':>6}{'cam':>7}{'depth':>6}"
    yield f"  {'':>6}  {'':<26}{'':<25}{'mm':>6}{'mm':>7}{'mm':>6}"
    for place in found.places:
        event = place.event
        name = f"{event.cylinder} {event.name}" if many else event.name
        spot = "" if event.kind == "centre" else place.words
        yield (
            f"  {degrees(event.crank):>6}  {name:<26}{spot:<25}{mm(place.rim):>6}"
            f"{mm(place.pulley):>7}{mm(place.depth):>6}"
        )


def _teeth(found: TimingFacts) -> Iterator[str]:
    yield f"  {'cam':<14}{'inlet shuts':<19}{'overlap in/ex':>14}{'kept':>6}{'gauge':>7}  room"
    yield f"  {'':<14}{'':<19}{'mm':>14}{'':>6}{'bar':>7}"
    for row in found.teeth[0]:
        lifts = f"{mm(row.inlet_lift, 2)}/{mm(row.exhaust_lift, 2)}"
        kept = "–" if row.filling is None else f"{100 * row.filling:.0f} %"
        gauge = "–" if row.gauge is None else figures(row.gauge / 1e5, 2)
        shuts = "by suction" if row.inlet_closes is None else where(row.inlet_closes)
        yield (
            f"  {teeth_words(row):<14}{shuts:<19}{lifts:>14}{kept:>6}{gauge:>7}  {words.meets(row)}"
        )


def teeth_words(row: Shifted) -> str:
    """*2 teeth late*."""
    if row.teeth == 0:
        return "as drawn"
    count = abs(row.teeth)
    return f"{count} {'tooth' if count == 1 else 'teeth'} {'late' if row.teeth > 0 else 'early'}"
