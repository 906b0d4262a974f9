"""The hub's side of *Setting up*: chapters as they come, what is measured, what is turned."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Protocol

from firstfire.errors import FirstfireError
from firstfire.pages.answers.messages import Measured, Told
from firstfire.pages.answers.office import Office
from firstfire.pages.desk.desk import Desk
from firstfire.pages.desk.sheet import Laid
from firstfire.pages.desk.wheel import handle_at, said, turned
from firstfire.pages.show.asking import asked
from firstfire.pages.show.kept import Kept
from firstfire.pages.show.shown import Shown
from firstfire.pages.show.tab import Tab

ADDRESS = "/setup"
KINDS = ("turn", "measured", "lift")
_PREFIX = "set-"
_SKELETON = "setting"
_MOST_KEPT = 4
_LONGEST = 60
_FIELDS = 24


class Hub(Protocol):
    """What is needed of the hub: its desk, its answers, its tabs."""

    desk: Desk
    office: Office
    shown: Shown
    tabs: dict[str, Tab]
    setting: Setting

    def push(self, message: dict[str, Any]) -> None:
        """Tell every tab."""

    async def ask(self) -> None:
        """Ask what is not known of the sheet that holds."""

    async def changed(self) -> None:
        """The desk is another."""


@dataclass
class Found:
    """What is known of the setting up of one sheet.

    Attributes
    ----------
    put
        Fragments by slot.
    whys
        What a number opens to, by its id.
    files
        Sheets and tables by name: in memory alone.
    complete
        Whether nothing more comes.
    """

    put: dict[str, str] = field(default_factory=dict)
    whys: dict[str, str] = field(default_factory=dict)
    files: dict[str, bytes] = field(default_factory=dict)
    complete: bool = False

    def add(self, data: Mapping[str, Any]) -> dict[str, str]:
        """Take over what came; the fragments among it."""
        put = {slot: str(html) for slot, html in data.get("put", {}).items()}
        if "options" in data:
            put["coupons"] = str(data["options"])
        self.put |= put
        self.whys |= data.get("whys", {})
        self.files |= data.get("files", {})
        self.complete = self.complete or bool(data.get("done"))
        return put


class Setting:
    """What was found of the last few sheets, and which of them is shown."""

    def __init__(self) -> None:
        self._kept, self._key = Kept(_MOST_KEPT), ""

    @property
    def _found(self) -> Found:
        known = self._kept.get(self._key)
        return known["found"] if known is not None else Found()

    @property
    def whys(self) -> Mapping[str, str]:
        """What numbers that are shown open to."""
        return self._found.whys

    @property
    def files(self) -> Mapping[str, bytes]:
        """Files of the sheet that holds, as far as they are made."""
        return self._found.files

    def knows(self, key: str) -> bool:
        """Whether anything is known of a sheet."""
        return self._kept.get(key) is not None

    def complete(self, key: str) -> bool:
        """Whether all is known of a sheet."""
        known = self._kept.get(key)
        return known is not None and known["found"].complete

    def turn_to(self, key: str, shown: Shown) -> dict[str, str]:
        """Another sheet holds: show what is known of it, and that the rest is old."""
        if key == self._key:
            return {}
        self._key, found = key, self._kept.get(key)
        put = self._shown(shown, found["found"].put if found is not None else {})
        others = [slot for slot in shown.slots if slot.startswith(_PREFIX) and slot not in put]
        shown.age(tuple(others))
        return put

    def add(self, told: Told, shown: Shown) -> dict[str, str]:
        """Take over what came; what of it is to be shown now."""
        known = self._kept.get(told.key)
        found: Found = known["found"] if known is not None else Found()
        put = found.add(told.data)
        self._kept.put(told.key, {"found": found})
        return self._shown(shown, put) if told.key == self._key else {}

    def _shown(self, shown: Shown, put: Mapping[str, str]) -> dict[str, str]:
        """Put into what is shown; the skeleton, in which the others stand, only where it is new."""
        same = put.get(_SKELETON) == shown.slots.get(_SKELETON)
        return shown.put(put, tuple(slot for slot in put if slot != _SKELETON or not same))


def came(hub: Hub, told: Told) -> None:
    """A chapter has come."""
    put = hub.setting.add(told, hub.shown)
    if put:
        hub.push({"put": put, "old": sorted(hub.shown.old)})


async def laid_over(hub: Hub, told: Told) -> None:
    """An overlay of what was measured has come, or what was wrong with it."""
    data = told.data
    tab = hub.tabs.get(data["tab"])
    answer = {"kind": data["kind"], "wrong": data.get("wrong", []), "words": data.get("words", "")}
    if "text" in data:
        laid = Laid(data["of"], data["words"], data["text"])
        hub.desk.becomes(hub.desk.sheet.with_laid(laid), f"measured: {laid.words}")
        await hub.changed()
    else:
        await hub.ask()
    if tab is not None:
        tab.push({"measured": answer})


async def done(hub: Hub, ident: str, kind: str, what: Mapping[str, Any]) -> None:
    """Somebody turned an event, measured something, or takes that away.

    Raises
    ------
    FirstfireError
        Where it can't be.
    """
    desk = hub.desk
    if kind == "turn":
        path, degrees = str(what["path"]), round(float(what["degrees"]), 2)
        if not math.isfinite(degrees) or abs(degrees) > 360.0:
            raise ValueError("no such angle")
        words = said(handle_at(path), degrees)
        desk.becomes(turned(desk.sheet, path, degrees), words, go=f"turn {path}")
    elif kind == "lift":
        place = int(what["place"])
        if 0 <= place < len(desk.sheet.laid):
            words = f"taken away: {desk.sheet.laid[place].words}"
            desk.becomes(desk.sheet.without_laid(place), words)
    else:
        await hub.office.ask(_measured(hub, ident, what))


def _measured(hub: Hub, ident: str, what: Mapping[str, Any]) -> Measured:
    """What was typed, read at the present engine without what was read of that kind before."""
    of = str(what["kind"])[:_LONGEST]
    fields = what["said"]
    if not isinstance(fields, dict) or len(fields) > _FIELDS:
        raise FirstfireError("That is no form of these pages: load the page anew.")
    said = {str(name)[:_LONGEST]: str(value)[:_LONGEST] for name, value in fields.items()}
    sheet = hub.desk.sheet.present
    others = tuple(one for one in sheet.laid if one.kind.partition(" ")[0] != of)
    about = asked(replace(sheet, laid=others), hub.desk.path, hub.office.next_number())
    return Measured(about, of, said, ident)
