"""What the page *Will it run* has beside the others: a cycle in motion, a start, a sound."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from firstfire.pages.answers.messages import Asked, StartAsked, Told
from firstfire.pages.answers.office import Office
from firstfire.pages.answers.start_worker import MODULE
from firstfire.pages.show.run_page import PAGE
from firstfire.pages.show.shown import Shown
from firstfire.pages.show.tab import Tab

_LONGEST = 80
"""Letters of a field that are read."""
_FIELDS = 60


@dataclass
class Running:
    """Of one hub.

    Attributes
    ----------
    shown, tabs
        The hub's own.
    """

    shown: Shown
    tabs: Mapping[str, Tab]
    motion: Mapping[str, Any] | None = None
    story: Mapping[str, Any] | None = None
    heard_start: Mapping[str, Any] | None = None
    progress: Mapping[str, Any] | None = None
    problems: list[Mapping[str, str]] = field(default_factory=list)
    _key: str = ""
    _start_of: str = ""
    _sound: bool = False

    def __post_init__(self) -> None:
        self.office = Office(self._start_heard, MODULE)

    def came(self, tab: Tab) -> bool:
        """A tab has opened: it gets all that is known; whether more has to be asked."""
        if tab.page != PAGE.address:
            return False
        if self.motion is not None:
            tab.push({"motion": self.motion})
        tab.push({"story": self.story, "start": self._start()})
        return "cycle" not in self.shown.slots or "cycle" in self.shown.old

    def also(self) -> tuple[str, ...]:
        """What is wanted of the event at hand, beside margins."""
        if not any(tab.page == PAGE.address for tab in self.tabs.values()):
            self.shown.age(("cycle", "runs"))
            return ()
        wanted, self._sound = ("cycle", "sound") if self._sound else ("cycle",), False
        return wanted

    def now(self, key: str) -> None:
        """The sheet is this: a start of another is old, one under way for another is dropped."""
        if key == self._key:
            return
        self._key = key
        if self.progress is not None:
            self._ended()
        if self._start_of != key:
            self.shown.age(("start",))
        else:
            self.shown.old.discard("start")
        self._push({"start": self._start(), "old": sorted(self.shown.old)})

    async def done(self, what: Mapping[str, Any], asked: Asked) -> bool:
        """Do what was asked for here; whether the event at hand has to be asked anew."""
        kind = what.get("do")
        if kind == "start":
            await self._begin(what.get("said"), asked)
        elif kind == "end start" and self.progress is not None:
            self.office.hurry()
            self._tell({**self.progress, "ending": True})
        elif kind == "sound":
            self._sound = True
            return True
        elif kind == "start sound" and self.heard_start is not None:
            self._push({"start_sound": dict(self.heard_start)})
        return False

    async def _begin(self, said: object, asked: Asked) -> None:
        typed = list(said.items())[:_FIELDS] if isinstance(said, dict) else []
        fields = {str(name)[:_LONGEST]: str(words)[:_LONGEST] for name, words in typed}
        self.office.drop()
        self.problems = []
        self._tell({"what": "starting", "share": 0.0, "left": None})
        await self.office.ask(StartAsked(asked, fields))

    def heard(self, told: Told) -> bool:
        """Take over what is for this page; whether it was."""
        if told.kind == "cycle":
            self.motion = told.data["motion"]
            found = {"cycle": told.data["html"], "runs": told.data["runs"]}
            put = self.shown.put(found, ("cycle", "runs"))
            self._push({"put": put, "motion": self.motion, "old": sorted(self.shown.old)})
        elif told.kind == "sound":
            self._push({"sound": dict(told.data)})
        else:
            return False
        return True

    def _start_heard(self, told: Told) -> None:
        """The start's own process has said something."""
        if told.key != self._key:
            return
        if told.kind == "progress":
            ending = bool(self.progress and self.progress.get("ending"))
            self._tell({**told.data, "ending": ending})
            return
        if told.kind == "start":
            self._start_of, self.story = told.key, told.data["story"]
            self.heard_start = told.data.get("sound")
            put = self.shown.put({"start": told.data["html"]}, ("start",))
            self._push({"put": put, "story": self.story, "old": sorted(self.shown.old)})
        elif told.kind == "failed":
            self.problems = list(told.data.get("problems", []))
            self._push({"say": told.data["words"]})
        self._ended()

    def _ended(self) -> None:
        self.office.drop()
        self._tell(None)

    def _tell(self, progress: Mapping[str, Any] | None) -> None:
        self.progress = progress
        self._push({"start": self._start()})

    def _start(self) -> dict[str, Any]:
        return {"progress": self.progress, "problems": self.problems}

    def _push(self, message: dict[str, Any]) -> None:
        for tab in self.tabs.values():
            if tab.page == PAGE.address:
                tab.push(message)

    def close(self) -> None:
        """End what works for it."""
        self.office.drop()
