"""What one has at hand, as lines: whether it serves, and what it changes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfire.setup.have import Fitting
from firstfire.setup.text_items import hung
from firstfire.verdict.words.commands import set_words
from firstfire.verdict.words.text.lines import WIDTH

_MOST = 8


def have_lines(found: Sequence[Fitting], *, width: int = WIDTH) -> Iterator[str]:
    """Each thing and place: the word, why, what to set, what follows, what is then judged."""
    for number, fitting in enumerate(found):
        if number:
            yield ""
        yield from hung(
            f"{fitting.row.name} as {fitting.place}: {head(fitting)}", 2, 4, width=width
        )
        for word in set_words(fitting.set):
            yield f"      {word}"
        yield from hung(f"{fitting.why[:1].upper()}{fitting.why[1:]}.", 4, 4, width=width)
        if fitting.follows:
            yield from hung(f"changes with it: {follows(fitting)}.", 4, 6, width=width)
        if fitting.judged:
            yield from hung(fitting.judged, 4, 4, width=width)


def head(fitting: Fitting) -> str:
    """The word in a clause.

    No size has to change where it fits as it is; what has to is set where it fits only so.
    """
    if fitting.word == "serves":
        return "fits as it is; to run it:" if fitting.set else "fits as it is."
    if fitting.word == "can't":
        return "can't serve."
    return "fits if you set:"


def follows(fitting: Fitting) -> str:
    """Values that move with what is set, the first few of them."""
    told = [
        f"{d.path} {d.each[0].written} → {d.each[1].written}" for d in fitting.follows[:_MOST]
    ]  # fmt: skip
    rest = len(fitting.follows) - _MOST
    return "; ".join(told) + (f"; and {rest} more" if rest > 0 else "")
