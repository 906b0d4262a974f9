"""How one turning part is held in another: pin in cheek, journal in cheek, wheel on its shaft."""

from __future__ import annotations

from typing import Literal

from firstfire.engine.fields import Force, Length, MaterialName, Section, said
from firstfire.engine.sections.make import Laid


def has_bond(kind: str, glued: bool) -> bool:
    """Whether a joint of that kind is held by adhesive: a clamp or one piece has no gap for it."""
    return kind == "bonded" or (glued and kind not in ("solid", "clamped"))


class Seat(Section):
    """How a wheel is held on its shaft."""

    kind: Literal[
        "solid", "plain_press", "bonded", "clamped", "keyed", "pinned", "polygon", "splined"
    ] = said("how pin and hub are held together; solid where both are one piece")
    diameter: Length = said(
        "diameter (polygon: across flats) of the joint", low="2 mm", high="80 mm"
    )
    length: Length = said("length engaged in one hub", low="1 mm", high="150 mm")
    interference: Length = said(
        "how much larger the pin is than its hole",
        low="-0.5 mm",
        high="1 mm",
        example="0.02 mm",
    )
    flats: int = said("polygon: number of flats; splined: number of teeth", low="2", high="60")
    cross_pins: int = said("pinned or keyed: pins or keys in one hub", low="0", high="8")
    cross_pin_diameter: Length = said(
        "pinned: diameter; keyed: key width",
        low="0.5 mm",
        high="40 mm",
        example="4 mm",
    )
    pins_run: Literal["across", "lengthwise"] = said(
        "pinned: across the pin, or lengthwise in the joint, half in the pin and half in the hub"
    )
    bond: MaterialName = said("bonded: adhesive, a material of the catalog")
    glued: bool = said("keyed, pinned, splined, polygon or pressed: whether it is bonded besides")
    clamp_screw_force: Force = said(
        "clamped: pull of the clamping screw(s)", low="0 N", high="200000 N"
    )

    @property
    def is_bonded(self) -> bool:
        """Whether adhesive holds it, alone or besides its shape or fit."""
        return has_bond(self.kind, self.glued)


class Joint(Seat):
    """Each joint of a built-up crank: how torque gets from pin to cheek."""

    plate: MaterialName | None = said(
        "plate screwed to the cheek that takes the torque, a material of the catalog",
        optional=True,
    )
    plate_thickness: Length = said(
        "thickness of that plate (0: none)", low="0 mm", high="20 mm", example="4 mm"
    )


class Journal(Laid):
    """The main journals: of what, how they are laid, how they are held in the cheeks."""

    material: MaterialName = said("main journal's material, a row of the catalog")
    rod_diameter: Length = said(
        "steel rod inside a printed journal (0: none)", low="0 mm", high="60 mm"
    )
    fillet: Length = said(
        "radius between journal and cheek where they are one piece",
        low="0 mm",
        high="20 mm",
        example="0.6 mm",
    )
    joint: Joint
