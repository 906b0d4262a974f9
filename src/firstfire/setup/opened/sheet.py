"""What a number of setting up is worked out from: numbers put in, and lines that follow."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

from firstfire.engine.records import Line
from firstfire.engine.values import Values


@dataclass(frozen=True)
class Given:
    """A number put in that no path of the engine file holds.

    Attributes
    ----------
    words, value, unit
        What it is, SI.
    by
        What it was computed by, or what it stands on.
    kind
        How it is known.
    """

    words: str
    value: float
    unit: str
    by: str
    kind: Literal["computed", "assumed", "catalog"] = "computed"


@dataclass
class Sheet:
    """A working as it is written down, line by line.

    Attributes
    ----------
    values
        The engine file's, of one cylinder.
    cylinder
        Which, counted from 1.
    paths, given, lines
        What was put in from the file, what else, and the lines.
    """

    values: Values
    cylinder: int = 1
    paths: dict[str, float] = field(default_factory=dict)
    given: dict[str, Given] = field(default_factory=dict)
    lines: list[Line] = field(default_factory=list)

    def path(self, path: str) -> str:
        """Put in a value of the engine file; its path, for an expression."""
        value: Any = self.values[path]
        self.paths[path] = float(value)
        return path

    def put(
        self, name: str, words: str, value: float, unit: str, by: str,
        kind: Literal["computed", "assumed", "catalog"] = "computed",
    ) -> str:  # fmt: skip
        """Put in another number; its name."""
        self.given[name] = Given(words, value, unit, by, kind)
        return name

    def found(self, name: str, words: str, unit: str, expression: str) -> str:
        """Work out a line; its name."""
        self.lines.append(Line(name, expression, unit, words))
        return name
