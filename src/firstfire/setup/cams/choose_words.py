"""What a search for cams found, in words."""

from __future__ import annotations

import math

from firstfire.setup.cams.choose import Chosen
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
    return "\n".join([*wrapped(said, width=width), ""])
