"""What differs between the descriptions of engines: read and resolved, nothing run."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firstfire.engine.grammar import leaves, split
from firstfire.errors import EngineFileError, FirstfireError
from firstfire.pages.answers.messages import Asked

_LAYERS = {
    "defaults": "default", "as_built": "measured", "trial": "tried",
}  # fmt: skip


@dataclass(frozen=True)
class Differing:
    """One value that isn't the same in all.

    Attributes
    ----------
    path, name
        Where it stands, and what it is in words.
    each
        Of each engine, in their order: what stands there, and who said it.
    own
        Whether somebody said it for one of them; else it follows from what was said.
    """

    path: str
    name: str
    each: tuple[tuple[str, str], ...]
    own: bool


def described(asked: Sequence[Asked]) -> tuple[list[Differing], dict[int, str]]:
    """What differs, and by place what is wrong with those that can't be read."""
    from firstfire.engine.resolve import resolve
    from firstfire.pages.answers.quick import understood
    from firstfire.verdict.facts.differences import differences

    found, faults = {}, {}
    for place, one in enumerate(asked):
        try:
            engine = understood(one)
            found[place] = engine, resolve(engine)
        except FirstfireError as why:
            faults[place] = _fault(why)
    if len(found) < 2:
        return [], faults
    told = []
    for other in differences([e for e, _ in found.values()], [p for _, p in found.values()]):
        said = dict(zip(found, other.each, strict=True))
        each = [
            (
                said[place].written.replace("*", "·"),
                _LAYERS.get(said[place].layer, said[place].layer),
            )
            if place in said and said[place].there
            else ("–", "")
            for place in range(len(asked))
        ]
        told.append(Differing(other.path, _name(other.path), tuple(each), other.own))
    return told, faults


def _name(path: str) -> str:
    cylinder, bare = split(path)
    leaf = leaves().get(bare)
    words = path.replace("_", " ").replace(".", ": ") if leaf is None else leaf.description
    section = bare.split(".")[0].replace("_", " ")
    if leaf is not None and section not in words:
        words = f"{section}: {words}"
    return words if cylinder is None else f"{words}, cylinder {cylinder}"


def _fault(why: FirstfireError) -> str:
    if isinstance(why, EngineFileError):
        first = why.problems[0]
        return f"can't be read: {first.path} {first.fault}"
    return f"can't be read: {why}"
