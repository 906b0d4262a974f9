"""What fire eats: char that is blown or burned away, until a wall is through."""

from __future__ import annotations

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.parts import head_heat, piston_crown, raising, warmth
from firstfire.parts.events import WARM
from firstfire.parts.failure import Example, Failure, judges
from firstfire.parts.head import is_plastic, material_of, metal_plate
from firstfire.parts.lines import rises_are
from firstfire.parts.piston_crown import shielded
from firstfire.parts.section import depth_beyond
from firstfire.parts.worked import eaten as worked

_THROUGH = "depth that is charred or gone, against the wall's thickness"
_SOURCE = (
    "energy of ablation: H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 2nd ed., "
    "section 11.2; char that stays and heat of decomposing: estimates"
)


def _through(part: str, words: str, *examples: Example) -> Failure:
    return Failure(
        id=f"{part}.eat",
        part=words,
        failure="is eaten through by the fire",
        unit="m",
        formula=_THROUGH,
        source=_SOURCE,
        hazard=True,
        during=WARM,
        demand_is="depth that is charred or gone",
        capacity_is="thickness of the wall",
        examples=examples,
    )


CROWN_EATEN = _through("piston.crown", "piston crown", worked.CROWN_IS_EATEN)
HEAD_EATEN = _through("head", "head", worked.HEAD_IS_THROUGH, worked.HEAD_IS_WHOLE)
PORT_EATEN = _through("exhaust_port", "exhaust port", worked.PORT_IS_EATEN)
PORT_CHARS = Failure(
    id="exhaust_port.char",
    part="exhaust port",
    failure="chars at its face",
    unit="K",
    formula="face in the cycle's mean, against decomposition; both as rises over the air",
    source="thermogravimetry of the material (catalog row)",
    reported=True,
    during=WARM,
    **rises_are("the port's face", "it chars"),
    examples=(worked.PORT_CHARS,),
)


def _depth(
    failure: Failure,
    moment: Moment,
    part: str,
    material: Material,
    wall: str,
    raise_by: tuple[Raise, ...],
) -> Way:
    """Charred depth of a part that is followed, against its own thickness."""
    heat = warmth.part(moment, part)
    limit = material["decomposition"]
    if heat is None:
        raise OutsideValidity("How warm this part gets is not followed here.")
    deep = moment.given("depth_charred_in_the_mean", depth_beyond(heat, limit))
    return failure.way(
        moment,
        demand=deep,
        capacity=moment.given(wall, float(heat.depth[-1])),
        governs="temperature",
        temperature=heat.surface,
        raise_by=raise_by if deep > 0 else (),
    )  # fmt: skip


@judges(CROWN_EATEN, where=piston_crown.is_bare_plastic)
def crown_eaten(moment: Moment) -> Way:
    """How far fire has come through the crown; what is left of its strength is judged apart."""
    piston = moment.parts.piston
    thick = raising.thicker(
        "piston.crown_thickness", piston.crown_thickness, "the crown {} thick", "reprint_piston"
    )
    material = moment.engine.materials[piston.material]
    return _depth(CROWN_EATEN, moment, "crown", material, "piston.crown_thickness",
                  (*shielded(moment), thick))  # fmt: skip


@judges(HEAD_EATEN, where=head_heat.is_bare_plastic)
def head_eaten(moment: Moment) -> Way:
    """How far fire has come through the chamber's roof."""
    return _depth(
        HEAD_EATEN, moment, "head", material_of(moment), "head.thickness", metal_plate(moment)
    )


@judges(PORT_EATEN, where=is_plastic)
def port_eaten(moment: Moment) -> Way:
    """How far exhaust gas has eaten into the port's wall."""
    return _depth(
        PORT_EATEN, moment, "exhaust_port", material_of(moment), "port_wall",
        head_heat.metal_head(moment),
    )  # fmt: skip


@judges(PORT_CHARS, where=is_plastic)
def port_chars(moment: Moment) -> Way:
    """The exhaust port's face against decomposition: told, not the end."""
    limit = moment.given("decomposition", material_of(moment)["decomposition"])
    face = moment.given("port_face", warmth.surface(moment, "exhaust_port"))
    return PORT_CHARS.way(
        moment,
        demand=warmth.rise(moment, face),
        capacity=limit - warmth.ambient(moment),
        governs="temperature",
        temperature=face,
        raise_by=head_heat.metal_head(moment),
    )


JUDGEMENTS = (crown_eaten, head_eaten, port_eaten, port_chars)
