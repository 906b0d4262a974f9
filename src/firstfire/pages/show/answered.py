"""What a quick answer changes of what is shown, and the message that tells a tab of it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firstfire.pages.answers.messages import Told
from firstfire.pages.show.shown import QUICK, Shown


def answered(told: Told, shown: Shown) -> dict[str, Any]:
    """Take over an answer; the message for every tab.

    Parameters
    ----------
    told
        What came of a question.
    shown
        Is changed by it.
    """
    data = told.data
    if told.kind == "form":
        return {"put": shown.put({"form": data["html"]}, ("form",))}
    if told.kind == "rows":
        shown.rows |= data["rows"]
        shown.problems, shown.name = [], data["name"]
        return {"rows": data["rows"], "problems": [], "name": data["name"]}
    if told.kind == "choices":
        return {"choices": {"path": data["path"], "html": str(data["html"])}}
    if told.kind == "progress":
        shown.progress = data
        return {"progress": dict(data)}
    if told.kind == "problems":
        shown.problems = data["problems"]
        shown.age(QUICK)
        return {"problems": shown.problems, "old": sorted(shown.old), "progress": None}
    return _at_hand(told, data, shown)


def _at_hand(told: Told, data: Mapping[str, Any], shown: Shown) -> dict[str, Any]:
    """Of the event at hand: fragments, and what they are of; or why there are none."""
    message: dict[str, Any] = {}
    if told.kind == "failed":
        shown.age(QUICK)
        message |= {"say": data["words"], "progress": None}
    message |= {"put": shown.put(data, QUICK), "problems": [], "old": sorted(shown.old)}
    if "events" in data:
        shown.events = message["events"] = data["events"]
    if told.kind == "at hand":
        shown.event, shown.point = data["event"], data["point"]
        shown.seconds, shown.settled = data["seconds"], data["settled"]
        message |= {"at": shown.at(), "took": data["took"]}
    if "wheel" in data:
        shown.wheel = message["wheel"] = data["wheel"]
    return message
