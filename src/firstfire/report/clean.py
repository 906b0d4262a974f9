"""Text from files as text: nothing in it can break a page or turn its lines about."""

from __future__ import annotations

import unicodedata

from markupsafe import Markup

# Marks that turn the direction of text and would go on turning beyond the name they stand in.
_TURNING = frozenset("\u200e\u200f\u061c\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_SPACES = frozenset("\t\n\r\f\v\x85\u2028\u2029")


def clean(text: str) -> str:
    """`text` without what HTML may not hold and without marks that turn its direction.

    Letters of right-to-left scripts stay as they are and run as they should.

    Examples
    --------
    >>> clean("a\\x00b\\u202ec\\nd")
    'abc d'
    """
    return "".join(" " if c in _SPACES else c for c in text if c in _SPACES or _may_stay(c))


def _may_stay(letter: str) -> bool:
    return letter not in _TURNING and unicodedata.category(letter) not in ("Cc", "Cs", "Cn")


def cleaned(value: object) -> object:
    """A template's value: text cleaned; what is markup was made here and stays as it is."""
    if isinstance(value, str) and not isinstance(value, Markup):
        return clean(value)
    return value
