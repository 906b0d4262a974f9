"""Which numbers of a material a judgement or a wall asks for: where one isn't, its slope is 0."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Protocol

from firstfire.engine.moment import Moment
from firstfire.engine.resolve import PlainEngine
from firstfire.parts.all import judged_during
from firstfire.parts.failure import Judgement


class Watched(Mapping[str, float]):
    """A material's numbers that note under which path of the engine file each was asked for.

    Examples
    --------
    >>> asked = set()
    >>> Watched("petg", {"density": 1270.0, "poisson": 0.4}, asked)["density"]
    1270.0
    >>> asked
    {'materials.petg.density'}
    """

    def __init__(self, key: str, numbers: Mapping[str, float], asked: Asked) -> None:
        self._key, self._numbers, self._asked = key, numbers, asked

    def __getitem__(self, prop: str) -> float:
        self._asked.add(f"materials.{self._key}.{prop}")
        return self._numbers[prop]

    def __iter__(self) -> Iterator[str]:
        for prop in self._numbers:
            self._asked.add(f"materials.{self._key}.{prop}")
        return iter(self._numbers)

    def __len__(self) -> int:
        return len(self._numbers)


class Asked(Protocol):
    """What is told of each path as it is asked for."""

    def add(self, path: str, /) -> None:
        """One path."""


def watched(plain: PlainEngine, asked: Asked) -> PlainEngine:
    """The same engine, which tells `asked` of each number of its materials that is asked for."""
    materials = {
        key: replace(material, properties=Watched(key, material.properties, asked))
        for key, material in plain.materials.items()
    }
    return plain.model_copy(update={"materials": materials})


def readers(moment: Moment) -> dict[str, tuple[Judgement, ...]]:
    """Judgements of a moment by path of the materials' numbers that they ask for.

    A judgement that doesn't ask for a number comes to the same whatever that number is. Each is
    asked on a moment of its own, so that it can't find kept what another has asked for.
    """
    asked = set[str]()
    plain = watched(moment.engine, asked)
    found: dict[str, tuple[Judgement, ...]] = {}
    for judge in judged_during(moment.event):
        asked.clear()
        own = replace(moment, engine=plain)
        if judge.applies(own):
            judge(own)
        for path in asked:
            found[path] = (*found.get(path, ()), judge)
    return found
