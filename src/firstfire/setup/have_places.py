"""Where each kind of thing may go in an engine, and what must be set for it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from firstfire.catalog import Row
from firstfire.engine.engine import Engine
from firstfire.engine.quantity import write_quantity
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.orings import LEAST_STRETCH, MOST_STRETCH, SECTION_APART, groove_diameter
from firstfire.setup.screws import least_length, stocked_length
from firstfire.setup.tubes import BORE_OVER
from firstfire.setup.words import bare_mm, by, mm, percent

PLUG_THREADS = ("M8x1", "M10x1", "M12x1.25", "M14x1.25")
_SAME = 1e-5
_SPARE = 15e-3
"""Length of a screw beyond what is needed that is told to be in the way (our own choice), m."""
_ANOTHER_ENGINE = 0.10
"""Share by which a tube's bore may move the engine's before it is another engine."""


@dataclass(frozen=True)
class Offer:
    """One place, with what must be set there for the thing at hand.

    Attributes
    ----------
    place, path
        Where.
    why
        Why it can or can't serve, a clause.
    set
        Written values by path; empty where the engine has it already.
    as_it_is
        Whether no size of the engine has to change.
    refused
        Whether it can't serve.
    """

    place: str
    path: str
    why: str
    set: dict[str, str] = field(default_factory=dict)
    as_it_is: bool = False
    refused: bool = False


def length(metres: float) -> str:
    """A length as the engine file has it."""
    return write_quantity(metres, "length", "mm", 6)


def bearing(engine: Engine, plain: PlainEngine, row: Row) -> Iterator[Offer]:
    """Main bearings, and a rod's ends where they run on balls."""
    crank, values = plain.crank, engine.values()
    bore, outside, width = (row.si(x) for x in ("bore", "outside", "width"))
    path, place = "crank.main_bearing", f"main bearings ({crank.main_bearings} of them)"
    if row.key == crank.main_bearing:
        yield Offer(place, path, "it is the one your file names")
    elif bore >= crank.cheek_width:
        yield Offer(place, path, f"its bore of {mm(bore)} is no smaller than the crank cheek is "
                    f"wide ({mm(crank.cheek_width)})", refused=True)  # fmt: skip
    else:
        same = all(
            abs(a - b) < _SAME
            for a, b in ((bore, crank.main_bearing_bore), (outside, crank.main_bearing_outside),
                         (width, crank.main_bearing_width))
        )  # fmt: skip
        change = {path: row.key}
        for name, wanted in (("bore", bore), ("outside", outside), ("width", width)):
            if values.said(f"{path}_{name}"):
                change[f"{path}_{name}"] = length(wanted)
        for follower in (
            "crank.main_journal_diameter",
            "flywheel.bore",
            "crank.journal.joint.diameter",
            "flywheel.joint.diameter",
        ):
            if values.said(follower) and abs(values.number(follower) - bore) > _SAME:
                change[follower] = length(bore)
        why = (
            "same size as the one your file names"
            if same
            else f"it is {by(bore, outside, width)}, yours is "
            f"{by(crank.main_bearing_bore, crank.main_bearing_outside, crank.main_bearing_width)}: "
            "journals and the case's seats change with it"
        )
        yield Offer(place, path, why, change, as_it_is=same)
    yield from _rod_ends(plain, row)


def _rod_ends(plain: PlainEngine, row: Row) -> Iterator[Offer]:
    parts = plain.cylinders[0]
    ends = (
        ("big_end", "crank.crankpin_diameter", plain.crank.crankpin_diameter),
        ("small_end", "pin.diameter", parts.pin.diameter),
    )
    for end, path, pin in ends:
        if getattr(parts.rod, end) != "ball":
            continue
        place, wide = f"con rod's {end.replace('_', ' ')}", getattr(parts.rod, f"{end}_width")
        if abs(row.si("bore") - pin) < _SAME and row.si("width") <= wide + _SAME:
            yield Offer(place, f"rod.{end}", f"its bore is the pin's, {mm(pin)}, and it is no "
                        f"wider than the eye, {mm(wide)}")  # fmt: skip
            continue
        change = {path: length(row.si("bore"))}
        if row.si("width") > wide + _SAME:
            change[f"rod.{end}_width"] = length(row.si("width"))
        yield Offer(place, f"rod.{end}", f"its bore is {mm(row.si('bore'))}, the pin {mm(pin)}; "
                    f"it is {mm(row.si('width'))} wide, the eye {mm(wide)}", change)  # fmt: skip


def oring(engine: Engine, plain: PlainEngine, row: Row) -> Iterator[Offer]:
    """The piston's rings."""
    parts, values = plain.cylinders[0], engine.values()
    rings, path, place = parts.rings, "rings.oring", "piston rings"
    if rings.kind != "o_ring" or not rings.count:
        yield Offer(place, path, f"this piston has no O-ring: rings.kind is {rings.kind}",
                    refused=True)  # fmt: skip
        return
    section, inside = row.si("section"), row.si("inside")
    same_section = abs(section - rings.section) <= SECTION_APART
    depth = rings.groove_depth
    if not same_section:
        depth = section * (1 - rings.squeeze) - parts.piston.skirt_clearance / 2
    groove = groove_diameter(parts) + 2 * (rings.groove_depth - depth)
    stretch = groove / inside - 1
    told = f"{by(inside, section)}, on a groove floor of {mm(groove)}"
    if not LEAST_STRETCH - 5e-4 <= stretch <= MOST_STRETCH + 5e-4:
        word = "stretched " if stretch > 0 else "loose by "
        yield Offer(place, path, f"it is {told}, and sits {word}{percent(abs(stretch), 1)}: 0 to "
                    f"5 % of stretch is right, an inside of {bare_mm(groove / 1.05)} to "
                    f"{mm(groove)}", refused=True)  # fmt: skip
        return
    change = {path: row.key}
    if values.said("rings.section") and abs(section - rings.section) > 1e-9:
        change["rings.section"] = length(section)
    if values.said("rings.inside_diameter"):
        change["rings.inside_diameter"] = length(inside)
    if not same_section:
        if values.said("rings.groove_depth"):
            change["rings.groove_depth"] = length(depth)
        if values.said("rings.groove_width"):
            change["rings.groove_width"] = length(1.4 * section)
    why = f"it is {told}: {percent(stretch, 1)} of stretch"
    if not same_section:
        why += f"; its groove is {mm(depth)} deep instead of {mm(rings.groove_depth)}"
    yield Offer(place, path, why, change, as_it_is=same_section)


def tube(engine: Engine, plain: PlainEngine, row: Row) -> Iterator[Offer]:
    """The liner."""
    parts, values = plain.cylinders[0], engine.values()
    bore, outside = row.si("bore"), row.si("outside")
    now, place, path = parts.cylinder.bore, "liner", "liner.tube"
    stuff = row.texts.get("material", parts.liner.material)
    if abs(bore / now - 1) > _ANOTHER_ENGINE:
        yield Offer(place, path, f"it is {mm(bore)} inside, your bore {mm(now)}: that would be "
                    "another engine", refused=True)  # fmt: skip
        return
    change = {path: row.key}
    same_bore = abs(bore - now) < _SAME
    if bore - now > BORE_OVER or bore < now - _SAME:
        change["cylinder.bore"] = length(bore)
    if (
        values.said("liner.outside_diameter")
        and abs(outside - parts.liner.outside_diameter) > _SAME
    ):
        change["liner.outside_diameter"] = length(outside)
    if values.said("liner.material") and stuff != parts.liner.material:
        change["liner.material"] = stuff
    if parts.liner.kind != "tube":
        change["liner.kind"] = "tube"
    if values.said("liner.made") and parts.liner.made != "tube":
        change["liner.made"] = "tube"
    same = same_bore and abs(outside - parts.liner.outside_diameter) < _SAME
    same = same and stuff == parts.liner.material and parts.liner.kind == "tube"
    limits = row["bore"]
    why = (
        f"it is {by(bore, outside)}, your liner {by(now, parts.liner.outside_diameter)}; its bore "
        f"may come as {mm(limits.si_low)} to {mm(limits.si_high)}"
    )
    if bore > now + _SAME and "cylinder.bore" not in change:
        why += f", {mm(bore - now)} more than drawn"
    if stuff != parts.liner.material:
        why += f"; it is of {engine.catalog.row('material', stuff).name.split(' (')[0]}"
    yield Offer(place, path, why, change, as_it_is=same)


def thread(engine: Engine, plain: PlainEngine, row: Row) -> Iterator[Offer]:
    """Screws of the head, or the plug where it is a plug's thread."""
    parts = plain.cylinders[0]
    if row.key in PLUG_THREADS:
        same = row.key == parts.plug.thread
        why = "it is your plug's thread" if same else f"your file has a plug {parts.plug.thread}"
        yield Offer("spark plug", "plug.thread", why, {} if same else {"plug.thread": row.key})
        return
    hold, path, place = parts.head.fasteners, "head.fasteners.thread", "head screws"
    least = least_length(row, parts)
    stocked = stocked_length(least)
    long = f"{hold.count * len(plain.cylinders)} of them, {mm(least)} long under the head at least"
    if stocked:
        long += f" ({mm(stocked)} are sold)"
    if row.key == hold.thread:
        yield Offer(place, path, f"it is the thread your file names: {long}, class "
                    f"{hold.property_class}")  # fmt: skip
        return
    change = {path: row.key}
    if hold.kind == "inserts":
        fitting = [
            r for r in engine.catalog.rows("insert") if r.texts.get("thread") == row.key
        ]  # fmt: skip
        if not fitting:
            yield Offer(place, path, f"the head sits in heat-set inserts, and the catalog has none "
                        f"for {row.key}", refused=True)  # fmt: skip
            return
        change["head.fasteners.insert"] = fitting[0].key
    yield Offer(place, path, f"your file has {hold.thread}; {long}; holes, washers and torque "
                "change with it", change)  # fmt: skip


def screw(engine: Engine, plain: PlainEngine, row: Row, long: float) -> Iterator[Offer]:
    """Head screws of a thread and a length, m: too short ones can't serve, whatever the thread."""
    least = least_length(row, plain.cylinders[0])
    for offer in thread(engine, plain, row):
        if offer.refused or offer.path != "head.fasteners.thread":
            yield offer
        elif long < least - 1e-6:
            yield replace(offer, why=f"{row.key} × {mm(long)} is too short: the head wants "
                          f"{mm(least)} under the screw's head", set={}, refused=True)  # fmt: skip
        else:
            over = long - least
            spare = f"; saw off {mm(over)}, or pack it with washers" if over > _SPARE else ""
            yield replace(offer, why=f"{offer.why}; yours are {mm(long)}{spare}")


def insert(engine: Engine, plain: PlainEngine, row: Row) -> Iterator[Offer]:
    """What the head's screws go into."""
    del engine
    hold, path = plain.cylinders[0].head.fasteners, "head.fasteners.insert"
    if hold.insert == row.key:
        yield Offer("head's inserts", path, "it is the one your file names")
        return
    change = {path: row.key, "head.fasteners.thread": row.texts.get("thread", hold.thread)}
    why = f"it is {by(row.si('outside'), row.si('length'))}; its hole is {mm(row.si('hole'))}"
    if hold.kind != "inserts":
        change["head.fasteners.kind"] = "inserts"
        why += f"; your head is held by {hold.kind.replace('_', ' ')}"
    yield Offer("head's inserts", path, why, change)


def belt(engine: Engine, plain: PlainEngine, row: Row) -> Iterator[Offer]:
    """The cam drive."""
    drive, values = plain.cam_drive, engine.values()
    path, place = "cam_drive.belt", "cam drive"
    if drive.kind != "belt":
        yield Offer(place, path, f"your cam is driven by a {drive.kind}; a belt would do if "
                    "cam_drive.kind = belt", refused=True)  # fmt: skip
        return
    sold = [float(n) / 1e3 for n in re.findall(r"\d+(?:\.\d+)?", row.texts.get("widths", ""))]
    change, why = {}, f"pitch {mm(row.si('pitch'))}, as drawn"
    same = abs(row.si("pitch") / drive.pitch - 1) < 1e-3
    if not same:
        change = {path: row.key}
        why = f"its pitch is {mm(row.si('pitch'))}, your pulleys' {mm(drive.pitch)}"
        if values.said("cam_drive.pitch"):
            change["cam_drive.pitch"] = length(row.si("pitch"))
        fewest = round(row.si("fewest_teeth"))
        if drive.teeth_crank < fewest:
            change |= {"cam_drive.teeth_crank": str(fewest), "cam_drive.teeth_cam": str(2 * fewest)}
            why += f"; it bends round {fewest} teeth at least"
    if sold and min(abs(w - drive.width) for w in sold) > 0.1e-3:
        wide = next((w for w in sorted(sold) if w >= drive.width - 1e-6), max(sold))
        change["cam_drive.width"] = length(wide)
        why += f"; sold {row.texts['widths']} wide"
    yield Offer(place, path, why, change, as_it_is=same and not change)


_STARTER = (
    ("no_load_speed", "speed", "rpm"),
    ("stall_torque", "torque", "N*m"),
)


def starter(engine: Engine, plain: PlainEngine, row: Row) -> Iterator[Offer]:
    """What turns it over."""
    values, path = engine.values(), "starter.kind"
    if row.key == plain.starter.kind:
        yield Offer("starter", path, "it is the one your file names")
        return
    change = {path: row.key}
    for name, kind, unit in _STARTER:
        if values.said(f"starter.{name}"):
            change[f"starter.{name}"] = write_quantity(row.si(name), kind, unit)
    now = engine.catalog.row("starter", plain.starter.kind).name
    yield Offer("starter", path, f"your file has: {now}", change, as_it_is=len(change) == 1)


def fuel(engine: Engine, plain: PlainEngine, row: Row) -> Iterator[Offer]:
    """What it burns."""
    del engine
    path = "intake.fuel"
    if row.key == plain.intake.fuel:
        yield Offer("fuel", path, "it is the one your file names")
        return
    change, why = {path: row.key}, f"your file has {plain.intake.fuel}"
    gas = row.texts.get("state") == "gas"
    if gas != (plain.intake.mixture_by == "gas_mixer"):
        change["intake.mixture_by"] = "gas_mixer" if gas else "carburettor"
        why += f"; it is a {'gas' if gas else 'liquid'}"
    yield Offer("fuel", path, f"{why}; jets and advance change with it", change)
