"""The head gasket: whether gas opens the joint, or blows out a sealant that has not cured."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import cure
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
from firstfire.parts import strength, warmth
from firstfire.parts.events import GAS
from firstfire.parts.failure import Failure, judges
from firstfire.parts.head_joint import (
    HeadJoint,
    gas_force,
    gas_over_air,
    grip_once,
    head_joint,
)
from firstfire.parts.softness import is_metal, strength_left
from firstfire.parts.worked import seal as worked
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
    capacity_is="gas force at which it no longer seals",
    examples=worked.OPENS,
)
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
    demand_is="gas pressure",
    capacity_is="pressure that shears the bead off the faces it sticks to",
    examples=worked.BLOWS_OUT,
)
_THINNEST = 0.05e-3  # m: what a bead is pressed to where nothing is said (estimate)


@judges(OPENS, where=lambda moment: moment.parts.gasket.kind != "none")
def opens(moment: Moment) -> Way:
    """Gas force at which what is left of the clamping no longer seals."""
    joint = head_joint(moment)
    return OPENS.way(
        moment,
        demand=gas_force(moment),
        capacity=_sealed_force(moment, joint),
        governs="creep" if joint.left < 0.7 * joint.tightened else "preload",
        temperature=warmth.joint_face(moment),
        raise_by=_clamped_harder(moment, joint),
    )


@judges(BLOWS_OUT, where=lambda moment: moment.parts.gasket.kind == "cured_sealant")
def blows_out(moment: Moment) -> Way:
    """Gas against the grip of the bead on both faces, as far as it has cured."""
    seal, warm_at = moment.parts.gasket, warmth.joint_face(moment)
    material = moment.engine.materials[seal.material]
    share, faces = _cured(moment), moment.given("faces_stuck", _faces_stuck(moment))
    glue = strength.of_material(
        moment, material, warm=strength_left(material, warm_at), place="glue_", name="glue_strength"
    )
    thinnest = moment.given("thinnest_bead", _THINNEST)
    thickness = found("bead_thickness", math.most(seal.thickness, thinnest), "m",
                      "thickness of the bead")  # fmt: skip
    return BLOWS_OUT.way(
        moment,
        demand=gas_over_air(moment),
        capacity=faces * _sticks(moment, glue) * seal.width / thickness * share,
        governs="cure" if share < 0.9 else glue.governs,
        temperature=warm_at,
        raise_by=(
            *_closed_sooner(moment),
            Raise("Let the sealant cure for two days", {"gasket.cure_time": "48 h"}, "new_gasket"),
            Raise("Cut a gasket from sheet instead", {"gasket.kind": "sheet"}, "new_gasket"),
        ),
    )  # fmt: skip


def _sticks(moment: Moment, glue: strength.Strength) -> float:
    """Shear strength of the bead on its faces, Pa: it fades as the glue's own strength does."""
    material = moment.engine.materials[moment.parts.gasket.material]
    row = material["shear_strength" if _on_metal(moment) else "shear_strength_on_plastic"]
    left = glue.value / moment.given("glue_strength_at_room", glue.at_room)
    left = found("glue_leaves", left, "", "share of its strength that is left")
    return found("shear_strength", moment.given("glue_shear_at_room", row) * left, "Pa",
                 "strength in shear on its faces")  # fmt: skip


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
        deep = moment.given("cured_in_a_day", material["cure_depth_per_day"])
        cured = cure.depth_cured(deep, seal.cure_time, seal.cure_temperature)
        cured = found("depth_cured", cured, "m", "depth cured from its open edge")
        return found("share_cured", math.least(1.0, cured / seal.width), "", "share of it cured")
    sets = moment.given("sets_after", material["skin_time"])
    full = moment.given("cured_after", material["cure_time"])
    if not full > sets > 0:
        raise OutsideValidity(f"{material.name} sets no later than it has cured, by its row.")
    share = cure.share_cured(sets, full, seal.cure_time, seal.cure_temperature)
    return found("share_cured", share, "", "share of its strength that it has by now")


def _on_metal(moment: Moment) -> bool:
    """Whether both faces that the bead sticks to are of metal."""
    parts, materials = moment.parts, moment.engine.materials
    return all(is_metal(materials[part.material]) for part in (parts.head, parts.body))


def _maintenance(moment: Moment) -> float:
    """Gasket factor m of its material: pressure it wants over the gas's; none for an O-ring."""
    if moment.parts.gasket.kind == "o_ring":
        return 0.0
    material = moment.engine.materials[moment.parts.gasket.material]
    return moment.given("gasket_m", material["gasket_m"])


def _sealed_force(moment: Moment, joint: HeadJoint) -> float:
    """Gas force at which n (F - (1-C) P) has fallen to what the gasket wants, 2 b π G m p."""
    area = found("gas_area", math.pi / 4 * joint.seal_diameter**2, "m^2", "area under gas")
    wanted = math.pi * joint.seal_diameter * moment.parts.gasket.width * _maintenance(moment)
    wanted = found("gasket_wants", wanted, "m^2", "area that the gasket's own need comes to")
    return joint.number * joint.left * area / ((1 - joint.share) * area + wanted)


def _clamped_harder(moment: Moment, joint: HeadJoint) -> tuple[Raise, ...]:
    fasteners = moment.parts.head.fasteners
    torque = newton_metre(1.3 * fasteners.torque)
    count = fasteners.count + 2
    raised = [Raise(f"Hold the head with {count} {fasteners.thread}",
                    {"head.fasteners.count": str(count)}, "add_screws")]  # fmt: skip
    if grip_once(moment).holds > 1.6 * joint.tightened:
        raised.insert(0, Raise(f"Tighten to {torque}", {"head.fasteners.torque": torque},
                               "retighten"))  # fmt: skip
    return tuple(raised)


JUDGEMENTS = (opens, blows_out)
