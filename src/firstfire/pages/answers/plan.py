"""The steps that make an engine hold, as the pages show them, and how far the search is."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from firstfire.pages.answers.templates import rendered
from firstfire.verdict.facts.margin import named
from firstfire.verdict.improve.contract import CAUTION
from firstfire.verdict.improve.improve import Improved, Step
from firstfire.verdict.improve.words import (
    against_words,
    buys,
    cost,
    cost_words,
    reasons,
    sentence,
    step_words,
    two,
)
from firstfire.verdict.words.ledger import hours_words

_CHECKS = 6.0
"""Times a first full check that a search takes, roughly: it checks in full after each round."""


def planned(found: Improved) -> dict[str, Any]:
    """The plan: a fragment of HTML with a box to tick for each step, and what each step sets."""
    last = found.after if found.after is not None else found.before
    return {
        "html": rendered(
            "plan.html.j2",
            sentence=sentence(found),
            steps=[_step(found, step) for step in found.steps],
            cost=cost_words(cost(found.steps)) if found.steps else "",
            after=found.after.sentence if found.after is not None and found.steps else "",
            left=[(named(last.plain, one.margin.way), two(one.margin.least), one.why)
                  for one in found.left],
            caution=CAUTION,
        ),
        "steps": [dict(step.change.set) for step in found.steps],
        "reasons": reasons(found),
    }  # fmt: skip


def _step(found: Improved, step: Step) -> dict[str, str]:
    bought = f", to buy: {step.change.parts}" if buys(step.change) else ""
    return {
        "text": step.change.text,
        "against": against_words(found.before, step),
        "does": step_words(step),
        "work": f"{hours_words(step.change)}{bought}",
        "sets": "; ".join(f"{path} = {value}" for path, value in step.change.set.items()),
    }


@dataclass
class Far:
    """How far a search is: it can't know how many steps it will take.

    Its first full check says how long one takes; from that the rest is judged, and told as rough.

    Attributes
    ----------
    clock
        Seconds, rising.
    """

    clock: Callable[[], float] = time.monotonic
    _begun: float = field(default=0.0, init=False)
    _one: float = field(default=0.0, init=False)

    def __post_init__(self) -> None:
        self._begun = self.clock()

    def now(self, what: str) -> dict[str, Any]:
        """Share that only rises, and seconds left once one check is known.

        Parameters
        ----------
        what
            Is being done.

        Examples
        --------
        >>> seconds = iter([0.0, 5.0, 10.0, 40.0])
        >>> far = Far(lambda: next(seconds))
        >>> [far.now(what)["left"] for what in ("step 1, checked in full: idle",
        ...     "step 1, trying 9 changes", "step 2, trying 9 changes")]
        [None, 50.0, 20.0]
        """
        gone = self.clock() - self._begun
        if "checked in full" not in what and not self._one:
            self._one = gone
        whole = _CHECKS * self._one
        if not whole:
            return {"what": what, "share": 0.0, "left": None}
        # past what was thought it goes on for a tenth of what it took
        left = max(whole - gone, 0.1 * gone)
        return {"what": what, "share": gone / (gone + left), "left": left}
