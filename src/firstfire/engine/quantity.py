"""A written quantity becomes one SI number, or one clear complaint.

Each quantity of a file is parsed here once; nothing further in sees a unit.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import lru_cache

from firstfire import units


class NotAQuantity(ValueError):  # noqa: N818 - it is caught and turned into a Problem
    """What is wrong with a written quantity (`fault`) and what would be right (`cure`)."""

    def __init__(self, fault: str, cure: str) -> None:
        self.fault, self.cure = fault, cure
        super().__init__(f"{fault}. {cure}")


@dataclass(frozen=True)
class Dimension:
    """A kind of quantity: what it is called, its SI unit, and how a person writes it.

    Attributes
    ----------
    name
        Plain name, as in ``length``.
    si
        SI unit as Pint writes it; "" for a pure number.
    shown
        The unit a person at a bench uses for it.
    example
        A written example for messages.
    """

    name: str
    si: str
    shown: str
    example: str


DIMENSIONS = {
    d.name: d
    for d in (
        Dimension("length", "m", "mm", "44 mm"),
        Dimension("area", "m^2", "mm^2", "0.3 mm^2"),
        Dimension("volume", "m^3", "cm^3", "8 cm^3"),
        Dimension("volume_flow", "m^3/s", "cm^3/min", "60 cm^3/min"),
        Dimension("mass", "kg", "g", "35 g"),
        Dimension("density", "kg/m^3", "kg/m^3", "1240 kg/m^3"),
        Dimension("angle", "radian", "deg", "20 deg"),
        Dimension("speed", "radian/s", "rpm", "2500 rpm"),
        Dimension("velocity", "m/s", "m/s", "3 m/s"),
        Dimension("time", "s", "s", "0.5 s"),
        Dimension("force", "N", "N", "0.5 N"),
        Dimension("torque", "N*m", "N*m", "12 N*m"),
        Dimension("spring_rate", "N/m", "N/mm", "2.5 N/mm"),
        Dimension("pressure", "Pa", "bar", "1.013 bar"),
        Dimension("stress", "Pa", "MPa", "40 MPa"),
        Dimension("toughness", "Pa*m^0.5", "MPa*m^0.5", "1.2 MPa*m^0.5"),
        Dimension("power", "W", "W", "400 W"),
        Dimension("energy", "J", "J", "30 mJ"),
        Dimension("viscosity", "m^2/s", "mm^2/s", "100 mm^2/s"),
        Dimension("voltage", "V", "V", "12 V"),
        Dimension("resistance", "ohm", "ohm", "0.02 ohm"),
        Dimension("current", "A", "A", "2 A"),
        Dimension("inductance", "H", "mH", "6 mH"),
        Dimension("capacitance", "F", "uF", "0.22 uF"),
        Dimension("inertia", "kg*m^2", "kg*m^2", "1.2e-3 kg*m^2"),
        Dimension("temperature", "K", "degC", "20 °C"),
        Dimension("temperature_difference", "K", "K", "10 K"),
        Dimension("conductivity", "W/(m*K)", "W/(m*K)", "0.2 W/(m*K)"),
        Dimension("heat_transfer", "W/(m^2*K)", "W/(m^2*K)", "25 W/(m^2*K)"),
        Dimension("specific_heat", "J/(kg*K)", "J/(kg*K)", "1300 J/(kg*K)"),
        Dimension("energy_per_mass", "J/kg", "MJ/kg", "44 MJ/kg"),
        Dimension("expansion", "1/K", "ppm/K", "70 ppm/K"),
        Dimension("ratio", "", "", "0.2"),
    )
}

_NUMBER = r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?"
_WRITTEN = re.compile(
    rf"^(?P<whole>{_NUMBER})(?:(?:\s+|-)(?P<over>\d+)\s*/\s*(?P<under>\d+)"
    rf"|\s*/\s*(?P<slash>\d+))?\s*(?P<unit>.*)$"
)
_COMMA = re.compile(r"^[+-]?\d+,\d+")
_SIGNS = str.maketrans(
    {"−": "-", "·": "*", "⋅": "*", "×": "*", "²": "^2", "³": "^3", "\u202f": " "}
)
_WORDS = {
    "°c": "degC", "℃": "degC", "degc": "degC", "°f": "degF", "℉": "degF", "degf": "degF",
    "°": "deg", "º": "deg", "degrees": "deg", '"': "in", "″": "in", "inches": "in", "%": "percent",
    "nm": "nm", "1/min": "rpm", "min^-1": "rpm", "u/min": "rpm", "ccm": "cm^3", "cc": "cm^3",
}  # fmt: skip
_TURNS = re.compile(r"rpm|rps|rev|turn|deg|rad|cycle")


def read_quantity(written: object, dimension: str, *, comma: bool = False) -> float:
    """SI value of `written` (``"44 mm"``, ``"1/8 in"``, ``"20 °C"``) as a `dimension`.

    Parameters
    ----------
    written
        Text with a unit; a bare number only where the dimension is ``ratio``.
    dimension
        A name in `DIMENSIONS`.
    comma
        Whether ``1,5 mm`` may be read as 1.5 mm (at a prompt; never in a file, where
        ``1,000 mm`` could be meant either way).

    Raises
    ------
    NotAQuantity
        With what is wrong and what would be right.

    Examples
    --------
    >>> read_quantity("1/8 in", "length")
    0.003175
    >>> round(read_quantity("68 degF", "temperature"), 2)
    293.15
    >>> read_quantity("10 °C", "temperature_difference")
    10.0
    """
    kind = DIMENSIONS[dimension]
    if isinstance(written, bool) or not isinstance(written, str | int | float):
        raise NotAQuantity(f"is not a {_spoken(kind)}", f'Write it like "{kind.example}".')
    if not isinstance(written, str):
        return _bare(_as_float(written), kind)
    return _of_text(written, dimension, comma)


@lru_cache(maxsize=4096)
def _of_text(written: str, dimension: str, comma: bool) -> float:
    """What a text says, read once: limits at every value, a file at every key."""
    kind = DIMENSIONS[dimension]
    number, unit = _split(written, kind, comma=comma)
    if not unit:
        return _bare(number, kind, text=written)
    return _convert(number, _known_unit(unit, kind, written), kind, written)


def _as_float(written: int | float) -> float:
    """As a float; infinite where a whole number is too large to be one."""
    try:
        return float(written)
    except OverflowError:
        return math.inf


def _spoken(kind: Dimension) -> str:
    return kind.name.replace("_", " ")


def _bare(number: float, kind: Dimension, text: str | None = None) -> float:
    shown = f"{number:g}" if text is None else text
    if not math.isfinite(number):
        raise NotAQuantity(f"is {shown}, which is not a number", f'Write "{kind.example}".')
    if kind.name == "ratio":
        return float(number)
    raise NotAQuantity(
        f"is {shown}, a bare number where {_article(kind)} is wanted",
        f'Say the unit: "{number:g} {kind.shown}" if you meant {kind.shown}.',
    )


def _split(written: str, kind: Dimension, *, comma: bool) -> tuple[float, str]:
    text = written.strip().translate(_SIGNS)
    if _COMMA.match(text):
        if not comma:
            raise NotAQuantity(
                f'is "{written}", with a comma', f'Use a point: "{text.replace(",", ".", 1)}".'
            )
        text = text.replace(",", ".", 1)
    match = _WRITTEN.match(text)
    if match is None:
        raise NotAQuantity(
            f'is "{written}", which is not a number with a unit', f'Write it like "{kind.example}".'
        )
    number = float(match["whole"])
    try:
        if match["over"]:
            number += math.copysign(float(match["over"]) / float(match["under"]), number)
        elif match["slash"]:
            number /= float(match["slash"])
    except ZeroDivisionError:
        raise NotAQuantity(f'is "{written}", divided by zero', f'Write "{kind.example}".') from None
    if not math.isfinite(number):
        raise NotAQuantity(f'is "{written}", too large to be a number', f'Write "{kind.example}".')
    return number, match["unit"].strip()


def _known_unit(unit: str, kind: Dimension, written: str) -> str:
    unit = _WORDS.get(unit.lower(), unit).replace("°C", "degC").replace("°F", "degF")
    if kind.name in ("torque", "energy") and unit == "nm":
        unit = "N*m"
    if kind.name in ("angle", "speed") and not _TURNS.search(unit):
        # Pint counts an angle as a pure number, so 3 mm/mm or 50 Hz would pass unseen.
        raise NotAQuantity(
            f'is "{written}", which is not {_article(kind)}', f'Write it like "{kind.example}".'
        )
    return unit


def _article(kind: Dimension) -> str:
    name = _spoken(kind)
    return f"an {name}" if name[0] in "aeiou" else f"a {name}"


def _convert(number: float, unit: str, kind: Dimension, written: str) -> float:
    try:
        if not units.same_dimension(unit, kind.si or "dimensionless"):
            raise NotAQuantity(
                f'is "{written}", which is not {_article(kind)}',
                f'Write it like "{kind.example}".',
            )
        factor, offset = units.scale(unit)
    except units.UnitError:
        raise NotAQuantity(
            f'is "{written}", and "{unit}" is not a known unit', f'Write it like "{kind.example}".'
        ) from None
    if kind.name == "temperature_difference":
        offset = 0.0
    value = number * factor + offset
    if not math.isfinite(value):
        raise NotAQuantity(f'is "{written}", too large to be a number', f'Write "{kind.example}".')
    if kind.name == "temperature" and value < 0:
        raise NotAQuantity(f'is "{written}", below absolute zero', f'Write "{kind.example}".')
    return value


def write_quantity(value: float, dimension: str, unit: str | None = None, digits: int = 4) -> str:
    """`value` (SI) written the way a person reads it: ``0.044`` as length is ``"44 mm"``.

    Examples
    --------
    >>> write_quantity(0.044, "length")
    '44 mm'
    >>> write_quantity(293.15, "temperature")
    '20 °C'
    """
    kind = DIMENSIONS[dimension]
    shown = unit or kind.shown
    if not shown:
        return f"{value:.{digits}g}"
    factor, offset = units.scale(shown)
    if kind.name == "temperature_difference":
        offset = 0.0
    number = (value - offset) / factor
    return f"{_plain(number, digits)} {shown.replace('degC', '°C')}"


def _plain(number: float, digits: int) -> str:
    rounded = float(f"{number:.{digits}g}")
    plain = rounded == 0 or 1e-4 <= abs(rounded) < 1e7
    return f"{rounded:.12g}" if plain else f"{rounded:.{digits}g}"
