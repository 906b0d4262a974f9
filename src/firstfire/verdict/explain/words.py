"""Words of an opened judgement: where it is judged, what is said of it, what makes its span."""

from __future__ import annotations

import math

from firstfire.engine.engine import Engine
from firstfire.engine.events import first_second
from firstfire.engine.grammar import leaves, split
from firstfire.engine.resolve import PlainEngine
from firstfire.parts.inputs import SAID
from firstfire.verdict.facts.margin import Margin, RunTime, named
from firstfire.verdict.numbers import FAR_MORE, THIN, beyond_telling, figures, shown
from firstfire.verdict.words.ledger import two
from firstfire.verdict.words.sentences import SAYS_WHEN, lasting_between

_MOVED = 1.02
NOTE_MOVERS = "With all other numbers of the working left as they are."
NOTE_TURNED = "A last factor such as × 1000 turns the units shown into those of the result."
NOTE_PI = "π is 3.1416."


def when(margin: Margin) -> str:
    """Where it is judged, in words: *at a strong first combustion (450 rpm before top)*."""
    what = first_second(margin.event)
    speed = margin.point.removeprefix(margin.event.replace("_", " ")).strip().removeprefix("at ")
    return f"{what} ({speed})" if speed else what


def title(plain: PlainEngine, margin: Margin) -> str:
    """Part and failure: *Crank joint slips*."""
    name = named(plain, margin.way)
    return name[:1].upper() + name[1:]


def sentence(plain: PlainEngine, margin: Margin) -> str:
    """What is said of it, where, and its factor with its span."""
    way, name, where = margin.way, named(plain, margin.way), when(margin)
    if margin.factor is None:
        return f"Whether the {name} is not judged: {way.why_not.rstrip('.')}."
    where = where[:1].upper() + where[1:]
    if SAYS_WHEN.search(name):
        name, where = SAYS_WHEN.sub("", name), "While its bolts are tightened"
    if margin.factor == math.inf:
        return f"{where}, nothing is asked of it: that the {name} does not come up."
    asked, has = amount(way.demand, way.unit), amount(way.capacity, way.unit)
    span = f"Factor {two(margin.factor)} ({two(margin.factor_low)}–{two(margin.factor_high)})"
    if beyond_telling(margin.factor):
        span = FAR_MORE[:1].upper() + FAR_MORE[1:]
    form = _COMPARED.get(way.unit, "it feels {} and holds {}")
    if margin.word == "fails":
        form = form.replace(" and ", " but ")
    said = form.format(asked, has)
    if margin.word == "fails":
        return f"{where}, the {name}: {said}. {span}: fails."
    if margin.word == "marginal":
        return f"{where}, it may be that the {name}: {said}. {span}: marginal."
    return f"{where}, that the {name} is not to be expected: {said}. {span}: holds."


_COMPARED = {
    "K": "it warms by {} and may by {}",
    "rad/s": "it turns at {} and stands up to {}",
    "m": "warmth takes {} and there are {}",
    "rad": "it takes {} and may take {}",
    "": "it needs {} and has {}",
}


_UNITS = {
    "Pa": "MPa", "rad/s": "rpm", "m": "mm", "rad": "deg", "N*m": "N*m", "N": "N", "W": "W",
    "J": "J",
}  # fmt: skip


def amount(value: float, unit: str) -> str:
    """Demand or capacity in the unit a person uses for it.

    Examples
    --------
    >>> [amount(*one).replace(THIN, " ") for one in ((6310, "N"), (4.2e7, "Pa"), (2.5, "J"))]
    ['6.31 kN', '42 MPa', '2.5 J']
    """
    if unit == "N" and abs(value) >= 1000:
        return f"{figures(value / 1000)}{THIN}kN"
    if unit == "K":
        return f"{figures(value)}{THIN}K"
    if not unit and abs(value) >= 1e6:
        return f"{figures(value / 1e6)}{THIN}million"
    return shown(value, _UNITS[unit]) if unit in _UNITS else figures(value)


def span_text(margin: Margin) -> str:
    """Low and high, in words."""
    if not margin.factor or margin.factor == math.inf:
        return ""
    if beyond_telling(margin.factor):
        return f"Its factor is beyond 1000: {FAR_MORE}."
    low, high = two(margin.factor_low), two(margin.factor_high)
    if low == high:
        still = (margin.factor_high or 0.0) < _MOVED * (margin.factor_low or 0.0)
        return f"Nothing uncertain moves it: {low}." if still else "It is beyond 99 all over."
    said = f"Nine times in ten the factor is between {low} and {high}"
    if margin.way.hazard and margin.word == "marginal" and (margin.factor_low or 0) >= 1:
        return (
            f"{said}. Because it throws, bursts or burns, it holds only if the strongest cycle "
            "in a thousand does not break it at its weakest."
        )
    return f"{said}."


def clock(limit: RunTime) -> str:
    """When a limit comes while its point is held from cold; "" where it is there at once."""
    if limit.seconds is None:
        return f"Held at {limit.point} from cold, it does not come within ten minutes."
    if limit.seconds <= 0:
        return ""
    when = lasting_between(limit.seconds, limit.seconds_low, limit.seconds_high)
    return f"Held at {limit.point} from cold, it comes after about {when}."


_DOUBTS = {
    "doubt.wall_heat": "how much heat the gas gives the walls",
    "doubt.burn_duration": "how long the charge burns",
    "doubt.combustion_loss": "how much of the charge is left unburned",
    "doubt.burn_phase": "when burning sets in",
    "doubt.flow": "how well valves and throttle flow",
    "doubt.outside_cooling": "how well the outside is cooled",
    "doubt.port_film": "how hot gas heats the ports",
    "doubt.contact": "how well seats, plates and shields touch",
    "doubt.softening": "how warm materials get before they soften",
    "doubt.nut_factor": "how much of a torque becomes preload",
    "doubt.press_friction": "friction in pressed and clamped joints",
    "doubt.strength_bias": "strength of this printer and spool",
    "doubt.strength_scatter": "strength from part to part",
    "doubt.friction.ring": "friction of the rings",
    "intake.equivalence_ratio": "the mixture",
    "surroundings.air_temperature": "the day's air temperature",
    "surroundings.air_pressure": "the day's air pressure",
    "leak.ring": "leak past the rings",
    "speed before top": "speed left just before top centre",
}
_PROPS = {
    "strength_in_plane": "strength of {}",
    "strength_across": "strength of {} across its layers",
    "modulus_in_plane": "stiffness of {}",
    "conductivity": "how well {} conducts heat",
}


def unknown_words(engine: Engine, path: str) -> str:
    """An uncertain input in words.

    Parameters
    ----------
    engine
        Whose materials are named.
    path
        Of the input.
    """
    cylinder, plain = split(path)
    behind = f" of cylinder {cylinder}" if cylinder and engine.cylinders > 1 else ""
    if plain in _DOUBTS:
        return _DOUBTS[plain] + behind
    if plain.startswith("materials.") and plain.count(".") == 2:
        _, key, prop = plain.split(".")
        name = engine.catalog.row("material", key).name
        return _PROPS.get(prop, f"{prop.replace('_', ' ')} of {{}}").format(name)
    if plain in SAID:
        return f"{SAID[plain]} as it comes out{behind}"
    if plain in leaves():
        section, _, last = plain.rpartition(".")
        of = section.replace(".", " ").replace("_", " ")
        return f"{last.replace('_', ' ')} of the {of}{behind}"
    return plain.replace("_", " ").replace(".", " ")


CAUTION = (
    "These are estimates and no permission. Before you turn, fuel or fire it: stand out of its "
    "plane behind a shield, with eyes and ears covered and a fire extinguisher at hand, outdoors. "
    "Local codes and licensed practice decide."
)
HAZARD = "If this gives way it throws, bursts or burns. "


def caution(margin: Margin, *, acts: bool) -> str:
    """What to mind, where a change is offered or the failure itself is a hazard."""
    if margin.way.hazard:
        return HAZARD + CAUTION
    return CAUTION if acts else ""
