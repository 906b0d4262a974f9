"""What a check for contradictions is."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from firstfire.engine.quantity import write_quantity
from firstfire.engine.values import Values

#: Path, what is wrong, what would be right.
Fault = tuple[str, str, str]
Check = Callable[[Values], Iterator[Fault]]


def mm(value: float) -> str:
    """A length as a person reads it.

    Examples
    --------
    >>> mm(0.03512)
    '35.1 mm'
    """
    return write_quantity(value, "length", digits=3)
