"""What a search for cams found, in words."""

from __future__ import annotations

import math

from firstfire.setup.cams.chosen import Chosen, Opening
from firstfire.verdict.words.text.lines import wrapped


def chosen_words(found: Chosen, width: int) -> str:
    """The search in a few lines."""
    at = ", ".join(f"{speed * 30 / math.pi:.0f}" for speed in found.speeds)
    tried = f"{found.tried} pairs of cams were run, {found.refused} could not be made or held"
    halted = "" if found.finished else " It was stopped: this is the best so far."
    if not found.tried and not found.finished:
        said = "It was stopped before any pair of cams was run."
    elif not found.values:
        said = f"Nothing fills better at {at} rpm than the file's own cams; {tried}.{halted}"
    elif found.before is None:
        said = f"These fill {100 * found.after:.1f} % at {at} rpm; {tried}.{halted}"
    else:
        said = (
            f"These fill {100 * found.after:.1f} % at {at} rpm, the file's "
            f"{100 * found.before:.1f} %; {tried}.{halted} It is the best of those near the "
            "file's, not of all."
        )
    opens = "" if found.opening is None else f" {opening_words(found.opening)}"
    return "\n".join([*wrapped(said + opens, width=width), ""])


def opening_words(found: Opening) -> str:
    """When the exhaust opens, and why.

    Examples
    --------
    >>> opening_words(Opening(math.pi / 4, math.pi / 4, 5e5, 5e5, ()))
    'The exhaust opens 45° before bottom as in the file: no other was tried.'
    """
    before, after = (math.degrees(angle) for angle in (found.before, found.after))
    if found.after != found.before:
        more = 100.0 * (found.work_after / found.work_before - 1.0)
        way = "later" if after < before else "earlier"
        why = (
            "the gas pushes for longer, and what is left of it is still got out"
            if after < before
            else "less of it has to be pushed out"
        )
        return (
            f"The exhaust opens {after:.0f}° before bottom, {abs(after - before):.0f}° {way} than "
            f"in the file: {more:.1f} % more work a cycle ({why}), and no less filling."
        )
    each = [f"{math.degrees(one):.0f}°" for one in sorted(set(found.tried))]
    tried = " and ".join(filter(None, (", ".join(each[:-1]), *each[-1:])))
    other = f"{tried} give no more work a cycle, or lose filling" if tried else "no other was tried"
    return f"The exhaust opens {before:.0f}° before bottom as in the file: {other}."
