"""What a rule of thumb is, and what it may ask."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Protocol

PRACTICE = "common practice, no source"


class Asked(Protocol):
    """What a rule may ask of an engine."""

    def __getitem__(self, path: str) -> Any:
        """The value at a path, SI."""

    def number(self, path: str) -> float:
        """A quantity at a path, SI."""

    def said(self, path: str) -> bool:
        """Whether a person said it."""

    def material(self, path: str, prop: str) -> float:
        """A property of the material named at a path, SI."""

    def row(self, path: str) -> Any:
        """The catalog row named at a path, or None."""

    @property
    def catalog(self) -> Any:
        """The catalog."""


@dataclass(frozen=True)
class Rule:
    """A default: its path, its value, why, and where the rule is from.

    Attributes
    ----------
    path
        What it fills.
    value
        As a file would have it, or a function of what else is known, giving SI.
    reason
        Why, for a person.
    source
        A book, or "common practice, no source".
    follows
        Whether it follows from what was made, as a mass from its material does. Anything else was
        chosen once: a part doesn't grow because its plastic turned out weaker than thought.
    """

    path: str
    value: str | float | int | bool | list[str] | Callable[[Asked], Any]
    reason: str
    source: str = PRACTICE
    follows: bool = False
