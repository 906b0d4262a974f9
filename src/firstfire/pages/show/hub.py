"""The hub: what a tab does goes to the desk, its engine to the answers, these to all tabs."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from firstfire.engine.grammar import leaves, split
from firstfire.engine.read import LARGEST
from firstfire.errors import FirstfireError
from firstfire.pages.answers.laid_over import OVER
from firstfire.pages.answers.messages import Told
from firstfire.pages.answers.office import Office
from firstfire.pages.desk.desk import Desk
from firstfire.pages.desk.sheet import Trial
from firstfire.pages.show import setting
from firstfire.pages.show.answered import answered
from firstfire.pages.show.asking import asked
from firstfire.pages.show.beside import COMPARE, DOES, Beside
from firstfire.pages.show.head import told_of
from firstfire.pages.show.kept import Kept
from firstfire.pages.show.running import Running
from firstfire.pages.show.setting import Setting
from firstfire.pages.show.shown import BESIDE, WHOLE, Shown
from firstfire.pages.show.tab import Tab
from firstfire.toml_text import NotToml

_FORMATS = (("desk", False), ("narrow", True))
_LONGEST = 1e6
"""Seconds into a run that may be asked for."""
_LONGEST_ID = 80
_LOOK = 0.5
"""Seconds between two looks at the file."""


@dataclass
class Hub:
    """One desk, its answers and its tabs.

    Attributes
    ----------
    desk
        What is worked on.
    tabs
        By their client's id.
    """

    desk: Desk
    tabs: dict[str, Tab] = field(default_factory=dict)
    shown: Shown = field(default_factory=Shown)

    def __post_init__(self) -> None:
        self.office = Office(self._heard)
        self.running = Running(self.shown, self.tabs)
        self._kept, self._lock = Kept(), asyncio.Lock()
        self.setting = Setting()
        self._event = "full_throttle@0"
        self._seconds: float | None = None
        self._widths: Mapping[str, Any] = {}
        self._number, self._echoes = 0, dict[str, int]()
        self._watching: asyncio.Task[None] | None = None
        self._again: asyncio.Task[None] | None = None
        self.beside = Beside(self.desk, self._kept, self.push, self._beside)

    async def came(self, ident: str, tab: Tab) -> None:
        """A tab has opened: it gets all that is known, and what is not known yet is asked."""
        self.tabs[ident] = tab
        known = {**self.shown.all_of_it(), **told_of(self.desk), **self.beside.state()}
        tab.push({**known, "over": self._over})
        if self._watching is None:
            self._watching = asyncio.create_task(self._watch())
        wanted = "narrow" if tab.narrow else "desk"
        new = wanted not in self.shown.slots or wanted in self.shown.old
        if self.running.came(tab) or new or tab.page == setting.ADDRESS:
            await self.ask()
        if tab.page == COMPARE:
            await self.beside.refresh()

    def went(self, ident: str) -> None:
        """A tab has closed."""
        self.tabs.pop(ident, None)

    async def done(self, ident: str, what: Mapping[str, Any]) -> None:
        """Somebody did something in a tab."""
        tab = self.tabs.get(ident)
        if tab is None:
            return
        serial = what.get("n")
        tab.echo = serial if isinstance(serial, int) else 0
        async with self._lock:
            before = self.desk.version
            try:
                await self._do(ident, tab, what)
            except NotToml as why:
                tab.push({"say": f"First put its text right: {why}. Nothing was changed."})
            except FirstfireError as why:
                tab.push({"say": str(why)})
            except (LookupError, TypeError, ValueError, OverflowError):
                tab.push({"say": "That can't be understood: load the page anew."})
            if self.desk.version != before:
                await self.changed()

    async def _do(self, ident: str, tab: Tab, what: Mapping[str, Any]) -> None:
        desk, kind = self.desk, what.get("do")
        if kind == "set":
            path = what["path"]
            if split(path)[1] not in leaves():
                raise ValueError("no such value")
            await asyncio.to_thread(desk.set, path, str(what["said"])[:2000])
        elif kind == "write":
            text = str(what["text"])
            if len(text.encode("utf-8", "replace")) > LARGEST:
                raise FirstfireError("That is more than an engine file may hold: 1 MB is the most.")
            await asyncio.to_thread(desk.write, text, int(what["seen"]))
        elif kind in ("undo", "redo", "save", "keep_mine", "take_theirs"):
            await asyncio.to_thread(getattr(desk, kind))
        elif kind in ("take", "drop"):
            await asyncio.to_thread(getattr(desk, kind), int(what["place"]))
        elif kind == "show":
            desk.show(None if what["place"] is None else int(what["place"]))
        elif kind == "try":
            self._try(int(what["place"]))
        elif kind == "at":
            said = what.get("seconds")
            seconds = None if said is None else min(max(0.0, float(said)), _LONGEST)
            self._event, self._seconds = str(what["event"])[:40], seconds
            await self.ask()
        elif kind in ("stop", "go on"):
            self._stopped = desk.sheet.key if kind == "stop" else ""
            self.shown.progress = {"stopped": True} if kind == "stop" else None
            self.push({"progress": self.shown.progress})
            await self.ask()
        elif kind == "why":
            self._why(tab, str(what["id"]))
        elif kind == "over":
            self._over = tuple(name for name in OVER if what[name] is True)
            self.push({"over": self._over})
            await self.ask()
        elif kind == "point":
            self._pointed = str(what["way"])[:_LONGEST_ID]
            await self.ask()
        elif kind == "choose":
            path = str(what["path"])
            if path and not leaves()[path].row_kind:
                raise ValueError("no row stands there")
            self._choosing = path
            await self.ask()
        elif kind in DOES:
            await self.beside.do(what)
        elif kind in setting.KINDS:
            await setting.done(self, ident, kind, what)
        elif await self.running.done(what, asked(desk.sheet, desk.path, self._number)):
            await self.ask()

    def _try(self, place: int) -> None:
        whole = self._kept.get(self.desk.sheet.key)
        offered = whole["trials"] if whole else []
        if not 0 <= place < len(offered):
            raise FirstfireError("That change was offered for the engine before. Wait for the new.")
        one = offered[place]
        on = self.desk.sheet.trial
        both = {**(on.set if on else {}), **one["set"]}
        words = f"{on.words}; {one['words']}" if on else one["words"]
        self.desk.try_beside(Trial(words, both))

    def _why(self, tab: Tab, ident: str) -> None:
        whole = self._kept.get(self._life_of)
        whys = {**(whole["whys"] if whole else {}), **self.setting.whys}
        if ident in whys:
            tab.push({"why": {"id": ident, "html": whys[ident]}})

    _life_of, _stopped, _choosing, _pointed = "", "", "", ""
    _over: tuple[str, ...] = ()

    async def changed(self) -> None:
        """The desk is another: say so, mark answers as old, ask anew."""
        self.push(told_of(self.desk))
        if any(tab.page == COMPARE for tab in self.tabs.values()):
            self.beside.changed()
        await self.ask()

    async def ask(self) -> None:
        """Ask what is not known of the sheet that holds."""
        sheet = self.desk.sheet
        known = self._kept.get(sheet.key)
        if known is not None:
            self._whole_known(sheet.key, known)
        elif self._life_of != sheet.key:
            self.shown.age(WHOLE)
        self._number = self.office.next_number()
        self._echoes = {ident: tab.echo for ident, tab in self.tabs.items()}
        narrow = {tab.narrow for tab in self.tabs.values()}
        formats = tuple(name for name, is_it in _FORMATS if is_it in narrow)
        turning = any(tab.page == setting.ADDRESS for tab in self.tabs.values())
        put = self.setting.turn_to(sheet.key, self.shown)
        self.running.now(sheet.key)
        self.push({"old": sorted(self.shown.old), **({"put": put} if put else {})})
        await self.office.ask(
            replace(
                asked(sheet, self.desk.path, self._number),
                widths=self._widths, event=self._event, seconds=self._seconds, formats=formats,
                whole=known is None and self._stopped != sheet.key, also=self.running.also(),
                choosing=self._choosing, over=self._over, pointed=self._pointed,
                turning=turning, setting=turning and not self.setting.complete(sheet.key),
            )
        )  # fmt: skip

    def _heard(self, told: Told) -> None:
        """An answer has come."""
        if told.kind == "whole":
            self._kept.put(told.key, told.data)
            if told.key == self.desk.sheet.key:
                self._whole_known(told.key, told.data)
                # What is at hand has its spans now, and words with them.
                self._again = asyncio.get_running_loop().create_task(self.ask())
        elif told.kind == "setting":
            setting.came(self, told)
        elif told.kind == "laid":
            self._again = asyncio.get_running_loop().create_task(setting.laid_over(self, told))
        elif told.kind in ("form", "rows") or self._of_what_holds(told):
            self._tell(told)

    def _of_what_holds(self, told: Told) -> bool:
        """Whether it is of the engine that is shown, and nobody else's."""
        return told.key == self.desk.sheet.key and not self.running.heard(told)

    def _whole_known(self, key: str, data: Mapping[str, Any]) -> None:
        self._life_of, self._widths = key, data["widths"]
        self.shown.lasting, self.shown.progress = data["lasting"], None
        self.shown.decides = data["decides"]
        put = self.shown.put(data, WHOLE)
        old, lasting = sorted(self.shown.old), self.shown.lasting
        told = {"put": put, "old": old, "lasting": lasting, "decides": self.shown.decides}
        self.push({**told, "progress": None})
        self.beside.show()

    def _beside(self, found: dict[str, str]) -> None:
        """Slots of what lies beside; nothing is sent that stands there already."""
        new = {slot: html for slot, html in found.items() if self.shown.slots.get(slot) != html}
        if new:
            self.push({"put": self.shown.put(new, BESIDE), "old": sorted(self.shown.old)})

    def _tell(self, told: Told) -> None:
        """What it changes of what is shown, to every tab."""
        message = answered(told, self.shown)
        for ident, tab in self.tabs.items():
            echo = self._echoes.get(ident, 0) if told.number == self._number else 0
            tab.push({**message, "echo": echo} if told.kind == "at hand" else message)

    def push(self, message: dict[str, Any]) -> None:
        """Tell every tab."""
        for tab in self.tabs.values():
            tab.push(message)

    async def _watch(self) -> None:
        """See when an editor changes the file, while a tab is open or not."""
        while True:
            await asyncio.sleep(_LOOK)
            async with self._lock:
                with contextlib.suppress(FirstfireError):
                    if await asyncio.to_thread(self.desk.look):
                        await self.changed()

    def close(self) -> None:
        """End all that works for it."""
        if self._watching is not None:
            self._watching.cancel()
        self.beside.close()
        self.office.close()
        self.running.close()
        self.desk.close()


def opened(path: Path, text: str = "") -> Hub:
    """A hub over an engine file.

    Raises
    ------
    FirstfireError
        Where it can't be read, or another firstfire has it open.
    """
    return Hub(Desk(path, text))
