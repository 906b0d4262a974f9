"""DXF, opened again by the library that made it: no errors, sizes and layers as they should be."""

from __future__ import annotations

import io
import math
from typing import Any

import ezdxf
import pytest
from ezdxf import units
from tests.drawing.conftest import plain_engine
from tests.drawing.test_svg import HOSTILE

from firstfire.drawing.along_crank import along_crank
from firstfire.drawing.dxf import to_dxf
from firstfire.drawing.section import section


def opened(text: str) -> Any:
    document = ezdxf.read(io.StringIO(text))  # type: ignore[attr-defined]
    audit = document.audit()
    assert not audit.errors, [e.message for e in audit.errors]
    assert not audit.fixes, [e.message for e in audit.fixes]
    return document


@pytest.mark.parametrize("view", [section, along_crank], ids=["across", "along"])
def test_no_error_in_any_engines_file(engine_name: str, view: Any) -> None:
    words = {"head-1": "fails", "body-1": "marginal", "liner-1": "not judged", "rod-1": "holds"}
    opened(to_dxf(view(plain_engine(engine_name), verdicts=words)))


def test_millimetres_layers_and_real_entities() -> None:
    plain = plain_engine("wren")
    document = opened(to_dxf(section(plain)))
    assert document.units == units.MM
    names = {layer.dxf.name for layer in document.layers}
    assert {"head", "piston", "crank", "centre lines", "dimensions"} <= names
    space = document.modelspace()
    hatches = space.query("HATCH")
    assert len(hatches) > 10
    assert {"ANSI31", "ANSI33"} <= {h.dxf.pattern_name for h in hatches}
    pin = space.query('CIRCLE[layer=="piston"]')
    radius = 500 * plain.cylinders[0].pin.diameter
    assert any(c.dxf.radius == pytest.approx(radius) for c in pin)


def test_dimensions_measure_themselves() -> None:
    plain = plain_engine("wren")
    document = opened(to_dxf(section(plain)))
    measured = sorted(d.get_measurement() for d in document.modelspace().query("DIMENSION"))
    parts = plain.cylinders[0]
    expected = sorted(1e3 * v for v in (parts.cylinder.bore, parts.cylinder.stroke,
                                        parts.rod.length))  # fmt: skip
    assert measured == pytest.approx(expected)


def test_a_dimensions_line_runs_where_the_drawing_has_it() -> None:
    drawing = section(plain_engine("heron"), crank_angle=math.radians(70))
    document = opened(to_dxf(drawing))
    lines = [d.line for d in drawing.dimensions if math.dist(*d.line) > 1e-6]
    for dimension, line in zip(document.modelspace().query("DIMENSION"), lines, strict=True):
        foot = dimension.dxf.defpoint
        near = min(math.dist((foot.x, foot.y), end) for end in line)
        assert near < 1e-6


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_any_name(name: str) -> None:
    plain = plain_engine("wren").model_copy(update={"name": name})
    opened(to_dxf(section(plain)))
