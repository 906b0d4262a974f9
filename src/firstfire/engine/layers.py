"""An engine as an ordered stack of layers, each value knowing who said it and why."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from firstfire.engine.grammar import split

#: Lowest first: a later layer outranks an earlier one.
ORDER = (
    "defaults", "catalog", "file", "printer", "as_built", "learned", "fault", "trial",
)  # fmt: skip
Kind = Literal["given", "default", "catalog", "measured", "learned", "assumed"]


@dataclass(frozen=True)
class Entry:
    """One value as one layer says it.

    Attributes
    ----------
    path
        Dotted path, with its cylinder prefix where it has one.
    value
        SI float, whole number, flag, word or tuple.
    written
        As it was written.
    layer
        Name of the layer that spoke, one of `ORDER`.
    kind
        How it is known.
    source
        Where it is from: a file, a book, "common practice, no source".
    note
        The reason, for a person.
    line
        Line in that file; 0 where there is none.
    error
        Half width (about 95 %) of the instrument's error in SI, for a measured value.
    low, high
        5 and 95 % in SI, where whoever speaks says them.
    """

    path: str
    value: Any
    written: str
    layer: str
    kind: Kind
    source: str = ""
    note: str = ""
    line: int = 0
    error: float | None = None
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True)
class Layer:
    """What one origin says: a file, a printer's habits, a trial.

    Attributes
    ----------
    name
        One of `ORDER`.
    origin
        Who or what speaks, as a person would name it.
    entries
        By full path.
    """

    name: str
    origin: str
    entries: Mapping[str, Entry] = field(default_factory=dict)

    def get(self, path: str, cylinder: int | None) -> Entry | None:
        """What it says of a path: for one cylinder where it does, else for all."""
        if not self.entries:  # nothing measured, nothing tried: as most engines are
            return None
        if cylinder is not None:
            own = self.entries.get(f"cylinders.{cylinder}.{path}")
            if own is not None:
                return own
        return self.entries.get(path)


@dataclass(frozen=True)
class Stack:
    """Layers, lowest first. Immutable: a trial on top is a new stack."""

    layers: tuple[Layer, ...]

    def with_layer(self, layer: Layer) -> Stack:
        """A stack with `layer` on it, above others of the same rank."""
        if layer.name not in ORDER:
            raise ValueError(f"no layer is called {layer.name!r}; layers: {', '.join(ORDER)}")
        rank = ORDER.index(layer.name)
        below = tuple(x for x in self.layers if ORDER.index(x.name) <= rank)
        above = tuple(x for x in self.layers if ORDER.index(x.name) > rank)
        return Stack((*below, layer, *above))

    def top(self, path: str, cylinder: int | None = None) -> Entry | None:
        """The entry that holds: of the highest layer that speaks of `path`."""
        if cylinder is None:
            cylinder, path = split(path)
        return next((e for x in reversed(self.layers) if (e := x.get(path, cylinder))), None)

    def all(self, path: str, cylinder: int | None = None) -> tuple[Entry, ...]:
        """Every layer's entry of a path, lowest first: as designed and as built side by side."""
        if cylinder is None:
            cylinder, path = split(path)
        return tuple(e for x in self.layers if (e := x.get(path, cylinder)))

    def paths(self) -> Iterable[str]:
        """Every path any layer speaks of, each once."""
        return dict.fromkeys(path for layer in self.layers for path in layer.entries)
