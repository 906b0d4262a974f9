"""The card: the lines a builder asks for at the bench, as names and values."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.runs.brought_over import TurnOver
from firstfire.runs.point import OperatingPoint
from firstfire.verdict.facts.found import Found
from firstfire.verdict.facts.margin import RunTime, named
from firstfire.verdict.facts.narrows import Narrows
from firstfire.verdict.facts.starting import cranked_at, speed_reached, too_slow
from firstfire.verdict.numbers import FAR_MORE, THIN, beyond_telling, figures, shown
from firstfire.verdict.words.ledger import two
from firstfire.verdict.words.made import made
from firstfire.verdict.words.sentences import lasting, lasting_between, power, strongest
from firstfire.verdict.words.tooth import short


@dataclass(frozen=True)
class CardLine:
    """One line of the card.

    Attributes
    ----------
    name, value
        What is asked, and the answer, which fits a line of 80 columns.
    more
        What is said beside it where there is room; "" for nothing.
    """

    name: str
    value: str
    more: str = ""

    @property
    def whole(self) -> str:
        """The answer with what is said beside it."""
        return f"{self.value}; {self.more}" if self.more else self.value


def card(result: Found) -> tuple[CardLine, ...]:
    """Every line of the card; what isn't known yet says so."""
    return tuple(_lines(result))


def _lines(result: Found) -> Iterator[CardLine]:
    ends, first = result.verdict.ends_first, result.verdict.first
    if ends is not None:
        yield CardLine("full throttle", f"{_held(ends)}; rest: not judged yet")
    yield from _idle(result)
    if first is not None:
        yield CardLine("gives way first", named(result.plain, first.way))
    cranked = cranked_at(result)
    if cranked is not None:
        air = result.plain.surroundings.air_pressure
        yield CardLine("gauge shows", _gauge(cranked, result.starting, air))
        yield _starter(result)
    yield _spark(result)
    yield _valves(result)
    if result.begins is not None:
        yield CardLine("keeps going", _keeps_going(result.begins.least))
    torques = {round(c.head.fasteners.torque, 3) for c in result.plain.cylinders}
    yield CardLine("head bolts, cold", shown(max(torques), "N*m", 2))
    yield from _power(result)
    if result.narrows is not None:
        yield _measure(result.narrows)


def _measure(first: Narrows) -> CardLine:
    """What to measure before all else, or which test piece to break, and what it decides."""
    decides = f"decides {round(100 * first.decides)} in 100 of whether it holds"
    piece = first.reading.piece
    value = f"test piece ({piece}): {first.reading.words}" if piece else first.reading.words
    return CardLine("measure first", value, f"{decides}; {first.minutes:.0f}{THIN}min")


def _spark(result: Found) -> CardLine:
    """The spark to start with, and how far it is from one that throws the shaft back."""
    spark = math.degrees(result.plain.spark.start_angle)
    asked = f"{abs(spark):.0f}° {'before' if spark >= 0 else 'after'} top"
    kick = result.kick
    if kick is None:
        return CardLine("start spark", f"{asked}; margin to a kick: not asked")
    if kick.factor is None:
        return CardLine("start spark", f"{asked}; margin to a kick: not judged", kick.way.why_not)
    if beyond_telling(kick.factor):
        return CardLine("start spark", f"{asked}; energy to get over: {FAR_MORE}")
    span = f"{two(kick.factor)} ({two(kick.factor_low)}–{two(kick.factor_high)})"
    if kick.factor < 1.0:
        return CardLine("start spark", f"{asked}; kicks: has {span} of what takes it over")
    return CardLine("start spark", f"{asked}; has {span} times what takes it over")


def _valves(result: Found) -> CardLine:
    """Whether a valve meets the piston, as drawn and with the cam drive a tooth or two out."""
    return CardLine("valve and piston", short(result.plain))


def _keeps_going(least: float) -> str:
    """From which speed it keeps itself going."""
    if not math.isfinite(least):
        return "by itself at no speed"
    return f"by itself from {_speed(least)} up, whenever it is let go"


def _power(result: Found) -> Iterator[CardLine]:
    """The most power and its torque, each with low–high."""
    best = strongest(result)
    if best is None:
        return
    line = next(one for one in made(result.events) if one.point is best)
    speed = f"{best.speed * 30 / math.pi:.0f}{THIN}rpm"
    watts = f"{line.power} {line.power_span}".rstrip()
    torque = f"{line.torque} {line.torque_span}".rstrip()
    yield CardLine("power", f"{watts} at {speed}; {torque}")
    yield from _asked(result)


def _asked(result: Found) -> Iterator[CardLine]:
    """How near it comes to the power that was wished for, where its file says one."""
    use = result.plain.use
    if use.power_asked is None or use.power_asked_at is None:
        return
    wish = f"{power(use.power_asked)} at {use.power_asked_at * 30 / math.pi:.0f}{THIN}rpm"
    there = [
        line
        for line in made(result.events)
        if line.point.event == "full_throttle"
        and math.isclose(line.point.speed, use.power_asked_at, rel_tol=_SAME_SPEED)
    ]
    if not there:
        yield CardLine("power asked", f"{wish}; it was not run there")
        return
    yield CardLine("power asked", f"{wish}; makes {there[0].power} {there[0].power_span}".rstrip())


_SAME_SPEED = 0.005
"""How near a speed is to be the one that was asked for: a file's are written no finer."""


def _idle(result: Found) -> Iterator[CardLine]:
    """How long it may idle, and what ends it."""
    idling = next((event for event in result.events if event.event == "idle"), None)
    if idling is None:
        return
    speed = f"at {idling.points[0].speed * 30 / math.pi:.0f}{THIN}rpm"
    ends = result.verdict.ends_idle
    if ends is None:
        yield CardLine("idle", f"{lasting(None)} {speed}: nothing judged ends it")
        return
    yield CardLine("idle", f"{_held(ends)} {speed}")


def _held(ends: RunTime) -> str:
    """How long until a limit, or that there is no holding it."""
    when = lasting_between(ends.seconds, ends.seconds_low, ends.seconds_high)
    return f"gives way {when}" if when.startswith("at once") else f"at most {when}"


def _gauge(cranked: OperatingPoint, over: TurnOver | None, air: float) -> str:
    """What a compression gauge reads above the air, of the poorest cylinder.

    Of one whose starter doesn't bring it over, as if something turned it evenly as fast as asked.
    """
    least = min(peaks.mean for peaks in cranked.peaks) - air
    speed = f"{cranked.speed * 30 / math.pi:.0f}{THIN}rpm"
    if over is not None and over.gauge:
        least, speed = min(over.gauge), _speed(min(over.speed, cranked.speed))
    return f"{figures(least / 1e5, 2)}{THIN}bar at {speed}, if its leaks are as assumed"


def _starter(result: Found) -> CardLine:
    """What turning takes at most, what the starter gives, and what comes of it."""
    over, name = result.starting, "starter"
    if over is None:
        return CardLine(name, "not judged: it was not cranked")
    takes = f"takes up to {figures(over.peak_torque, 2)}, gives {_torque(over.stall_torque)}"
    mean = f"on the mean it takes {_torque(over.mean_torque)}"
    if not over.over:
        return CardLine(name, f"does not come over the top: {takes}", mean)
    does, more = _turning(result, over)
    if over.from_rest and over.peak_torque > over.stall_torque and not does.startswith(" at"):
        # It can't turn that peak by itself: what swings takes it over.
        return CardLine(
            name, f"its swing takes it over; {takes}", "; ".join([does[2:], *more, mean])
        )
    return CardLine(name, f"turns it{does}; {takes}", "; ".join([*more, mean]))


def _turning(result: Found, over: TurnOver) -> tuple[str, list[str]]:
    """How it is turned: what matters most, and the rest."""
    dips, more = f"dips to {_speed(over.slowest)}", []
    if over.pulls is not None:
        more = [f"a pull takes it over {over.pulls} compressions"]
    if not over.from_rest:
        return " if turned back first", [dips, *more]
    if too_slow(result):
        return f" at about {_speed(speed_reached(result))}", [dips, *more]
    return f", {dips}", more


def _speed(value: float) -> str:
    return f"{figures(value * 30 / math.pi, 2)}{THIN}rpm"


def _torque(value: float) -> str:
    return shown(value, "N*m", 2)
