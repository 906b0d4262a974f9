"""A start on the terminal: the sentence, a card, and what to do next; all of it with ``--full``."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from firstfire.runs.start.account import Account, told_every
from firstfire.runs.start.cycles import per_cycle
from firstfire.runs.start.odds import runs_by_itself
from firstfire.verdict.facts.cautions import ESTIMATES, cautions
from firstfire.verdict.numbers import THIN, figures, spoken
from firstfire.verdict.start.bang_words import knocks
from firstfire.verdict.start.battery_words import battery
from firstfire.verdict.start.fuel_words import fuel, priming
from firstfire.verdict.start.leak_words import PRESSED_AIR, alike, leaking, path_words, tight
from firstfire.verdict.start.let_off_words import let_off
from firstfire.verdict.start.loose_words import breaks_loose
from firstfire.verdict.start.overrun_words import passing, runs_away
from firstfire.verdict.start.plan import plan
from firstfire.verdict.start.words import (
    LIMITS,
    MISSED,
    bar,
    degrees,
    idle,
    in_twenty,
    keeps_going,
    kick,
    limits,
    meets,
    rpm,
    sentence,
    story,
)
from firstfire.verdict.words.text.lines import WIDTH, beside, heading, wrapped

_AT = 19
_BARS = 40
_MOST, _CYCLES = 2, 12
_RPM = 30 / math.pi
_TURNING = {"breaking loose", "compression", "battery"}
_AT_LENGTH = {"leak-down", "priming", "knock", *_TURNING}
"""Rows of the card that a first screen is spared; those of turning it are there if it can't be."""


def start_text(found: Account, *, full: bool, width: int = WIDTH, wrong: Sequence[str] = ()) -> str:
    """What is said of a start.

    Parameters
    ----------
    found
        From `firstfire.runs.start.account.account`.
    full
        All of it: story, torque by speed, plan and cautions.
    width
        Columns.
    wrong
        Faults that it was given, as asked for.
    """
    lines = wrapped(sentence(found), width=width)
    if wrong:
        lines += ["", *beside("with the fault", ", ".join(wrong), _AT, width=width)]
        lines += [line for words in meets(found) for line in wrapped(words, width=width)]
    lines += ["", *_card(found, width, full=full)]
    if full:
        lines += [*heading("How it goes"), *_story(found, width)]
        lines += [*heading("Cycle by cycle"), *_cycles(found)]
        lines += [*heading("Torque by speed"), *_by_speed(found)]
        lines += [*heading("As it turns faster"), *_faster(found, width)]
        lines += [*heading("Where it leaks"), *_leaks(found, width)]
        lines += [*heading("What keeps engines like it from starting"), *_limits(found, width)]
        lines += [*heading("What helps, tried on the same engines"), *_changes(found, width)]
        lines += [*heading("Step by step"), *_plan(found, width)]
        lines += [*heading("Cautions"), *_cautions(found, width)]
    else:
        lines += ["", *_short(found, width)]
    return "\n".join(lines)


def _card(found: Account, width: int, *, full: bool) -> Iterator[str]:
    spared = set() if full else _AT_LENGTH - (_TURNING if not found.cranked.over else set())
    for name, words in card(found):
        if name not in spared:
            yield from beside(name, words, _AT, width=width)


def card(found: Account) -> list[tuple[str, str]]:
    """What a builder asks for at the bench, line by line."""
    turned = found.cranked
    speed = f"{rpm(turned.mean_speed)}, {rpm(turned.least_speed)} before top"
    gauge = f"{bar(turned.gauge)}, oiled {bar(turned.gauge_oiled)}"
    rows = (
        ("cranks at", speed if turned.over else "it does not come over the top"),
        ("gauge shows", gauge),
        ("leak-down", tight(found.leaks)),
        ("breaking loose", breaks_loose(found)),
        ("compression", let_off(found)),
        ("battery", battery(found)),
        ("kick-back", kick(found)),
        ("start spark", _spark(found)),
        ("keeps itself going", keeps_going(found)),
        ("idles", idle(found)),
        ("left alone", runs_away(found)),
        ("fuel", fuel(found)),
        ("priming", priming(found)),
        ("knock", knocks(found)),
        ("odds", _odds(found)),
    )
    return [(name, words) for name, words in rows if words is not None]


def _spark(found: Account) -> str:
    advised, asked = found.advance.start, found.kick.asked
    said = f"{degrees(advised)} gives most torque at that speed"
    if abs(advised - asked) > math.radians(2.0):
        said += f"; asked: {degrees(asked)}"
    true = found.kick.true
    if math.isfinite(true) and abs(true - asked) > math.radians(1.0):
        said += f", truly {degrees(true)}"
    return said


def _odds(found: Account) -> str:
    odds = found.odds
    low, high = odds.span
    count = sum(one.started_at is not None for one in odds.each)
    stopped = "; stopped there, and no change was tried" if odds.stopped else ""
    return (
        f"{count} of {len(odds.each)} engines drawn start "
        f"({figures(100 * low, 2)} to {figures(100 * high, 2)}{THIN}%){stopped}"
    )


def _story(found: Account, width: int) -> Iterator[str]:
    for one in story(found):
        yield from beside(
            f"{one.seconds:6.2f}{THIN}s {one.speed * _RPM:6.0f}{THIN}rpm  ",
            one.what,
            22,
            width=width,
        )
    yield ""
    most = max((speed for _, speed in told_every(found.lived)), default=0.0) or 1.0
    for place, (seconds, speed) in enumerate(told_every(found.lived)):
        if place % 2 == 0:
            filled = "#" * round(_BARS * max(speed, 0.0) / most)
            yield f"{seconds:6.2f}{THIN}s {speed * _RPM:6.0f}{THIN}rpm  {filled}"


def _cycles(found: Account) -> Iterator[str]:
    """The first cycles, each spark with what it found."""
    each = per_cycle(found.lived)
    if not each:
        yield "no spark came"
        return
    yield "     after  cylinder      speed  before top  mixture      peak"
    for one in each[:_CYCLES]:
        why = f"  {MISSED[one.missed]}" if one.missed else ""
        yield (
            f"{one.seconds:8.2f}{THIN}s {one.cylinder + 1:9d} {one.speed * _RPM:6.0f}{THIN}rpm "
            f"{math.degrees(one.before_top):10.1f}° {one.mixture:8.2f} "
            f"{one.peak / 1e5:5.1f}{THIN}bar{why}"
        )
    if len(each) > _CYCLES:
        yield f"and {len(each) - _CYCLES} more (--json has all)"


def _by_speed(found: Account) -> Iterator[str]:
    yield "     speed      gas  friction     left   lights"
    for one in found.speeds:
        yield (
            f"{one.speed * _RPM:6.0f}{THIN}rpm {one.gas:8.2f} {one.gas - one.net:9.2f} "
            f"{one.net:8.2f}{THIN}N·m {100 * one.burned:5.0f}{THIN}%"
        )


def _faster(found: Account, width: int) -> Iterator[str]:
    for words in passing(found):
        yield from wrapped(words, width=width, hang=2)


def _leaks(found: Account, width: int) -> Iterator[str]:
    each = found.leaks[:1] if alike(found.leaks) else found.leaks
    for one in each:
        if len(each) > 1:
            yield f"Cylinder {one.cylinder}"
        for words in leaking(one):
            yield from wrapped(words, width=width)
        for way in one.paths:
            yield from beside(
                f"{round(100 * way.share):3d}{THIN}%", path_words(way), 7, width=width
            )
    yield from wrapped(PRESSED_AIR, width=width)


def _limits(found: Account, width: int) -> Iterator[str]:
    listed = limits(found)
    if not listed:
        yield from wrapped("nothing: all that were drawn start", width=width)
    for why, share in listed:
        yield from beside(f"{round(100 * share):3d} in 100", LIMITS[why], 12, width=width)


def _changes(found: Account, width: int) -> Iterator[str]:
    if not found.changes:
        none = "nothing was tried: they start" if not limits(found) else "none of what was tried"
        yield from wrapped(none, width=width)
    for change in found.changes:
        after, before = round(100 * change.starts), round(100 * change.before)
        yield from beside(f"{after:3d}, was {before}", spoken(change.text), 12, width=width)


def _plan(found: Account, width: int) -> Iterator[str]:
    for number, stage in enumerate(plan(found), start=1):
        yield from wrapped(f"{number}. {stage.do}", width=width, hang=3)
        yield from beside("   go", stage.go, 11, width=width)
        yield from beside("   no go", stage.no_go, 11, width=width)
        yield from beside("   mind", stage.minds, 11, width=width)


def _cautions(found: Account, width: int) -> Iterator[str]:
    for one in cautions(found.engine, found.plain):
        yield from wrapped(f"{one.hazard}: {one.text}", width=width, hang=2)


def _short(found: Account, width: int) -> Iterator[str]:
    # The best stands in the sentence, counted as here.
    for change in found.changes[1 : _MOST + 1]:
        after, before = in_twenty(change.starts), round(20 * change.before)
        yield from beside(f"{after}, was {before}", spoken(change.text), 22, width=width)
    lived = found.lived
    runs = "it runs by itself" if runs_by_itself(lived) else "it does not run by itself"
    yield from wrapped(f"As it is written {runs}; --full tells how, and the plan.", width=width)
    yield from wrapped(
        "Before fuel: shield, eyes and ears, open air, extinguisher, stop switch that cuts spark "
        f"and fuel, nobody in the flywheel's plane. {ESTIMATES.text}",
        width=width,
    )
