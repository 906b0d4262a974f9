"""The joints along the shaft: crankpin and journal in their cheeks, flywheel, cam wheel."""

from __future__ import annotations

from firstfire.engine.impossible.joint import wheel_outside
from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections import joint as said
from firstfire.engine.sections.make import Laid
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import warmth
from firstfire.parts.joint_parts import Hub, Seat
from firstfire.parts.section import pulled_share, turned_share
from firstfire.parts.softness import is_metal


def crankpin(moment: Moment) -> Seat:
    """Crankpin in its cheeks."""
    engine = moment.engine
    crank = engine.crank
    return Seat(
        prefix="crank.joint.",
        joint=crank.joint,
        pin=engine.materials[crank.crankpin_material],
        key=crank.crankpin_material,
        layered=layered(engine, crank.crankpin_material, crank.crankpin),
        rod=crank.through_rod_diameter,
        hub=_cheek(engine, crank.joint),
        words=("crankpin", "cheek"),
        pin_path="crank.crankpin_material",
        temperature=warmth.crankpin(moment),
        most_plate=_most_plate(engine),
        pin_share=_share(engine, crank.crankpin_material, crank.crankpin, crank.crankpin_diameter,
                         crank.through_rod_diameter),
    )  # fmt: skip


def journal(moment: Moment) -> Seat:
    """Main journal in its cheek."""
    engine = moment.engine
    own = engine.crank.journal
    return Seat(
        prefix="crank.journal.joint.",
        joint=own.joint,
        pin=engine.materials[own.material],
        key=own.material,
        layered=layered(engine, own.material, own),
        rod=own.rod_diameter,
        hub=_cheek(engine, own.joint),
        words=("main journal", "cheek"),
        pin_path="crank.journal.material",
        temperature=warmth.web(moment),
        most_plate=_most_plate(engine),
        pin_share=_journal_share(engine),
    )


def flywheel(moment: Moment) -> Seat:
    """Flywheel on the shaft's end."""
    engine, wheel = moment.engine, moment.engine.flywheel
    long = found("engaged", math.least(wheel.joint.length, wheel.thickness), "m",
                 "length engaged in the wheel")  # fmt: skip
    return _on_shaft(engine, "flywheel.joint.", wheel.joint, wheel.material,
                     (long, wheel.diameter), "flywheel")  # fmt: skip


def cam_wheel(moment: Moment) -> Seat:
    """Belt wheel, sprocket or gear on the shaft's far end."""
    engine, drive = moment.engine, moment.engine.cam_drive
    outside = wheel_outside(moment.given("cam_drive.teeth_crank", drive.teeth_crank), drive.pitch)
    outside = found("hub_outside", outside, "m", "wheel's outside at the roots of its teeth")
    return _on_shaft(engine, "cam_drive.joint.", drive.joint, drive.wheel_material,
                     (drive.joint.length, outside), "cam wheel")  # fmt: skip


def layered(engine: PlainEngine, material: str, how: Laid) -> bool:
    """Whether a pin or journal of that material is a print whose layers lie across the crank."""
    return _is_print(engine, material) and how.layers_stacked == "along_crank"


def _is_print(engine: PlainEngine, material: str) -> bool:
    return engine.crank.made == "printed" and not is_metal(engine.materials[material])


def _share(engine: PlainEngine, material: str, how: Laid, diameter: float, rod: float) -> float:
    """How much of a pin's section bears: all of a solid one."""
    if not _is_print(engine, material):
        return 1.0
    return turned_share(engine.crank.filled_as(how), diameter, rod)


def _journal_share(engine: PlainEngine) -> float:
    crank, own = engine.crank, engine.crank.journal
    return _share(engine, own.material, own, crank.main_journal_diameter, own.rod_diameter)


def _on_shaft(
    engine: PlainEngine, prefix: str, joint: said.Seat, material: str,
    size: tuple[float, float], wheel: str,
) -> Seat:  # fmt: skip
    crank, own = engine.crank, engine.materials[material]
    metal = is_metal(own)
    return Seat(
        prefix=prefix,
        joint=joint,
        pin=engine.materials[crank.journal.material],
        key=crank.journal.material,
        layered=layered(engine, crank.journal.material, crank.journal),
        rod=crank.journal.rod_diameter,
        hub=Hub(own, own.key, metal, not metal, *size),
        words=("shaft", wheel),
        pin_path="crank.journal.material",
        temperature=engine.surroundings.air_temperature,
        pin_share=_journal_share(engine),
    )


def _cheek(engine: PlainEngine, joint: said.Joint) -> Hub:
    """The cheek, or a plate screwed to it."""
    crank = engine.crank
    own: Material = engine.materials[crank.material]
    long, printed = joint.length, crank.made == "printed"
    share = pulled_share(crank, (crank.cheek_width - joint.diameter) / 2)
    if joint.plate is not None and joint.plate_thickness > 0:
        own, printed, share = engine.materials[joint.plate], False, 1.0
        long = found("engaged", math.least(long, joint.plate_thickness), "m",
                     "length engaged in the plate")  # fmt: skip
    metal = is_metal(own)
    return Hub(
        own, own.key, metal, printed and not metal, long, crank.cheek_width,
        1.0 if metal else share,
    )  # fmt: skip


def _most_plate(engine: PlainEngine) -> float:
    """Plates go onto printed cheeks, let in as deep as they are thick: a quarter is left behind."""
    crank = engine.crank
    return 0.0 if is_metal(engine.materials[crank.material]) else 0.75 * crank.cheek_thickness
