"""What a search for cams goes from, goes to, and gives."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from firstfire.loads.cam_profile import Which


@dataclass(frozen=True)
class Point:
    """A pair of cams: angles as the file has them, degrees; lifts in m; one law for both."""

    law: str
    angles: Mapping[str, float]
    lifts: Mapping[Which, float]

    def moved(self, name: str, by: float) -> Point:
        """With an angle more by degrees, or a lift by per cent."""
        if name in ("inlet", "exhaust"):
            lifts = {
                which: lift * (1.0 + by / 100.0 if which == name else 1.0)
                for which, lift in self.lifts.items()
            }
            return Point(self.law, self.angles, lifts)
        return Point(self.law, {**self.angles, name: self.angles[name] + by}, self.lifts)


class Breath(NamedTuple):
    """What cams are worth at speeds: mean filling, and work of a cycle over displacement, Pa."""

    filling: float
    work: float


class Opening(NamedTuple):
    """When the exhaust opens before bottom centre, rad, in the file and chosen, and the work, Pa.

    Attributes
    ----------
    before, after
        rad; the same where no other pays.
    work_before, work_after
        Work of a cycle over displacement with each, Pa.
    tried
        Other openings that were run, rad.
    """

    before: float
    after: float
    work_before: float
    work_after: float
    tried: tuple[float, ...]


@dataclass(frozen=True)
class Chosen:
    """What was found.

    Attributes
    ----------
    values
        Values of the engine file that give it, by path; none where nothing better was found.
    before, after
        Mean filling at the speeds, as the file is and with it; None where the file's own cams
        can't be run.
    speeds
        rad/s.
    tried, refused
        How many pairs of cams were run, and how many could not be made or would not hold.
    finished
        Whether it was not stopped.
    opening
        When the exhaust opens, and what that is worth; None where it was stopped before.
    """

    values: dict[str, object]
    before: float | None
    after: float
    speeds: tuple[float, ...]
    tried: int
    refused: int
    finished: bool
    opening: Opening | None = None
