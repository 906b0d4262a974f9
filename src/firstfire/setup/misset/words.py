"""Sentences about a cam drive that is put together wrongly: what it is, and what to turn where."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.belt import pulley_pitch_diameter
from firstfire.formulas.setting import rim_length
from firstfire.setup.misset.facts import Explained, MissetFacts
from firstfire.setup.misset.faults import Fault, drive_of
from firstfire.setup.misset.readings import TURN
from firstfire.setup.timing.places import degrees, has_rim, where
from firstfire.setup.timing.tooth import shifted
from firstfire.setup.timing.words import OTHER, mm
from firstfire.verdict.numbers import shown

BY_HAND = (
    "Plug out, spark off, fingers out of the drive. Turn the crank by hand only, and stop where "
    "it meets anything: a cam that is out can put a valve on the piston."
)


def fault_words(fault: Fault) -> str:
    """What is wrong, in a clause.

    Examples
    --------
    >>> fault_words(Fault(teeth=-2))
    'the cam is 2 teeth early'
    >>> fault_words(Fault())
    'all stands as drawn'
    """
    if fault.none:
        return "all stands as drawn"
    said = []
    if fault.swapped:
        said.append("the wheels of crank and cam are exchanged")
    if fault.mirrored:
        said.append("everything comes in the other order, as if the crank turned backwards")
    if fault.teeth or fault.degrees_late:
        said.append(f"the cam is {_late(fault)}")
    if fault.lash:
        much = "much" if fault.lash > 0 else "little"
        said.append(f"valves have too {much} lash")
    return " and ".join(said)


def _late(fault: Fault) -> str:
    beyond = fault.degrees_late
    side = "late" if fault.teeth > 0 else "early"
    count = abs(fault.teeth)
    teeth = f"{count} {'tooth' if count == 1 else 'teeth'} {side}"
    more = f"{degrees(abs(beyond))} of the crank {'late' if beyond > 0 else 'early'}"
    if not fault.teeth:
        return more
    return teeth if not beyond else f"{teeth}, and {more} besides"


def verdict(found: MissetFacts) -> str:
    """The answer in a sentence."""
    if found.found is None:
        return f"{found.engine.name}: no valve was read, so nothing is said of the cam."
    words = fault_words(found.found.fault)
    if found.found.fault.none:
        return f"{found.engine.name}: {words}, as near as a degree wheel tells."
    sure = "could be" if found.others else "as far as these readings go"
    if found.others:
        return f"{found.engine.name}: it {sure} that {words}; {_else(found)}."
    return f"{found.engine.name}: {words}, {sure}."


def _else(found: MissetFacts) -> str:
    count = len(found.others)
    return f"{count} other fault{'' if count == 1 else 's'} would read the same"


def cures(plain: PlainEngine, one: Explained) -> Iterator[str]:
    """What to do about a fault, step by step."""
    fault, drive = one.fault, plain.cam_drive
    way = plain.layout.rotation
    if fault.none:
        yield "Leave it."
        return
    if fault.mirrored:
        yield (
            f"Turn the crank {way} seen at the flywheel ({OTHER[way]} seen at the cam drive) and "
            "read again, after top what comes after it. If it still reads so, the camshaft lies "
            "back to front: turn it end for end."
        )
    if fault.swapped:
        yield (
            f"Put the wheel of {drive.teeth_crank} teeth on the crank and the one of "
            f"{drive.teeth_cam} on the cam, then set the marks again: as it is the cam turns twice "
            "for each turn of the crank."
        )
        return
    yield from _turned(plain, fault)
    if fault.lash:
        much = "much: each valve opens" if fault.lash > 0 else "little: each valve opens"
        late = "late and shuts early" if fault.lash > 0 else "early and shuts late"
        parts = plain.cylinders[0].valves
        yield (
            f"Lash is too {much} {degrees(abs(fault.lash))} {late}. Set it cold: inlet "
            f"{shown(parts.inlet.lash, 'mm')}, exhaust {shown(parts.exhaust.lash, 'mm')}, each at "
            "the firing top of its cylinder."
        )


def _turned(plain: PlainEngine, fault: Fault) -> Iterator[str]:
    """Which wheel to turn, which way, by how much."""
    drive, way = plain.cam_drive, plain.layout.rotation
    cam_way = OTHER[way] if drive.kind == "gear" else way
    if fault.teeth:
        on, count = fault.teeth > 0, abs(fault.teeth)
        turn = cam_way if on else OTHER[cam_way]
        word = {"belt": "Take the belt off", "chain": "Take the chain off",
                "gear": "Draw the cam's wheel out of mesh"}[drive.kind]  # fmt: skip
        yield (
            f"Hold the crank at top. {word}, turn the cam's wheel {count} "
            f"{'tooth' if count == 1 else 'teeth'} {'on' if on else 'back'} ({turn} seen at the "
            f"flywheel, {OTHER[turn]} seen at the drive: {degrees(count * TURN / drive.teeth_cam)} "
            "of the cam), and put it back."
        )
    if fault.degrees_late:
        more = fault.degrees_late
        turn = cam_way if more > 0 else OTHER[cam_way]
        wheel = pulley_pitch_diameter(drive.teeth_cam, drive.pitch)
        along = rim_length(abs(more) / 2, wheel)
        yield (
            f"{'Then turn' if fault.teeth else 'Turn'} the cam in its wheel by "
            f"{degrees(abs(more) / 2)} {turn} seen at the flywheel ({mm(along)} mm on the wheel's "
            "pitch line): no whole tooth does that. Look for a key, pin or mark in the wrong "
            "place, or a wheel that has slipped."
        )


def risks(plain: PlainEngine, fault: Fault) -> str | None:
    """Whether a valve meets the piston as it stands; None where it isn't known."""
    if fault.swapped or fault.mirrored:
        return "As it stands valves and piston are out of step: they may meet."
    teeth = fault.teeth + fault.degrees_late / drive_of(plain).tooth(swapped=False)
    rooms = []
    for index in range(len(plain.cylinders)):
        for whole in (math.floor(teeth), math.ceil(teeth)):
            row = shifted(plain, index, whole)
            rooms += [room for room in (row.inlet_room, row.exhaust_room) if room is not None]
    if not rooms or fault.none:
        return None
    if min(rooms) <= 0:
        return "As it stands a valve meets the piston (estimate): do not turn it through."
    return f"As it stands valves clear the piston by {mm(min(rooms))} mm (estimate)."


def top_words(found: MissetFacts) -> str | None:
    """That the cam may be half a turn out besides, where no reading says which top it is."""
    if found.which_top_known or found.found is None or found.found.fault.swapped:
        return None
    return (
        "These readings do not say which top they are from. A cam half a turn out reads the same: "
        "see that both valves are shut at the top at which the plug fires, or read one again as "
        '"before overlap top" or "before firing top", counted from the top that fires.'
    )


def next_words(found: MissetFacts) -> str | None:
    """Which reading tells the faults apart."""
    if not found.others:
        return None
    if found.next_event is None:
        return "No further reading of a valve tells them apart: cure the simplest, look again."
    event, at = found.next_event
    each = "; ".join(
        f"{spot} if {fault_words(one.fault)}"
        for one, spot in zip((found.found, *found.others), (_top(a) for a in at), strict=True)
        if one is not None
    )
    whose = "" if len(found.plain.cylinders) == 1 else f" of cylinder {event.cylinder}"
    return f"Read next where {event.name}{whose}: {each}."


def _top(angle: float) -> str:
    """Without saying which top: it is not known."""
    return where(angle).replace("firing top", "top").replace("overlap top", "top")


def edge_words(found: MissetFacts) -> Iterator[str]:
    """What was read of sensor, breaker and spark."""
    plain = found.plain
    crank_way = plain.layout.rotation
    cam_way = OTHER[crank_way] if plain.cam_drive.kind == "gear" else crank_way
    for one, late in found.edges:
        way = cam_way if one.cam else crank_way
        if abs(late) <= math.radians(1.0):
            yield f"{one.name}: as drawn."
            continue
        turn = OTHER[way] if late > 0 else way
        rim = (
            f", {mm(rim_length(abs(late), plain.flywheel.diameter))} mm on the rim"
            if has_rim(plain)
            else ""
        )
        yield (
            f"{one.name}: {degrees(abs(late))} {'late' if late > 0 else 'early'}{rim}. Move the "
            f"sensor or breaker plate {turn} seen at the flywheel"
            + (
                " by that angle."
                if not one.cam
                else f" by {degrees(abs(late) / 2)}: it is on the cam, once that stands right."
            )
        )
