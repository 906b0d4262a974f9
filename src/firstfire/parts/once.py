"""What several judgements of one moment share is reckoned once.

Nothing is remembered beyond the moment itself: the same moment gives the same answer, whether it
was kept or not.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import TypeVar
from weakref import ref

from firstfire.engine.moment import Moment

Answer = TypeVar("Answer")


def once(reckon: Callable[[Moment], Answer]) -> Callable[[Moment], Answer]:
    """Keep the answer for the moment asked last, as long as that moment is alive."""
    kept: list[tuple[ref[Moment], Answer]] = []

    @wraps(reckon)
    def asked(moment: Moment) -> Answer:
        for last, answer in kept:
            if last() is moment:
                return answer
        answer = reckon(moment)
        kept[:] = [(ref(moment), answer)]
        return answer

    return asked
