"""Heat in the head: its skin, its plate, its exhaust port."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.parts import assumed, raising, warmth
from firstfire.parts.events import GAS, WARM
from firstfire.parts.failure import Failure, judges
from firstfire.parts.head import has_plate, is_plastic, material_of, metal_plate
from firstfire.parts.lines import rises_are
from firstfire.parts.softness import is_metal, softens_at
from firstfire.parts.valve_seats import holder
from firstfire.parts.worked import head_heat as worked

_HALF = "strength curve of the material (catalog); the half is our own choice"
CHARS = Failure(
    id="head.char",
    part="head",
    failure="chars at its skin",
    unit="K",
    formula="hottest of the cycle at the face, against decomposition; both as rises over the air",
    source="thermogravimetry of the material (catalog row)",
    reported=True,
    during=GAS,
    **rises_are("the face at its hottest", "it chars"),
    examples=(worked.CHARS,),
)
FACE_SOFTENS = Failure(
    id="head.face.soften",
    part="chamber face of the head",
    failure="softens at its skin",
    unit="K",
    formula=(
        "face in the cycle's mean, against where half of its strength is left; both as rises over"
        " the air"
    ),
    source=_HALF,
    reported=True,
    during=WARM,
    **rises_are("the face", "half of its strength is left"),
    examples=(worked.FACE_SOFTENS,),
)
PLATE_MELTS = Failure(
    id="head.chamber_plate.melt",
    part="chamber plate",
    failure="melts",
    unit="K",
    formula="plate's face in the cycle's mean, against melting; both as rises over the air",
    source="melting of the material (catalog row)",
    during=WARM,
    **rises_are("the plate's face", "it melts"),
    examples=(worked.PLATE_MELTS,),
)
PORT_SOFTENS = Failure(
    id="exhaust_port.soften",
    part="exhaust port",
    failure="softens",
    unit="K",
    formula=(
        "2 mm below the port's face, against where half of its strength is left; both as rises "
        "over the air"
    ),
    source=_HALF,
    during=WARM,
    **rises_are("the port's wall, 2 mm down", "half of its strength is left"),
    examples=(worked.PORT_SOFTENS,),
)


def is_bare_plastic(moment: Moment) -> bool:
    """Whether fire touches plastic."""
    foiled = moment.parts.head.coating == "metal_foil"
    return not has_plate(moment) and is_plastic(moment) and not foiled


@judges(CHARS, where=is_bare_plastic)
def chars(moment: Moment) -> Way:
    """Hottest of the cycle at the face against decomposition: told, not the end."""
    heat, air = warmth.part(moment, "head"), warmth.ambient(moment)
    limit = moment.given("decomposition", material_of(moment)["decomposition"])
    peak = moment.given("face_hottest_of_cycle", air if heat is None else heat.peak)
    return CHARS.way(
        moment,
        demand=warmth.rise(moment, peak),
        capacity=limit - air,
        governs="temperature",
        temperature=peak,
        raise_by=metal_plate(moment),
    )


@judges(FACE_SOFTENS, where=is_bare_plastic)
def face_softens(moment: Moment) -> Way:
    """The face in the cycle's mean against where its strength is halved: told, not the end."""
    limit = moment.given("softens_at", softens_at(material_of(moment), assumed.SOFT))
    face = moment.given("face", warmth.surface(moment, "head"))
    return FACE_SOFTENS.way(
        moment,
        demand=warmth.rise(moment, face),
        capacity=limit - warmth.ambient(moment),
        governs="temperature",
        temperature=face,
        raise_by=metal_plate(moment),
    )


@judges(PLATE_MELTS, where=has_plate)
def plate_melts(moment: Moment) -> Way:
    """The chamber plate's face against its melting."""
    key = moment.parts.head.chamber_plate or ""
    limit = moment.given("melting", moment.engine.materials[key]["melting"])
    face = moment.given("plate_face", warmth.surface(moment, "chamber_plate"))
    return PLATE_MELTS.way(
        moment,
        demand=warmth.rise(moment, face),
        capacity=limit - warmth.ambient(moment),
        governs="temperature",
        temperature=face,
        raise_by=() if key == "steel_mild" else (
            Raise("Make the chamber plate of steel", {"head.chamber_plate": "steel_mild"},
                  "chamber_plate"),
        ),
    )  # fmt: skip


@judges(PORT_SOFTENS, where=lambda moment: not is_metal(holder(moment)))
def port_softens(moment: Moment) -> Way:
    """2 mm below the exhaust port's face against where the head's strength is halved.

    Of plastic: a metal port hands its heat to the whole head and stands for hours.
    """
    material = holder(moment)
    limit = moment.given("softens_at", softens_at(material, assumed.SOFT))
    wall = moment.given("below_the_face", warmth.below(moment, assumed.PORT_DEPTH, "exhaust_port"))
    return PORT_SOFTENS.way(
        moment,
        demand=warmth.rise(moment, wall),
        capacity=limit - warmth.ambient(moment),
        governs="temperature",
        temperature=wall,
        raise_by=(
            *_fan(moment),
            *raising.other_plastic("head.material", material, "head", "hdt_180", "reprint_head"),
            *metal_head(moment),
        ),
    )


def metal_head(moment: Moment) -> tuple[Raise, ...]:
    """A head of aluminium, where it is of plastic."""
    if not is_plastic(moment):
        return ()
    return (Raise("Make the head of aluminium",
                  {"head.material": "aluminium_6061_t6", "head.made": "bought"},
                  "machined_head"),)  # fmt: skip


def _fan(moment: Moment) -> tuple[Raise, ...]:
    if moment.engine.surroundings.cooling != "still_air":
        return ()
    return (Raise("Blow air over the engine with a fan", {"surroundings.cooling": "fan"},
                  "add_fan"),)  # fmt: skip


JUDGEMENTS = (chars, face_softens, plate_melts, port_softens)
