"""Why two engines that differ come to the same in all that is judged, in a sentence for each."""

from __future__ import annotations

from firstfire.engine.grammar import split
from firstfire.parts.laid_alike import why_alike
from firstfire.verdict.compare.records import Pair
from firstfire.verdict.facts.differences import Difference, differences
from firstfire.verdict.facts.margin import Margin

_MOST = 4
"""Differences that are told of; more would hide the answer."""


def why_the_same(pair: Pair) -> list[str]:
    """A sentence for each thing that somebody said otherwise; none where something moved."""
    if pair.overall != "alike":
        return []
    a, b = pair.before, pair.after
    found = differences([a.engine, b.engine], [a.result.plain, b.result.plain])
    own = [difference for difference in found if difference.own]
    sentences = [_why(pair, difference) for difference in own[:_MOST]]
    if len(own) > _MOST:
        sentences.append(f"{len(own) - _MOST} more that differ change nothing either.")
    return list(dict.fromkeys(sentences))


def _why(pair: Pair, difference: Difference) -> str:
    a, b, path = pair.before.result, pair.after.result, difference.path
    if laid := why_alike(a.plain, b.plain, path):
        return laid
    plain = split(path)[1]
    readers = [m for m in b.margins if plain in b.read(m)]
    if not readers:
        return f"Nothing that is judged of this engine reads {path}."
    weakest = min(readers, key=lambda margin: margin.least)
    others = len({margin.way.id for margin in readers}) - 1
    more = f", and {others} more," if others else ""
    reads = "read" if others else "reads"
    return (f"{_sentence(weakest)}{more} {reads} {path}, but what decides there is another "
            "thing, and it comes out the same.")  # fmt: skip


def _sentence(margin: Margin) -> str:
    return f'"{margin.way.part} {margin.way.failure}"'
