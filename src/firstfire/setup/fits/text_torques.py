"""Torque sheet and sealant on the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfire.setup.fits.sealant import Sealant, Worth
from firstfire.setup.fits.torques import WARMED, Torque
from firstfire.setup.fits.words import celsius, force
from firstfire.setup.words import mm, percent
from firstfire.verdict.numbers import THIN, figures, shown
from firstfire.verdict.words.text.lines import wrapped

_LONG = 172800.0


def torque_lines(torques: Sequence[Torque], *, width: int) -> Iterator[str]:
    """Every place's screws."""
    for one in torques:
        yield from _place(one, width=width)


def _place(one: Torque, *, width: int) -> Iterator[str]:
    first, *rest = torque_words(one)
    yield from wrapped(first, 2, width=width, hang=4)
    for said in rest:
        yield from wrapped(said, 4, width=width)
    if one.again:
        yield f"    {'tighten again, cold':<40}{'left':>8}{'regains':>10}"
    for again in one.again:
        yield f"    {again.when:<40}{force(again.left):>8}{force(again.regained):>10}"


def torque_words(one: Torque) -> Iterator[str]:
    """How the screws of one place are tightened, and what becomes of their pull."""
    head = f"{one.what}: {one.number} x {one.thread}" if one.thread else one.what
    head = head[:1].upper() + head[1:]
    if one.torque is None:
        yield f"{head}: {one.why_not}."
        if one.pull is not None and one.night is not None:
            yield f"Screw pull {force(one.pull)}; a night leaves {force(one.night)}."
        return
    steps = ", ".join(figures(step, 2) for step in one.steps[:-1])
    yield (
        f"{head} to {figures(one.torque, 2)} N·m, in rounds of {steps} and "
        f"{figures(one.steps[-1], 2)}, in the order {' '.join(map(str, one.order))} (counted "
        "round)."
    )
    if one.pull is None or one.by_friction is None:
        yield f"Its pull is not told: {one.why_not}"
        return
    oiled, dry = (figures(torque, 2) for torque in one.by_friction)
    yield (
        f"Pull of each {force(one.pull)} ({force(one.low)} to {force(one.high)} by hand and "
        f"friction, 5-95{THIN}%); it holds {force(one.holds)} once. By friction alone the same "
        f"pull asks {oiled} N·m oiled (0.10) and {dry} dry (0.16)."
    )
    yield (
        f"Left: {force(one.settled)} once its faces have settled, {force(one.night)} after a "
        f"night, {force(one.warm)} with its head {WARMED:.0f} K warm."
    )


def sealant_lines(bead: Sealant, *, width: int) -> Iterator[str]:
    """The bead, and what a shorter cure is worth."""
    for said in sealant_words(bead):
        yield from wrapped(said, 2, width=width)
    if bead.now is None:
        return
    yield f"    {'cured for':<14}{'stands cold':>14}{'of all':>9}"
    others = [worth for worth in bead.worth if worth.seconds != bead.now.seconds]
    for worth in sorted([bead.now, *others], key=lambda one: one.seconds):
        yield _worth(worth, "  (the file's)" if worth is bead.now else "")


def sealant_words(bead: Sealant) -> Iterator[str]:
    """How it is spread and how long it cures."""
    if bead.now is None or bead.full is None or bead.close_within is None:
        yield f"{bead.material}: not told: {bead.why_not}"
        return
    late = "" if bead.in_time else " THE FILE CLOSES IT LATER: one face does not stick."
    yield (
        f"{bead.material}, pressed to {mm(bead.thickness)} thick and {mm(bead.width)} wide. At "
        f"{celsius(bead.temperature)} close the joint within {span(bead.close_within)}.{late} It "
        f"has cured through after {span(bead.full)}."
    )
    at = ", ".join(f"{span(seconds)} at {celsius(kelvin)}" for kelvin, seconds in bead.full_at)
    yield f"Full cure: {at}."


def _worth(worth: Worth, mark: str) -> str:
    stands = shown(worth.holds, "bar", 2)
    return f"    {span(worth.seconds):<14}{stands:>14}{percent(worth.share):>9}{mark}"


def span(seconds: float) -> str:
    """A time: minutes, hours or days.

    Examples
    --------
    >>> span(1200.0), span(7200.0), span(272309.0)
    ('20 min', '2 h', '3.2 days')
    """
    if seconds < 5400.0:
        return f"{seconds / 60:.0f} min"
    if seconds < _LONG:
        return f"{figures(seconds / 3600, 2)} h"
    return f"{figures(seconds / 86400, 2)} days"
