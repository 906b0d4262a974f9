"""Sentences about timing: how it fires and turns, which top is which, what a tooth does."""

from __future__ import annotations

import math

from firstfire.engine.resolve import PlainEngine
from firstfire.setup.timing.facts import TimingFacts
from firstfire.setup.timing.places import degrees, has_rim, where
from firstfire.setup.timing.tooth import Shifted
from firstfire.verdict.numbers import figures, shown

OTHER = {"clockwise": "anticlockwise", "anticlockwise": "clockwise"}


def mm(value: float | None, places: int = 1) -> str:
    """A length in millimetres to so many places, with no unit.

    Examples
    --------
    >>> mm(0.01234), mm(-0.0004, 0), mm(None)
    ('12.3', '0', '–')
    """
    return "–" if value is None else f"{round(1e3 * value, places) + 0.0:.{places}f}"


def opening(found: TimingFacts) -> str:
    """How it fires, in a sentence."""
    name, gaps = found.engine.name, [degrees(gap) for gap in found.intervals]
    if len(found.order) == 1:
        fires = "one cylinder fires every 720° of the crank, each second turn"
    else:
        order = "–".join(map(str, found.order))
        even = len(set(gaps)) == 1
        apart = f"every {gaps[0]}" if even else " and ".join(gaps) + " apart"
        fires = f"cylinders fire {order}, {apart}"
    return f"{name}: {fires}. {turning(found.plain)}"


def turning(plain: PlainEngine) -> str:
    """Which way crank and cam turn, from both ends."""
    way = plain.layout.rotation
    cam = "with it" if plain.cam_drive.kind != "gear" else "against it: gears that mesh turn so"
    seen = "flywheel" if has_rim(plain) else "flywheel's end"
    return (
        f"The crank turns {way} seen at the {seen}, {OTHER[way]} seen at the cam drive; the cam "
        f"turns {cam}, at half the speed."
    )


def rim_words(found: TimingFacts) -> str:
    """How the columns of lengths are to be read."""
    plain = found.plain
    wheel = (
        f"Rim: along the {shown(plain.flywheel.diameter, 'mm')} flywheel from the mark that stands "
        "at the pointer when cylinder 1 is at top; plus is against the way it turns, so that the "
        "mark comes by after top."
        if has_rim(plain)
        else "There is no flywheel: tape the degree wheel to what is on the crank instead."
    )
    return (
        f"{wheel} Cam: the same on the pitch line of the cam's {plain.cam_drive.teeth_cam} teeth, "
        "from its mark at cylinder 1's firing top. Depth: crown below the cylinder's top face."
    )


def tooth_words(found: TimingFacts) -> str:
    """What a tooth is worth."""
    rim = "" if found.tooth_on_rim is None else f", {shown(found.tooth_on_rim, 'mm')} on the rim"
    teeth = found.plain.cam_drive.teeth_cam
    return (
        f"One tooth of the cam's {teeth} is {degrees(found.tooth / 2)} of the cam and "
        f"{degrees(found.tooth)} of the crank{rim}; one of the crank's "
        f"{found.plain.cam_drive.teeth_crank} is worth the same."
    )


def meets(row: Shifted) -> str:
    """The least room of a valve to the piston, or which meets it.

    With neither room known, nothing is judged.
    """
    rooms = {"inlet": row.inlet_room, "exhaust": row.exhaust_room}
    known = {which: room for which, room in rooms.items() if room is not None}
    if not known:
        return "not judged"
    which = min(known, key=lambda one: known[one])
    if known[which] <= 0:
        return f"{which} meets it"
    return f"{mm(known[which])} mm"


def apart(found: TimingFacts) -> tuple[str, ...]:
    """How to tell the firing top from the other, for each cylinder, then what settles it."""
    each = [_tops(next(row for row in rows if row.teeth == 0)) for rows in found.teeth]
    alike = len(set(each)) == 1
    said = each[:1] if alike else [f"Cylinder {n}: {text}" for n, text in enumerate(each, 1)]
    said.append(
        "Thumb on the plug hole, plug lead earthed, turn by hand the way it runs: the top that "
        "pushes the thumb off is the firing top, the next one is not."
    )
    if len(found.order) > 1:
        said.append(_second(found))
    if found.plain.spark.wasted:
        said.append("It sparks at both tops (wasted spark): a timing light does not tell them.")
    return tuple(said)


def _tops(right: Shifted) -> str:
    closes = where(right.exhaust_closes)
    if right.inlet_lift is None or right.inlet_opens is None:
        return (
            f"At the firing top both valves are shut. Near the other the exhaust cam lets go "
            f"({closes}); suction then opens the inlet."
        )
    if right.inlet_lift <= 0 and right.exhaust_lift <= 0:
        return (
            f"At both tops both valves are shut; only near the overlap top does the exhaust shut "
            f"({closes}) and the inlet open ({where(right.inlet_opens)})."
        )
    lift = max(right.inlet_lift, right.exhaust_lift)
    how = "too little to see: use a dial gauge or feel the lash go" if lift < 0.2e-3 else "to see"
    return (
        "At the firing top both valves are shut and both rockers or fingers have their lash. At "
        f"the overlap top the inlet is open by {mm(right.inlet_lift, 2)} mm and the exhaust by "
        f"{mm(right.exhaust_lift, 2)} mm, {how}; rock the crank about it and one shuts as the "
        "other opens."
    )


def _second(found: TimingFacts) -> str:
    after = degrees(found.fires[1])
    at = found.fires[1] % (2.0 * math.pi)
    if min(at, 2.0 * math.pi - at) < 1e-6:
        same = "both pistons are at top together" + (
            "; when one fires the other is on overlap" if found.fires[1] > 1.0 else ""
        )
    else:
        same = f"its top comes {degrees(at)} after cylinder 1's on the wheel"
    return f"Cylinder 2 fires {after} after cylinder 1: {same}."


def sparked_words(plain: PlainEngine) -> str:
    """Where the wheel or the lobe that fires it sits."""
    what = (
        "The breaker's lobe" if plain.spark.source == "points" else "The sensor's magnet or tooth"
    )
    if plain.spark.wasted:
        return f"{what} turns with the crank: it fires at every top."
    return f"{what} turns with the cam, at half the crank's speed: it fires every second turn."


def latency_words(plain: PlainEngine) -> str | None:
    """How much later than its edge the spark comes, None where it doesn't."""
    late = plain.spark.latency
    if late <= 0 or plain.spark.timed_by == "clock":
        return None
    fast, slow = max(plain.use.full_throttle_speeds), plain.use.cranking_speed
    return (
        f"The spark comes {figures(1e3 * late)} ms after its edge: {degrees(late * slow)} at "
        f"{shown(slow, 'rpm')}, {degrees(late * fast)} at {shown(fast, 'rpm')}. Set the edge so "
        "much earlier than the angle you want."
    )


def belt_words(found: TimingFacts) -> str | None:
    """How many teeth the belt has, None for gears."""
    belt, drive = found.belt, found.plain.cam_drive
    if belt is None:
        return None
    unit = "links" if drive.kind == "chain" else "teeth"
    size = f"{drive.kind.capitalize()}: {belt.teeth} {unit} of {shown(drive.pitch, 'mm')}"
    wheels = f"{drive.teeth_crank} on the crank, {drive.teeth_cam} on the cam"
    centre = f"axes {1e3 * belt.centre_distance:.2f} mm apart"
    if belt.fits:
        return f"{size} ({wheels}), {centre}."
    return (
        f"{size} ({wheels}) with {centre}. By rule of thumb the file has "
        f"{1e3 * belt.said:.2f} mm, which asks for {belt.exact:.2f} {unit}: write "
        f'cam_drive.centre_distance = "{1e3 * belt.centre_distance:.2f} mm".'
    )


def assumed_words(found: TimingFacts) -> tuple[str, ...]:
    """What of the table stands on no number of the file, each once."""
    said = dict.fromkeys(p.event.assumed for p in found.places if p.event.assumed)
    return tuple(text[0].upper() + text[1:] + "." for text in said)


CAUTION = (
    "Turn it by hand, plug out, spark off, until a whole cycle has gone round free. Everything "
    "here is an estimate: prove it on the engine before it is spun."
)

__all__ = [
    "CAUTION", "OTHER", "apart", "assumed_words", "belt_words", "latency_words", "meets", "mm",
    "opening", "rim_words", "sparked_words", "tooth_words", "turning",
]  # fmt: skip
