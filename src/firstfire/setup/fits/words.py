"""Fits in words."""

from __future__ import annotations

import math

from firstfire.setup.fits.facts import FitsFacts
from firstfire.setup.fits.rings import RingFit
from firstfire.setup.fits.seat import SeatFit
from firstfire.setup.words import percent
from firstfire.verdict.numbers import THIN, figures, shown

CAUTION = (
    "Everything here is an estimate. Press with a vice or a threaded rod, never by hammer, eyes "
    "covered: a printed hub splits without warning. Tighten with the engine cold, its spark and "
    "fuel off."
)
PIN_FIT = "how much larger the pin is than its hole"
NEVER = 673.0
"""K: beyond, no joint of these engines lives to let go by growing."""
_KILO = 1000.0
_SAME = 1e-6


def opening(found: FitsFacts) -> str:
    """How many seats, and which lets go first as it warms."""
    many = len(found.seats)
    said = f"{found.engine.name}: {many} seats and pins."
    loose = [(frees(one), one) for one in found.seats if one.pressing and frees(one) is not None]
    if loose:
        at, first = min(loose, key=lambda pair: pair[0] or math.inf)
        said += (
            f" First to let go as it warms: {first.pin} in {first.hub}, at "
            f"{celsius(at)}, both as warm."
        )
    cracked = [one for one in found.seats if one.pressing and one.pressing.cracks]
    for one in cracked:
        said += f" The {one.pin}'s fit cracks its {one.hub}: make it looser."
    return said


def frees(seat: SeatFit) -> float | None:
    """Where a press fit has let go, K; None where it never does while its parts live."""
    fit = seat.pressing
    if fit is None or fit.frees is None or fit.frees > NEVER:
        return None
    return fit.frees


def celsius(kelvin: float | None) -> str:
    """A temperature, to a degree."""
    return "–" if kelvin is None else shown(kelvin, "degC", 2 if kelvin < 373.15 else 3)


def force(newton: float | None) -> str:
    """A force in N or kN."""
    if newton is None:
        return "–"
    return shown(newton, "kN", 2) if newton >= _KILO else shown(newton, "N", 2)


def tight(metres: float | None) -> str:
    """How a pin sits: *0.02 tight*, *0.04 play*, *slides*."""
    if metres is None:
        return "by class"
    if abs(metres) < 5e-7:
        return "slides"
    return f"{round(1e3 * abs(metres), 3):g} {'tight' if metres > 0 else 'play'}"


def drawn_words(seat: SeatFit) -> str:
    """What to draw: *hole 12.18*."""
    sides = (("hole", seat.drawn.hole), ("pin", seat.drawn.shaft))
    return ", ".join(f"{name} {1e3 * size:.2f}" for name, size in sides if size is not None) or "–"


def classes(seat: SeatFit) -> str:
    """Both tolerance classes."""
    return "/".join(filter(None, (seat.hole, seat.shaft))) or "–"


def more_words(seat: SeatFit) -> str:
    """What stands below a seat: how to make it, and what pressing does."""
    said = [seat.how]
    play, fit = seat.play, seat.pressing
    if play is not None:
        said.append(f"by class {_play(play.least)} to {_play(play.most)}")
    if fit is not None:
        said.append(
            f"the {fit.what} feels {shown(fit.stress, 'MPa', 2)} of {shown(fit.bears, 'MPa', 2)}"
            + (": its bore yields a little, which caps its grip" if fit.yields else "")
            + (": IT CRACKS" if fit.cracks else "")
        )
        if fit.night < 0.995:
            said.append(f"a night leaves {percent(fit.night)} of its grip")
        if fit.softens is not None:
            said.append(f"half of its strength is left at {celsius(fit.softens)}")
    if seat.why_not:
        said.append(f"pressing is not judged: {seat.why_not}")
    if seat.drawn.words:
        said.append(seat.drawn.words)
    return "; ".join(part.rstrip(".") for part in said) + "."


def _play(metres: float) -> str:
    """A clearance as classes make it: *0.003 mm tight*."""
    side = "play" if metres >= 0 else "tight"
    return f"{1e3 * abs(metres):.3f} mm {side}"


def fine(metres: float) -> str:
    """A length to a hundredth of a millimetre."""
    return f"{1e3 * metres:.2f}{THIN}mm"


def habit_words(found: FitsFacts) -> list[str]:
    """What the readings say of the printer."""
    said = []
    for one in found.habits:
        what = "holes" if one.kind == "hole" else "outsides"
        size = "small" if one.error < 0 else "large"
        scatter = "" if one.scatter is None else f", {fine(one.scatter)} from print to print"
        said.append(
            f"Your printer's {what} come out {fine(abs(one.error))} {size} "
            f"({1e3 * one.low:+.2f} to {1e3 * one.high:+.2f} mm, 5-95{THIN}%; "
            f"{one.count} read{scatter}).".replace("-0.", "−0.")
        )
    return said or [
        f"Not measured: holes are taken to come out {_signed(found.plain.printing.hole_error)} mm, "
        f"outsides {_signed(found.plain.printing.shaft_error)} mm (rules of thumb, or your file). "
        "Print the gauge (the folder's pieces/hole-gauge, or --draw FOLDER) and say what you read: "
        "firstfire fits FILE --measured \"hole 12=11.82 mm\" -o printer.toml."
    ]  # fmt: skip


def _signed(metres: float) -> str:
    return f"{1e3 * metres:+.2f}".replace("-", "−")


def ring_words(ring: RingFit | None) -> str:
    """The file's rings in the bore."""
    if ring is None:
        return "It has no rings."
    if ring.squeeze is not None:
        low, high = (percent(share, 1) for share in ring.squeeze)
        span = low if low == high else f"{low} in the widest place, {high} in the narrowest"
        word = "within" if ring.works else "OUTSIDE"
        return (
            f"{ring.number} O-ring{'s' * (ring.number > 1)}: squeeze {span} ({word} the handbooks' "
            f"5 to 18{THIN}%), stretch {percent(ring.stretch or 0, 1)}, fills "
            f"{percent(ring.fill or 0)} of its groove (60 to 85{THIN}%), {fine(ring.side)} of side "
            "clearance."
        )
    least, most = ring.gap or (0.0, 0.0)
    span = fine(least) if most - least < _SAME else f"{fine(least)} to {fine(most)}"
    butts = "" if ring.butts_at is None else (
        f"; its ends meet {figures(ring.butts_at, 2)} K warmer, bore and ring alike"
    )  # fmt: skip
    return (
        f"{ring.number} split ring{'s' * (ring.number > 1)}: gap {span} cold{butts}; "
        f"{fine(ring.side)} of side clearance."
    )
