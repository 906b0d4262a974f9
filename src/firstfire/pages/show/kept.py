"""Whole answers computed once: undo, a trial taken away or a reload shows them at once."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping
from typing import Any

_MOST = 24


class Kept:
    """The last few whole answers by the key of their sheet."""

    def __init__(self, most: int = _MOST) -> None:
        self._most = most
        self._known: OrderedDict[str, Mapping[str, Any]] = OrderedDict()

    def put(self, key: str, data: Mapping[str, Any]) -> None:
        """Keep one; the oldest goes."""
        self._known[key] = data
        self._known.move_to_end(key)
        while len(self._known) > self._most:
            self._known.popitem(last=False)

    def get(self, key: str) -> Mapping[str, Any] | None:
        """One that is kept."""
        return self._known.get(key)
