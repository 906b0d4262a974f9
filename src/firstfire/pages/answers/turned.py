"""What an event turned on the degree wheel does: clearances at once, the cycle behind."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from firstfire.drawing.templates.template import sense
from firstfire.engine.cam_lift import spans
from firstfire.engine.grammar import leaves
from firstfire.engine.happenings import happenings
from firstfire.engine.quantity import read_quantity
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.setting import overlap
from firstfire.pages.answers.templates import rendered
from firstfire.pages.desk.wheel import HANDLES, Handle, said
from firstfire.runs.bout import Bout
from firstfire.runs.cranking import cranked
from firstfire.runs.start.kick_back import kick_back
from firstfire.runs.together import Stop
from firstfire.runs.tooth_off import gaps_to_piston
from firstfire.runs.valve_gaps import TIGHT, Gap, between_gap
from firstfire.setup.spark.advance_table import KEPT_FROM_KICK
from firstfire.setup.timing.places import degrees
from firstfire.setup.timing.tooth import shifted
from firstfire.verdict.facts.margin import Word
from firstfire.verdict.numbers import figures, shown

_RPM = math.pi / 30


@dataclass(frozen=True)
class Row:
    """One thing that an event moves.

    Attributes
    ----------
    what, text
        In words.
    word
        What is said of it; "" where nothing is.
    more
        What it stands on.
    """

    what: str
    text: str
    word: Word | Literal[""] = ""
    more: str = ""


Rows = Mapping[str, Row]


def wheel(plain: PlainEngine, present: PlainEngine) -> dict[str, Any]:
    """The wheel of cylinder 1: where each event lies, and what it can be turned to."""
    parts, before = plain.cylinders[0], _own(present)
    own = _own(plain)
    return {
        "sense": sense(plain),
        "events": [
            {
                "id": one.id, "name": one.name, "path": one.path, "sign": one.sign,
                "own": own[one.id], "present": before.get(one.id, own[one.id]),
                "value": value, "low": low, "high": high, "sides": [one.before, one.after],
                "words": said(one, value), "spark": one.path.startswith("spark."),
            }
            for one in HANDLES
            if one.id in own and not (one.id == "running-spark" and plain.spark.advance_table)
            for value, low, high in [_turns(plain, one)]
        ],
        "arcs": [
            {"which": which, "from": math.degrees(span.opens), "to": math.degrees(span.shuts)}
            for which, span in spans(parts).items()
        ],
    }  # fmt: skip


def _own(plain: PlainEngine) -> dict[str, float]:
    """Where events of cylinder 1 lie after its firing top, degrees."""
    return {one.id: math.degrees(one.own) for one in happenings(plain) if one.cylinder == 1}


def _turns(plain: PlainEngine, handle: Handle) -> tuple[float, float, float]:
    """The angle that the file has, and between what it may lie, degrees."""
    found: Any = plain.cylinders[0] if handle.path.startswith("valves.") else plain
    for name in handle.path.split("."):
        found = getattr(found, name)
    leaf = leaves()[handle.path]
    ends = (math.degrees(float(read_quantity(end, "angle"))) for end in (leaf.low, leaf.high))
    low, high = ends
    return round(math.degrees(found), 2), round(low, 2), round(high, 2)


def still(plain: PlainEngine) -> dict[str, Row]:
    """What follows from geometry alone, the worst cylinder's."""
    return dict(_still(plain))


def _still(plain: PlainEngine) -> Iterator[tuple[str, Row]]:
    count = range(len(plain.cylinders))
    gaps = [gap for row in count for gap in gaps_to_piston(plain, row)]
    for which in ("inlet", "exhaust"):
        mine = [gap for gap in gaps if gap.what.startswith(which)]
        if mine:
            least = min(mine, key=lambda gap: gap.gap)
            yield f"gap {which}", _gap(f"{which} valve to piston, least", least, TIGHT)
    between = [gap for row in count if (gap := between_gap(plain, row)) is not None]
    if between:
        least = min(between, key=lambda gap: gap.gap)
        yield "gap between", _gap("valve to valve, least", least, TIGHT)
    if not gaps:
        yield "gap", Row("valve to piston", "–", "", "none stands above it, or none is on a cam")
    valves, right = plain.cylinders[0].valves, shifted(plain, 0, 0)
    if valves.inlet.worked == "cam":
        both = overlap(valves.inlet.opens_before_top, valves.exhaust.closes_after_top)
        yield "overlap", Row("both valves open together", degrees(both))
    if right.filling is not None:
        kept = f"{100 * right.filling:.0f} %"
        yield "kept", Row("charge kept at cranking speed", kept, "", "by where the inlet shuts")
    if right.gauge is not None:
        words = "of a cylinder that leaks nothing"
        yield "gauge", Row("a gauge would read", shown(right.gauge, "bar", 2), "", words)


def _gap(what: str, gap: Gap, tight: float) -> Row:
    word: Word = "fails" if gap.gap <= 0 else "marginal" if gap.gap < tight else "holds"
    if gap.gap <= 0:
        return Row(what, f"they meet, {shown(-gap.gap, 'mm', 2)} deep", word, gap.where)
    return Row(what, shown(gap.gap, "mm"), word, gap.where)


def running(bout: Bout) -> dict[str, Row]:
    """What the cycle at full throttle comes to, a mean of all cylinders."""
    point = bout.point
    each = point.fired.cycle.cylinders
    filling = math.fsum(one.volumetric_efficiency for one in each) / len(each)
    left = math.fsum(one.residual_fraction for one in each) / len(each)
    lost = "" if not point.misfires else "it doesn't light"
    return {
        "filling": Row("filled with fresh charge", f"{100 * filling:.0f} %", "", point.name),
        "residual": Row("burned gas left in it", f"{100 * left:.0f} %", "", point.name),
        "torque": Row("torque at the shaft", shown(point.brake_torque, "N*m"), "", lost),
        "power": Row("power at the shaft", shown(point.brake_power, "W"), "", lost),
    }


def kicking(plain: PlainEngine, stop: Stop) -> dict[str, Row]:
    """Whether a strong first combustion throws the starter back at the spark asked for.

    Raises
    ------
    OutsideValidity
        Where a model doesn't hold.
    Stopped
        If ``stop`` said so.
    """
    turned = cranked(plain, stop=stop)
    what = _KICK
    if not turned.over:
        return {"kick": Row(what, "–", "not judged", "its starter doesn't bring it over its top")}
    found = kick_back(plain, turned.shaft, stop)
    if not math.isfinite(found.strong):
        told = f"asked for {_before(found.asked)} while starting"
        return {"kick": Row(what, "none up to 70° before top", "holds", told)}
    spare = found.strong - found.asked
    word: Word = "fails" if spare <= 0 else "marginal" if spare < KEPT_FROM_KICK else "holds"
    more = f"a strong first combustion on a tired starter; asked for {_before(found.asked)}"
    return {"kick": Row(what, _before(found.strong), word, more)}


def _before(angle: float) -> str:
    return f"{figures(abs(math.degrees(angle)), 2)}° {'before' if angle >= 0 else 'after'} top"


def not_run(why: str) -> dict[str, Row]:
    """That a cycle at full throttle could not be run."""
    return {"torque": Row("torque at the shaft", "–", "not judged", why)}


def not_kicked(why: str) -> dict[str, Row]:
    """That kick-back could not be looked at."""
    return {"kick": Row(_KICK, "–", "not judged", why)}


_KICK = "spark from which it kicks back"
RUN = ("filling", "residual", "torque", "power", "kick")
"""Rows that gas has to be run for, in their order."""
ORDER = (
    "gap", "gap inlet", "gap exhaust", "gap between", "overlap", "kept", "gauge", *RUN,
)  # fmt: skip


_COMING = (("torque", "the cycle at full throttle"), ("kick", "the spark from which it kicks back"))
"""Rows that take longest, and what stands for them until they are there."""


def table(now: Rows, present: Rows | None, old: Sequence[str]) -> str:
    """A table of what an event moves.

    Parameters
    ----------
    now
        Of what is shown.
    present
        Of the engine without the trial; None where none is shown.
    old
        Rows that are of the engine before the last change.
    """
    idents = [one for one in ORDER if one in now or (present is not None and one in present)]
    coming = [words for ident, words in _COMING if ident not in now]
    return rendered(
        "turned.html.j2", now=now, present=present, old=old, idents=idents, coming=coming
    )
