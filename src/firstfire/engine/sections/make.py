"""How a part is made: of what, and for a print how it was laid down."""

from __future__ import annotations

from typing import Literal

from firstfire.engine.fields import Length, MaterialName, Ratio, Section, said

Way = Literal["printed", "tube", "rod", "sheet", "bought"]
Stacking = Literal["along_bore", "across_bore", "along_crank"]


class Filled(Section):
    """How full a print is laid."""

    walls: int = said("printed: wall lines side by side", low="1", high="200", example="6")
    line_width: Length = said(
        "printed: width of a line", low="0.15 mm", high="2 mm", example="0.45 mm"
    )
    infill: Ratio = said("printed: infill between the walls, 0 to 1", low="0", high="1")


class Laid(Filled):
    """How full a print is laid, and which way its layers lie."""

    layers_stacked: Stacking = said(
        "printed: direction in which layers are stacked; a pull along it parts the layers"
    )


class OfWhat(Section):
    """Of what and by what way a part is made."""

    material: MaterialName = said("material, a row of the catalog", example="petg")
    made: Way = said("how it is made: printed, cut from tube, rod or sheet, or bought")


class Made(Laid, OfWhat):
    """What any part has: a material, a way of making, and a print's walls and layers."""

    def filled_as(self, how: Filled) -> Made:
        """The same, where one place of it is laid otherwise: a boss, a pin printed on its own."""
        laid = (name for name in Laid.model_fields if hasattr(how, name))
        return self.model_copy(update={name: getattr(how, name) for name in laid})


class Printing(Section):
    """What is true of every print of this printer and spool."""

    material: MaterialName = said("the material most parts are printed in", example="petg")
    walls: int | None = said(
        "wall lines of every print, unless a part says its own",
        low="1", high="200", example="4", optional=True,
    )  # fmt: skip
    infill: Ratio | None = said(
        "infill of every print, unless a part says its own, 0 to 1",
        low="0", high="1", example="0.2", optional=True,
    )  # fmt: skip
    layer_height: Length = said("layer height", low="0.03 mm", high="1 mm", example="0.2 mm")
    hole_error: Length = said(
        "how much larger a printed hole of 5 to 20 mm comes out (negative: smaller)",
        low="-1 mm",
        high="1 mm",
        example="-0.2 mm",
    )
    shaft_error: Length = said(
        "how much larger a printed outside comes out (negative: smaller)",
        low="-1 mm",
        high="1 mm",
        example="0.05 mm",
    )
    repeatability: Length = said(
        "spread of a printed size from print to print",
        low="0 mm",
        high="1 mm",
        example="0.08 mm",
    )
    moisture: Literal["dry", "room", "wet"] = said("dried, left in the room, or soaked")
