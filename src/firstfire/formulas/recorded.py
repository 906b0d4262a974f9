"""Numbers that remember how they were found, so that a law is written once and can be followed.

A law is plain arithmetic on floats. Where its numbers are `Recorded`, what comes out knows each
step from what was put in: that is its working, and it can't differ from the law. Plain floats go
through the same code and cost next to nothing.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

_BINDING = {"+": 1, "-": 1, "*": 2, "/": 2, "neg": 3, "**": 4}
_ATOM = 5
_SHORT = 6


class Recorded(float):
    """A float that knows its making.

    Attributes
    ----------
    name
        What it is called in a working; "" for a step on the way.
    unit, words
        SI unit and words of what is found; "" where it is put in.
    how
        Operator or function, and what it was given; None where it is put in.
    """

    __slots__ = ("how", "name", "unit", "words")

    name: str
    unit: str
    words: str
    how: tuple[str, tuple[float, ...]] | None

    def __new__(  # noqa: D102
        cls,
        value: float,
        how: tuple[str, tuple[float, ...]] | None = None,
        name: str = "",
        unit: str = "",
        words: str = "",
    ) -> Recorded:
        made = float.__new__(cls, value)
        made.how, made.name, made.unit, made.words = how, name, unit, words
        return made

    # As one number among others it is found in no table of answers kept for plain ones.
    __hash__ = object.__hash__

    def __add__(self, other: Any) -> Any:
        return _two("+", float.__add__, self, other)

    def __radd__(self, other: Any) -> Any:
        return _two("+", float.__add__, other, self)

    def __sub__(self, other: Any) -> Any:
        return _two("-", float.__sub__, self, other)

    def __rsub__(self, other: Any) -> Any:
        return _two("-", float.__sub__, other, self)

    def __mul__(self, other: Any) -> Any:
        return _two("*", float.__mul__, self, other)

    def __rmul__(self, other: Any) -> Any:
        return _two("*", float.__mul__, other, self)

    def __truediv__(self, other: Any) -> Any:
        return _two("/", float.__truediv__, self, other)

    def __rtruediv__(self, other: Any) -> Any:
        return _two("/", float.__truediv__, other, self)

    def __pow__(self, other: Any, modulo: None = None) -> Any:
        return _two("**", float.__pow__, self, other)

    def __rpow__(self, other: Any, modulo: None = None) -> Any:
        return _two("**", float.__pow__, other, self)

    def __neg__(self) -> Recorded:
        return Recorded(-float(self), ("neg", (self,)))

    def __abs__(self) -> Recorded:
        # a working is of these numbers: what is above nothing is its own size
        return self if self >= 0 else -self

    def __pos__(self) -> Recorded:
        return self


def _two(sign: str, work: Callable[[float, float], Any], one: Any, other: Any) -> Any:
    """Both joined by an operator; not for what is no plain number."""
    if not (isinstance(one, float | int) and isinstance(other, float | int)):
        return NotImplemented
    value = work(float(one), float(other))
    if not isinstance(value, float):  # a negative number to a broken power
        return value
    if type(other) is not Recorded and (sign, float(other)) in _NOTHING_DONE:
        return one if float(one) == value else Recorded(value, (sign, (one, other)))
    if type(one) is not Recorded and (sign, float(one)) in (("*", 1.0), ("+", 0.0)):
        return other
    if sign == "-" and type(one) is not Recorded and one == 0:
        return -other
    if sign == "*" and any(type(side) is not Recorded and side == 0 for side in (one, other)):
        return value
    return Recorded(value, (sign, (one, other)))


_NOTHING_DONE = {("*", 1.0), ("/", 1.0), ("+", 0.0), ("-", 0.0), ("**", 1.0)}


def put_in(name: str, value: float) -> Recorded:
    """A number that a working begins from.

    Parameters
    ----------
    name
        Path of the engine file, or what it is listed as.
    value
        SI.
    """
    return Recorded(float(value), None, name)


def beside(known: float, name: str, value: float) -> float:
    """A number put in beside one already there: recorded if that is.

    Parameters
    ----------
    known
        What it goes with.
    name, value
        As `put_in`.
    """
    return put_in(name, value) if type(known) is Recorded else value


def found(name: str, value: float, unit: str, words: str) -> float:
    """A number of its own line in the working: the same, and where it is recorded, with a name.

    Parameters
    ----------
    name
        For the lines that follow.
    value
        As found, SI.
    unit
        SI unit; "" for a pure number.
    words
        What it is, in words.

    Examples
    --------
    >>> area = found("area", put_in("width", 2.0) * 3.0, "m^2", "section")
    >>> area, written(area)
    (6.0, 'area')
    """
    if type(value) is not Recorded:
        return value
    if value.name:
        return Recorded(value, ("is", (value,)), name, unit, words)
    return Recorded(value, value.how, name, unit, words)


def applied(name: str, work: Callable[..., float], *to: float) -> float:
    """A function of some numbers, recorded where one of them is."""
    value = work(*to)
    if any(type(one) is Recorded for one in to):
        return Recorded(value, (name, to))
    return value


def written(value: float, called: Mapping[int, str] | None = None, *, opened: bool = False) -> str:
    """A number as arithmetic over the names that stand before it.

    Parameters
    ----------
    value
        Recorded, or plain.
    called
        Names by `id`, of numbers that go by another than their own.
    opened
        Whether a name's own making is written, and not the name.

    Examples
    --------
    >>> d = put_in("rod.length", 2.0)
    >>> written(math.pi / 4 * d**2 - (d - 1)), written(-(d + 1) ** 2)
    ('pi / 4 * rod.length**2 - (rod.length - 1)', '-(rod.length + 1)**2')
    >>> written(d / (2 * math.pi)), written(d * (1 / (2 * math.pi)))
    ('rod.length / (2 * pi)', 'rod.length * 1 / (2 * pi)')
    """
    return _text(value, called or {}, opened)[0]


def _text(value: float, called: Mapping[int, str], opened: bool = False) -> tuple[str, int]:
    """Text, and how firmly it holds together."""
    if type(value) is not Recorded:
        return _number(float(value))
    if value.how is None or (value.name and not opened):
        return called.get(id(value), value.name), _ATOM
    sign, of = value.how
    if sign == "is":
        return _text(of[0], called)
    if sign == "neg":
        return f"-{_held(of[0], called, _BINDING['neg'])}", _BINDING["neg"]
    if sign not in _BINDING:
        return f"{sign}({', '.join(_text(one, called)[0] for one in of)})", _ATOM
    firm = _BINDING[sign]
    left = _held(of[0], called, firm + (sign == "**"))
    right = _held(of[1], called, firm + (sign in ("-", "/")) - (sign == "**"))
    return (f"{left}**{right}" if sign == "**" else f"{left} {sign} {right}"), firm


def _held(value: float, called: Mapping[int, str], least: int) -> str:
    text, firm = _text(value, called)
    return text if firm >= least else f"({text})"


def _number(value: float) -> tuple[str, int]:
    """A constant of a law, as one writes it."""
    if value < 0:
        return f"-{_number(-value)[0]}", _BINDING["neg"]
    short, firm = f"{value:.15g}", _BINDING["*"]
    if len(short.replace(".", "").strip("0")) <= _SHORT or not math.isfinite(value):
        return short, _ATOM
    for power in (1, 2, 3, 4, -1):
        share = _fraction(value / math.pi**power)
        if share is not None:
            if power < 0:
                below = _times(Fraction(share.denominator), "pi")
                return f"{share.numerator} / {below if below == 'pi' else f'({below})'}", firm
            text = _times(share, "pi" if power == 1 else f"pi**{power}")
            return text, _ATOM if text == "pi" else firm
    share = _fraction(value)
    if share is not None:
        return f"{share.numerator} / {share.denominator}", firm
    root = _fraction(value * value)
    if root is not None:
        return f"sqrt({_times(root, '')})", _ATOM
    return short, _ATOM


def _times(share: Fraction, what: str) -> str:
    above = str(share.numerator) if share.numerator != 1 or not what else ""
    text = " * ".join(filter(None, (above, what)))
    return text if share.denominator == 1 else f"{text} / {share.denominator}"


def _fraction(value: float) -> Fraction | None:
    """A plain fraction that it is, to the last figure or nearly."""
    share = Fraction(value).limit_denominator(2000)
    if share.numerator and abs(float(share) - value) <= 1e-15 * abs(value):
        return share
    return None
