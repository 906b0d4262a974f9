"""What a comparison says, in sentences and phrases, from its records."""

from __future__ import annotations

from collections.abc import Sequence

from firstfire.engine.events import during
from firstfire.verdict.compare.alike import why_the_same
from firstfire.verdict.compare.records import Column, Figure, Pair, Sense, Shift, SideBySide
from firstfire.verdict.facts.differences import Difference, Said
from firstfire.verdict.facts.margin import Margin
from firstfire.verdict.numbers import FAR_MORE, beyond_telling, figures, shown
from firstfire.verdict.words.ledger import two
from firstfire.verdict.words.sentences import lasting, power

_LAYERS = {
    "defaults": "default", "catalog": "catalog", "file": "file", "as_built": "measured",
    "trial": "tried", "learned": "learned", "printer": "printer", "fault": "fault", "": "",
}  # fmt: skip


_FAR = 5.0
"""Factor from which on a loss is told to be far from giving way (our own choice)."""


def overall(pair: Pair) -> str:
    """Whether the second is better; without a condition only where nothing got worse."""
    a, b = pair.before.letter, pair.after.letter
    return {
        "alike": f"{b} comes to the same as {a} in all that is judged.",
        "better": f"{b} is better than {a}: nothing that is judged got worse.",
        "worse": f"{b} is worse than {a}: nothing that is judged got better.",
        "mixed": f"Neither {a} nor {b} is simply better.{_but_far_off(pair)}",
    }[pair.overall]


def _but_far_off(pair: Pair) -> str:
    """Where nothing got worse but what stays far from giving way."""
    if any(f.sense == "worse" for f in (*pair.figures, *pair.clocks)) or pair.new or not pair.worse:
        return ""
    least = min(s.after.factor or 0.0 for s in pair.worse if s.after is not None)
    if least < _FAR or any(s.after is not None and s.after.word != "holds" for s in pair.worse):
        return ""
    return f" What got worse in {pair.after.letter} still holds {figures(least, 2)} times over."


def gains(pair: Pair, sense: Sense) -> list[str]:
    """What the second is better (or worse) at: figures, and how many ways to fail."""
    told = [f"{f.name} ({figure_change(f)})" for f in pair.figures if f.sense == sense]
    shifts = pair.better if sense == "better" else pair.worse
    if shifts:
        first = shifts[0]
        ways = "one way to fail" if len(shifts) == 1 else f"{len(shifts)} ways to fail"
        told.append(f"{ways} (weakest: {first.name}, {factor_change(first)})")
    clocks = [clock for clock in pair.clocks if clock.sense == sense]
    if clocks:
        limits = "one limit of heat" if len(clocks) == 1 else f"{len(clocks)} limits of heat"
        told.append(f"{limits} (first: {clocks[0].name}, {figure_change(clocks[0])})")
    new = [s for s in pair.new if s.after is not None and s.after.word != "holds"]
    if sense == "worse" and new:
        count = "a new way" if len(new) == 1 else f"{len(new)} new ways"
        told.append(f"{count} to fail (weakest: {new[0].name})")
    return told


def factor_change(shift: Shift) -> str:
    """Both factors, bare: ``1.7 → 2.7``."""
    return f"{judged_value(shift.before)} → {judged_value(shift.after)}"


def judged_value(margin: Margin | None) -> str:
    """A factor alone: ``1.7``."""
    if margin is None:
        return "–"
    return two(margin.factor)


def judged_words(margin: Margin | None) -> str:
    """A word with its factor and span: ``marginal 1.7 (0.87–3.1)``."""
    if margin is None:
        return "not there"
    if beyond_telling(margin.factor):
        return f"{margin.word}, {FAR_MORE}"
    low, high = two(margin.factor_low), two(margin.factor_high)
    return f"{margin.word} {judged_value(margin)} ({low}–{high})"


def shift_words(shift: Shift) -> tuple[str, str]:
    """What fails and when; and both judgements."""
    name = f"{shift.name}, {during(shift.event)}"
    return name, f"{judged_words(shift.before)} → {judged_words(shift.after)}"


def clock_words(clock: Figure) -> tuple[str, str]:
    """What ends a run; and when, with spans."""
    return f"{clock.name}, full throttle held from cold", figure_line(clock)


def figure_change(figure: Figure) -> str:
    """Both values of a figure in its unit: ``769 W → 903 W``."""
    return f"{figure_value(figure, figure.before)} → {figure_value(figure, figure.after)}"


def figure_value(figure: Figure, value: float | None) -> str:
    """One value of a figure as a person reads it."""
    if figure.unit == "s":
        return lasting(value)
    if value is None:
        return "none"
    if figure.unit == "W":
        return power(value)
    if figure.id == "odds":
        return _odds(value)
    return shown(value, {"Pa": "bar", "kg": "g"}[figure.unit])


def _odds(odds: float) -> str:
    """Odds no finer than better than 19 in 20, as the sentence has them."""
    if odds > 0.95:
        return "over 19 in 20"
    return "under 1 in 20" if odds < 0.05 else f"{round(odds * 20)} in 20"


def figure_line(figure: Figure) -> str:
    """A figure with both values and their spans."""
    before = _spanned(figure, figure.before, figure.before_span)
    after = _spanned(figure, figure.after, figure.after_span)
    return before if before == after else f"{before} → {after}"


def _spanned(
    figure: Figure, value: float | None, span: tuple[float | None, float | None] | None
) -> str:
    """A value with its low and high, where they are any other."""
    told = figure_value(figure, value)
    if span is None:
        return told
    low, high = (figure_value(figure, end) for end in span)
    return told if low == told == high else f"{told} ({low} to {high})"


def difference_values(difference: Difference, columns: Sequence[Column]) -> str:
    """Every engine's value with who said it: ``A 4 (file), B 6 (tried)``."""
    if len(columns) == 2:
        old, new = difference.each
        return f"{_value(old)} → {_value(new)}"
    told = [f"{c.letter} {_value(s)}" for c, s in zip(columns, difference.each, strict=True)]
    return ", ".join(told)


def _value(said: Said) -> str:
    if not said.there:
        return "not there"
    layer = _LAYERS.get(said.layer, said.layer)
    return f"{said.written} ({layer})" if layer else said.written


def opening(comparison: SideBySide) -> list[str]:
    """Who is compared, and what came of it: one sentence each."""
    names = [f"{c.letter} is {c.label}" for c in comparison.columns]
    lines = [f"{', '.join(names)}."]
    if not comparison.differences:
        return [*lines, "Nothing differs: they are the same engine once every value is filled."]
    for pair in comparison.pairs:
        lines += [overall(pair), *why_the_same(pair)]
    return lines
