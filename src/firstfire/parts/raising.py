"""Changes a person can make, as orders: the usual ones, worded once.

Whether a change helps is found by running it; these only say what to try.
"""

from __future__ import annotations

from firstfire.engine.materials import Material
from firstfire.engine.records import Raise
from firstfire.parts import rows
from firstfire.parts.written import mm

MORE = 1.25
"""How much larger a size is made, unless said otherwise."""
# Printed plastics in the order in which a person would step up.
_LADDER = ("petg", "asa", "pa12_cf", "pet_cf", "pc", "pps_cf", "peek")
_BETTER = 1.15


def thicker(path: str, now: float, what: str, effort: str, times: float = MORE) -> Raise:
    """A size a quarter larger.

    Parameters
    ----------
    path, now
        Path and value, m.
    what
        The part with a place for the size: *the crown {} thick*.
    effort
        Catalog key.
    times
        How much larger.
    """
    value = mm(now * times)
    return Raise(f"Make {what.format(value)}", {path: value}, effort)


def other_plastic(
    path: str,
    now: Material,
    part: str,
    prop: str,
    effort: str = "other_material",
    *,
    among: tuple[str, ...] = _LADDER,
) -> tuple[Raise, ...]:
    """The next plastic up that has clearly more of a property; none where there is none.

    Parameters
    ----------
    path
        Of the part's material.
    now
        What it is of.
    part
        In words.
    prop
        Property that counts; of temperatures (HDT, continuous use) 20 K more are asked.
    effort
        Catalog key.
    among
        Which plastics to look at, in order.
    """
    had = now.get(prop)
    if had is None:
        had = now.get("strength_in_plane") or 0.0
    for key in among:
        has = rows.material_number(key, prop)
        if key != now.key and (has > had + 20 if _is_temperature(prop) else has > _BETTER * had):
            name = rows.material_name(key)
            return (Raise(f"Print the {part} in {name}", {path: key}, effort),)
    return ()


def _is_temperature(prop: str) -> bool:
    return prop in ("hdt_180", "hdt_045", "continuous_use", "glass_transition", "decomposition")
