"""Whether something one has at hand can serve in this engine, and what it would change."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal

from firstfire.catalog import Catalog, Row, kinds
from firstfire.catalog.names import nearest
from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import CatalogError, EngineFileError, FirstfireError
from firstfire.setup import have_places as places
from firstfire.setup.have_places import Offer
from firstfire.verdict.check import check
from firstfire.verdict.compare.compare import Column, Pair, Shift, side_by_side
from firstfire.verdict.compare.words import factor_change, figure_change
from firstfire.verdict.facts.differences import Difference, differences
from firstfire.verdict.words.sentences import listed

Word = Literal["serves", "serves if", "can't"]
Progress = Callable[[str, float], None]

OFFERS: Mapping[str, Callable[[Engine, PlainEngine, Row], Iterator[Offer]]] = {
    "bearing": places.bearing,
    "oring": places.oring,
    "tube": places.tube,
    "thread": places.thread,
    "insert": places.insert,
    "belt": places.belt,
    "starter": places.starter,
    "fuel": places.fuel,
}
"""Kinds of rows that one can have at hand, and where each may go."""

_MOST = 3
_SCREW = re.compile(r"^\s*(M\d+(?:\.\d+)?)\s*[x×]\s*(\d{1,3})\s*(?:mm)?\s*$", re.IGNORECASE)
"""A screw with its length in millimetres."""
_NEAR = 6.0
"""Factor above which a way to fail is not told unless its word changes."""


@dataclass(frozen=True)
class Fitting:
    """What a catalog row would do in one place of an engine.

    Attributes
    ----------
    row
        What one has.
    place, path
        Where it would go, in words and in the engine file.
    word
        Whether it can serve there.
    set
        What to set for it, as ``--set`` takes it; empty where nothing changes.
    why
        Why it can or can't, as a sentence without full stop.
    follows
        What of the engine then changes, beyond what was set.
    judged
        What became of the judgements, in sentences; None where nothing was run.
    """

    row: Row
    place: str
    path: str
    word: Word
    set: Mapping[str, str]
    why: str
    follows: tuple[Difference, ...] = ()
    judged: str | None = None
    trial: Engine | None = field(default=None, repr=False)


def named_rows(rows: Catalog, name: str) -> tuple[Row, ...]:
    """Every row that goes by a name, over all kinds that one can have at hand.

    A kind may stand before it: *insert M5*, where *M5* alone is a thread too.

    Raises
    ------
    FirstfireError
        Where there is none, with the nearest names; or where it is of a kind that isn't fitted.
    """
    head, _, rest = name.strip().partition(" ")
    asked = (head.lower(),) if head.lower() in OFFERS and rest else tuple(OFFERS)
    wanted = rest if len(asked) == 1 else name
    found = [row for kind in asked for row in _rows_called(rows, kind, wanted)]
    if found:
        return tuple(found)
    for kind in kinds():
        if kind not in OFFERS and any(_rows_called(rows, kind, name)):
            raise FirstfireError(
                f'--have "{name}" is a row of the kind {kind}, which is not fitted here. --have '
                f"takes {listed(list(OFFERS))}; try a material with --set, like "
                "--set piston.material=petg."
            )
    raise FirstfireError(f'--have "{name}" is nothing the catalog has. {_near(rows, wanted)}')


def _rows_called(rows: Catalog, kind: str, name: str) -> Iterator[Row]:
    try:
        yield rows.row(kind, name)
    except CatalogError:
        return


def _near(rows: Catalog, name: str) -> str:
    called: dict[str, str] = {}
    for kind in OFFERS:
        for row in rows.rows(kind):
            for other in (row.key, row.name, *row.aliases):
                called.setdefault(other, f"{kind} {row.key}")
    close = list(dict.fromkeys(called[n] for n in nearest(name, called, most=12, alike=0.5)))[:3]
    hint = f"Nearest: {', '.join(close)}. " if close else ""
    return f"{hint}`firstfire catalog` lists kinds, `firstfire catalog bearing` the bearings."


def fittings(engine: Engine, names: Sequence[str]) -> tuple[Fitting, ...]:
    """For each thing at hand and each place it may go whether it can serve there; nothing is run.

    Parameters
    ----------
    engine
        As written down.
    names
        Names of catalog rows.

    Raises
    ------
    FirstfireError
        With every name that is no row, at once.
    """
    plain, refusals = resolve(engine), []
    found: list[Fitting] = []
    for name in names:
        try:
            for row, offers in _offers(engine, plain, name):
                found += [_fitting(engine, plain, row, offer) for offer in offers]
        except FirstfireError as why:
            refusals.append(str(why))
    if refusals:
        raise FirstfireError("\n".join(dict.fromkeys(refusals)))
    return tuple(found)


def _offers(engine: Engine, plain: PlainEngine, name: str) -> Iterator[tuple[Row, Iterator[Offer]]]:
    """Every row of a name with its places; a screw may be named with its length, *M5x80*."""
    try:
        for row in named_rows(engine.catalog, name):
            yield row, OFFERS[row.kind](engine, plain, row)
    except FirstfireError:
        written = _SCREW.match(name)
        rows = list(_rows_called(engine.catalog, "thread", written[1])) if written else []
        if written is None or not rows:
            raise
        yield rows[0], places.screw(engine, plain, rows[0], float(written[2]) / 1e3)


def _fitting(engine: Engine, plain: PlainEngine, row: Row, offer: Offer) -> Fitting:
    """The offer tried: refused where the engine so changed is impossible."""
    made = Fitting(row, offer.place, offer.path, "can't", {}, offer.why)
    if offer.refused:
        return made
    if not offer.set:
        return replace(made, word="serves")
    try:
        trial = with_values(engine, offer.set, origin=f"{row.name} at hand")
    except EngineFileError as refusal:
        told = "; ".join(f"{p.path} {p.fault}" for p in refusal.problems)
        return replace(made, why=f"the engine is then impossible: {told}")
    changed = differences([engine, trial], [plain, resolve(trial)])
    follows = tuple(d for d in changed if d.path not in offer.set)
    word: Word = "serves" if offer.as_it_is else "serves if"
    return Fitting(row, offer.place, offer.path, word, offer.set, offer.why, follows, trial=trial)


def judged(
    engine: Engine,
    found: Sequence[Fitting],
    *,
    stop: Callable[[], bool] | None = None,
    on_progress: Progress | None = None,
) -> tuple[Fitting, ...]:
    """The fittings with what each does to the judgements: engine and trials are really checked.

    Parameters
    ----------
    engine
        As written down.
    found
        From `fittings`.
    stop, on_progress
        As `firstfire.check` takes them.
    """
    centre = resolve(engine).sha256
    trials = [f for f in found if f.trial is not None and resolve(f.trial).sha256 != centre]
    if not trials:
        return tuple(replace(f, judged=_unmoved(f)) for f in found)
    count = len(trials) + 1
    base = Column(
        "A", engine.name, engine,
        check(engine, stop=stop, on_progress=_share(on_progress, engine.name, 0, count)),
    )  # fmt: skip
    told: dict[int, str] = {}
    for place, fitting in enumerate(trials, start=1):
        assert fitting.trial is not None  # chosen so above
        tell = _share(on_progress, f"with {fitting.row.key}", place, count)
        result = check(fitting.trial, stop=stop, on_progress=tell)
        pair = side_by_side([base, Column("B", fitting.row.key, fitting.trial, result)]).pairs[0]
        told[id(fitting)] = _came_of_it(pair)
    return tuple(replace(f, judged=told.get(id(f), _unmoved(f))) for f in found)


def _unmoved(fitting: Fitting) -> str | None:
    return None if fitting.word == "can't" else "Nothing that is judged changes."


def _share(told: Progress | None, label: str, place: int, count: int) -> Progress | None:
    if told is None:
        return None

    def tell(what: str, share: float) -> None:
        told(f"{label}: {what}" if what else label, (place + min(share, 1.0)) / count)

    return tell


def _came_of_it(pair: Pair) -> str:
    """What moved most, in sentences: changed words first, then the largest steps of a factor."""
    if pair.overall == "alike":
        return "Run through: nothing that is judged changes beyond rounding."
    head = {
        "better": "Run through: nothing got worse.",
        "worse": "Run through: nothing got better.",
    }.get(pair.overall, "Run through: some got better, some worse.")
    parts = [head]
    for word, shifts in (("Worse", pair.worse), ("Better", pair.better)):
        most = _moved_most(shifts)
        told = [f"{f.name} {figure_change(f)}" for f in pair.figures if f.sense == word.lower()]
        told += [
            f"{c.name} after {figure_change(c)} of full throttle"
            for c in pair.clocks
            if c.sense == word.lower()
        ][:2]
        told += [f"{s.name} {factor_change(s)}{_new_word(s)}" for s in most[:_MOST]]
        more = f"; and {len(most) - _MOST} more ways to fail" if len(most) > _MOST else ""
        if told:
            parts.append(f"{word}: {'; '.join(told)}{more}.")
    if pair.new:
        new = list(dict.fromkeys(s.name for s in pair.new))
        parts.append(f"Judged anew: {listed(new[:_MOST])}.")
    return " ".join(parts)


def _moved_most(shifts: Sequence[Shift]) -> list[Shift]:
    """Each way to fail once, where it is worst; those near failing, the largest step first."""
    once: dict[str, Shift] = {}
    for shift in sorted(shifts, key=lambda s: (not _new_word(s), s.least)):
        if _new_word(shift) or shift.least < _NEAR:
            once.setdefault(shift.name, shift)
    return sorted(once.values(), key=lambda s: (not _new_word(s), -_step(s)))


def _step(shift: Shift) -> float:
    """How far a factor moved, as the size of its logarithm."""
    old, new = (m.factor if m is not None else None for m in (shift.before, shift.after))
    if not old or not new:
        return math.inf
    return abs(math.log(min(new, 1e6) / min(old, 1e6)))


def _new_word(shift: Shift) -> str:
    if shift.before is None or shift.after is None or shift.before.word == shift.after.word:
        return ""
    return f" (now {shift.after.word})"
