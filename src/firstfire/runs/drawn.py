"""Whole engines drawn from what is uncertain: every input at once, scatter piece by piece.

A design of the Latin kind: each input's range is cut into as many equal chances as there are
engines, and each engine gets another one of them. What an input is drawn as follows from its name
alone, so that the same file gives the same draws wherever it is checked, and two files that differ
in one thing are drawn alike in all others: what is then told of them is their difference, and not
that of two draws.

References
----------
M. D. McKay and others, *Technometrics* 21, 1979, 239-245 (Latin hypercube sampling).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from statistics import NormalDist
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

import numpy as np

from firstfire.engine.events import EVENTS
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.engine.unknowns import Unknown
from firstfire.formulas.normal import NINETY
from firstfire.parts.all import JUDGEMENTS
from firstfire.runs.bout import Bout
from firstfire.runs.hands import Stop, shared_out
from firstfire.runs.moved import Trials, value_at
from firstfire.runs.uneven import TURN

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

SCATTER = "doubt.strength_scatter"
"""Drawn for each piece: what one printed part has is no news of the next."""

MIXTURE_AT_START = 0.35
"""Half width, 5-95 %, of the mixture at a first combustion: 0.7 to 1.4 about 1.05."""

SPEED = "speed before top"
SPEED_SPREAD = 1.24
"""Torque and speed of a starter, a standard deviation up: a tired one, 1 in 20, has 0.7 of its own
(`runs/start/kick_back.py`; common practice, no source)."""


@dataclass(frozen=True)
class Draw:
    """One engine drawn, as places in standard deviations.

    Attributes
    ----------
    shared
        By path of an unknown, and ``speed before top`` and ``which cylinder breathes``.
    pieces
        Of the scatter of strength, by piece.
    """

    shared: Mapping[str, float]
    pieces: Mapping[str, float]


SEED = 20
"""Of every check: engines that are compared share their draws (common random numbers)."""


def piece_of(way: str) -> str:
    """The piece that a way to fail ends, by the way's id: the printed part it is cut from.

    Examples
    --------
    >>> piece_of("piston.crown.break#2"), piece_of("pin.bend")
    ('piston#2', 'pin')
    """
    base, mark, number = way.partition("#")
    return base.split(".")[0] + mark + number


def pieces(cylinders: int) -> tuple[str, ...]:
    """Every piece of an engine of so many cylinders."""
    each = sorted({piece_of(judge.failure.id) for judge in JUDGEMENTS})
    more = [f"{piece}#{number}" for number in range(2, cylinders + 1) for piece in each]
    return (*each, *more)


def drawn(trials: Trials, count: int, seed: int) -> tuple[Draw, ...]:
    """So many engines, drawn.

    Parameters
    ----------
    trials
        The engine's unknowns.
    count, seed
        How many; what they follow from.
    """
    names = [u.path for u in trials.unknowns if u.path != SCATTER] + [SPEED, TURN]
    each = pieces(len(trials.centre.cylinders))
    shares = strata(count, [*names, *(f"{SCATTER} of {piece}" for piece in each)], seed)
    places = _deviations(shares)
    for column, unknown in enumerate(u for u in trials.unknowns if u.path != SCATTER):
        if unknown.distribution == "loguniform":  # spans exactly from low to high
            places[:, column] = NINETY * (2.0 * shares[:, column] - 1.0)
    first = len(names)
    return tuple(
        Draw(
            dict(zip(names, row[:first].tolist(), strict=True)),
            dict(zip(each, row[first:].tolist(), strict=True)),
        )
        for row in places
    )


def strata(count: int, names: Sequence[str], seed: int) -> Floats:
    """A Latin hypercube: in each column one number in each of `count` equal shares of 0 to 1.

    A name gets the same column whatever other names there are.

    Examples
    --------
    >>> sorted((strata(4, ["leak.ring"], 7)[:, 0] * 4).astype(int).tolist())
    [0, 1, 2, 3]
    """
    found = np.empty((count, len(names)))
    for column, name in enumerate(names):
        random = np.random.default_rng([seed, *name.encode()])
        found[:, column] = (random.permutation(count) + random.random(count)) / count
    return found


def _deviations(shares: Floats) -> Floats:
    normal = NormalDist()
    flat = [normal.inv_cdf(min(max(s, 1e-12), 1 - 1e-12)) for s in shares.ravel().tolist()]
    return np.array(flat).reshape(shares.shape)


def unknowns_of(trials: Trials, bout: Bout) -> tuple[Unknown, ...]:
    """The unknowns as wide as they are at a bout."""
    known = trials.for_bout(bout)
    if not EVENTS[bout.point.event].once:
        return known
    return tuple(
        replace(u, low=u.centre - MIXTURE_AT_START, high=u.centre + MIXTURE_AT_START)
        if u.path == "intake.equivalence_ratio"
        else u
        for u in known
    )


def engine_at(trials: Trials, unknowns: Sequence[Unknown], draw: Draw) -> PlainEngine:
    """The engine of one draw, all its unknowns moved at once; scatter is still to come."""
    return resolve(
        trials.engine,
        {u.path: value_at(u, draw.shared[u.path]) for u in unknowns if u.path != SCATTER},
        as_built=True,
    )


def engines(trials: Trials, draws: Sequence[Draw], stop: Stop | None = None) -> list[PlainEngine]:
    """The engine of every draw, each with its unknowns as wide as at a cold start.

    Kept with the trials, since every event asks for the same.
    """
    kept = _KEPT.get(trials)
    if kept is None or len(kept) != len(draws):
        kept = shared_out(
            lambda number: engine_at(trials, trials.unknowns, draws[number]), len(draws), stop=stop
        )
        _KEPT[trials] = kept
    return kept


_KEPT: WeakKeyDictionary[Trials, list[PlainEngine]] = WeakKeyDictionary()


def by_piece(plain: PlainEngine, unknowns: Sequence[Unknown], draw: Draw) -> dict[str, PlainEngine]:
    """For each piece, the engine with that piece's own scatter of strength."""
    scatter = next((u for u in unknowns if u.path == SCATTER), None)
    if scatter is None:
        return dict.fromkeys(draw.pieces, plain)
    return {
        piece: plain.model_copy(
            update={
                "doubt": plain.doubt.model_copy(
                    update={"strength_scatter": value_at(scatter, place)}
                )
            }
        )
        for piece, place in draw.pieces.items()
    }
