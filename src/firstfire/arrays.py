"""What an array must be before compiled code, which doesn't look where it writes, is handed it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import DTypeLike


def require_array(name: str, found: Any, kind: DTypeLike, shape: Sequence[int | None]) -> None:
    """Raise unless `found` is a whole array of one kind and shape.

    Parameters
    ----------
    name
        Of the argument, for the message.
    found
        What was handed over.
    kind
        The type of its elements, exactly.
    shape
        The length of each axis; None where any will do.

    Raises
    ------
    TypeError
        If it is no array, or one of other elements.
    ValueError
        If its shape is another, or its elements don't lie side by side in memory.

    Examples
    --------
    >>> require_array("load", np.zeros(3), np.float64, (3,))
    >>> require_array("load", np.zeros(2), np.float64, (3,))
    Traceback (most recent call last):
    ValueError: load has shape (2,): it must be (3).
    """
    if not isinstance(found, np.ndarray):
        raise TypeError(f"{name} is of {type(found).__name__}: it must be a NumPy array.")
    if found.dtype != kind:
        raise TypeError(f"{name} holds {_told(found.dtype)}: it must hold {_told(np.dtype(kind))}.")
    wanted = tuple(shape)
    if len(found.shape) != len(wanted) or any(
        length is not None and length != here
        for length, here in zip(wanted, found.shape, strict=True)
    ):
        told = " × ".join("any" if length is None else str(length) for length in wanted)
        raise ValueError(f"{name} has shape {found.shape}: it must be ({told}).")
    if not (found.flags.c_contiguous and found.flags.aligned):
        raise ValueError(f"{name} doesn't lie in one piece in memory: hand over a copy of it.")


def _told(kind: np.dtype[Any]) -> str:
    return f"records of {', '.join(kind.names[:3])} …" if kind.names else kind.name
