"""What is printed: each part with its material, walls, lie, mass and hours."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.engine.sections.make import Made
from firstfire.setup import bed, laid
from firstfire.setup.laid import Span
from firstfire.setup.outline import Outline, made, outlines


@dataclass(frozen=True)
class Printed:
    """One kind of printed part.

    Attributes
    ----------
    part, section, cylinders
        What it is, where the file says how it is made, and for which cylinders.
    count
        How many.
    material, material_name
        Catalog key, and as a person says it.
    walls, line_width, infill, layer_height
        As the file says them, m and 0 to 1.
    stacked, lies, weak
        Direction of its layers as the file has it, what lies on the bed, which pull parts it.
    assumed
        What of this the file doesn't say; "" where it says all.
    outline, plastic, mass
        Of one: volume if solid and plastic laid down, m³; mass, kg.
    time
        Of one on the printer, s.
    how
        What body it was taken as.
    resin
        Whether it is cured from resin rather than laid in lines.
    """

    part: str
    section: str
    cylinders: tuple[int, ...]
    count: int
    material: str
    material_name: str
    walls: int
    line_width: float
    infill: float
    layer_height: float
    stacked: str
    lies: str
    weak: str
    assumed: str
    outline: float
    plastic: float
    mass: float
    time: Span
    how: str
    resin: bool


def printed_parts(engine: Engine, plain: PlainEngine) -> tuple[Printed, ...]:
    """Every printed part of an engine; those alike in both cylinders are counted together."""
    found = [_printed(engine, plain, o) for o in outlines(plain) if _is_printed(engine, plain, o)]
    return tuple(_together(found))


def _is_printed(engine: Engine, plain: PlainEngine, outline: Outline) -> bool:
    said = made(plain, outline)
    return said.made == "printed" if said else _printable(engine, plain.printing.material)


def _printable(engine: Engine, material: str) -> bool:
    return engine.catalog.row("material", material).texts.get("structure") != "metal"


def is_resin(engine: Engine, material: str) -> bool:
    """Whether a material is cured from resin in a vat."""
    row = engine.catalog.row("material", material)
    return row.texts.get("structure") == "cross-linked" and row.texts.get("made") == "printed"


def _printed(engine: Engine, plain: PlainEngine, outline: Outline) -> Printed:
    said = made(plain, outline)
    how = said or _as_the_crank(plain)
    resin = is_resin(engine, how.material)
    plastic = laid.laid_volume(how, outline.volume, outline.thickness, resin=resin)
    material = engine.values(max(outline.cylinder, 1)).material_property(how.material, "density")
    return Printed(
        part=outline.part,
        section=outline.section,
        cylinders=(outline.cylinder,) if outline.cylinder else (),
        count=outline.count,
        material=how.material,
        material_name=engine.catalog.row("material", how.material).name,
        walls=how.walls,
        line_width=how.line_width,
        infill=how.infill,
        layer_height=plain.printing.layer_height,
        stacked=how.layers_stacked,
        lies=bed.lies(outline.part, how.layers_stacked) if said else "flat, one face on the bed",
        weak=bed.parts_by(how.layers_stacked),
        assumed="" if said else "material of printing.material and solid: assumed",
        outline=outline.volume,
        plastic=plastic,
        mass=plastic * material,
        time=laid.seconds(
            plastic, bed.height(outline.sizes, how.layers_stacked), resin=resin
        ),
        how=outline.how,
        resin=resin,
    )  # fmt: skip


def _as_the_crank(plain: PlainEngine) -> Made:
    """How a pulley or cam is taken to be printed: flat and solid, of the engine's main material."""
    return Made(
        material=plain.printing.material, made="printed", walls=plain.crank.walls,
        line_width=plain.crank.line_width, infill=1.0, layers_stacked="along_crank",
    )  # fmt: skip


def _together(found: Iterable[Printed]) -> Iterable[Printed]:
    """Parts alike in all but their cylinder, as one with a larger count."""
    alike: dict[Printed, Printed] = {}
    for part in found:
        key = replace(part, cylinders=(), count=0)
        before = alike.get(key)
        alike[key] = (
            part
            if before is None
            else replace(
                before,
                count=before.count + part.count,
                cylinders=(*before.cylinders, *part.cylinders),
            )
        )
    return alike.values()


def total_mass(parts: Iterable[Printed]) -> float:
    """Of all printed parts, kg."""
    return sum(part.count * part.mass for part in parts)


def total_time(parts: Iterable[Printed]) -> Span:
    """Of all printed parts one after another, s."""
    times = [(part.count, part.time) for part in parts]
    return Span(
        sum(n * t.value for n, t in times),
        sum(n * t.low for n, t in times),
        sum(n * t.high for n, t in times),
    )
