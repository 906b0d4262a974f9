"""Every sentence a person reads about a result, made in one place from its records."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import Literal

from firstfire.engine.events import EVENTS, LIFE, called, first_second
from firstfire.engine.geometry import Geometry
from firstfire.engine.records import Raise
from firstfire.runs.point import OperatingPoint
from firstfire.verdict.facts.found import Found
from firstfire.verdict.facts.margin import Margin, RunTime, named
from firstfire.verdict.facts.ranking import is_kept
from firstfire.verdict.facts.starting import (
    cranked_at,
    helps,
    speed_reached,
    too_slow,
    too_weak,
    turning_torque,
)
from firstfire.verdict.numbers import (
    FAR_MORE,
    THIN,
    beyond_telling,
    factor_figures,
    figures,
    shown,
    spoken,
)

_LAYOUTS = {
    "single": "single",
    "parallel_twin": "parallel twin",
    "v_twin": "V-twin",
    "opposed_twin": "opposed twin",
}


def listed(parts: list[str]) -> str:
    """Words joined as one says them.

    Examples
    --------
    >>> listed(["power", "heat", "life"])
    'power, heat and life'
    """
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def sentence(result: Found) -> str:
    """The one sentence that stands above everything: what decides, and the change that helps most.

    It never says that standing beside it is safe.
    """
    return " ".join(sentences(result))


def sentences(result: Found, *, brief: Literal[0, 1, 2] = 0) -> list[str]:
    """The same in its parts: what decides, what helps, what is next, what ends a run, the odds.

    Where it has to be `brief`, what helps and what is next are left out; then also what ends a run
    and what revving freely would do.
    """
    first, ends = result.verdict.first, result.verdict.ends_first
    engine = f"{result.engine.name}, {described(result)}"
    decides = f"{_decides(result, first)}."
    weak, then = _starting(result)
    parts = [f"{engine}: {weak}.", f"{then}, {decides}"] if weak else [f"{engine}: {decides}"]
    if first is not None and not brief:
        parts += [_helped(first)] if first.raise_by else []
        parts += _following(result, first)
    if brief < 2:
        fails = first is not None and first.word == "fails"
        parts += [] if ends is None or fails else [_ends(result, ends)]
        parts += _freely(result)
    odds = f"{odds_words(result.verdict.odds)} that it survives {odds_until(result)}"
    parts.append(f"{odds}; an estimate." if _any_judged(result) else _NO_ODDS)
    return parts


def _any_judged(result: Found) -> bool:
    return any(margin.factor is not None for margin in result.margins)


_NO_ODDS = "That says nothing of whether it holds."


def stopped_sentence(result: Found) -> str:
    """The sentence of a check that was stopped: what was finished, and the worst of that alone."""
    done = listed([event.event.replace("_", " ") for event in result.events])
    first = result.verdict.first
    worst = ""
    if first is not None:
        name = named(result.plain, first.way)
        when = at_its_time(name, first.event)
        worst = f" Of what was, the lowest: {when} ({_factor(first)})."
    return (
        f"{result.engine.name}, {described(result)}: stopped when only {done} had been "
        f"finished.{worst} An estimate, and of no more than that."
    )


def at_its_time(name: str, event: str) -> str:
    """What gives way and when; a name that says when already says it once.

    Examples
    --------
    >>> at_its_time("crank joint slips", "cranking")
    'crank joint slips while it is cranked'
    >>> at_its_time("head fasteners strip or yield while tightened", "cranking")
    'head fasteners strip or yield while tightened'
    """
    return name if SAYS_WHEN.search(name) else f"{name} {first_second(event)}"


SAYS_WHEN = re.compile(r" while (its bolts are )?tightened")
"""What a name of something that happens at assembly ends with."""


_BORNE = ("N", "N*m", "Pa", "W", "J")
"""Units of what a part bears; of others only the factor is told."""


def _decides(result: Found, first: Margin | None) -> str:
    """What is likeliest to end it; that all holds only where every word says so."""
    if first is None or first.factor is None:
        if _any_judged(result):
            return "nothing judged gives way up to its first second at full throttle"
        return "not one of its ways to fail could be judged"
    name = named(result.plain, first.way)
    if first.word == "fails":
        return f"the {at_its_time(name, first.event)}{_borne(first)}"
    told = f"the {at_its_time(name, first.event)} ({factor_words(first)})"
    if result.verdict.word == "holds":
        return f"all that is judged holds up to its first second at full throttle; nearest: {told}"
    return f"likeliest to end it: {told}"


def _borne(first: Margin) -> str:
    """What it bears of what it feels, and the factor."""
    way, factor = first.way, factor_words(first)
    if way.unit not in _BORNE:
        return f" ({factor})"
    it, holds = ("they", "hold") if _several(way.part) else ("it", "holds")
    borne, felt = _amount(way.capacity, way.unit), _amount(way.demand, way.unit)
    return f": {it} {holds} {borne} of the {felt} {it} will feel ({factor})"


def factor_words(margin: Margin) -> str:
    """A factor with its span, as it stands in a sentence."""
    return _factor(margin) if beyond_telling(margin.factor) else f"factor {_factor(margin)}"


_SHARE_TOLD = 0.1
"""Share of engines from which what is next to end them is named beside what leads."""


def _following(result: Found, first: Margin) -> list[str]:
    """What else fails, or is about as likely to end it, which a headline must not hide."""
    own = first.way.id.partition("#")[0]
    others = [m for m in result.margins if m.way.id.partition("#")[0] != own and _may_end(m)]
    if not others:
        return []
    told = min(others, key=lambda m: m.rank)
    also = {m.way.id.partition("#")[0] for m in others if m.word == "fails"}
    also.discard(told.way.id.partition("#")[0])
    more = f"; {len(also)} more fail{'s' * (len(also) == 1)}" if also else ""
    name = named(result.plain, told.way)
    when = at_its_time(name, told.event)
    return [f"With that mended, the {when} ({factor_words(told)}){more}."]


def _may_end(margin: Margin) -> bool:
    return margin.ends is not None and (margin.ends >= _SHARE_TOLD or margin.word == "fails")


def _freely(result: Found) -> list[str]:
    """What a free rev would break, of an engine that its load or limiter keeps from it."""
    failing = [
        m for m in result.margins if m.event == "free_rev" and m.word == "fails" and not m.reported
    ]
    if not failing or not is_kept(result.plain):
        return []
    worst = min(failing, key=lambda margin: margin.least)
    name = named(result.plain, worst.way)
    return [f"Were it let rev freely, the {name} (factor {_factor(worst)})."]


def _several(part: str) -> bool:
    """Whether a part's name is of several things: *washers under the head's fasteners*."""
    head = re.split(r" (?:under|of|on) ", part, maxsplit=1)[0]
    return head.endswith("s") and not head.endswith("ss")


def _starting(result: Found) -> tuple[str, str]:
    """That the starter can't turn it, or only slowly, and how to go on from there; "" twice."""
    cranked = cranked_at(result)
    if cranked is None:
        return "", ""
    over = result.starting
    if over is not None and too_weak(result):
        weak = (
            f"it does not come over the top: that takes {_amount(over.peak_torque, 'N*m')} at most "
            f"and the starter gives {_amount(over.stall_torque, 'N*m')} at a stand, "
            f"{_amount(over.lacking_torque, 'N*m')} too little even with a run-up"
        )
        offered = helps(result)
        return f"{weak}. {_either(offered)}" if offered else weak, "Were it turned"
    if too_slow(result):
        slow = (
            f"the starter turns it at about {_about(speed_reached(result))} only, not at "
            f"{_speed(cranked)}: that takes {_amount(turning_torque(cranked)[0], 'N*m')} on the "
            "mean"
        )
        return slow, f"Turned at {_speed(cranked)}"
    return "", ""


def _either(offered: Sequence[Raise]) -> str:
    """The changes that bring it over the top, any of which does."""
    first, *others = [spoken(change.text) for change in offered]
    return " or ".join([first, *(text[:1].lower() + text[1:] for text in others)])


_MOST_TOLD = 99.0
"""Factor beyond which an end of a span is told by no figure of its own."""


def _factor(margin: Margin) -> str:
    if beyond_telling(margin.factor):
        return FAR_MORE
    low, high = (
        "over 99" if end is not None and end > _MOST_TOLD else factor_figures(end)
        for end in (margin.factor_low, margin.factor_high)
    )
    if low == high:
        return factor_figures(margin.factor)
    return f"{factor_figures(margin.factor)}, {low} to {high}"


_UNITS = {
    "N": "N", "N*m": "N*m", "Pa": "MPa", "K": "K", "rad/s": "rpm", "m": "mm", "W": "W", "J": "J",
    "rad": "deg",
}  # fmt: skip


def _amount(value: float, unit: str) -> str:
    if unit == "N" and abs(value) >= 1000:
        return f"{figures(value / 1000, 2)}{THIN}kN"
    if unit == "K":
        return f"{figures(value, 2)}{THIN}K"
    return shown(value, _UNITS[unit], 2) if unit in _UNITS else figures(value, 2)


def _helped(first: Margin) -> str:
    best = first.raise_by[0]
    after = f"the factor is then {figures(best.factor_after, 2)}"
    if best.factor_after > 1e5:
        after = "it no longer applies"
    elif beyond_telling(best.factor_after):
        after = f"it is then {FAR_MORE}"
    following = f", and next is: {best.next_to_fail}" if best.next_to_fail else ""
    return f"{best.text}: {after}{following}."


def _ends(result: Found, ends: RunTime) -> str:
    when = lasting_between(ends.seconds, ends.seconds_low, ends.seconds_high)
    about = "" if when.startswith("at once") else "after about "
    return f"Held at {ends.point}, {about}{when} the {named(result.plain, ends.way)}."


def lasting(seconds: float | None) -> str:
    """A time as one says it; None is beyond ten minutes.

    Examples
    --------
    >>> lasting(0.0), lasting(8.42), lasting(95.0), lasting(None)
    ('0 s', '8.4 s', '1.6 min', 'over 10 min')
    """
    if seconds is None:
        return "over 10 min"
    if seconds >= 90:
        return f"{figures(seconds / 60, 2)} min"
    return f"{figures(seconds, 2)} s"


def lasting_between(seconds: float | None, low: float | None, high: float | None) -> str:
    """A time with its span; what comes at once has none, or only an end.

    Examples
    --------
    >>> lasting_between(7.0, 3.8, 12.0), lasting_between(0.0, 0.0, 0.0)
    ('7 s (3.8 s to 12 s)', 'at once')
    >>> lasting_between(5.0, 0.0, None), lasting_between(0.0, 0.0, 0.4)
    ('5 s (at once to over 10 min)', 'at once (0.4 s at most)')
    """
    if high is not None and high <= 0:
        return "at once"
    if seconds is not None and seconds <= 0:
        return f"at once ({lasting(high)} at most)"
    begun = lasting(low) if low is None or low > 0 else "at once"
    return f"{lasting(seconds)} ({begun} to {lasting(high)})"


def odds_until(result: Found) -> str:
    """Up to which moment the odds of a check reach."""
    run = [event.event for event in result.events if EVENTS[event.event].in_the_odds]
    return called(max(run, key=LIFE.index)).survived if run else "all that was run"


def odds_words(odds: float, *, inside: bool = False) -> str:
    """Odds no finer than better than 19 in 20.

    Parameters
    ----------
    odds
        0 to 1.
    inside
        Whether it stands within a sentence.

    Examples
    --------
    >>> odds_words(0.97), odds_words(0.01), odds_words(0.71), odds_words(0.71, inside=True)
    ('Better than 19 in 20', 'Less than 1 in 20', 'About 14 in 20', '14 in 20')
    """
    if odds > 0.95:
        how = "Better than 19 in 20"
    elif odds < 0.05:
        how = "Less than 1 in 20"
    else:
        how = f"{'' if inside else 'About '}{round(odds * 20)} in 20"
    return how[0].lower() + how[1:] if inside else how


def which_cylinder(number: int, count: int) -> str:
    """A cylinder, counted from 1, as one says it of an engine of so many.

    Examples
    --------
    >>> which_cylinder(1, 1), which_cylinder(2, 2)
    ('the cylinder', 'cylinder 2')
    """
    return "the cylinder" if count == 1 else f"cylinder {number}"


def brake_words(result: Found) -> list[str]:
    """That full throttle below the free speed needs a brake, where the engine drives nothing."""
    free = next((p for p in result.points if p.event == "free_rev"), None)
    if result.plain.load.kind != "none" or free is None:
        return []
    limited = "at its limiter" if result.plain.spark.limit_speed == free.speed else "by itself"
    beyond = any(event.notes for event in result.events if event.event == "free_rev")
    reaches = f"{'more than ' if beyond else ''}{_speed(free)}{'' if beyond else f' {limited}'}"
    return [f"With nothing to drive it reaches {reaches}: below, full throttle is held by a brake."]


def strongest(result: Found) -> OperatingPoint | None:
    """The fired point of most power, or None where nothing was fired."""
    fired = [point for point in result.points if point.event == "full_throttle"]
    return max(fired, key=lambda point: point.brake_power, default=None)


def _power(point: OperatingPoint) -> str:
    return power(point.brake_power)


def power(watts: float) -> str:
    """A power in watts, or kilowatts from one on.

    Examples
    --------
    >>> power(768.7).replace(THIN, " "), power(1854.0).replace(THIN, " ")
    ('769 W', '1.85 kW')
    """
    if in_kilowatts(watts):
        return f"{figures(watts / 1000)}{THIN}kW"
    return f"{figures(watts)}{THIN}W"


def in_kilowatts(watts: float) -> bool:
    """Whether a power is told in kilowatts."""
    return abs(watts) >= 1000


def _speed(point: OperatingPoint) -> str:
    return f"{point.speed * 30 / math.pi:.0f}{THIN}rpm"


def _about(speed: float) -> str:
    return f"{figures(speed * 30 / math.pi, 2)}{THIN}rpm"


def described(result: Found) -> str:
    """The engine in half a sentence."""
    parts = result.plain.cylinders[0]
    size = f"{shown(parts.cylinder.bore, 'mm')[:-3]} × {shown(parts.cylinder.stroke, 'mm')}"
    volume = shown(result.geometry.displacement, "cm^3")
    layout = _LAYOUTS[result.plain.layout.kind]
    return f"{layout} of {size} ({volume})"


def firing(shape: Geometry) -> str:
    """How it fires, in words."""
    gaps = [round(math.degrees(gap), 1) for gap in shape.firing_intervals if gap > 1e-9]
    if len(shape.firing_intervals) > len(gaps):
        return "both cylinders at once, every 720°"
    if max(gaps) - min(gaps) < 0.5:
        return f"every {gaps[0]:g}°"
    return f"{listed([f'{gap:g}°' for gap in gaps])} apart"
