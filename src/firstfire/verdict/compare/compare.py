"""Engines side by side: what differs between them, and what that did."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from firstfire.engine.engine import Engine
from firstfire.errors import Stopped
from firstfire.verdict.check import check
from firstfire.verdict.compare.contract import comparison_json
from firstfire.verdict.compare.pairs import pair
from firstfire.verdict.compare.records import Column, Figure, Pair, Sense, Shift, SideBySide
from firstfire.verdict.compare.text import compare_text
from firstfire.verdict.facts.differences import differences
from firstfire.verdict.result import Result

Progress = Callable[[str, float], None]

__all__ = [
    "Column", "Comparison", "Figure", "Pair", "Sense", "Shift", "compare", "letter",
    "side_by_side",
]  # fmt: skip


@dataclass(frozen=True)
class Comparison(SideBySide):
    """Engines side by side; all that `SideBySide` has, and the ways to tell it."""

    def __str__(self) -> str:
        """The comparison as text of 80 columns."""
        return compare_text(self)

    def to_json(self) -> str:
        """The comparison as JSON text, schema ``firstfire.compare/1``."""
        return comparison_json(self)


def compare(
    engines: Sequence[tuple[str, Engine]],
    *,
    printed_masses: Sequence[float | None] | None = None,
    stop: Callable[[], bool] | None = None,
    on_progress: Progress | None = None,
) -> Comparison:
    """Check every engine and set them side by side.

    Parameters
    ----------
    engines
        What to call each, and the engine; two or more.
    printed_masses
        Mass of each one's printed parts, kg, where known.
    stop
        Asked at least every 0.1 s; true stops with `Stopped`.
    on_progress
        Told which engine is being checked, and the share of all that is done.

    Raises
    ------
    ValueError
        With fewer than two engines.
    Stopped
        If ``stop`` said so; its ``partial`` is the comparison of those that were finished, the
        result of the only one, or what the first had finished.
    OutsideValidity
        Where not even the geometry of one can be answered.
    """
    if len(engines) < 2:
        raise ValueError("a comparison is of two engines or more")
    masses = printed_masses or [None] * len(engines)
    done: list[tuple[Engine, Result]] = []
    for place, (label, engine) in enumerate(engines):
        telling = _telling(on_progress, label, place, len(engines))
        again = next((result for known, result in done if _same_words(known, engine)), None)
        try:
            result = again or check(engine, stop=stop, on_progress=telling)
        except Stopped as halted:
            finished = _finished(engines, done, masses) if done else halted.partial
            raise Stopped(str(halted), finished) from None
        done.append((engine, replace(result, engine=engine)))
    return side_by_side(_columns(engines, done, masses))


def _columns(
    engines: Sequence[tuple[str, Engine]],
    done: Sequence[tuple[Engine, Result]],
    masses: Sequence[float | None],
) -> tuple[Column, ...]:
    """Those that are done."""
    return tuple(
        Column(letter(place), engines[place][0], engine, result, masses[place])
        for place, (engine, result) in enumerate(done)
    )


def _finished(
    engines: Sequence[tuple[str, Engine]],
    done: Sequence[tuple[Engine, Result]],
    masses: Sequence[float | None],
) -> Comparison | Result:
    """What a stopped comparison had finished: of those that are done, or the only one's result."""
    if len(done) == 1:
        return done[0][1]
    return side_by_side(_columns(engines, done, masses))


def side_by_side(columns: Sequence[Column]) -> Comparison:
    """The comparison of engines that were checked already; pure, no gas."""
    first = columns[0]
    return Comparison(
        columns=tuple(columns),
        differences=differences(
            [c.engine for c in columns], [c.result.plain for c in columns]
        ),
        pairs=tuple(pair(first, other) for other in columns[1:]),
    )  # fmt: skip


def letter(place: int) -> str:
    """A for the first, B for the second."""
    return chr(ord("A") + place)


def _telling(told: Progress | None, label: str, place: int, count: int) -> Progress | None:
    if told is None:
        return None

    def tell(what: str, share: float) -> None:
        told(f"{label}: {what}" if what else label, (place + min(share, 1.0)) / count)

    return tell


def _same_words(a: Engine, b: Engine) -> bool:
    """Whether two engines say the same of everything, so that one check does for both."""
    return (
        a.sha256 == b.sha256
        and a.catalog == b.catalog
        and [(x.name, x.entries) for x in a.stack.layers]
        == [(x.name, x.entries) for x in b.stack.layers]
    )
