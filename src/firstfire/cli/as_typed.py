"""What is typed, taken as it is where it is text, a path, some of them, or a flag.

Typer hands every word to pydantic, to make text of text: importing that takes as long as all else
that a small command does. What is more than text still goes that way: numbers, choices.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

_KINDS: Mapping[object, Callable[[Any], Any]] = {
    bool: bool,  # a flag comes as what it is
    str: str,
    Path: Path,
    list[str]: lambda words: [str(word) for word in words],
    list[Path]: lambda words: [Path(word) for word in words],
}


class _Taken(NamedTuple):
    """What Typer asks for a word's value."""

    of: Callable[[Any], Any]
    several: bool

    def coerce(self, value: Any, param: object, ctx: object) -> Any:  # noqa: ARG002 - Typer's own
        """The value of what was typed, None or () where nothing was."""
        if value is None:
            return () if self.several else None
        return self.of(value)


def as_typed(params: Sequence[Any]) -> None:
    """Let Typer's parameters that are texts, paths and flags be taken as they are typed.

    A Typer that asks otherwise goes on as it would have.
    """
    for param in params:
        kind = getattr(getattr(param, "type_descriptor", None), "annotation", None)
        if kind in _KINDS and hasattr(param, "get_runtime_param"):
            taken = _Taken(_KINDS[kind], several=param.multiple or param.nargs == -1)
            param.get_runtime_param = lambda taken=taken: taken
