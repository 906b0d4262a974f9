"""The head gasket: whether gas opens the joint, or blows out a sealant that has not cured."""

from __future__ import annotations

import math

from firstfire.engine.moment import Moment
from firstfire.engine.records import Line, Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import cure
from firstfire.parts import strength, warmth
from firstfire.parts.events import GAS
from firstfire.parts.failure import Failure, judges
from firstfire.parts.head_joint import GAS_FORCE, SHARE, HeadJoint, grip_once, head_joint
from firstfire.parts.softness import is_metal, strength_left
from firstfire.parts.written import newton_metre

OPENS = Failure(
    id="gasket.open",
    part="head gasket",
    failure="opens and lets the fire out",
    unit="N",
    formula=(
        "gas force H, against fasteners × preload left × H/((1 - load share) H + π × seal "
        "diameter × width × m × gas pressure)"
    ),
    source="Shigley 9, Eq. 8-25; ASME BPVC VIII-1, Appendix 2, 2-5 (a vessel rule: a guide only)",
    hazard=True,
    during=GAS,
    working=(
        GAS_FORCE,
        SHARE,
        Line("gas_area", "pi / 4 * (gasket.inside_diameter + gasket.width)**2", "m^2",
             "area under gas"),
        Line("gasket_wants",
             "pi * (gasket.inside_diameter + gasket.width) * gasket.width * gasket_m", "m^2",
             "area that the gasket's own need comes to"),
        Line("demand", "gas_force", "N", "gas force on the head"),
        Line("capacity",
             "head.fasteners.count * preload_left * gas_area / ((1 - load_share) * gas_area + "
             "gasket_wants)", "N", "gas force at which it no longer seals"),
    ),
)  # fmt: skip
BLOWS_OUT = Failure(
    id="gasket.sealant.blow",
    part="sealant under the head",
    failure="is blown out before it has cured",
    unit="Pa",
    formula=(
        "gas pressure, against faces stuck to × shear strength × width/thickness × share cured; "
        "share = depth cured from the open edge/width; one face where it had a skin when the "
        "joint was closed"
    ),
    source="equilibrium of the bead; sealant makers' depth of cure in the first 24 h (catalog row)",
    hazard=True,
    during=GAS,
    working=(
        Line("demand", "gas_pressure", "Pa", "gas pressure"),
        Line("capacity",
             "faces_stuck * shear_strength * gasket.width / bead_thickness * share_cured", "Pa",
             "pressure that shears the bead off the faces it sticks to"),
    ),
)  # fmt: skip


@judges(OPENS, where=lambda moment: moment.parts.gasket.kind != "none")
def opens(moment: Moment) -> Way:
    """Gas force at which what is left of the clamping no longer seals."""
    joint, seal = head_joint(moment), moment.parts.gasket
    factor = _maintenance(moment)
    holds = _sealed_force(moment, joint, factor)
    return OPENS.way(
        moment,
        demand=joint.gas_force,
        capacity=holds,
        governs="creep" if joint.left < 0.7 * joint.tightened else "preload",
        temperature=warmth.joint_face(moment),
        inputs={**joint.inputs, "gas_force": joint.gas_force, "preload": joint.tightened,
                "preload_left": joint.left, "load_share": joint.share, "gasket_m": factor,
                "gasket.width": seal.width, "head.fasteners.count": joint.number},
        first=joint.working,
        raise_by=_clamped_harder(moment, joint),
    )  # fmt: skip


@judges(BLOWS_OUT, where=lambda moment: moment.parts.gasket.kind == "cured_sealant")
def blows_out(moment: Moment) -> Way:
    """Gas against the grip of the bead on both faces, as far as it has cured."""
    seal = moment.parts.gasket
    material = moment.engine.materials[seal.material]
    share, faces = _cured(moment), _faces_stuck(moment)
    warm_at = warmth.joint_face(moment)
    glue = strength.of_material(moment, material, warm=strength_left(material, warm_at))
    sticks = material["shear_strength" if _on_metal(moment) else "shear_strength_on_plastic"]
    stuck = strength.sticking(glue, sticks)
    sticks *= glue.value / glue.at_room
    thickness = max(seal.thickness, 0.05e-3)
    gas = max(moment.peak_pressure - moment.engine.surroundings.air_pressure, 0.0)
    return BLOWS_OUT.way(
        moment,
        demand=gas,
        capacity=faces * sticks * seal.width / thickness * share,
        governs="cure" if share < 0.9 else glue.governs,
        temperature=warm_at,
        inputs={"gas_pressure": gas, "faces_stuck": faces, "share_cured": share,
                "shear_strength": sticks, "gasket.width": seal.width, "bead_thickness": thickness,
                "gasket.cure_time": seal.cure_time, **stuck.inputs_as("glue_")},
        first=stuck.line_as("glue_", "shear_strength"),
        raise_by=(
            *_closed_sooner(moment),
            Raise("Let the sealant cure for two days", {"gasket.cure_time": "48 h"}, "new_gasket"),
            Raise("Cut a gasket from sheet instead", {"gasket.kind": "sheet"}, "new_gasket"),
        ),
    )  # fmt: skip


def _closed_sooner(moment: Moment) -> tuple[Raise, ...]:
    if _faces_stuck(moment) == 2.0:
        return ()
    return (Raise("Close the joint within five minutes of spreading the sealant",
                  {"gasket.open_time": "5 min"}, "new_gasket"),)  # fmt: skip


def _faces_stuck(moment: Moment) -> float:
    """Two; one where the bead had a skin before the joint was closed, which no longer wets."""
    seal = moment.parts.gasket
    skin = moment.engine.materials[seal.material]["skin_time"]
    return 1.0 if seal.open_time * cure.pace(seal.cure_temperature) > skin else 2.0


def _cured(moment: Moment) -> float:
    """Share of the bead's width, or of its strength, that has cured."""
    seal = moment.parts.gasket
    material = moment.engine.materials[seal.material]
    if material.structure == "elastomer":  # moist air cures it, from its edge inward
        deep = material["cure_depth_per_day"]
        cured = cure.depth_cured(deep, seal.cure_time, seal.cure_temperature)
        return min(1.0, cured / seal.width)
    sets, full = material["skin_time"], material["cure_time"]
    if not full > sets > 0:
        raise OutsideValidity(f"{material.name} sets no later than it has cured, by its row.")
    return cure.share_cured(sets, full, seal.cure_time, seal.cure_temperature)


def _on_metal(moment: Moment) -> bool:
    """Whether both faces that the bead sticks to are of metal."""
    parts, materials = moment.parts, moment.engine.materials
    return all(is_metal(materials[part.material]) for part in (parts.head, parts.body))


def _maintenance(moment: Moment) -> float:
    """Gasket factor m of its material: pressure it wants over the gas's; none for an O-ring."""
    if moment.parts.gasket.kind == "o_ring":
        return 0.0
    return moment.engine.materials[moment.parts.gasket.material]["gasket_m"]


def _sealed_force(moment: Moment, joint: HeadJoint, factor: float) -> float:
    """Gas force at which n (F - (1-C) P) has fallen to what the gasket wants, 2 b π G m p."""
    area = math.pi / 4 * joint.seal_diameter**2
    wanted = math.pi * joint.seal_diameter * moment.parts.gasket.width * factor
    return joint.number * joint.left * area / ((1 - joint.share) * area + wanted)


def _clamped_harder(moment: Moment, joint: HeadJoint) -> tuple[Raise, ...]:
    fasteners = moment.parts.head.fasteners
    torque = newton_metre(1.3 * fasteners.torque)
    count = joint.number + 2
    raised = [Raise(f"Hold the head with {count} {fasteners.thread}",
                    {"head.fasteners.count": str(count)}, "add_screws")]  # fmt: skip
    if grip_once(moment).holds > 1.6 * joint.tightened:
        raised.insert(0, Raise(f"Tighten to {torque}", {"head.fasteners.torque": torque},
                               "retighten"))  # fmt: skip
    return tuple(raised)


JUDGEMENTS = (opens, blows_out)
