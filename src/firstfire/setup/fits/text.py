"""Fits on the terminal: what sits where, what to draw, what to set."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from firstfire.setup.fits import words
from firstfire.setup.fits.bore import HOW
from firstfire.setup.fits.facts import CylinderFits, FitsFacts
from firstfire.setup.fits.text_torques import sealant_lines, torque_lines
from firstfire.setup.words import bare_mm, by, mm, percent
from firstfire.verdict.numbers import figures, shown
from firstfire.verdict.words.text.lines import WIDTH, heading, wrapped

_TOLD = 5e-6
_NAME = 26


def fits_text(found: FitsFacts, *, width: int = WIDTH) -> str:
    """All of it as text."""
    lines = wrapped(words.opening(found), width=width)
    lines += [*heading("Seats and pins, mm"), *_seats(found, width=width)]
    lines += [*heading("Your printer")]
    for said in words.habit_words(found):
        lines += wrapped(said, 2, width=width)
    lines += [*heading("Bore and rings"), *_bores(found, width=width)]
    lines += [*heading("Clearances, mm"), *_clearances(found, width=width)]
    lines += [*heading("Cam belt"), *_belt(found, width=width)]
    lines += [*heading("Torques"), *torque_lines(found.torques, width=width)]
    if found.sealant is not None:
        lines += [*heading("Sealant"), *sealant_lines(found.sealant, width=width)]
    return "\n".join([*lines, "", *wrapped(words.CAUTION, width=width)])


def _seats(found: FitsFacts, *, width: int) -> Iterator[str]:
    yield f"  {'':<26}{'size':>6} {'class':<8}{'sits':<12}{'draw':<11}{'press':>6}{'free':>6}"
    for seat in found.seats:
        name = f"{seat.pin} in {seat.hub}" + (f" ×{seat.count}" if seat.count > 1 else "")
        fit, frees = seat.pressing, words.frees(seat)
        pressed = "–" if fit is None else figures(fit.force / 1000, 2)
        free = "–" if frees is None else f"{frees - 273.15:.0f}"
        first, *rest = words.drawn_words(seat).split(", ")
        if len(name) > _NAME:
            yield f"  {name}"
            name = ""
        yield (
            f"  {name:<{_NAME}}{bare_mm(seat.nominal):>6} {words.classes(seat):<8}"
            f"{words.tight(seat.tight):<12}{first:<11}{pressed:>6}{free:>6}"
        )
        yield from (f"{'':<55}{more}" for more in rest)
        yield from wrapped(words.more_words(seat), 4, width=width)
    yield from wrapped(
        "press: force to press it home, kN. free: °C at which it no longer grips, pin and hub as "
        "warm; – never by growing. draw: for a print, so that it comes out right.", 2, width=width,
    )  # fmt: skip


def _bores(found: FitsFacts, *, width: int) -> Iterator[str]:
    if all(one.bore is None for one in found.cylinders):
        yield from wrapped(f"{HOW} Say each: --measured \"bore top along=39.96 mm\".", 2,
                           width=width)  # fmt: skip
    first, *others = found.cylinders
    yield from _bore(found, first, width=width)
    for one in others:
        if replace(one, number=1) == first:
            yield from wrapped(f"Cylinder {one.number}: the same.", 2, width=width)
        else:
            yield from _bore(found, one, width=width)


def _bore(found: FitsFacts, one: CylinderFits, *, width: int) -> Iterator[str]:
    whose = f"Cylinder {one.number}: " if len(found.cylinders) > 1 else ""
    bore = one.bore
    if bore is not None:
        mean, least, most = map(words.fine, (bore.mean, bore.least, bore.most))
        said = f"{whose}bore {mean}, {least} to {most}"
        said += "" if bore.oval is None else f", oval by {words.fine(bore.oval)}"
        taper = bore.taper
        if taper is not None and abs(taper) >= _TOLD:
            said += (
                f", {words.fine(abs(taper))} {'wider' if taper > 0 else 'narrower'} at the bottom"
            )
        yield from wrapped(f"{said}.", 2, width=width)
        if bore.missing:
            yield from wrapped(f"Not read: {', '.join(bore.missing)}.", 2, width=width)
    yield from wrapped(f"{whose}{words.ring_words(one.ring)}", 2, width=width)
    if one.suits:
        yield f"  {'O-ring for that bore':<22}{'free':<17}{'groove':>8}{'deep':>6}{'wide':>6}" \
            f"{'stretch':>9}{'as drawn':>10}"  # fmt: skip
    for ring in one.suits:
        drawn = "–" if ring.as_drawn is None or ring.as_drawn < 0 else percent(ring.as_drawn)
        yield (
            f"  {ring.name:<22}{by(ring.inside, ring.section):<17}{1e3 * ring.groove:>8.2f}"
            f"{1e3 * ring.depth:>6.2f}{1e3 * ring.width:>6.2f}{percent(ring.stretch, 1):>9}"
            f"{drawn:>10}"
        )
    if one.suits:
        wanted = percent(one.suits[0].squeeze)
        yield from wrapped(
            f"Groove (floor's diameter, depth, width) for {wanted} of squeeze in that bore; as "
            "drawn: squeeze on the groove that the file has.", 2, width=width,
        )  # fmt: skip


def _clearances(found: FitsFacts, *, width: int) -> Iterator[str]:
    yield f"  {'':<42}{'file':>7}{'should be':>16}"
    for one in found.clearances:
        filed = "–" if one.as_filed is None else f"{1e3 * one.as_filed:.2f}"
        span = f"{1e3 * one.least:.2f} to {1e3 * one.most:.2f}"
        mark = "" if one.within else "  <"
        yield f"  {one.what:<42}{filed:>7}{span:>16}{mark}"
        yield from wrapped(f"{one.how}.", 4, width=width)


def _belt(found: FitsFacts, *, width: int) -> Iterator[str]:
    for said in belt_words(found):
        yield from wrapped(said, 2, width=width)


def belt_words(found: FitsFacts) -> Iterator[str]:
    """How tight the belt is set, three ways."""
    belt = found.belt
    if belt is None:
        yield f"The belt's tension is not told: {found.no_belt}."
        return
    each = " of each belt" if belt.belts > 1 else ""
    note = belt.note
    cents = f"{abs(note.cents):.0f} cents {'above' if note.cents >= 0 else 'below'} {note.name}"
    yield (
        f"Tension {shown(belt.tension, 'N')} in each span{each}: pull the loose wheel away with "
        f"{shown(belt.wheel_pull, 'N')} ({figures(belt.wheel_pull / 9.80665, 2)} kg on a luggage "
        "scale) and fix it."
    )
    yield (
        f"Or press the middle of a span of {mm(belt.span)} with {shown(belt.press, 'N', 2)}: it "
        f"gives {mm(round(belt.gives, 4))}."
    )
    doubt = "" if belt.trusted else " The span is so short that its stiffness raises the pitch."
    yield (
        f"Or pluck it: {figures(belt.pitch)} Hz ({figures(belt.low)} to {figures(belt.high)} by "
        f"what a belt weighs), {cents} ({figures(note.frequency)} Hz).{doubt}"
    )
