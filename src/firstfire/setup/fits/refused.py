"""Fits that crack what they are pressed into: refused where the file says them."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.errors import EngineFileError, FirstfireError, Problem
from firstfire.setup.fits.all_seats import all_seats
from firstfire.setup.fits.seat import SeatFit

_STEP = 0.01e-3
_MPA = 1e6


def refuse_cracked(engine: Engine, seats: Sequence[SeatFit]) -> None:
    """Refuse fits that crack a part, each with the nearest that doesn't.

    Raises
    ------
    EngineFileError
        With all of them, where the file, a layer or a trial says them; a rule of thumb is only
        told of.
    """
    problems = []
    for seat in seats:
        if not seat.path or not (_beyond(seat) or (seat.pressing and seat.pressing.cracks)):
            continue
        number = int(seat.id.rpartition("-")[2]) if seat.id[-2:-1] == "-" else 1
        values = engine.values(number)
        if not values.said(seat.path):
            continue
        said = values.spoken(seat.path)
        works = _nearest(engine, seat, said.path)
        problems.append(
            Problem(
                said.path,
                f"is {said.written}: the {seat.pin} pressed into its {seat.hub} {_does(seat)}",
                f'{said.path} = "{1e3 * works:.2f} mm" holds.' if works is not None
                else "No press fit holds in so thin a wall: thicken it, or bond the seat.",
                said.line,
            )
        )  # fmt: skip
    if problems:
        raise EngineFileError(engine.where, problems)


def _beyond(seat: SeatFit) -> bool:
    """Whether it is so tight that no law of pressed fits holds: long before, a hub has given way.

    What isn't judged for another reason, a row without a number, is no fault of the fit.
    """
    return (
        seat.pressing is None and bool(seat.why_not) and (seat.tight or 0.0) > _LAW * seat.nominal
    )


_LAW = 0.05
"""Of the diameter: beyond it a hub answers with no small elastic strain."""


def _does(seat: SeatFit) -> str:
    if seat.pressing is None:
        share = (seat.tight or 0.0) / seat.nominal
        return f"stretches it by {100 * share:.1f} %, and none bears 5"
    return (
        f"brings the {seat.pressing.what} to {seat.pressing.stress / _MPA:.3g} MPa, and it bears "
        f"{seat.pressing.bears / _MPA:.3g} for a night"
    )


def _nearest(engine: Engine, seat: SeatFit, path: str) -> float | None:
    """The tightest fit in steps of a hundredth of a millimetre that doesn't crack it, m."""
    low, high = 0, int((seat.tight or 0.0) / _STEP)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if _cracks(engine, seat, path, middle) else (middle, high)
    return low * _STEP if low else None


def _cracks(engine: Engine, seat: SeatFit, path: str, steps: int) -> bool:
    """Whether a fit of so many hundredths cracks the part."""
    try:
        tried = with_values(engine, {path: f"{steps * _STEP * 1e3:.2f} mm"})
    except FirstfireError:
        return True
    found = all_seats(resolve(tried), tried.catalog)
    same = next((one for one in found if one.id == seat.id), None)
    return same is None or same.pressing is None or same.pressing.cracks
