"""What the head of every page says of the desk: the file's state, and what can be done."""

from __future__ import annotations

from typing import Any

from firstfire.pages.desk.desk import Desk


def told_of(desk: Desk) -> dict[str, Any]:
    """State, trials, conflict and text, as a tab takes them."""
    sheet, conflict = desk.sheet, desk.conflict
    return {
        "head": {
            "file": desk.path.name,
            "state": desk.state,
            "undo": desk.undoes,
            "redo": desk.redoes,
            "taken_up": desk.taken_up,
            "trials": [{"words": one.words, "set": dict(one.set)} for one in sheet.trials],
            "shown": sheet.shown,
            "laid": [one.words for one in sheet.laid],
            "conflict": conflict and {"theirs": conflict.theirs, "mine": conflict.mine},
        },
        "text": {"value": sheet.text, "version": desk.version},
    }
