"""How to set an engine's timing: steps in order, with this engine's own numbers and cautions."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.cam_lift import spans
from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import mechanism
from firstfire.formulas.setting import angle_at_travel, rim_length, top_between
from firstfire.setup.timing.facts import TimingFacts
from firstfire.setup.timing.places import degrees, has_rim, where
from firstfire.setup.timing.tooth import Shifted
from firstfire.setup.timing.words import OTHER, latency_words, meets, mm, turning
from firstfire.verdict.numbers import shown

_STOP = 0.2
"""Share of the stroke at which a piston stop holds best: lower, the crank tells more of it."""


@dataclass(frozen=True)
class Step:
    """One thing to do.

    Attributes
    ----------
    title
        In a few words.
    do
        What to do, in sentences.
    caution
        What to mind, "" where nothing more than always.
    """

    title: str
    do: tuple[str, ...]
    caution: str = ""


def steps(found: TimingFacts) -> tuple[Step, ...]:
    """All steps, in the order in which they are done."""
    return (
        _safe(found),
        _top(found),
        _rim(found),
        _lash(found),
        _cam(found),
        _proof(found),
        _direction(found),
        _spark(found),
        _off(found),
        _through(),
    )


def _safe(found: TimingFacts) -> Step:
    return Step(
        "Make it safe",
        (
            f"{found.engine.name}: plug out, fuel shut and away, coil and controller off, starter "
            "taken off the crank. From here on the crank is turned by hand.",
        ),
        "Keep fingers out of the cam drive and off the flywheel's edge. A plug on its lead can "
        "spark whenever anything is powered.",
    )


def stops(parts: CylinderParts, travel: float) -> tuple[float, float]:
    """Crank angles before and after top at which a stop holds the piston so far down, rad.

    They differ where the bore is offset.
    """
    throw, rod, offset = mechanism(parts)
    return (
        angle_at_travel(travel, throw, rod, -offset),
        angle_at_travel(travel, throw, rod, offset),
    )


def _top(found: TimingFacts) -> Step:
    parts = found.plain.cylinders[0]
    travel = round(_STOP * parts.cylinder.stroke, 3)
    before, after = stops(parts, travel)
    # a wheel put on 4° out reads so; the example is worked with the law itself
    first, second = math.radians(4) - before, math.radians(4) + after
    middle = top_between(first % (2 * math.pi), second)
    lines = [
        f"Screw a stop into cylinder 1's plug hole that meets the piston about {mm(travel, 0)} mm "
        f"below its top: about {degrees(before)} either side. Brass, wood or plastic, never steel "
        "on a printed crown.",
        "Put the degree wheel on, a wire as pointer, at about 0. Turn gently on to the stop and "
        "read; turn back to the stop from the other side and read. Top is halfway between.",
        f"If it reads {degrees(first % (2 * math.pi))} and {degrees(second)}, top is at "
        f"{degrees(middle)}: take the stop out, turn the wheel on its shaft by so much. Do it "
        "again until both readings are the same distance from 0.",
    ]
    if abs(after - before) > math.radians(0.1):
        lines.append(
            f"The bore is offset: with the wheel right the stop reads {degrees(before)} before and "
            f"{degrees(after)} after. True top is {degrees(abs(after - before) / 2)} "
            f"{'before' if after > before else 'after'} the halfway mark."
        )
    return Step(
        "Find true top centre of cylinder 1", tuple(lines),
        "Valves shut (rockers or cam off) while the stop is in, or one can meet the stop. No "
        "force: a stop pushes a crown in.",
    )  # fmt: skip


def _rim(found: TimingFacts) -> Step:
    plain = found.plain
    if not has_rim(plain):
        text = "There is no flywheel: mark top on hub or propeller with a line to the case."
        return Step("Mark it", (text,))
    per = rim_length(math.radians(10), plain.flywheel.diameter)
    return Step(
        "Mark the rim",
        (
            f"With 0 at the pointer, wrap the rim strip on with its 0 there, or scratch top. Ten "
            f"degrees are {mm(per)} mm of a {shown(plain.flywheel.diameter, 'mm')} rim. "
            + turning(plain),
        ),
    )


def _lash(found: TimingFacts) -> Step:
    each = []
    for parts in found.plain.cylinders:
        inlet, exhaust = parts.valves.inlet, parts.valves.exhaust
        said = [f"inlet {shown(inlet.lash, 'mm')}"] if inlet.worked == "cam" else []
        said.append(f"exhaust {shown(exhaust.lash, 'mm')}")
        each.append(f"{', '.join(said)}, cold, with a feeler gauge that just drags.")
    at_top = "at its own firing top, both valves shut"
    if len(set(each)) == 1:
        who = "The cylinder" if len(each) == 1 else "Each cylinder"
        lines = [f"{who} {at_top}: {each[0]}"]
    else:
        lines = [f"Cylinder {n} {at_top}: {text}" for n, text in enumerate(each, 1)]
    if found.plain.cylinders[0].valves.inlet.worked == "suction":
        lines.append("The inlet has no lash: its spring alone shuts it. See that it moves freely.")
    if any(p.valves.exhaust.lash == 0 for p in found.plain.cylinders):
        lines.append("Without lash a valve stays open once it is warm: give it 0.1 mm.")
    return Step("Set the lash", tuple(lines),
                "Lash first, then timing: too much of it reads as a cam that is late to open and "
                "early to shut.")  # fmt: skip


def _cam(found: TimingFacts) -> Step:
    drive = found.plain.cam_drive
    belt = "" if found.belt is None else (
        f" ({found.belt.teeth} {'links' if drive.kind == 'chain' else 'teeth'})"
    )  # fmt: skip
    stand_apart = found.plain.layout.kind in ("v_twin", "opposed_twin")
    own = " Cylinder 2 has a camshaft of its own: its mark stands as drawn." if stand_apart else ""
    if drive.kind == "gear":
        mesh = "mesh the gears"
    else:
        mesh = f"put the {drive.kind}{belt} on, its tight side straight"
    return Step(
        "Time the cam by the mark",
        (
            "Cylinder 1 at firing top: crank's mark to the cam, cam's mark to the crank, as on the "
            f"sheet of crank and cams as assembled.{own}",
            f"Hold both and {mesh}. {drive.teeth_crank} teeth belong on the crank, "
            f"{drive.teeth_cam} on the cam.",
        ),
        "Do not turn the crank with the cam loose: a valve left open can meet the piston.",
    )


def _proof(found: TimingFacts) -> Step:
    each = [_proved(rows) for rows in found.teeth]
    alike = len(set(each)) == 1
    lines = [
        line if len(found.teeth) == 1 else f"{who}: {line}"
        for who, said in zip(_whose(found, alike), each[:1] if alike else each, strict=True)
        for line in said
    ]
    lines.append(
        f"Least room between valve and piston as drawn, an estimate: {meets(found.teeth[0][2])}. "
        "See it with a strip of clay on the crown before you trust it."
    )
    return Step("Prove it by valve lift at the overlap top", tuple(lines))


def _whose(found: TimingFacts, alike: bool) -> tuple[str, ...]:
    if alike:
        return ("Each cylinder, at its own top",)
    return tuple(f"Cylinder {number}" for number in range(1, len(found.teeth) + 1))


def _proved(rows: tuple[Shifted, ...]) -> tuple[str, ...]:
    """What a gauge reads as drawn, and with the cam a tooth out."""
    early, right, late = (next(r for r in rows if r.teeth == n) for n in (-1, 0, 1))
    if right.inlet_lift is None:
        return (
            "One turn on from firing top the exhaust is just shutting: it is back on its seat "
            f"{where(right.exhaust_closes)}.",
            f"A tooth early it is {where(early.exhaust_closes)}, a tooth late "
            f"{where(late.exhaust_closes)}.",
        )
    return _lifts(right), f"A tooth early: {_both(early)}. A tooth late: {_both(late)}."


def _lifts(right: Shifted) -> str:
    if right.inlet_lift == right.exhaust_lift == 0:
        return "One turn on from firing top, at the overlap top, both valves are still shut."
    return (
        f"One turn on from firing top, at the overlap top, a dial gauge on the valves reads "
        f"{_both(right)} off their seats."
    )


def _both(row: Shifted) -> str:
    return f"inlet {mm(row.inlet_lift, 2)}, exhaust {mm(row.exhaust_lift, 2)} mm"


def _direction(found: TimingFacts) -> Step:
    plain = found.plain
    way = plain.layout.rotation
    right = found.teeth[0][2]
    first = (
        f"From the firing top the exhaust is the first valve to lift ({where(right.exhaust_opens)})"
    )
    other = (
        "if the inlet lifts first, it is turned the other way or the camshaft is back to front"
        if right.inlet_opens is not None
        else "if it lifts only near the next top, it is turned the other way"
    )
    lines = [
        f"It runs {way} seen at the flywheel's end, {OTHER[way]} seen at the cam drive. {first}; "
        f"{other}."
    ]
    if "drill" in plain.starter.kind or plain.starter.kind.startswith(("cordless", "mains")):
        fits = "as this engine runs" if way == "clockwise" else "the wrong way: set it to reverse"
        lines.append(
            f"A drill turns clockwise seen from behind it: on the flywheel's end that is {fits}; "
            f"on the other end it is {'the wrong way' if way == 'clockwise' else 'as it runs'}."
        )
    return Step("Check the direction of rotation", tuple(lines))


def _spark(found: TimingFacts) -> Step:
    spark = found.plain.spark
    what = (
        "the points just part, by a lamp across them,"
        if spark.source == "points"
        else "the sensor's lamp or the controller's pin changes"
    )
    per = found.plain.flywheel.diameter if has_rim(found.plain) else None

    def at(angle: float) -> str:
        rim = "" if per is None else f", {mm(abs(rim_length(angle, per)))} mm on the rim"
        side = "before" if angle >= 0 else "after"
        return f"{degrees(abs(angle))} {side} top{rim}"

    lines = [f"Turn the crank the way it runs; {what} at {at(spark.start_angle)} for starting."]
    if spark.running_angle != spark.start_angle:
        lines.append(f"Running: {at(spark.running_angle)}.")
    late = latency_words(found.plain)
    lines += [late] if late else []
    if spark.wasted:
        lines.append("It fires at both tops: either will do.")
    else:
        lines.append("It fires every second turn: see that it is at the firing top, thumb on hole.")
    return Step(
        "Set the spark", tuple(lines),
        "Coil off while you set; the lead is earthed. A spark that is early throws the starter "
        "back: begin later, never earlier.",
    )  # fmt: skip


def _off(found: TimingFacts) -> Step:
    tooth = degrees(found.tooth)
    parts = found.plain.cylinders[0]
    name, at_ = next(
        ((w, s.opens) for w, s in spans(parts).items() if w == "inlet"),
        ("exhaust", spans(parts)["exhaust"].shuts),
    )
    verb = "opens" if name == "inlet" else "closes"
    read = where(at_ + found.tooth).replace("overlap top", "top")
    return Step(
        "What a reading says when it is off",
        (
            f"Every event {tooth} late: the cam is one tooth late, and goes one tooth on, the way "
            f"it runs. {tooth} early: one tooth back. Two such, two teeth.",
            f"Some other angle: a key, pin or mark is out of place, or a wheel has slipped. No "
            f"whole tooth is {degrees(found.tooth / 2)}.",
            "Opens late and shuts early: lash. All in the other order: you read the wheel the "
            "wrong way, or the camshaft is in back to front. Open for a quarter of the angle: the "
            "wheels are exchanged.",
            f'firstfire timing FILE --measured "{name} {verb}={_typed(read)}" tells it, and which '
            "way to turn which wheel; give it every reading that you have.",
        ),
    )


def _typed(words: str) -> str:
    return words.replace("°", " deg") if not words.startswith("at ") else words


def _through() -> Step:
    return Step(
        "Turn it through",
        (
            "By hand, slowly, two whole turns the way it runs. It turns free all round or it is "
            "taken apart again. Then read every event once more and write it down.",
        ),
        "Before it is ever spun by a starter: a shield, nobody in the plane of the flywheel, eyes "
        "and ears covered, the stop within reach. Local codes and licensed practice decide what "
        "may be run. All numbers here are estimates.",
    )
