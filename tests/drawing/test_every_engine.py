"""Demo engines and strangers at many angles, both ways: all drawn, nothing outside the sheet."""

from __future__ import annotations

import itertools
import math

import pytest
from tests.drawing.conftest import ANGLES, Measured, outline, plain_engine

from firstfire.drawing.along_crank import along_crank
from firstfire.drawing.model import Drawing, Label
from firstfire.drawing.section import section
from firstfire.drawing.svg import to_svg
from firstfire.drawing.text import width_of
from firstfire.drawing.tokens import LETTERING

VIEWS = {"across": section, "along": along_crank}
# Everything that can be drawn in more than one way, on an engine that has it.
VARIANTS: tuple[tuple[str, dict[str, object]], ...] = (
    *(("wren", {"crank__joint__kind": kind}) for kind in (
        "plain_press", "bonded", "clamped", "keyed", "pinned", "polygon", "splined")),
    ("wren", {"crank__joint__cross_pins": 2}),
    ("wren", {"crank__through_rod_diameter": "6 mm", "crank__crankpin_material": "PA12-CF"}),
    ("wren", {"rod__split": True, "rod__big_end": "needle", "rod__small_end": "bush"}),
    ("wren", {"rod__big_end": "ball"}),
    ("wren", {"gasket__kind": "o_ring"}),
    ("wren", {"gasket__kind": "none"}),
    ("wren", {"gasket__kind": "metal"}),
    ("wren", {"gasket__kind": "cured_sealant"}),
    *(("wren", {"head__fasteners__kind": kind}) for kind in (
        "nutted_studs", "studs", "screws", "inserts")),
    ("wren", {"head__fasteners__count": 6}),
    ("wren", {"head__valve_axis_angle": "15 deg"}),
    ("2_v_twin", {"head__valve_axis_angle": "20 deg"}),
    ("wren", {"valves__inlet__rocker": "rocker", "valves__exhaust__rocker": "rocker"}),
    ("wren", {"valves__inlet__follower": "roller", "valves__inlet__follower_radius": "5 mm"}),
    ("wren", {"valves__inlet__follower": "flat"}),
    ("wren", {"cam_drive__kind": "chain"}),
    ("wren", {"cam_drive__kind": "gear"}),
    ("wren", {"cam_drive__centre_distance": "200 mm"}),
    ("wren", {"layout__rotation": "anticlockwise"}),
    ("2_v_twin", {"layout__rotation": "anticlockwise"}),
    ("wren", {"cylinder__offset": "4 mm"}),
    ("wren", {"rings__kind": "none", "rings__count": 0}),
    ("wren", {"rings__kind": "ptfe", "rings__count": 3, "piston__compression_height": "26 mm"}),
    ("wren", {"piston__shield__thickness": "0 mm"}),
    ("wren", {"piston__shield__air_gap": "1 mm"}),
    ("wren", {"pin__inside_diameter": "5 mm", "pin__retention": "buttons"}),
    ("wren", {"crank__main_bearings": 1}),
    ("wren", {"crank__main_bearings": 4}),
    ("plover", {"crank__main_bearings": 3}),
    ("plover", {"layout__crank_offset": "180 deg"}),
    ("heron", {"layout__crank_offset": "0 deg"}),
    ("2_v_twin", {"layout__v_angle": "45 deg"}),
    ("4_even_v", {"layout__v_angle": "120 deg", "layout__crank_offset": "60 deg"}),
    ("wren", {"flywheel__thickness": "0 mm"}),
    ("wren", {"load__kind": "fan"}),
    ("wren", {"case__breather": "closed", "intake__kind": "separate"}),
    ("wren", {"runner__length": "12 mm", "stub__length": "400 mm"}),
    ("wren", {"cylinder__compression_ratio": 14.0}),
    ("wren", {"cylinder__compression_ratio": 2.5}),
    ("wren", {"liner__kind": "bare_print", "liner__material": "PETG"}),
)  # fmt: skip


def inside(drawing: Drawing) -> None:
    """Every part, line and word lies on the sheet, and every number is a number."""
    m = Measured(to_svg(drawing))
    slack = 1.0 * drawing.unit
    for element in m.root.iter():
        for x, y in outline(element):
            assert math.isfinite(x)
            assert math.isfinite(y)
            assert -slack <= x <= m.width + slack, element.attrib
            assert -slack <= y <= m.height + slack, element.attrib
    for label in drawing.labels:
        left, right = reach(label, drawing.unit)
        assert drawing.box.left <= left
        assert right <= drawing.box.right
        assert drawing.box.bottom < label.at[1] < drawing.box.top


def reach(label: Label, unit: float) -> tuple[float, float]:
    wide = width_of(f"{label.dimension.label} {label.dimension.text}") * LETTERING * unit
    x = label.at[0]
    return (x - wide, x) if label.anchor == "end" else (x, x + wide)


@pytest.mark.parametrize("view", sorted(VIEWS))
def test_every_engine_at_every_angle(engine_name: str, view: str) -> None:
    plain = plain_engine(engine_name)
    for degrees in ANGLES:
        drawing = VIEWS[view](plain, crank_angle=math.radians(degrees))
        inside(drawing)
        ids = [part.id for part in drawing.parts]
        assert len(ids) == len(set(ids))
        assert all(part.shapes for part in drawing.parts)


@pytest.mark.parametrize("view", sorted(VIEWS))
@pytest.mark.parametrize("variant", VARIANTS, ids=lambda v: f"{v[0]}-{'-'.join(map(str, v[1]))}")
def test_every_way_a_part_can_be(variant: tuple[str, dict[str, object]], view: str) -> None:
    name, tried = variant
    drawing = VIEWS[view](plain_engine(name, **tried), crank_angle=math.radians(30))
    inside(drawing)


@pytest.mark.parametrize("view", sorted(VIEWS))
def test_words_lie_on_no_other_words(engine_name: str, view: str) -> None:
    drawing = VIEWS[view](plain_engine(engine_name))
    high = LETTERING * drawing.unit
    for one, other in itertools.combinations(drawing.labels, 2):
        (a, b), (c, d) = reach(one, drawing.unit), reach(other, drawing.unit)
        beside = b < c or d < a
        apart = abs(one.at[1] - other.at[1]) > 1.2 * high
        assert beside or apart, (one.dimension.label, other.dimension.label)


def test_a_whole_turn_more_is_the_other_stroke() -> None:
    """360° later the piston stands in the same place and the valves do not."""
    plain = plain_engine("wren")
    one, other = (section(plain, crank_angle=math.radians(a)) for a in (100.0, 460.0))
    assert one.points["pin-1"] == pytest.approx(other.points["pin-1"])
    assert one.points["inlet-valve-1"] != pytest.approx(other.points["inlet-valve-1"])
    again = section(plain, crank_angle=math.radians(820.0))
    for name, point in one.points.items():
        assert again.points[name] == pytest.approx(point)
