"""What is said of the drawing's parts, from a check's margins."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from firstfire.drawing.naming import slug_of
from firstfire.verdict.facts.margin import Margin

# What is known weighs more than what isn't judged; of what is known the worst.
_WEIGHT = {"not judged": 0, "holds": 1, "marginal": 2, "fails": 3}


def part_words(margins: Iterable[Margin]) -> Mapping[str, str]:
    """The worst word of each part, by the id of the part in a drawing.

    A part of which something holds and something isn't judged *holds*; one of which nothing is
    judged is *not judged*. What is only reported (a charred skin) doesn't count.

    Parameters
    ----------
    margins
        Of a check's result.
    """
    found: dict[str, str] = {}
    for margin in margins:
        slug = slug_of(margin.way.id)
        if margin.reported and margin.word != "not judged":
            found.setdefault(slug, "not judged")
            continue
        if _WEIGHT[margin.word] >= _WEIGHT.get(found.get(slug, "not judged"), 0):
            found[slug] = margin.word
    return found
