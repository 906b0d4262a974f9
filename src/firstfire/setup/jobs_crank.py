"""What is made by hand for crank, case and flywheel."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.geometry import mechanism
from firstfire.engine.joint_room import is_across
from firstfire.engine.resolve import PlainEngine
from firstfire.loads.crank_layout import throws
from firstfire.parts.crank_joint import is_plated
from firstfire.setup.buy_crank import has_loose_pin, pin_length
from firstfire.setup.item import PRACTICE, Job
from firstfire.setup.jobs_cylinder import drawn_hole
from firstfire.setup.joints import Place, joints, stub_length
from firstfire.setup.words import mm

_GROUND_OVER = 0.01e-3


def crank_jobs(plain: PlainEngine) -> Iterator[Job]:
    """Everything made for the shaft, in the order it is done."""
    crank = plain.crank
    yield from _stock(plain)
    yield from _joints(plain)
    if plain.case.made == "printed":
        outside = crank.main_bearing_outside
        yield Job(
            "sand", "bearing seat in the case", crank.main_bearings,
            f"to {mm(outside)}, {mm(crank.main_bearing_width)} deep; {drawn_hole(plain, outside)}",
            outside, outside - 0.03e-3, outside + 0.02e-3, "sanding drum, the bearing as gauge",
            f"the bearing goes in by thumb and doesn't turn in it ({PRACTICE})",
            "crank.main_bearing_outside",
        )  # fmt: skip
    journal = crank.main_journal_diameter
    if crank.made != "bought" and crank.journal.joint.kind == "solid":
        yield Job(
            "file" if crank.made == "printed" else "turn", "main journal", 2,
            f"to {mm(journal)}", journal, journal - _GROUND_OVER, journal + 0.005e-3,
            "fine file or abrasive strip, micrometer, the bearing as gauge",
            f"the bearing slides on by hand without play ({PRACTICE})",
            "crank.main_journal_diameter",
        )  # fmt: skip
    yield from _wheel(plain)


def _stock(plain: PlainEngine) -> Iterator[Job]:
    crank, number = plain.crank, len(throws(plain))
    if crank.built == "one_piece" and crank.made == "rod":
        throw, _, _ = mechanism(plain.cylinders[0])
        yield Job(
            "bend", "crank", 1, f"throw {mm(throw)}, pins {mm(crank.crankpin_length)} long",
            throw, throw - 0.2e-3, throw + 0.2e-3, "vice and pipe, or brazed from pieces",
            f"it sets stroke and compression ratio; journals in line to 0.1 mm ({PRACTICE})",
            "cylinder.stroke",
        )  # fmt: skip
    if crank.journal.joint.kind != "solid":
        length = stub_length(plain)
        yield Job(
            "cut", "main journals", 2,
            f"{mm(length)} long at the longer end, ends square, edges broken; the far end turned "
            f"down to {mm(plain.cam_drive.joint.diameter)} for the cam drive's wheel",
            length, length - 0.5e-3, length + 0.5e-3, "hacksaw, file, caliper; a lathe for the end",
            f"leave more if in doubt: what is over is cut off last ({PRACTICE})",
            "crank.journal.material",
        )  # fmt: skip
    if has_loose_pin(plain):
        length = pin_length(plain)
        yield Job(
            "cut", "crankpin", number, f"{mm(length)} long, ends square, edges broken", length,
            length - 0.1e-3, length + 0.1e-3, "hacksaw, file, caliper",
            "what sits in the cheeks is what holds", "crank.crankpin_length",
        )  # fmt: skip


def _joints(plain: PlainEngine) -> Iterator[Job]:
    crank = plain.crank
    plated = [j for j in (crank.joint, crank.journal.joint) if is_plated(j)]
    if plated:
        both = "pin hole and shaft hole" if len(plated) == 2 else "their holes"
        yield Job(
            "cut", "plates for the cheeks", 2 * len(throws(plain)),
            f"from {mm(plated[0].plate_thickness)} flat; drill all in one stack, {both}",
            crank.cheek_width, crank.cheek_width - 0.5e-3, crank.cheek_width + 0.5e-3,
            "hacksaw, drill press",
            "holes drilled in one stack put all throws at the same length", "crank.joint.plate",
        )  # fmt: skip
    for place in joints(plain):
        if place.path.startswith("crank.") and _is_loose(plain, place):
            yield _into_cheek(place)
        if place.pinned:
            yield _pin_holes(place)
        if place.joint.kind in ("splined", "polygon"):
            yield _flats(place)


def _is_loose(plain: PlainEngine, place: Place) -> bool:
    return has_loose_pin(plain) if place.path == "crank.joint" else True


def _into_cheek(place: Place) -> Job:
    joint = place.joint
    hole = joint.diameter - joint.interference
    return Job(
        {"bonded": "bond", "clamped": "clamp"}.get(joint.kind, "press"),
        f"{place.pin} into cheek", place.count,
        f"hole {mm(hole)}, pin {mm(joint.diameter)}, {mm(joint.length)} deep", hole,
        hole - 0.01e-3, hole + 0.01e-3, "reamer, vice, the pin measured by micrometer",
        "your file's interference; a hundredth is a lot of it, so ream to the pin you have",
        f"{place.path}.interference",
    )  # fmt: skip


def _pin_holes(place: Place) -> Job:
    joint = place.joint
    size, pinned, across = joint.cross_pin_diameter, joint.kind == "pinned", is_across(joint)
    way = "across" if across else "lengthwise on the joint's line, half in each"
    return Job(
        "drill", ("cross-pin hole" if across else "hole for a pin") if pinned else "keyway",
        joint.cross_pins * place.count,
        f"{mm(size)} {way}, {place.pin} and {place.hub} pressed together; drill 0.2 mm under, "
        "ream" if pinned else f"{mm(size)} wide, half in the {place.pin}, half in the {place.hub}",
        size, size, size + 0.012e-3, "drill press, reamer H7",
        "H7 (ISO 286); drilled together, or they never line up", f"{place.path}.cross_pins",
    )  # fmt: skip


def _flats(place: Place) -> Job:
    joint = place.joint
    splined = joint.kind == "splined"
    return Job(
        "file", f"the {place.pin}'s " + ("spline" if splined else "flats"), place.count,
        f"{mm(joint.diameter)} {'across' if splined else 'across flats'}, "
        f"{joint.flats} {'teeth' if splined else 'flats'}, until it goes in "
        "by a tap", joint.diameter, joint.diameter - 0.1e-3, joint.diameter, "flat file",
        f"printed flanks bear on a few spots until fitted ({PRACTICE})", place.path,
    )  # fmt: skip


def _wheel(plain: PlainEngine) -> Iterator[Job]:
    wheel = plain.flywheel
    if wheel.thickness > 0:
        yield Job(
            "drill", "flywheel's hole", 1, f"{mm(wheel.bore)} in its very middle", wheel.bore,
            wheel.bore, wheel.bore + 0.02e-3, "lathe, or drill and ream on a scribed cross",
            "out of the middle it shakes and may fly; then balance it on two level knives "
            f"({PRACTICE})", "flywheel.bore",
        )  # fmt: skip
