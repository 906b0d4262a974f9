"""Which values of the engine file a judgement reads: seen as they are read, not declared.

An engine is wrapped so that each value that is asked for leaves its path behind. What a load or a
judgement never asks for cannot move it.
"""

from __future__ import annotations

import types
from collections.abc import Mapping
from dataclasses import replace
from typing import Any, cast

from firstfire.engine.fields import Section
from firstfire.engine.grammar import leaves
from firstfire.engine.moment import Moment
from firstfire.engine.resolve import PlainEngine
from firstfire.parts.all import judged_during
from firstfire.runs.readers import watched


class Paths(dict[str, None]):
    """A set that keeps the order in which it was filled."""

    def add(self, path: str) -> None:
        """One more, behind the others."""
        self[path] = None


class Read:
    """A part of an engine that notes under which path each of its values is read.

    Parameters
    ----------
    of
        The part.
    path
        Where it stands in the engine file, with a dot behind; "" for the engine.
    asked
        Paths read so far; grows.
    """

    def __init__(self, of: Section, path: str, asked: Paths) -> None:
        self.__dict__.update(_of=of, _path=path, _asked=asked)

    def __getattr__(self, name: str) -> Any:
        of = self.__dict__["_of"]
        if name not in type(of).model_fields:
            return self._worked_out(name)
        return self._wrapped(getattr(of, name), f"{self.__dict__['_path']}{name}")

    def model_copy(self, *, update: Mapping[str, Any]) -> Read:
        """The part changed, as its own; values read of it still leave their paths."""
        plain = {
            name: value.__dict__["_of"] if isinstance(value, Read) else value
            for name, value in update.items()
        }
        own = self.__dict__
        return Read(own["_of"].model_copy(update=plain), own["_path"], own["_asked"])

    def _wrapped(self, value: Any, path: str) -> Any:
        asked = self.__dict__["_asked"]
        if isinstance(value, Section):
            return Read(value, f"{path}.", asked)
        if isinstance(value, tuple) and value and isinstance(value[0], Section):
            return tuple(Read(one, "", asked) for one in value)  # each cylinder's own parts
        asked.add(path)
        return value

    def _worked_out(self, name: str) -> Any:
        """A property or method, which reads through the wrapping too."""
        found = getattr(type(self.__dict__["_of"]), name)
        if isinstance(found, property):
            return cast(Any, found.fget)(self)
        return types.MethodType(found, self) if callable(found) else found


def reading(plain: PlainEngine) -> tuple[PlainEngine, Paths]:
    """The same engine, and the paths that fill as its values are read."""
    asked = Paths()
    engine = watched(plain, asked)
    return cast(PlainEngine, Read(engine, "", asked)), asked


def reads(moment: Moment) -> dict[str, tuple[str, ...]]:
    """Paths of the engine file that each way to fail of a moment reads, by its id, in that order.

    Those are among them that only its offered changes ask for; not what its loads and
    temperatures have read.
    """
    found = {}
    for judge in judged_during(moment.event):
        plain, asked = reading(moment.engine)  # its own, so that it finds nothing kept
        own = replace(moment, engine=plain)
        if judge.applies(own):
            way = judge(own)
            found[way.id] = tuple(path for path in asked if _is_said(moment.engine, path))
    return found


def _is_said(plain: PlainEngine, path: str) -> bool:
    """Whether it is a value of an engine file or one that a material has."""
    if path in leaves():
        return True
    first, _, rest = path.partition(".")
    key, _, prop = rest.partition(".")
    material = plain.materials.get(key) if first == "materials" else None
    return material is not None and prop in material.properties
