"""Every template of an engine."""

from __future__ import annotations

from firstfire.catalog import Catalog
from firstfire.drawing.templates.assembled import assembled_templates
from firstfire.drawing.templates.cams import cam_templates
from firstfire.drawing.templates.gaskets import gasket_templates
from firstfire.drawing.templates.sparking import spark_templates
from firstfire.drawing.templates.strip import rim_strip
from firstfire.drawing.templates.template import Template
from firstfire.drawing.templates.wheel import degree_wheel
from firstfire.engine.resolve import PlainEngine


def templates(plain: PlainEngine, catalog: Catalog) -> tuple[Template, ...]:
    """All that can be printed of an engine at true size."""
    strip = rim_strip(plain)
    return (
        degree_wheel(plain),
        *((strip,) if strip else ()),
        *cam_templates(plain),
        *spark_templates(plain),
        *gasket_templates(plain, catalog),
        *assembled_templates(plain),
    )
