"""Heat in the head: its skin, its plate, its exhaust port."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.parts import assumed, raising, warmth
from firstfire.parts.events import GAS, WARM
from firstfire.parts.failure import Failure, judges
from firstfire.parts.head import has_plate, is_plastic, material_of, metal_plate
from firstfire.parts.lines import AIR, rises
from firstfire.parts.section import depth_beyond
from firstfire.parts.softness import is_metal, softens_at
from firstfire.parts.valve_seats import holder, what_is_left

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
    working=rises("face_hottest_of_cycle", "decomposition", "the face at its hottest", "it chars"),
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
    working=rises("face", "softens_at", "the face", "half of its strength is left"),
)
PLATE_MELTS = Failure(
    id="head.chamber_plate.melt",
    part="chamber plate",
    failure="melts",
    unit="K",
    formula="plate's face in the cycle's mean, against melting; both as rises over the air",
    source="melting of the material (catalog row)",
    during=WARM,
    working=rises("plate_face", "melting", "the plate's face", "it melts"),
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
    working=rises(
        "below_the_face", "softens_at", "the port's wall, 2 mm down", "half of its strength is left"
    ),
)


def is_bare_plastic(moment: Moment) -> bool:
    """Whether fire touches plastic."""
    foiled = moment.parts.head.coating == "metal_foil"
    return not has_plate(moment) and is_plastic(moment) and not foiled


@judges(CHARS, where=is_bare_plastic)
def chars(moment: Moment) -> Way:
    """Hottest of the cycle at the face against decomposition: told with depth and what is left."""
    heat, material = warmth.part(moment, "head"), material_of(moment)
    limit, air = material["decomposition"], warmth.ambient(moment)
    peak = air if heat is None else heat.peak
    return CHARS.way(
        moment,
        demand=warmth.rise(moment, peak),
        capacity=limit - air,
        governs="temperature",
        temperature=peak,
        inputs={
            "face_hottest_of_cycle": peak,
            "decomposition": limit,
            AIR: air,
            "depth_charred_in_the_mean": 0.0 if heat is None else depth_beyond(heat, limit),
            **what_is_left(moment),
        },
        raise_by=metal_plate(moment),
    )


@judges(FACE_SOFTENS, where=is_bare_plastic)
def face_softens(moment: Moment) -> Way:
    """The face in the cycle's mean against where its strength is halved: told, not the end."""
    limit = softens_at(material_of(moment), assumed.SOFT)
    air, face = warmth.ambient(moment), warmth.surface(moment, "head")
    return FACE_SOFTENS.way(
        moment,
        demand=warmth.rise(moment, face),
        capacity=limit - air,
        governs="temperature",
        temperature=face,
        inputs={"face": face, "softens_at": limit, AIR: air, **what_is_left(moment)},
        raise_by=metal_plate(moment),
    )


@judges(PLATE_MELTS, where=has_plate)
def plate_melts(moment: Moment) -> Way:
    """The chamber plate's face against its melting."""
    key = moment.parts.head.chamber_plate or ""
    material = moment.engine.materials[key]
    limit = material["melting"]
    air, face = warmth.ambient(moment), warmth.surface(moment, "chamber_plate")
    return PLATE_MELTS.way(
        moment,
        demand=warmth.rise(moment, face),
        capacity=limit - air,
        governs="temperature",
        temperature=face,
        inputs={"plate_face": face, "melting": limit, AIR: air},
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
    limit = softens_at(material, assumed.SOFT)
    air, wall = warmth.ambient(moment), warmth.below(moment, assumed.PORT_DEPTH, "exhaust_port")
    return PORT_SOFTENS.way(
        moment,
        demand=warmth.rise(moment, wall),
        capacity=limit - air,
        governs="temperature",
        temperature=wall,
        inputs={
            "below_the_face": wall,
            "port_face": warmth.surface(moment, "exhaust_port"),
            "softens_at": limit,
            AIR: air,
        },
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
