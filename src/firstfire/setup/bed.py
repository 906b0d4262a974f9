"""How a part lies on the printer, in words."""

from __future__ import annotations

_LIES = {
    ("piston", "along_bore"): "crown down on the bed",
    ("piston", "across_bore"): "on its skirt, pin hole level",
    ("piston", "along_crank"): "on its skirt, pin hole upright",
    ("con rod", "along_bore"): "standing on its big end",
    ("con rod", "across_bore"): "on edge, holes level",
    ("con rod", "along_crank"): "flat, one side face on the bed",
    ("head", "along_bore"): "flat, joint face on the bed, chamber recess facing down",
    ("head", "across_bore"): "on its rim",
    ("head", "along_crank"): "on its rim",
    ("crank cheek", "along_bore"): "on edge",
    ("crank cheek", "across_bore"): "on edge",
    ("crank cheek", "along_crank"): "flat, the face away from the pin on the bed",
    ("main journal", "along_crank"): "upright, in one piece with its cheek",
    ("crankpin", "along_crank"): "upright",
    ("crankcase (both halves)", "along_crank"): "each half with its joint face on the bed",
    ("crankcase (both halves)", "along_bore"): "standing, the cylinder's seat upwards",
}
_PULL = {
    "along_bore": "a pull along the bore parts its layers",
    "across_bore": "a pull square to bore and crank parts its layers",
    "along_crank": "a pull along the crank parts its layers",
}
_AXIS = {"along_bore": 0, "across_bore": 1, "along_crank": 2}


def lies(part: str, stacked: str) -> str:
    """Which face lies on the bed.

    Examples
    --------
    >>> lies("piston", "along_bore"), lies("body", "along_bore")
    ('crown down on the bed', 'standing on end, head end up')
    """
    if (part, stacked) in _LIES:
        return _LIES[part, stacked]
    if part in ("liner", "body"):
        return "standing on end, head end up" if stacked == "along_bore" else "lying on its side"
    return "lying on its side"


def parts_by(stacked: str) -> str:
    """Which pull is the print's weak one."""
    return _PULL[stacked]


def height(sizes: tuple[float, float, float], stacked: str) -> float:
    """Height on the bed, m, of a part with sizes along the bore, across and along the crank."""
    return sizes[_AXIS[stacked]]
