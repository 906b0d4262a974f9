"""What to measure first, in words that a handy person reads."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from firstfire.engine.engine import Engine
from firstfire.engine.grammar import leaves, split
from firstfire.engine.quantity import DIMENSIONS
from firstfire.engine.readings_table import Stage
from firstfire.engine.unknowns import Unknown
from firstfire.parts.all import failures
from firstfire.verdict.doubt.doubt import BearsOn, Doubts, Worth
from firstfire.verdict.doubt.questions import Which
from firstfire.verdict.explain.words import CAUTION
from firstfire.verdict.facts.narrows import TELLING
from firstfire.verdict.numbers import figures, shown
from firstfire.verdict.words.sentences import listed

ABOUT: Mapping[Which, str] = {
    "odds": "whether anything gives way up to the first second of full throttle",
    "full_throttle": "how long full throttle lasts",
    "idle": "how long it idles",
}
SHORT: Mapping[Which, str] = {"odds": "odds", "full_throttle": "full", "idle": "idle"}
WHEN: Mapping[Stage, str] = {
    "now": "before the engine is printed",
    "part": "with the part in hand",
    "day": "on the day",
    "together": "once it is put together",
    "running": "once it runs",
}
NO_SOURCE = "common practice, no source"
_DECLARED = {failure.id: failure for failure in failures()}
_VOWELS = "aeiou"


def sentence(found: Doubts) -> str:
    """What to measure first and what that decides, after the engine's name.

    Parameters
    ----------
    found
        From `firstfire.verdict.doubt.doubt.doubts`.
    """
    words = said(found)
    return f"{found.engine.name}: {words[:1].lower()}{words[1:]}"


def said(found: Doubts) -> str:
    """What to measure first and what that decides, or that nothing at home decides much."""
    if not found.doubtful:
        return _nothing_open(found)
    if not found.worth_it:
        about = listed([ABOUT[which] for which in found.doubtful])
        return (
            "Nothing that can be measured at home decides as much as 1 in 100 of the doubt about "
            f"{about}."
        )
    first = found.worth_it[0]
    tool = with_article(instrument_words(found.engine, first))
    the = "" if first.reading.words.startswith("how ") else "the "
    return (
        f"Measure {the}{first.reading.words} first: {tool}, {minutes_words(first)}. "
        f"It decides {decided(first.told)}."
    )


def _nothing_open(found: Doubts) -> str:
    """That nothing is in doubt, whichever way."""
    if not found.judged:
        return "None of its ways to fail could be judged, so no reading can be said to narrow any."
    if found.odds < 0.5:
        return (
            "No reading narrows it. Hardly one engine like it, whatever its numbers turn out to "
            "be, gets through the first second of full throttle: change what gives way first."
        )
    return "No reading narrows it. Neither whether it holds nor for how long is in doubt."


def decided(told: Mapping[Which, float]) -> str:
    """How much of each doubt, most first: *51 of 100 of the doubt about how long it idles*.

    Examples
    --------
    >>> decided({"odds": 0.004, "idle": 0.514, "full_throttle": 0.07})
    '51 of 100 of the doubt about how long it idles and 7 about how long full throttle lasts'
    """
    telling = sorted(
        ((share, which) for which, share in told.items() if share >= TELLING), reverse=True
    )
    parts = [f"{round(100 * share)} about {ABOUT[which]}" for share, which in telling]
    parts[0] = parts[0].replace(" about ", " of 100 of the doubt about ", 1)
    return listed(parts)


def instrument_words(engine: Engine, one: Worth) -> str:
    """What a reading is taken with: *feeler gauge*."""
    name = engine.catalog.row("instrument", one.reading.instrument).name
    for more in (" of ", " for ", " with "):
        name = name.partition(more)[0]
    name, _, part = name.partition(", ")
    return name[:1].lower() + name[1:] + (f" ({part})" if part == "inside jaws" else "")


def with_article(words: str) -> str:
    """The words with *a* or *an* before them.

    Examples
    --------
    >>> with_article("feeler gauge"), with_article("oven")
    ('a feeler gauge', 'an oven')
    """
    return f"{'an' if words[0] in _VOWELS else 'a'} {words}"


def minutes_words(one: Worth) -> str:
    """How long it takes, for all cylinders."""
    minutes = round(one.minutes)
    return "1 minute" if minutes == 1 else f"{minutes} minutes"


def span_words(engine: Engine, unknown: Unknown) -> str:
    """What an input may be, 5 to 95 %, in the unit a person uses for it."""
    unit = _unit(engine, unknown.path)
    if not unit:
        times = " times" if unknown.path.startswith("doubt.") else ""
        return f"{figures(unknown.low)} to {figures(unknown.high)}{times}"
    low, high = shown(unknown.low, unit), shown(unknown.high, unit)
    number, space, name = low.partition("\u202f")
    if space and high.endswith(f"\u202f{name}"):
        low = number
    return f"{low} to {high}"


def _unit(engine: Engine, path: str) -> str:
    plain = split(path)[1]
    if plain.startswith("materials."):
        _, key, prop = plain.split(".")
        return engine.catalog.row("material", key)[prop].unit
    return DIMENSIONS[leaves()[plain].dimension].shown


def left_words(one: Worth) -> str:
    """What of the span a reading leaves.

    It is said in tenths, since it is known no better.
    """
    tenths = max(math.ceil(10 * one.left - 1e-9), 1)
    if tenths >= 10:
        return "a reading leaves all of it"
    if tenths == 5:
        return "a reading leaves half of it"
    return f"a reading leaves {tenths} tenth{'s' if tenths > 1 else ''} of it"


def bears_words(one: BearsOn, cylinders: int) -> str:
    """The judgement it bears on, and where: *piston swells tight in the bore (idle 900 rpm)*."""
    base, _, number = one.way.partition("#")
    declared = _DECLARED[base]
    several = cylinders > 1 and not declared.shared
    place = f" of cylinder {number or 1}" if several else ""
    return f"{declared.part}{place} {declared.failure} ({one.point})"


def together(worths: Sequence[Worth], asked: Sequence[Which]) -> dict[Which, float]:
    """What readings decide together at the least: what they do only jointly is left out."""
    return {which: math.fsum(one.told.get(which, 0.0) for one in worths) for which in asked}


def per_hundred(share: float | None) -> str:
    """A share as one says it; a dash where it is less than one in a hundred.

    Examples
    --------
    >>> per_hundred(0.513), per_hundred(0.004), per_hundred(None)
    ('51', '–', '–')
    """
    return "–" if share is None or share < TELLING else f"{100 * share:.0f}"


def caution(shown_first: Sequence[Worth]) -> str:
    """What to mind where a reading has the engine turned or run; "" where none does."""
    return CAUTION if any(one.reading.spins for one in shown_first) else ""
