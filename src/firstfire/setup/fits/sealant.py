"""Sealant under the head: how thick, how long it cures, what a shorter cure is worth."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas import cure
from firstfire.parts.seal import blows_out
from firstfire.setup.standing import standing

HOUR = 3600.0
SHORTER = (20 / 60, 2.0, 12.0, 24.0, 48.0, 168.0)
"""Hours of cure that are told of."""
_TEMPERATURES = (283.15, 293.15, 303.15)


class Worth(NamedTuple):
    """What a cure is worth.

    Attributes
    ----------
    seconds
        For how long.
    holds
        Gas pressure over the air that the bead then stands cold, Pa.
    share
        Of what it stands when wholly cured.
    """

    seconds: float
    holds: float
    share: float


class Sealant(NamedTuple):
    """The bead of one cylinder.

    Attributes
    ----------
    material
        Its name.
    thickness, width
        As the file has them, m.
    temperature
        At which it cures, K.
    close_within
        Time to close the joint in, at that temperature, s.
    in_time
        Whether the file's open time is within that.
    cure_time
        As the file has it, s.
    full
        Time to its full cure at that temperature, s.
    full_at
        The same at 10, 20 and 30 °C: K and s.
    now
        What the file's cure is worth.
    worth
        What other cures are worth.
    why_not
        Why that can't be said; "" where it can.
    """

    material: str
    thickness: float
    width: float
    temperature: float
    close_within: float | None
    in_time: bool
    cure_time: float
    full: float | None
    full_at: tuple[tuple[float, float], ...]
    now: Worth | None
    worth: tuple[Worth, ...]
    why_not: str = ""


def sealant(plain: PlainEngine, place: int = 0) -> Sealant | None:
    """The bead under a head; None where nothing cures there."""
    seal = plain.cylinders[place].gasket
    if seal.kind != "cured_sealant":
        return None
    material = plain.materials[seal.material]
    base = Sealant(
        material.name, seal.thickness, seal.width, seal.cure_temperature, None, False,
        seal.cure_time, None, (), None, (),
    )  # fmt: skip
    try:
        skin = material["skin_time"] / cure.pace(seal.cure_temperature)
        most = _holds(plain, place, 1e9)
        return base._replace(
            close_within=skin,
            in_time=seal.open_time <= skin,
            full=full_cure(plain, place, seal.cure_temperature),
            full_at=tuple((at, full_cure(plain, place, at)) for at in _TEMPERATURES),
            now=_worth(plain, place, seal.cure_time, most),
            worth=tuple(_worth(plain, place, hours * HOUR, most) for hours in SHORTER),
        )
    except OutsideValidity as why:
        return base._replace(why_not=str(why))


def full_cure(plain: PlainEngine, place: int, temperature: float) -> float:
    """Time after which a bead has cured through, s.

    Parameters
    ----------
    plain, place
        The engine, and its cylinder from 0.
    temperature
        K.
    """
    seal = plain.cylinders[place].gasket
    material = plain.materials[seal.material]
    if material.structure == "elastomer":  # from its open edge inward, with the root of time
        deep = cure.depth_cured(material["cure_depth_per_day"], HOUR, temperature)
        return HOUR * (seal.width / deep) ** 2
    return material["cure_time"] / cure.pace(temperature)


def _worth(plain: PlainEngine, place: int, seconds: float, most: float) -> Worth:
    holds = _holds(plain, place, seconds)
    return Worth(seconds, holds, holds / most if most > 0 else 0.0)


def _holds(plain: PlainEngine, place: int, seconds: float) -> float:
    """Pressure that blows it out after such a cure, as a part judges it, Pa."""
    parts = plain.cylinders[place]
    seal = parts.gasket.model_copy(update={"cure_time": seconds})
    cylinders = list(plain.cylinders)
    cylinders[place] = parts.model_copy(update={"gasket": seal})
    changed = plain.model_copy(update={"cylinders": tuple(cylinders)})
    way = blows_out(standing(changed, place))
    if not way.judged:
        raise OutsideValidity(way.why_not)
    return way.capacity
