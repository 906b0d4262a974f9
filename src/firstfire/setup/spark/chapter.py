"""The spark as a chapter of setting up."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.engine import Engine
from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.number import Number
from firstfire.setup.spark import words
from firstfire.setup.spark.advance_table import EARLIEST, KEPT_FROM_KICK, AdvanceTable
from firstfire.setup.spark.facts import SparkFacts
from firstfire.setup.spark.sparking import spark
from firstfire.setup.spark.triggers import PointsSet
from firstfire.verdict.numbers import figures

TITLE = "Spark"


def spark_chapter(engine: Engine) -> Chapter:
    """The spark of an engine: trigger, true angle, coil, plug, leads, advance."""
    return spark_told(spark(engine))


def spark_told(found: SparkFacts) -> Chapter:
    """The same of a spark that is known already."""
    return Chapter(
        "spark", TITLE, tuple(_said(found)), tuple(spark_numbers(found)), tuple(_tables(found)),
        words.CAUTION,
    )  # fmt: skip


def _said(found: SparkFacts) -> Iterator[str]:
    yield words.opening(found)
    yield from (f"{fault.says} {fault.cure}" for fault in found.faults[1:])
    one = found.trigger
    yield from words.points_words(one) if isinstance(one, PointsSet) else words.sensor_words(one)
    yield words.edge_words(found)
    yield from words.coil_words(found)
    wasted = words.wasted_words(found)
    if wasted:
        yield wasted
    yield words.start_words(found)
    yield from (f"Not judged, or only so far: {note.rstrip('.')}." for note in found.notes)


def spark_numbers(found: SparkFacts) -> Iterator[Number]:
    """What a spark is set by, against its limits."""
    plain, kick = found.plain, found.kick
    limit = kick.strong - KEPT_FROM_KICK
    yield Number(
        "start_angle", "spark before top while starting", plain.spark.start_angle, "rad",
        limit if math.isfinite(limit) and found.cranked.over else None,
        "at most" if math.isfinite(limit) and found.cranked.over else "",
        "5° later than what throws a strong first combustion on a tired starter back",
        "a first combustion followed over its top; 5° is common practice, no source",
    )  # fmt: skip
    gaps = [one.gap_that_would for one in found.jumps if one.gap_that_would is not None]
    if gaps:
        yield Number(
            "plug_gap", "plug's gap", found.jumps[0].gap, "m", min(gaps), "at most",
            "the widest that even a worn plug jumps with the weakest such coil, at every moment",
            "Paschen's law for air, two published fits, ±30 %",
        )  # fmt: skip
    if isinstance(found.trigger, PointsSet):
        yield Number(
            "points_bounce", "crank speed from which the points bounce", found.trigger.bounces_at,
            "rad/s", found.trigger.fastest, "at least",
            "the spring just holds the arm to its lobe; the limit is the top speed asked for",
            "3-4-5 lobe, Norton, Cam Design and Manufacturing Handbook",
        )  # fmt: skip


def _tables(found: SparkFacts) -> Iterator[Table]:
    yield Table(
        "Asked and true angle before top", ("when", "asked", "true", "scatter"),
        tuple(
            (one.name, f"not judged: {one.why_not}", "–", "–") if one.why_not
            else (one.name, words.degrees(one.asked), words.degrees(one.true),
                  f"±{math.degrees(one.scatter):.1f}°")
            for one in found.angles
        ),
    )  # fmt: skip
    yield Table(
        "Does the spark jump", ("when", "wanted", "given", "becomes", "widest gap"),
        tuple(
            (one.name, f"not judged: {one.why_not}", "–", "–", "–") if one.why_not
            else (one.name, words.kilovolts(one.wants), words.kilovolts(one.gives), one.word,
                  "none" if one.gap_that_would is None
                  else f"{figures(1e3 * one.gap_that_would, 2)} mm")
            for one in found.jumps
        ),
    )  # fmt: skip
    marks = {"done": "in the file", "do": "to do", "lacking": "lacking in the file"}
    yield Table(
        "Leads", ("do", "why", "state"),
        tuple((one.do, one.why, marks.get(one.state, one.state)) for one in found.leads),
    )  # fmt: skip
    if found.table is not None:
        yield advance_words(found.table)


def advance_words(table: AdvanceTable) -> Table:
    """Advance by speed and load in words."""
    speeds = tuple(words.rpm(speed) for speed in table.speeds.tolist())
    rows = tuple(
        (f"{round(100 * float(table.openings[row]))} %",
         *(f"{math.degrees(angle):.1f}°{_held_by(held, met)}"
           for angle, held, met in zip(
               table.advance[row], table.governs[row], table.bounded[row], strict=True)))
        for row in range(len(table.openings))
    )  # fmt: skip
    caption = (
        "Advance before top to be asked for, by throttle and speed, warm: the latest that gives up "
        "1 % of most torque, unless knock or kick-back holds it back. Bound: torque still rose at "
        f"{math.degrees(EARLIEST):.0f}°, the earliest tried, so no best is known: an estimate, to "
        "be set by trying on the bench"
    )
    return Table(caption, ("throttle", *speeds), rows)


def _held_by(held: str, met: bool) -> str:
    """What decides an angle, behind it; nothing where it is best torque."""
    if met:
        return " (bound)"
    return "" if held == "torque" else f" ({held})"
