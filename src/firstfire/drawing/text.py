"""How wide words are, and words that fit: whatever a person called their engine."""

from __future__ import annotations

import unicodedata

_NARROW, _USUAL, _WIDE = 0.5, 0.9, 1.45
_BROAD = frozenset("mwMW…—@%")
_SIGNS, _SIGN = frozenset("±×÷−+=<>~Ø"), 1.2
_SLIM = frozenset("ijl.,:;'|!()[] \u202f\u00a0I1t")


def width_of(text: str) -> float:
    """Width of words over the height of their letters, a little more than usual fonts need."""
    return sum(_letter(letter) for letter in text)


def _letter(letter: str) -> float:
    if unicodedata.combining(letter) or unicodedata.category(letter) in ("Cf", "Mn", "Me"):
        return 0.0
    if unicodedata.east_asian_width(letter) in ("W", "F") or ord(letter) > 0xFFFF:
        return _WIDE
    if letter in _BROAD:
        return 1.36
    if letter in _SIGNS:
        return _SIGN
    return _NARROW if letter in _SLIM else _USUAL + 0.14 * letter.isupper()


def printable(text: str) -> str:
    """On one line and without control characters, which no file of ours may hold."""
    if text.isascii() and text.isprintable():
        return " ".join(text.split())
    kept = (" " if c.isspace() else c for c in text)
    return " ".join(
        "".join(c for c in kept if unicodedata.category(c) not in ("Cc", "Cs", "Co", "Cn")).split()
    )


def wrapped(text: str, width: float, lines: int) -> list[str]:
    """`text` in so many lines of a width (in heights of its letters); cut short where longer.

    Examples
    --------
    >>> wrapped("a bench engine", 7.0, 2)
    ['a bench', 'engine']
    """
    found: list[str] = []
    rest = printable(text)
    while rest and len(found) < lines:
        cut = _fitting(rest, width)
        found.append(rest[:cut].strip())
        rest = rest[cut:].strip()
    if rest and found:
        found[-1] = found[-1][: max(_fitting(found[-1], width - _letter("…")), 1)].rstrip() + "…"
    return found or [""]


def _fitting(text: str, width: float) -> int:
    """How many letters fit, whole words where one can."""
    used, last_space = 0.0, 0
    for place, letter in enumerate(text):
        used += _letter(letter)
        if used > width:
            return last_space or max(place, 1)
        if letter == " ":
            last_space = place
    return len(text)
