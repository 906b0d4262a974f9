"""What all tabs show at present: fragments by slot, which of them are old, and all beside them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

QUICK = ("ledger", "desk", "narrow", "along", "over", "cycle", "runs", "turned")
"""Slots of the quick answer."""
WHOLE = ("sentence", "card", "life", "moves", "cautions", "speeds")
"""Slots of the whole check."""
BESIDE = ("compare", "beside", "plan")
"""Slots of what lies beside the present engine."""


@dataclass
class Shown:
    """The state of the pages, so that a tab that opens, or opens again, gets all of it."""

    slots: dict[str, str] = field(default_factory=dict)
    old: set[str] = field(default_factory=set)
    rows: dict[str, Mapping[str, str]] = field(default_factory=dict)
    problems: list[Mapping[str, Any]] = field(default_factory=list)
    events: list[Any] = field(default_factory=list)
    event: str = ""
    point: str = ""
    seconds: float = 0.0
    settled: bool = True
    decides: Mapping[str, Any] = field(default_factory=dict)
    lasting: Mapping[str, Any] = field(default_factory=dict)
    progress: Mapping[str, Any] | None = None
    name: str = ""
    wheel: Mapping[str, Any] = field(default_factory=dict)

    def age(self, slots: tuple[str, ...]) -> None:
        """What is shown in some slots is of an engine before the last change."""
        self.old |= {slot for slot in slots if slot in self.slots}

    def put(self, data: Mapping[str, Any], slots: tuple[str, ...]) -> dict[str, str]:
        """Take over fragments; what was put."""
        found = {slot: str(data[slot]) for slot in slots if slot in data}
        self.slots |= found
        self.old -= found.keys()
        return found

    def all_of_it(self) -> dict[str, Any]:
        """Everything, for a tab that has nothing yet."""
        return {
            "name": self.name,
            "put": self.slots,
            "old": sorted(self.old),
            "rows": self.rows,
            "problems": self.problems,
            "events": self.events,
            "at": self.at(),
            "lasting": self.lasting,
            "decides": self.decides,
            "progress": self.progress,
            "wheel": self.wheel,
        }

    def at(self) -> dict[str, Any]:
        """The event and the second that the quick answer is of."""
        return {
            "event": self.event,
            "point": self.point,
            "seconds": self.seconds,
            "settled": self.settled,
        }
