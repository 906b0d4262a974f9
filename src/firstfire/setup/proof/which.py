"""Which test piece narrows the verdict most, by the one ordering of what is uncertain."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from firstfire.engine.grammar import split
from firstfire.setup.proof.coupon import Coupon
from firstfire.verdict.doubt.doubt import Doubts, Worth, doubts
from firstfire.verdict.doubt.words import decided, sentence
from firstfire.verdict.result import Result


class Narrows(NamedTuple):
    """What one test piece takes away of the doubt.

    Attributes
    ----------
    coupon
        Which.
    place
        Among all readings that are worth taking, from 1; None where it isn't worth one.
    words
        How much it decides.
    """

    coupon: Coupon
    place: int | None
    words: str


class Which(NamedTuple):
    """What to read first of all, and where the test pieces stand."""

    first: str
    pieces: tuple[Narrows, ...]


def which_first(
    result: Result, coupons: Sequence[Coupon], stop: Callable[[], bool] | None = None
) -> Which:
    """Test pieces by what they take away of the doubt, most first.

    Parameters
    ----------
    result
        Of a check, with its engines drawn.
    coupons
        Of the same engine.
    stop
        Asked every 0.05 s.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    """
    found = doubts(result, stop)
    pieces = [_narrows(found, one) for one in coupons]
    last = len(found.worth_it) + 1
    pieces.sort(key=lambda one: last if one.place is None else one.place)
    return Which(sentence(found), tuple(pieces))


def _narrows(found: Doubts, coupon: Coupon) -> Narrows:
    for place, worth in enumerate(found.worth_it, 1):
        if _tells(worth, coupon.path):
            return Narrows(coupon, place, decided(worth.told))
    return Narrows(coupon, None, "less than 1 in 100 of any doubt")


def _tells(worth: Worth, path: str) -> bool:
    return any(split(span.path)[1] == path for span in worth.spans)
