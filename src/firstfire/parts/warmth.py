"""How warm a part is, also where its own temperature isn't followed.

The rod's shank, screws and gasket are not followed by the heat model, nor what turns outside the
case: they stand at the air's temperature, or between it and a neighbour. These are estimates, and
judged as the centre.
"""

from __future__ import annotations

from firstfire.engine.moment import Moment
from firstfire.engine.records import PartTemperature
from firstfire.formulas import mathematics as math


def ambient(moment: Moment) -> float:
    """Air temperature, K."""
    return moment.engine.surroundings.air_temperature


def part(moment: Moment, *names: str) -> PartTemperature | None:
    """Temperatures of the first of these parts that is followed; None where none is."""
    for name in names:
        found = moment.temperatures.parts.get(name)
        if found is not None:
            return found
    return None


def mean(moment: Moment, *names: str) -> float:
    """Mean through the first of these parts that is followed, K; the air's where none is.

    Besides the names of `Temperatures`, heat follows ``land`` (the ring belt), ``valves`` and
    ``seats`` where it can.
    """
    found = part(moment, *names)
    return ambient(moment) if found is None else found.mean


def surface(moment: Moment, *names: str) -> float:
    """Hot face of the first of these parts that is followed, K, cycle mean; else the air's."""
    found = part(moment, *names)
    return ambient(moment) if found is None else found.surface


def below(moment: Moment, depth: float, *names: str) -> float:
    """A depth below the hot face of the first of these parts that is followed, K; else the air's.

    Parameters
    ----------
    moment, names
        As `mean`.
    depth
        m.
    """
    found = part(moment, *names)
    return ambient(moment) if found is None else found.at(float(found.depth[0]) + depth)


def rise(moment: Moment, temperature: float) -> float:
    """Rise over the air, K; none below it."""
    return math.most(temperature - ambient(moment), 0.0)


def outer_face(moment: Moment, *names: str) -> float:
    """Cold face of the first of these parts that is followed, K; else the air's."""
    found = part(moment, *names)
    return ambient(moment) if found is None else float(found.profile[-1])


def small_end(moment: Moment) -> float:
    """Small end of the rod, K: its eye where a pin slides in it, else as warm as the bosses."""
    return mean(moment, "small_end", "boss", "skirt", "crown")


def big_end(moment: Moment) -> float:
    """Big end of the rod, K: its eye where a pin slides in it, else the air's."""
    return mean(moment, "big_end")


def web(moment: Moment) -> float:
    """Cheeks, or the plates on them, and the journals beside, K: else as warm as the case's air."""
    return mean(moment, "webs", "crankcase")


def crankpin(moment: Moment) -> float:
    """What holds the crankpin, K: a metal web's, else at the pin's own face, else the case's air.

    A print that a hot pin stands in is as warm as the pin where it touches it.
    """
    return mean(moment, "webs", "crankpin", "crankcase")


def shank(moment: Moment) -> float:
    """Shank of the rod, K: halfway between its warmer end and air, since print hardly conducts."""
    return (max(small_end(moment), big_end(moment)) + ambient(moment)) / 2


def joint_face(moment: Moment) -> float:
    """Gasket between head and cylinder, K: mean of both neighbours."""
    return (mean(moment, "head") + mean(moment, "liner")) / 2
