"""Names as people write them: what counts as the same, and what is near."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import SequenceMatcher

_IGNORED = str.maketrans({" ": None, "-": None, "_": None, "×": "x", "\u00a0": None, "–": None})


def plain(name: str) -> str:
    """Name without what doesn't matter: case, spaces, hyphens, underscores.

    A plus sign stays, so that ``ABS+`` is not ``ABS``.

    Examples
    --------
    >>> plain("PA6-CF") == plain("pa6_cf") == plain("Pa6 cf")
    True
    >>> plain("ABS+") == plain("ABS")
    False
    """
    return name.translate(_IGNORED).casefold()


def nearest(name: str, known: Iterable[str], most: int = 3, alike: float = 0.55) -> list[str]:
    """Up to `most` known names that look like `name`, the likest first.

    Parameters
    ----------
    name
        What was asked for.
    known
        Names to choose from.
    most
        How many to give at most.
    alike
        Least likeness, 0 to 1 (Ratcliff and Obershelp's ratio, as `difflib` has it).

    Examples
    --------
    >>> nearest("ABS+", ["ABS", "ASA", "Polycarbonate"])
    ['ABS', 'ASA']
    """
    asked = plain(name)
    scored = [(SequenceMatcher(None, asked, plain(other)).ratio(), other) for other in known]
    close = sorted((pair for pair in scored if pair[0] >= alike), key=lambda pair: -pair[0])
    return [other for _, other in close[:most]]
