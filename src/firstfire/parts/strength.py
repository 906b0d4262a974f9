"""What a printed or solid part may be stressed to, here and now, and what decides it.

A print's strength is its material's, times: how much of the section is plastic; in plane or
across its layers; what temperature leaves; moisture; how fast and how often it is loaded, or how
long; the printer's own bias and the part's own scatter. A metal's is the least of its yield and
its fatigue strength, times what temperature leaves.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Literal, NamedTuple

from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.sections.make import Made
from firstfire.formulas import creep, fatigue
from firstfire.formulas.recorded import beside, found
from firstfire.parts import assumed
from firstfire.parts.softness import is_metal, modulus_left

Load = Literal["pulse", "pressed", "lasting", "once"]
"""Pulses that pull, one a cycle; pulses that only press; a load since assembly; a single one.

Pressing opens no crack, so it tires nothing; over minutes it creeps in like a lasting load.
"""

ALONG_BORE = ("along_bore",)
ROUND_THE_BORE = ("across_bore", "along_crank")
IN_THE_CHEEK = ("along_bore", "across_bore")
PRESSED: tuple[str, ...] = ()
"""Directions of pull: a print stacked along one of them is pulled layer from layer."""


_TELLING = 0.9
_BRITTLE = 0.05


class Strength(NamedTuple):
    """What a part bears, and why.

    Attributes
    ----------
    value
        Allowable stress on the gross section, Pa.
    governs
        Whichever takes most off: ``section``, ``layers``, ``temperature``, ``moisture``,
        ``creep``, ``fatigue``; ``strength`` where none takes a tenth.
    at_room
        Short-time strength at 23 °C of the material itself, Pa.
    shares
        What each leaves, by name.
    told
        The same as ``..._leaves``, those that leave all of it left out; and what this printer and
        this part may be off by.
    """

    value: float
    governs: str
    at_room: float
    shares: Mapping[str, float]
    told: Mapping[str, float]


def _told(shares: Mapping[str, float], unsure: float = 1.0) -> dict[str, float]:
    told = {_LEAVES[name]: share for name, share in shares.items() if share != 1.0}
    if unsure != 1.0:
        told["doubt_leaves"] = unsure
    return told


_LEAVES = {
    name: f"{name}_leaves"
    for name in ("section", "layers", "temperature", "moisture", "creep", "rate", "fatigue")
}


_PLACES = {
    "pin_": " of the pin", "hub_": " of the hub", "layered_": " of the pin across its layers",
    "plate_": " of the chamber plate",
    "glue_": " of the glue",
}  # fmt: skip


def of(
    moment: Moment,
    made: Made,
    *,
    pull: tuple[str, ...],
    warm: float,
    load: Load = "pulse",
    section: float = 1.0,
    place: str = "",
    name: str = "strength",
) -> Strength:
    """Allowable stress of a part made as described.

    Parameters
    ----------
    moment
        Event, cycles and hours, moisture and doubt are taken from it.
    made
        Material and layers.
    pull
        Directions in which it is pulled; none where it is pressed.
    warm
        Share of its strength that temperature leaves, 0 to 1.
    load
        How it is loaded.
    section
        Share of the gross section that bears.
    place, name
        What its numbers' names begin with in a working, as ``pin_``, and what it is called there.
    """
    printed = made.made == "printed"
    across = printed and made.layers_stacked in pull
    material = moment.engine.materials[made.material]
    return of_material(
        moment, material, printed=printed, across=across, warm=warm, load=load, section=section,
        place=place, name=name,
    )  # fmt: skip


def of_material(
    moment: Moment,
    material: Material,
    *,
    warm: float,
    printed: bool = False,
    across: bool = False,
    load: Load = "pulse",
    section: float = 1.0,
    place: str = "",
    name: str = "strength",
) -> Strength:
    """As `of`, of a material by itself.

    Parameters
    ----------
    moment, warm, load, section, place, name
        As `of`.
    material
        Its numbers.
    printed, across
        Whether it is printed, and whether it is pulled layer from layer.
    """
    if is_metal(material):
        return _recorded(moment, _metal(moment, material, warm, load), place, name)
    room = material["strength_in_plane"]
    doubt = moment.engine.doubt
    layers = material["strength_across"] / room if across else 1.0
    time = _over_time(moment, material, load, brittle=across)
    shares = {
        "section": section,
        "layers": layers,
        "temperature": warm,
        "moisture": _moisture(moment, material) if printed else 1.0,
        **time,
    }
    unsure = doubt.strength_scatter * (doubt.strength_bias if printed else 1.0)
    value = room * unsure
    for share in shares.values():
        value *= share
    judged = Strength(value, _decider(shares), room, shares, _told(shares, unsure))
    return _recorded(moment, judged, place, name)


def _recorded(moment: Moment, strength: Strength, place: str, name: str) -> Strength:
    """The same, whose value knows in a recorded moment what it is the product of."""
    if not moment.recorded:
        return strength
    value = moment.given(f"{place}strength_at_room", strength.at_room)
    for share, left in strength.told.items():
        value = value * moment.given(f"{place}{share}", left)
    where = _PLACES.get(place, "")
    return strength._replace(
        value=found(name, value, "Pa", f"strength{where} here and now"),
    )


def shear(material: Material, strength: Strength, place: str = "") -> float:
    """Shear strength that goes with a tensile one, Pa.

    Parameters
    ----------
    material, strength
        Of what, and how strong when pulled.
    place
        What its names begin with in a working.
    """
    share = beside(strength.value, f"{place}shear_share" if place else "shear_of_tensile",
                   shear_share(material))  # fmt: skip
    words = f"strength{_PLACES.get(place, '')} in shear"
    return found(f"{place}shear_strength", share * strength.value, "Pa", words)


def shear_share(material: Material) -> float:
    """Shear over tensile strength."""
    return assumed.SHEAR_OF_METAL if is_metal(material) else assumed.SHEAR_OF_PLASTIC


def pressed_share(material: Material) -> float:
    """Strength when pressed over that when pulled; 1, the low side, where no test is known."""
    pressed = material.get("compressive_strength")
    return 1.0 if pressed is None else max(pressed / material["strength_in_plane"], 1.0)


def sticking(glue: Strength, at_room: float) -> Strength:
    """Strength of a glue in shear: its own at room times what is left of the glue's."""
    return glue._replace(value=at_room * glue.value / glue.at_room, at_room=at_room)


def stiffness(
    made: Made, material: Material, temperature: float, direction: tuple[str, ...]
) -> float:
    """Young's modulus of a part in a direction at a temperature, Pa.

    Parameters
    ----------
    made, material
        How it is made and of what.
    temperature
        K.
    direction
        As `pull` of `of`.
    """
    along = material["modulus_in_plane"]
    across = made.made == "printed" and made.layers_stacked in direction
    modulus = material["modulus_across"] if across else along
    return modulus * modulus_left(material, temperature)


def _metal(moment: Moment, material: Material, warm: float, load: Load) -> Strength:
    room = material["strength_in_plane"]
    static = room if _is_brittle(material) else material["yield_strength"]
    tired = room
    if load == "pulse":
        cycles = min(max(moment.cycles, 1.0), 1e6)
        line = _line(material["fatigue_fraction_1e6"])
        tired = room * fatigue.stress_for_cycles(line, cycles)
    shares = {"temperature": warm, "fatigue": min(1.0, tired / static)}
    value = static * warm * shares["fatigue"]
    return Strength(value, _decider(shares), static, shares, _told(shares))


def _over_time(
    moment: Moment, material: Material, load: Load, *, brittle: bool
) -> dict[str, float]:
    """What rate gives, and what cycles or hours take."""
    if load in ("lasting", "pressed"):
        fall = material["strength_lost_per_decade"]
        seconds = moment.resting_hours * 3600.0 if load == "lasting" else moment.seconds
        return {"creep": max(creep.strength_under_lasting_load(1.0, fall, seconds), 0.0)}
    shares = {"rate": _rate(material, brittle=brittle)}
    if load == "pulse":
        line = _line(material["fatigue_fraction_1e6"])
        shares["fatigue"] = fatigue.stress_for_cycles(line, max(moment.cycles, 1.0))
    return shares


def _is_brittle(material: Material) -> bool:
    """Whether it breaks before it yields, as a metal does that stretches less than 5 % (Shigley).

    Such a row tells no yield strength, but how far it stretches.
    """
    stretches = material.get("elongation")
    told = material.get("yield_strength") is not None
    return not told and stretches is not None and stretches < _BRITTLE


@lru_cache(maxsize=64)
def _line(fraction: float) -> fatigue.StressLifeLine:
    """Line from all of the strength at one cycle to this fraction at a million."""
    return fatigue.line_through(1.0, fraction)


def _rate(material: Material, *, brittle: bool) -> float:
    """Gain by speed; none across layers or with short fibres, whose break is brittle.

    None is counted either where the row tells none: the lower of what it can be.
    """
    gain = material.get("strength_per_decade")
    if gain is None or brittle or material.fibres:
        return 1.0
    return _gained(gain, material["reference_strain_rate"])


@lru_cache(maxsize=64)
def _gained(gain: float, reference: float) -> float:
    return creep.strength_at_rate(1.0, gain, assumed.PULSE_RATE, reference)


def _moisture(moment: Moment, material: Material) -> float:
    if moment.engine.printing.moisture == "dry":
        return 1.0
    soaked = material["wet_strength_factor"]
    taken = {"dry": 0.0, "room": assumed.ROOM_MOISTURE, "wet": 1.0}
    return 1 - taken[moment.engine.printing.moisture] * (1 - soaked)


def _decider(shares: Mapping[str, float]) -> str:
    least = min(shares, key=shares.__getitem__)
    return least if shares[least] < _TELLING else "strength"
