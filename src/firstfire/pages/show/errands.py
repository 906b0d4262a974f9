"""Long work that somebody asks for, one piece at a time: its bar, its stop and what comes of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from firstfire.errors import FirstfireError
from firstfire.pages.answers.errand_worker import MODULE
from firstfire.pages.answers.messages import Errand, Told
from firstfire.pages.answers.office import Office


class Errands:
    """The errand under way, if one is.

    Parameters
    ----------
    found
        Told what came of it, piece by piece.
    push
        Tells every tab how far it is.
    """

    def __init__(
        self, found: Callable[[Told], None], push: Callable[[dict[str, Any]], None]
    ) -> None:
        self.office = Office(self.heard, MODULE)
        self.state: Mapping[str, Any] | None = None
        """What is done, which share of it is, and seconds left; None where nothing is under way."""
        self._found, self._push = found, push

    async def begin(self, errand: Errand) -> None:
        """Begin one.

        Raises
        ------
        FirstfireError
            Where another is under way.
        """
        if self.state is not None:
            raise FirstfireError("Something is computed already: wait for it, or stop it.")
        self._said({"what": "starting", "share": 0.0, "left": None})
        await self.office.ask(errand)

    def halt(self) -> None:
        """Have it end with what it has found; asked once more, it ends at once."""
        if self.state is None:
            return
        if self.state.get("halting"):
            self._over()
            return
        self.office.hurry()
        self._said({**self.state, "what": "stopping", "halting": True})

    def heard(self, told: Told) -> None:
        """Something came of it."""
        if told.kind == "progress" and self.state is not None:
            self._said({"halting": self.state.get("halting", False), **told.data})
        elif told.kind == "failed":
            if told.data["words"]:
                self._push({"say": told.data["words"]})
            self._over()
        elif told.kind == "done":
            self._over()
        else:
            self._found(told)

    def close(self) -> None:
        """End it, whatever it is at."""
        self.office.drop()

    def _over(self) -> None:
        self.office.drop()
        self._said(None)

    def _said(self, state: Mapping[str, Any] | None) -> None:
        self.state = state
        self._push({"errand": state})
