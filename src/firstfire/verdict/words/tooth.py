"""Whether a valve meets its piston with the cam drive one and two teeth out, in words."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.resolve import PlainEngine
from firstfire.runs.tooth_off import tooth_gaps, why_none
from firstfire.verdict.numbers import THIN

TITLE = "Valve and piston, with the cam drive out"
_TEETH = {
    -2: "two teeth early", -1: "one tooth early", 0: "as drawn", 1: "one tooth late",
    2: "two teeth late",
}  # fmt: skip


@dataclass(frozen=True)
class ToothLine:
    """One place of the cam drive.

    Attributes
    ----------
    when
        How far the cam is out.
    told
        That it touches, or by how much it clears.
    which
        What comes nearest, and where in the turn.
    word
        ``fails`` where they meet, else ``holds``.
    """

    when: str
    told: str
    which: str
    word: str


def tooth_lines(plain: PlainEngine) -> tuple[ToothLine, ...]:
    """Each place of the cam drive, from early to late; none where nothing can meet."""
    return tuple(
        ToothLine(
            _TEETH[teeth], _told(gap.gap), f"{gap.what}, {gap.where}",
            "fails" if gap.gap <= 0.0 else "holds",
        )
        for teeth, gap in sorted(tooth_gaps(plain).items())
    )  # fmt: skip


def short(plain: PlainEngine) -> str:
    """The same in a line of the card."""
    gaps = {teeth: gap.gap for teeth, gap in tooth_gaps(plain).items()}
    if not gaps:
        return why_none(plain)
    one, two = (min(gaps[-n], gaps[n]) for n in (1, 2))
    return f"{_told(gaps[0])}; one tooth off {_room(one)}, two {_room(two)}"


def _told(gap: float) -> str:
    return f"{'clears by ' * (gap > 0)}{_room(gap)}"


def _room(gap: float) -> str:
    return "touches" if gap <= 0.0 else f"{1e3 * gap:.1f}{THIN}mm"
