"""The words of a start: its sentence, its story, what limits it."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping

from firstfire.runs.start.account import Account
from firstfire.runs.start.asked import Lived, Missed, Sparked
from firstfire.runs.start.going import SPEEDS
from firstfire.runs.start.odds import Why, runs_by_itself
from firstfire.runs.start.valve_room import valve_room
from firstfire.verdict.numbers import THIN, figures, spoken
from firstfire.verdict.start.bang_words import banged, knocked
from firstfire.verdict.start.fuel_words import flooded, primed
from firstfire.verdict.start.let_off_words import compression_comes_back
from firstfire.verdict.start.loose_words import stuck
from firstfire.verdict.start.moment import Happened, speed_before
from firstfire.verdict.words.sentences import odds_words

_RPM = 30 / math.pi
_SHOWS = 500.0
"""Under that no gauge of compression shows anything, Pa."""
_WORTH = 1 / 20
"""What keeps fewer than so many of the engines from starting isn't worth a sentence."""

LIMITS: Mapping[Why, str] = {
    "torque": "the starter doesn't turn it over its compression",
    "kick": "a first combustion throws it back",
    "mixture": "its mixture doesn't light",
    "flooded": "it is flooded: liquid fuel wets its plug or stops its piston",
    "spark": "its spark lights nothing",
    "dies": "it burns, but friction and leaks take more than the burns give",
    "flywheel": "it runs on its starter and stops when let go: too little turns on by itself",
}
MISSED: Mapping[Missed, str] = {
    "open": "a valve was open",
    "lean": "too lean",
    "rich": "too rich",
    "thinned": "too much burned gas",
    "quenched": "the flame went out",
    "weak": "the spark was too weak",
    "wet": "the plug was wet",
}


def rpm(speed: float) -> str:
    """A speed, rad/s, in two figures.

    Examples
    --------
    >>> rpm(37.7)
    '360\\u202frpm'
    """
    return f"{figures(speed * _RPM, 2)}{THIN}rpm"


def degrees(angle: float) -> str:
    """An angle before top centre, rad, as a person says it.

    Examples
    --------
    >>> degrees(0.0873), degrees(-0.0873), degrees(0.0)
    ('5° before top', '5° after top', 'top')
    """
    whole = round(math.degrees(angle))
    if whole == 0:
        return "top"
    return f"{abs(whole)}° {'before' if whole > 0 else 'after'} top"


def bar(pressure: float) -> str:
    """A pressure, Pa, in bar and two figures; none where no gauge shows it.

    Examples
    --------
    >>> bar(8.25e5), bar(4e-7)
    ('8.2\\u202fbar', '0\\u202fbar')
    """
    return f"{figures(pressure / 1e5, 2) if pressure > _SHOWS else 0}{THIN}bar"


def sentence(found: Account) -> str:
    """What decides, in words."""
    name, odds = found.engine.name, found.odds
    if not found.cranked.over:
        why = stuck(found)
        if why is not None:
            return f"{name} does not start: {why} An estimate."
        return f"{name} does not start: its starter does not bring it over the top. An estimate."
    tries = f"within {figures(odds.seconds, 2)}{THIN}s and {_tries(odds.tries)}"
    chance = odds_words(odds.share)
    said = [f"{name}: {chance[0].lower() + chance[1:]} that it starts {tries}; an estimate."]
    if odds.needs_gauge is not None:
        said.append(
            f"It starts if the gauge shows over {bar(odds.needs_gauge)} at "
            f"{rpm(found.cranked.mean_speed)}."
        )
    said += _against(found)
    return " ".join(said)


def _tries(count: int) -> str:
    return "one try" if count == 1 else f"{count} tries"


def _against(found: Account) -> Iterator[str]:
    listed = limits(found)
    if listed and listed[0][1] >= _WORTH:
        why, share = listed[0]
        yield f"What keeps it from it most: {LIMITS[why]} ({in_twenty(share)})."
    if found.changes:
        best = found.changes[0]
        yield (
            f"{spoken(best.text)}: then {in_twenty(best.starts)} start within two tries, where "
            f"{in_twenty(best.before)} do now."
        )


def in_twenty(share: float) -> str:
    """A share as people count it: "17 in 20"."""
    return f"{round(20 * share)} in 20"


def limits(found: Account) -> list[tuple[Why, float]]:
    """What keeps engines drawn from starting, and the share of all of each, the most first."""
    each = found.odds.each
    counted = Counter(one.why for one in each if one.why is not None)
    return [(why, count / len(each)) for why, count in counted.most_common()]


def story(found: Account) -> list[Happened]:
    """How the engine as it is written starts, moment by moment."""
    lived, told = found.lived, [Happened(0.0, 0.0, "starter on")]
    told += [*primed(found.asked), *flooded(lived)]
    sparks = sorted(lived.sparks, key=lambda spark: spark.seconds)
    burns = [spark for spark in sparks if spark.missed is None]
    if burns:
        told += _until_first(sparks, burns[0])
        told += _misfires(lived, burns[0])
    elif sparks:
        told.append(_first_spark(sparks[0]))
    if lived.reversed_at is not None and lived.kicked:
        told.append(Happened(lived.reversed_at, 0.0, "thrown back: it kicks"))
    if abs(lived.slipped) > math.radians(1.0):
        ended, by = float(lived.spun.time[-1]), figures(math.degrees(abs(lived.slipped)), 2)
        way = "late" if lived.slipped > 0.0 else "early"
        told.append(
            Happened(ended, speed_before(lived, ended), f"its joint has slipped: {by}° {way}")
        )
    if lived.let_go is not None:
        told.append(Happened(lived.let_go, speed_before(lived, lived.let_go), "let go"))
    for seconds, what in (*compression_comes_back(found), *knocked(found), *banged(found)):
        told.append(Happened(seconds, speed_before(lived, seconds), what))
    told.append(_end(lived))
    return sorted(told, key=lambda one: one.seconds)


def _first_spark(spark: Sparked) -> Happened:
    why = f", and nothing: {MISSED[spark.missed]}" if spark.missed else ""
    return Happened(spark.seconds, spark.speed, f"first spark, {degrees(-spark.angle)}{why}")


def _until_first(sparks: list[Sparked], burn: Sparked) -> Iterator[Happened]:
    if sparks[0] is not burn:
        yield _first_spark(sparks[0])
    mixture = f"mixture {figures(burn.mixture, 2)}"
    yield Happened(
        burn.seconds, burn.speed, f"first combustion, spark {degrees(-burn.angle)}, {mixture}"
    )


def _misfires(lived: Lived, first: Sparked) -> Iterator[Happened]:
    later = [s for s in lived.sparks if s.missed is not None and s.seconds > first.seconds]
    if later:
        most = Counter(s.missed for s in later).most_common(1)[0][0]
        why = MISSED[most] if most is not None else ""
        count = f"{len(later)} of {len(lived.sparks)} sparks light nothing"
        yield Happened(later[0].seconds, later[0].speed, f"{count}, mostly: {why}")


def _end(lived: Lived) -> Happened:
    ended = float(lived.spun.time[-1])
    speed = lived.mean_speed(ended - 0.2)
    if runs_by_itself(lived):
        return Happened(ended, speed, "runs by itself")
    stood = lived.spun.time[lived.spun.speed > 0.0]
    return Happened(float(stood[-1]) if stood.size else ended, 0.0, "stands")


def keeps_going(found: Account) -> str:
    """From which speed it keeps itself going."""
    if not math.isfinite(found.least):
        return "from no speed"
    lowest = "from below " if found.least <= 0.6 * SPEEDS[0] else "from "
    words = f"{lowest}{rpm(found.least)} up, let go at any moment, throttle as asked"
    if math.isfinite(found.weak_least) and found.weak_least > 1.05 * found.least:
        words += f", weak burns from {rpm(found.weak_least)}"
    if not math.isfinite(found.weak_least):
        words += "; not with every burn a weak one"
    return words


def idle(found: Account) -> str:
    """How it idles."""
    idling = found.idling
    if idling.opening is None:
        return "no throttle holds it at its idle speed"
    opening = f"throttle {figures(100 * idling.opening, 2)}{THIN}% open"
    if idling.speed <= 0.0:
        return f"it stops: {opening} balances it, and its turns are too uneven"
    uneven = f"turns differ by ±{figures(100 * idling.unsteady, 2)}{THIN}%"
    return f"{rpm(idling.speed)}, {opening}; {uneven}"


def kick(found: Account) -> str:
    """Which sparks throw it back."""
    back = found.kick
    if not math.isfinite(back.strong):
        if math.isnan(back.true):
            return "on a tired starter it does not come to its spark: nothing throws it back"
        return "no spark up to 70° before top throws it back, even on a tired starter"
    words = f"sparks earlier than {degrees(back.strong)} throw it back"
    if back.thrown is not None:
        torque = f"{figures(back.thrown.torque, 2)}{THIN}N·m"
        thrown = math.degrees(back.thrown.angle)
        by = f"{figures(thrown, 2)}°" if thrown >= 1.0 else "less than a degree,"
        words += f", {by} with {torque} at the starter"
    return words


def meets(found: Account) -> Iterator[str]:
    """That a valve and a piston meet, where they do."""
    room = valve_room(found.plain, found.lived.slipped)
    if room is not None and room < 0.0:
        yield (
            f"A piston meets a valve, {figures(-1e3 * room, 2)}{THIN}mm deep if the chamber is "
            "flat: turn it by hand first. What is told below is as if they passed each other."
        )


def over_run(found: Account) -> str:
    """How fast it runs away when let go."""
    lived = found.lived
    if lived.let_go is None or not runs_by_itself(lived):
        return "it does not run by itself"
    fastest = max(speed for seconds, speed in _turns(lived) if seconds >= lived.let_go)
    limit = found.plain.spark.limit_speed
    words = f"{rpm(fastest)} within {figures(_reached(lived, 0.9 * fastest), 2)}{THIN}s"
    if limit is not None and fastest > 0.97 * limit:
        words += ", held by its limiter"
    return words


def _turns(lived: Lived) -> Iterator[tuple[float, float]]:
    ends, step = float(lived.spun.time[-1]), 0.1
    for place in range(int(ends / step)):
        yield (place + 1) * step, lived.mean_speed(place * step, (place + 1) * step)


def _reached(lived: Lived, speed: float) -> float:
    return next((seconds for seconds, mean in _turns(lived) if mean >= speed), math.nan)
