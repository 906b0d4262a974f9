"""Heat in the rod's sliding ends: a printed eye that melts, a bush that comes loose; wear."""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.parts import assumed, warmth
from firstfire.parts.events import TURNING, WARM
from firstfire.parts.failure import Failure, Where, judges, not_judged
from firstfire.parts.lines import rises_are
from firstfire.parts.softness import is_metal, softens_at
from firstfire.parts.worked import rod_ends as worked

_OTHER = {"big_end": "small_end", "small_end": "big_end"}
_WORDS = {"big_end": "big end of the rod", "small_end": "small end of the rod"}


def _melts(end: str) -> Failure:
    return Failure(
        id=f"rod.{end}.melt",
        part=_WORDS[end],
        failure="melts on its pin",
        unit="K",
        formula=(
            "sliding face in the mean, against where nothing of its strength is left; both as "
            "rises over the air"
        ),
        source="friction of the gas model, half to either side of the film; strength curve "
               "(catalog)",
        during=WARM,
        **rises_are("the sliding face", "nothing of its strength is left"),
        examples=(worked.melts(end, _OTHER[end]),),
    )  # fmt: skip


def _lets_go(end: str) -> Failure:
    return Failure(
        id=f"rod.{end}.bush.loosen",
        part=_WORDS[end],
        failure="lets go of its bush",
        unit="K",
        formula=(
            "print round the bush, against where half of its strength is left; both as rises over "
            "the air"
        ),
        source="strength curve of the material (catalog); the half is our own choice",
        during=WARM,
        **rises_are("the print round the bush", "half of its strength is left"),
        examples=(worked.lets_go(end, _OTHER[end]),),
    )  # fmt: skip


BIG_END_MELTS, SMALL_END_MELTS = _melts("big_end"), _melts("small_end")
BIG_END_LETS_GO, SMALL_END_LETS_GO = _lets_go("big_end"), _lets_go("small_end")
ENDS_WEAR = Failure(
    id="rod.ends.wear",
    part="rod ends",
    failure="wear",
    unit="W/m^2",
    formula="pressure × speed of the plain bearings",
    source="R. G. Budynas, J. K. Nisbett, Shigley's Mechanical Engineering Design, 9th ed., "
           "section 12-15",
    during=TURNING,
)  # fmt: skip


def under_the_skin(moment: Moment, end: str) -> float:
    """An eye half a millimetre below its sliding face, K: what bears the pin's pressure.

    Where the end rolls, as warm as what is beside it.
    """
    if warmth.part(moment, end) is None:
        return warmth.small_end(moment) if end == "small_end" else warmth.ambient(moment)
    return warmth.below(moment, assumed.BORE_DEPTH, end)


def _slides(end: str, kind: str) -> Where:
    """Whether a printed rod has such an end, plain or bushed."""

    def where(moment: Moment) -> bool:
        rod = moment.parts.rod
        return getattr(rod, end) == kind and not is_metal(moment.engine.materials[rod.material])

    return where


def _melting_face(moment: Moment, failure: Failure, end: str) -> Way:
    material = moment.engine.materials[moment.parts.rod.material]
    limit = moment.given("melts_at", softens_at(material, 0.0))
    face = moment.given("sliding_face", warmth.surface(moment, end))
    return failure.way(
        moment,
        demand=warmth.rise(moment, face),
        capacity=limit - warmth.ambient(moment),
        governs="temperature",
        temperature=face,
        raise_by=(
            Raise(f"Press a bronze bush into the {_WORDS[end]}", {f"rod.{end}": "bush"},
                  "reprint_rod"),
            Raise(f"Fit a needle bearing in the {_WORDS[end]}", {f"rod.{end}": "needle"},
                  "reprint_rod"),
        ),
    )  # fmt: skip


def _loosening_bush(moment: Moment, failure: Failure, end: str) -> Way:
    material = moment.engine.materials[moment.parts.rod.material]
    limit = moment.given("softens_at", softens_at(material, assumed.SOFT))
    there = moment.given("round_the_bush", warmth.surface(moment, end))
    return failure.way(
        moment,
        demand=warmth.rise(moment, there),
        capacity=limit - warmth.ambient(moment),
        governs="temperature",
        temperature=there,
        raise_by=(
            Raise(f"Fit a needle bearing in the {_WORDS[end]}", {f"rod.{end}": "needle"},
                  "reprint_rod"),
        ),
    )  # fmt: skip


@judges(BIG_END_MELTS, where=_slides("big_end", "plain"))
def big_end_melts(moment: Moment) -> Way:
    """The printed eye's face on the crankpin."""
    return _melting_face(moment, BIG_END_MELTS, "big_end")


@judges(SMALL_END_MELTS, where=_slides("small_end", "plain"))
def small_end_melts(moment: Moment) -> Way:
    """The printed eye's face on the piston pin."""
    return _melting_face(moment, SMALL_END_MELTS, "small_end")


@judges(BIG_END_LETS_GO, where=_slides("big_end", "bush"))
def big_end_lets_go(moment: Moment) -> Way:
    """The print round a bush on the crankpin."""
    return _loosening_bush(moment, BIG_END_LETS_GO, "big_end")


@judges(SMALL_END_LETS_GO, where=_slides("small_end", "bush"))
def small_end_lets_go(moment: Moment) -> Way:
    """The print round a bush on the piston pin."""
    return _loosening_bush(moment, SMALL_END_LETS_GO, "small_end")


ends_wear = not_judged(
    ENDS_WEAR,
    "no rates of wear are known for these materials and this oil",
    lambda moment: bool({moment.parts.rod.big_end, moment.parts.rod.small_end} & {"plain", "bush"}),
)

JUDGEMENTS = (big_end_melts, small_end_melts, big_end_lets_go, small_end_lets_go, ends_wear)
