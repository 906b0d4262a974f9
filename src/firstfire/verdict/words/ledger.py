"""The ledger, the run times and the next moves as lines of words, wherever they are shown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firstfire.engine.records import Way
from firstfire.engine.resolve import PlainEngine
from firstfire.verdict.facts.margin import Margin, Raised, RunTime, named
from firstfire.verdict.numbers import FAR_MORE, beyond_telling, factor_figures, figures
from firstfire.verdict.words.sentences import lasting

_GONE = 1e5
"""A factor beyond this is a failure that the change has taken away."""


@dataclass(frozen=True)
class LedgerLine:
    """One judgement, ready to be shown.

    Attributes
    ----------
    margin
        Whose it is: of the event, and the cylinder, where this way is worst.
    name
        Part and failure.
    factor, low, high
        In two figures.
    """

    margin: Margin
    name: str
    factor: str
    low: str
    high: str

    @property
    def far(self) -> bool:
        """Whether no figure is told: far more than needed."""
        return beyond_telling(self.margin.factor)

    @property
    def span(self) -> str:
        """The factor with its span: ``1.2 (0.78–1.9)``; beyond a thousand, only that it is."""
        if self.far:
            return FAR_MORE
        return f"{self.factor} ({self.low}–{self.high})"


@dataclass(frozen=True)
class RunTimeLine:
    """When one limit comes, ready to be shown.

    Attributes
    ----------
    limit
        Whose it is.
    name
        Part and failure.
    seconds, low, high
        As one says a time.
    at
        The operating point, without its event.
    """

    limit: RunTime
    name: str
    seconds: str
    low: str
    high: str
    at: str


@dataclass(frozen=True)
class Move:
    """A change that was tried, ready to be shown.

    Attributes
    ----------
    raised
        The change itself.
    after
        The factor then, in two figures, or *gone*.
    effort
        Hours of printing and of hand work.
    """

    raised: Raised
    after: str
    effort: str


@dataclass(frozen=True)
class Moves:
    """All changes that were tried for one margin (`line`), the least work first."""

    line: LedgerLine
    moves: tuple[Move, ...]


def base(way: Way) -> str:
    """A way's id without its cylinder."""
    return way.id.partition("#")[0]


def ledger(margins: Sequence[Margin], plain: PlainEngine) -> tuple[LedgerLine, ...]:
    """Each way to fail at the event, and of the cylinder, where it is likeliest to end the engine.

    Limits of temperature belong to the clock and stand in the run times; what is only reported is
    left out.
    """
    worst: dict[str, Margin] = {}
    for margin in margins:
        if margin.factor is not None and margin.way.unit != "K" and not margin.reported:
            worst.setdefault(base(margin.way), margin)
    return tuple(line(margin, plain) for margin in worst.values())


def line(margin: Margin, plain: PlainEngine) -> LedgerLine:
    """One margin as a line."""
    return LedgerLine(
        margin,
        named(plain, margin.way),
        two(margin.factor),
        two(margin.factor_low),
        two(margin.factor_high),
    )


def hours_words(raised: Raised) -> str:
    """What a change takes, in hours of printer and hands; nothing is said of a printer left cold.

    Examples
    --------
    >>> hours_words(Raised("", {}, 1.0, "", 4.0, 2.0, "")), hours_words(
    ...     Raised("", {}, 1.0, "", 0.0, 0.5, ""))
    ('4 h print, 2 h hand', '0.5 h hand')
    """
    hand = f"{figures(raised.hand_hours, 2)} h hand"
    if raised.print_hours <= 0:
        return hand
    return f"{figures(raised.print_hours, 2)} h print, {hand}"


def two(value: float | None) -> str:
    """A factor in two figures.

    Examples
    --------
    >>> two(0.7834), two(412.0), two(1.7e-8), two(None)
    ('0.78', '99+', '0', '–')
    """
    return "99+" if value is not None and value > 99 else factor_figures(value)


def ending(
    limits: Sequence[RunTime], plain: PlainEngine, event: str = "full_throttle"
) -> tuple[RunTimeLine, ...]:
    """When each limit of an event comes, where it comes soonest.

    What fails from the start is in the ledger.
    """
    soonest: dict[str, RunTime] = {}
    for limit in limits:
        if limit.event != event:
            continue
        if limit.seconds is not None and (limit.seconds > 0 or limit.way.unit == "K"):
            soonest.setdefault(base(limit.way), limit)
    return tuple(
        RunTimeLine(
            limit,
            named(plain, limit.way),
            lasting(limit.seconds),
            lasting(limit.seconds_low),
            lasting(limit.seconds_high),
            limit.point.removeprefix(f"{event.replace('_', ' ')} "),
        )
        for limit in soonest.values()
    )


_MOST_BARE = 3


def next_moves(margins: Sequence[Margin], plain: PlainEngine) -> tuple[Moves, ...]:
    """Changes that were tried, for each way where it is worst; worst first."""
    raised = {base(m.way): m for m in reversed(margins) if m.raise_by}
    worst = sorted(raised.values(), key=lambda m: m.rank)
    return tuple(Moves(line(m, plain), tuple(map(move, m.raise_by))) for m in worst)


def without_a_move(margins: Sequence[Margin], plain: PlainEngine) -> str:
    """What fails or is marginal and has no change beside it, as a sentence; or that nothing does.

    None may be known, none of those tried may help, or worse ones were tried first. Empty where
    everything that asks for a change has one.
    """
    asking = {base(m.way): m for m in reversed(margins) if _asks(m)}
    moved = {base(m.way) for m in margins if m.raise_by}
    bare = sorted((m for way, m in asking.items() if way not in moved), key=lambda m: m.rank)
    if bare:
        told = [line(m, plain) for m in bare[:_MOST_BARE]]
        named = ", ".join(f"{one.name} ({one.factor})" for one in told)
        more = len(bare) - len(told)
        return f"No change is offered for: {named}{f' and {more} more' if more else ''}."
    judged = any(m.factor is not None for m in margins)
    return "Nothing that is judged asks for a change." if judged and not asking else ""


def _asks(margin: Margin) -> bool:
    return margin.word in ("fails", "marginal") and not margin.reported and margin.way.unit != "K"


def move(raised: Raised) -> Move:
    """A change that was tried, as a line."""
    return Move(
        raised,
        after="gone" if raised.factor_after > _GONE else two(raised.factor_after),
        effort=hours_words(raised),
    )
