"""Torque sheet and sealant on the terminal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfire.setup.fits.sealant import Sealant, Worth
from firstfire.setup.fits.torques import WARMED, Torque
from firstfire.setup.fits.words import celsius, force
from firstfire.setup.words import mm, percent
from firstfire.verdict.numbers import figures, shown
from firstfire.verdict.words.text.lines import wrapped

_LONG = 172800.0


def torque_lines(torques: Sequence[Torque], *, width: int) -> Iterator[str]:
    """Every place's screws."""
    for one in torques:
        yield from _place(one, width=width)


def _place(one: Torque, *, width: int) -> Iterator[str]:
    head = f"{one.what}: {one.number} x {one.thread}" if one.thread else one.what
    if one.torque is None:
        yield from wrapped(f"{head}: {one.why_not}.", 2, width=width, hang=4)
        return
    steps = ", ".join(figures(step, 2) for step in one.steps[:-1])
    yield from wrapped(
        f"{head} to {figures(one.torque, 2)} N·m, in rounds of {steps} and "
        f"{figures(one.steps[-1], 2)}, in the order {' '.join(map(str, one.order))} (counted "
        "round).", 2, width=width, hang=4,
    )  # fmt: skip
    if one.pull is None or one.by_friction is None:
        yield from wrapped(f"Its pull is not told: {one.why_not}", 4, width=width)
        return
    oiled, dry = (figures(torque, 2) for torque in one.by_friction)
    yield from wrapped(
        f"Pull of each {force(one.pull)} ({force(one.low)} to {force(one.high)} by hand and "
        f"friction, 5-95 %); it holds {force(one.holds)} once. By friction alone the same pull "
        f"asks {oiled} N·m oiled (0.10) and {dry} dry (0.16).", 4, width=width,
    )  # fmt: skip
    yield from wrapped(
        f"Left: {force(one.settled)} once its faces have settled, {force(one.night)} after a "
        f"night, {force(one.warm)} with its head {WARMED:.0f} K warm.", 4, width=width,
    )  # fmt: skip
    yield f"    {'tighten again, cold':<40}{'left':>8}{'regains':>10}"
    for again in one.again:
        yield f"    {again.when:<40}{force(again.left):>8}{force(again.regained):>10}"


def sealant_lines(bead: Sealant, *, width: int) -> Iterator[str]:
    """The bead, and what a shorter cure is worth."""
    if bead.now is None or bead.full is None or bead.close_within is None:
        yield from wrapped(f"{bead.material}: not told: {bead.why_not}", 2, width=width)
        return
    late = "" if bead.in_time else " THE FILE CLOSES IT LATER: one face does not stick."
    yield from wrapped(
        f"{bead.material}, pressed to {mm(bead.thickness)} thick and {mm(bead.width)} wide. At "
        f"{celsius(bead.temperature)} close the joint within {span(bead.close_within)}.{late} It "
        f"has cured through after {span(bead.full)}.", 2, width=width,
    )  # fmt: skip
    at = ", ".join(f"{span(seconds)} at {celsius(kelvin)}" for kelvin, seconds in bead.full_at)
    yield from wrapped(f"Full cure: {at}.", 2, width=width)
    yield f"    {'cured for':<14}{'stands cold':>14}{'of all':>9}"
    others = [worth for worth in bead.worth if worth.seconds != bead.now.seconds]
    for worth in sorted([bead.now, *others], key=lambda one: one.seconds):
        yield _worth(worth, "  (the file's)" if worth is bead.now else "")


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
