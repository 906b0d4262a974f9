"""How much of a printed wall bears: its lines, its infill, and what heat has left through it."""

from __future__ import annotations

import numpy as np

from firstfire.engine.materials import Material
from firstfire.engine.records import PartTemperature
from firstfire.engine.sections.make import Made
from firstfire.formulas.hinge import hinge_moment
from firstfire.formulas.printed_wall import plastic_share
from firstfire.parts.softness import strength_left

_SLICES = 10
_MIDDLES = (np.arange(_SLICES) + 0.5) / _SLICES


def pulled_share(made: Made, thickness: float) -> float:
    """Share of a wall's area that bears a pull: lines from both faces, and infill between.

    Parameters
    ----------
    made
        How it is made.
    thickness
        Of the wall, m.

    Examples
    --------
    >>> made = Made(material="petg", made="printed", walls=6, line_width=0.45e-3, infill=0.4,
    ...             layers_stacked="along_bore")
    >>> round(pulled_share(made, 8e-3), 3), pulled_share(made, 5e-3)
    (0.805, 1.0)
    """
    if made.made != "printed":
        return 1.0
    return plastic_share(made.walls, made.line_width, made.infill, thickness)


def bent_share(made: Made, thickness: float) -> float:
    """Share of a wall's bending strength: the faces count most, the infill's middle least.

    Top and bottom of a plate that lies flat on the printer are taken as thick as its walls.

    Examples
    --------
    >>> made = Made(material="petg", made="printed", walls=6, line_width=0.45e-3, infill=0.4,
    ...             layers_stacked="along_bore")
    >>> round(bent_share(made, 8e-3), 3)
    0.979
    """
    return 1 - (1 - made.infill) * _core(made, thickness) ** 3


def turned_share(made: Made, diameter: float, hole: float = 0.0) -> float:
    """Share of a round bar's strength in bending and twist: its rim counts most.

    Parameters
    ----------
    made
        How it is made.
    diameter, hole
        Of the bar and of a rod inside it, round which lines run too, m.

    Examples
    --------
    >>> made = Made(material="petg", made="printed", walls=6, line_width=0.45e-3, infill=0.4,
    ...             layers_stacked="along_crank")
    >>> round(turned_share(made, 12e-3), 3), turned_share(made, 5e-3)
    (0.945, 1.0)

    References
    ----------
    Second moment of a ring: W. C. Young, *Roark's Formulas for Stress and Strain*, 7th ed., Table
    A.1, case 16 (from memory).
    """
    lines = _lines(made, diameter)
    outer, inner = diameter / 2 - lines, hole / 2 + (lines if hole > 0 else 0.0)
    if outer <= inner:
        return 1.0
    whole = (diameter / 2) ** 4 - (hole / 2) ** 4
    return 1 - (1 - made.infill) * (outer**4 - inner**4) / whole


def gripped_share(made: Made, hole: float, length: float) -> float:
    """Share of a thread's or insert's pull-out load that the print round its hole stands.

    Lines run round a hole, and all of them may come out together: out of the skins at both ends
    of the hole and the infill between, over a circle wider by the lines.

    Parameters
    ----------
    made
        How it is made.
    hole, length
        Diameter over which the thread would shear and length that it holds, m.

    Examples
    --------
    >>> made = Made(material="petg", made="printed", walls=1, line_width=0.45e-3, infill=0.2,
    ...             layers_stacked="along_bore")
    >>> round(gripped_share(made, 5.6e-3, 8e-3), 3)
    0.337

    References
    ----------
    Shear over the wider cylinder; our own model, no test was found.
    """
    wider = 1 + 2 * _lines(made, length) / hole
    return min(1.0, wider * pulled_share(made, length))


def under_washer_share(made: Made, hole: float, washer: float) -> float:
    """Share of the face under a washer that is backed by lines round its hole, or by infill.

    Parameters
    ----------
    made
        How it is made.
    hole, washer
        Inside and outside of the face, m.

    Examples
    --------
    >>> made = Made(material="petg", made="printed", walls=1, line_width=0.45e-3, infill=0.2,
    ...             layers_stacked="along_bore")
    >>> round(under_washer_share(made, 5.3e-3, 10e-3), 3)
    0.315

    References
    ----------
    Lines and infill side by side over the same strain; what the skin spreads is not counted.
    """
    backed = min(hole + 2 * _lines(made, washer), washer)
    column = (backed**2 - hole**2) / (washer**2 - hole**2)
    return column + (1 - column) * made.infill if made.made == "printed" else 1.0


def folded_share(material: Material, heat: PartTemperature | None, thickness: float) -> float:
    """Folding moment of a wall warm on one face over that of the same wall at 23 °C, 0 to 1.

    Parameters
    ----------
    material
        Of the wall.
    heat
        Temperature through it; None where it is as cold as the air.
    thickness
        m.

    References
    ----------
    `firstfire.formulas.hinge.hinge_moment` over slices at their own temperature.
    """
    if heat is None:
        return 1.0
    shares = _shares(material, heat, thickness)
    return 4 * hinge_moment([1 / _SLICES] * _SLICES, shares)


def stretched_share(material: Material, heat: PartTemperature | None, thickness: float) -> float:
    """Pull that a wall warm on one face bears over that of the same wall at 23 °C, 0 to 1.

    Parameters
    ----------
    material, heat, thickness
        As `folded_share`.

    References
    ----------
    Every slice at its own strength, once those that are soft have given way.
    """
    if heat is None:
        return 1.0
    return sum(_shares(material, heat, thickness)) / _SLICES


def depth_beyond(heat: PartTemperature, limit: float) -> float:
    """Depth from the hot face that is warmer than a limit in the cycle's mean, m."""
    hotter = heat.profile > limit
    if not hotter[0]:
        return 0.0
    if hotter.all():
        return float(heat.depth[-1] - heat.depth[0])
    first_cool = int(np.argmin(hotter))
    span = slice(first_cool - 1, first_cool + 1)
    crossing = np.interp(-limit, -heat.profile[span], heat.depth[span])
    return float(crossing - heat.depth[0])


def _shares(material: Material, heat: PartTemperature, thickness: float) -> list[float]:
    """Strength left of each slice, from the hot face on."""
    depths = _MIDDLES * thickness + heat.depth[0]
    temperatures = np.interp(depths, heat.depth, heat.profile).tolist()
    return [strength_left(material, t) for t in temperatures]


def _core(made: Made, thickness: float) -> float:
    """Share of the thickness between the walls of both faces."""
    if thickness <= 0:
        return 0.0
    return max(0.0, 1 - 2 * _lines(made, thickness) / thickness)


def _lines(made: Made, size: float) -> float:
    """Depth of the lines at one face, m; all of it, by its size, where it is no print."""
    return made.walls * made.line_width if made.made == "printed" else size
