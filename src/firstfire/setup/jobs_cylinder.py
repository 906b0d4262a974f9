"""What is made by hand for one cylinder: bore, body, piston, pin, head, valves."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.catalog import Catalog
from firstfire.engine.description import CylinderParts
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.item import PRACTICE, Job
from firstfire.setup.tubes import bore_limits
from firstfire.setup.words import mm
from firstfire.verdict.numbers import shown

_SAWN = 0.2e-3
_FINE = 0.05e-3
REACH_OF_HOLE_ERROR = (5e-3, 20e-3)


def cylinder_jobs(engine: Engine, plain: PlainEngine, number: int) -> Iterator[Job]:
    """Everything made for one cylinder, counted from 1, in the order it is done."""
    rows, parts = engine.catalog, plain.cylinders[number - 1]
    yield from _liner(parts)
    yield from _piston(parts)
    yield from _rings(parts)
    yield from _pin(parts)
    yield from _plates(parts)
    yield from _head(rows, plain, parts)
    yield from _valves(parts)


def drawn_hole(plain: PlainEngine, wanted: float) -> str:
    """What to draw a printed hole as so that it comes out right, in words.

    The file's hole error is for holes of 5 to 20 mm; beyond them it is not known.
    """
    low, high = REACH_OF_HOLE_ERROR
    if low <= wanted <= high:
        drawn = wanted - plain.printing.hole_error
        return f"draw it {mm(drawn)}: your prints' holes come out {_error(plain)}"
    return "print one ring of it first: how far large holes come out is not in the file"


def _error(plain: PlainEngine) -> str:
    error = plain.printing.hole_error
    return f"{mm(abs(error))} {'small' if error < 0 else 'large'}"


def _liner(parts: CylinderParts) -> Iterator[Job]:
    liner, bore = parts.liner, parts.cylinder.bore
    low, high, why = bore_limits(parts)
    if liner.made in ("tube", "rod"):
        yield Job(
            "cut", "liner", 1, f"{mm(liner.length)} long, ends square to 0.1 mm", liner.length,
            liner.length - _SAWN, liner.length + _SAWN, "hacksaw, file, caliper",
            f"the head presses on its end; inside edges broken, or they cut the ring ({PRACTICE})",
            "liner.length",
        )  # fmt: skip
    finish = {
        "smooth": "polish with 600 grit and oil, by turning, not along",
        "sanded": "sand with 240, then 400 grit round a dowel",
        "as_cut": "leave as it comes, edges broken",
        "as_printed": "leave as printed, blobs scraped off",
    }[liner.bore_finish]
    yield Job(
        "sand", "bore", 1, f"{mm(bore)}; {finish}", bore, low, high,
        "telescopic gauge and micrometer, three places and angles" if high - low < _FINE
        else "caliper's inside jaws, three places and angles", why, "cylinder.bore",
    )  # fmt: skip
    if liner.kind != "bare_print" and parts.body.made == "printed":
        seat = liner.outside_diameter - liner.fit_interference
        word = "press" if liner.fit_interference >= 0 else "slide"
        yield Job(
            word, "liner into the body", 1, f"body's hole {mm(seat)}, liner "
            f"{mm(liner.outside_diameter)}: {mm(liner.fit_interference)} tight", seat,
            seat - 0.05e-3, seat + 0.05e-3, "sanding drum, vice with soft jaws",
            "cold and straight; looser lets heat and the ring's drag move it (limits: a print's "
            "usual spread)", "liner.fit_interference",
        )  # fmt: skip


def _piston(parts: CylinderParts) -> Iterator[Job]:
    piston, bore = parts.piston, parts.cylinder.bore
    skirt = bore - piston.skirt_clearance
    if piston.made != "bought":
        yield Job(
            "sand" if piston.made == "printed" else "turn", "piston skirt", 1,
            f"to {mm(skirt)} ({mm(piston.skirt_clearance)} less than the bore you measured)",
            skirt, skirt - piston.skirt_clearance / 6, skirt + piston.skirt_clearance / 6,
            "caliper, at crown and skirt, two directions",
            "it swells as it warms; this clearance is what the run time is reckoned with",
            "piston.skirt_clearance",
        )  # fmt: skip


def _rings(parts: CylinderParts) -> Iterator[Job]:
    rings, piston = parts.rings, parts.piston
    if not rings.count or rings.kind == "none":
        return
    if piston.made != "bought":
        give = 0.02 * rings.section if rings.kind == "o_ring" else 0.05e-3
        why = (
            "2 % of squeeze each way"
            if rings.kind == "o_ring"
            else f"the ring must sink wholly in ({PRACTICE})"
        )
        yield Job(
            "turn" if piston.made != "printed" else "file", "ring groove", rings.count,
            f"{mm(rings.groove_depth)} deep, {mm(rings.groove_width)} wide, no step on its floor",
            rings.groove_depth, rings.groove_depth - give, rings.groove_depth + give,
            "caliper's depth rod, over the skirt", f"{why}; a scratch across it leaks",
            "rings.groove_depth",
        )  # fmt: skip
    if rings.kind != "o_ring" and rings.gap:
        yield Job(
            "file", "ring's ends", rings.count, f"to a gap of {mm(rings.gap)} in the bore",
            rings.gap, rings.gap, 1.5 * rings.gap, "feeler gauge, fine file, one end only",
            f"less jams when warm ({PRACTICE})", "rings.gap",
        )  # fmt: skip


def _pin(parts: CylinderParts) -> Iterator[Job]:
    pin = parts.pin
    yield Job(
        "cut", "piston pin", 1, f"{mm(pin.length)} long, ends rounded", pin.length,
        pin.length - _SAWN, pin.length, "hacksaw, file, caliper",
        "its ends must clear the bore on both sides", "pin.length",
    )  # fmt: skip


def _plates(parts: CylinderParts) -> Iterator[Job]:
    shield, head = parts.piston.shield, parts.head
    if shield.thickness > 0:
        yield Job(
            "cut", "crown shield", 1, f"a disc of {mm(shield.diameter)} from sheet; "
            + (f"drill {shield.screws} countersunk holes" if shield.screws else "bond it on"),
            shield.diameter, shield.diameter - 0.3e-3, shield.diameter + 0.3e-3,
            "tin snips, file to a scribed circle",
            f"it must not touch the bore when it leans ({PRACTICE})", "piston.shield.diameter",
        )  # fmt: skip
    if head.chamber_plate is not None and head.chamber_plate_thickness > 0:
        across = parts.gasket.inside_diameter + 2 * parts.gasket.width
        throats = f"{mm(parts.valves.inlet.throat_diameter)} and " \
            f"{mm(parts.valves.exhaust.throat_diameter)}"  # fmt: skip
        yield Job(
            "cut", "chamber plate", 1, f"a disc of {mm(across)}; drill throats {throats} and the "
            "plug's hole", across, across - 0.3e-3, across + 0.3e-3, "piercing saw, step drill",
            "clamp print and plate and drill both at once, so that holes meet "
            f"({PRACTICE})", "head.chamber_plate_thickness",
        )  # fmt: skip


def _head(rows: Catalog, plain: PlainEngine, parts: CylinderParts) -> Iterator[Job]:
    yield from _gasket(parts)
    if parts.head.made == "bought":
        return
    hold, plug = parts.head.fasteners, rows.row("thread", parts.plug.thread)
    thread = rows.row("thread", hold.thread)
    size = thread.si("diameter")
    clear = thread.si("clearance_hole") if "clearance_hole" in thread.data else 1.1 * size
    if hold.kind == "inserts" and hold.insert is not None:
        hole = rows.row("insert", hold.insert)["hole"]
        yield Job(
            "melt", f"insert {thread.key} into the body", hold.count,
            f"hole {mm(hole.si)}, flush or 0.1 mm under; {drawn_hole(plain, hole.si)}", hole.si,
            hole.si_low, hole.si_high, "soldering iron with a tip for it, a flat block on top",
            "one that stands proud takes the clamping instead of the gasket",
            "head.fasteners.insert",
        )  # fmt: skip
    elif hold.kind == "screws":
        drill = thread.si("tap_drill") if "tap_drill" in thread.data else 0.85 * size
        yield Job(
            "drill", "screw holes in the body", hold.count,
            f"{mm(drill)}, {mm(hold.engaged_length)} deep; tap {thread.key} by hand", drill,
            drill, drill + 0.1e-3, "drill press, tap", "a print splits if it isn't square",
            "head.fasteners",
        )  # fmt: skip
    yield Job(
        "drill", "screw holes in the head", hold.count,
        f"{mm(clear)} on a circle of {mm(hold.circle_diameter)}; through body too where "
        "bolts go through" if hold.long
        else f"{mm(clear)} on a circle of {mm(hold.circle_diameter)}",
        clear, clear, clear + 0.2e-3, "drill, by the printed holes",
        "ISO 273, medium; a bolt that touches its hole cracks a print", "head.fasteners.thread",
    )  # fmt: skip
    tap = plug.si("tap_drill") if "tap_drill" in plug.data else plug.si("diameter")
    yield Job(
        "drill", "plug hole", 1, f"{mm(tap)}, tap {plug.key}", tap, tap, tap + 0.1e-3,
        "drill press, tap with oil", "into metal: a plate, or a bushing cast into the print",
        "plug.thread",
    )  # fmt: skip


def _gasket(parts: CylinderParts) -> Iterator[Job]:
    if parts.gasket.kind == "sheet":
        yield Job(
            "cut", "head gasket", 1, f"{mm(parts.gasket.inside_diameter)} inside, "
            f"{mm(parts.gasket.inside_diameter + 2 * parts.gasket.width)} outside",
            parts.gasket.inside_diameter, parts.gasket.inside_diameter,
            parts.gasket.inside_diameter + 0.5e-3, "scissors, punch", "it may not reach into the "
            "bore: the edge glows and fires the charge", "gasket",
        )  # fmt: skip


def _valves(parts: CylinderParts) -> Iterator[Job]:
    for name in ("inlet", "exhaust"):
        valve = getattr(parts.valves, name)
        stem, path = valve.stem_diameter, f"valves.{name}"
        if valve.made == "shop_made":
            yield Job(
                "turn", f"{name} valve", 1, f"head {mm(valve.head_diameter)} with a "
                f"{shown(valve.seat_angle, 'deg')} seat on a stem of {mm(stem)}",
                valve.head_diameter, valve.head_diameter - 0.1e-3, valve.head_diameter + 0.1e-3,
                "drill in a vice and a file, or a lathe",
                f"head and seat in one clamping, or it never seals ({PRACTICE})", path,
            )  # fmt: skip
        yield Job(
            "ream", f"{name} guide", 1, f"to {mm(stem + 0.04e-3)}", stem + 0.04e-3,
            stem + 0.03e-3, stem + 0.05e-3, "reamer, by hand",
            f"0.03 to 0.05 mm of play: more leaks and hammers, less sticks ({PRACTICE})", path,
        )  # fmt: skip
        yield Job(
            "lap", f"{name} valve and seat", 1,
            "grey ring all round, 0.5 to 1 mm wide, then wash every grain off", None, None, None,
            "fine paste, suction cup",
            "hold petrol on it for a minute: none may come through", path,
        )  # fmt: skip
        if valve.worked == "cam":
            yield Job(
                "set", f"{name} lash", 1, f"{mm(valve.lash)} cold", valve.lash,
                valve.lash - 0.03e-3, valve.lash + 0.03e-3, "feeler gauge",
                "none keeps it open when warm; more knocks", f"{path}.lash",
            )  # fmt: skip
