"""What is said of an engine left alone with its throttle open."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.resolve import PlainEngine
from firstfire.runs.free_rev import FASTEST
from firstfire.runs.start.account import Account
from firstfire.runs.start.overrun import OverRun
from firstfire.runs.start.speed_limits import FAST, SpeedLimit
from firstfire.verdict.numbers import THIN, figures
from firstfire.verdict.start.words import over_run, rpm

_MOST = 4


def runs_away(found: Account) -> str:
    """How fast it runs away with its throttle open, and what it passes first."""
    away, throttle = found.runs_away, found.asked.throttle
    if away is None:
        return over_run(found)
    words = f"{reaches(away)}, throttle open; {first(found)}"
    if throttle is not None and throttle < 1.0:
        return f"{over_run(found)}; {words}"
    return words


def reaches(away: OverRun) -> str:
    """How fast it gets, and how soon."""
    if away.held == "beyond":
        return f"over {rpm(FASTEST)}, not followed further"
    return f"{rpm(away.reached)} in {figures(away.seconds, 2)}{THIN}s"


def first(found: Account) -> str:
    """What it comes to first on the way up: its limiter, a part's limit, or none."""
    away = found.runs_away
    if away is None or away.limits is None:
        return "what it passes on the way is not judged"
    lowest = next(iter(one_each(away.limits.passed)), None)
    limiter = limiter_of(found.plain)
    if lowest is None:
        return f"no part that is judged has its limit below {rpm(FAST)}"
    if limiter is not None and limiter <= lowest.speed:
        return f"its limiter comes first, next: {limit_words(lowest)}"
    if lowest.speed <= away.reached:
        after = away.seconds_to(lowest.speed)
        when = "" if after is None else f" after {figures(after, 2)}{THIN}s"
        return f"passes first: {limit_words(lowest)}{when}"
    return f"next limit: {limit_words(lowest)}"


def limiter_of(plain: PlainEngine) -> float | None:
    """The engine's own limiter, rad/s; None where it has none."""
    return None if plain.spark.limited_by == "nothing" else plain.spark.limit_speed


def limit_words(limit: SpeedLimit) -> str:
    """A limit with its speed."""
    return f"{limit.part} {limit.failure}, {rpm(limit.speed)}"


def one_each(limits: tuple[SpeedLimit, ...]) -> Iterator[SpeedLimit]:
    """The lowest of each kind, whichever cylinder's."""
    seen: set[str] = set()
    for limit in limits:
        base = limit.id.partition("#")[0]
        if base not in seen:
            seen.add(base)
            yield limit


def passing(found: Account) -> Iterator[str]:
    """All that a rising speed comes to, in its order, and what needs no speed for it."""
    away = found.runs_away
    if away is None or away.limits is None:
        yield f"{first(found) if away else over_run(found)}."
        return
    limiter, told = limiter_of(found.plain), list(one_each(away.limits.passed))[:_MOST]
    marks = [(limit.speed, limit_words(limit)) for limit in told]
    ends = {"limiter": ", held by its limiter", "friction": ", held by friction and load"}
    marks.append((away.reached, f"it reaches {reaches(away)}{ends.get(away.held, '')}"))
    if limiter is not None and away.held != "limiter":
        marks.append((limiter, f"its limiter, {rpm(limiter)}"))
    yield from (words for _, words in sorted(marks))
    already = {name.partition("#")[0] for name in away.limits.already}
    if already:
        yield (
            f"{len(already)} more {'gives' if len(already) == 1 else 'give'} way under this gas at "
            "any speed: firstfire check has them"
        )
    if away.limits.unjudged:
        yield f"not judged: {', '.join(sorted(set(away.limits.unjudged)))}"
