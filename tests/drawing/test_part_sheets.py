"""Drawings of single parts: every size on them is the engine's.

Independent of the drawing's code: sizes are reckoned here from the engine file's numbers.
"""

from __future__ import annotations

import math
import re

import pytest
from tests.drawing.conftest import plain_engine
from tests.drawing.part_sheets import DEMOS, LESS_USUAL, SHEETS, drawn, words_of

from firstfire.catalog import Catalog
from firstfire.drawing.model import Drawing
from firstfire.drawing.outlines import box_of, reach
from firstfire.drawing.pdf import to_pdf
from firstfire.drawing.svg import to_svg
from firstfire.drawing.workshop.parts import PARTS, part_drawing
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import FirstfireError


def expected(plain: PlainEngine) -> dict[str, tuple[float, ...]]:
    """What each path's size may be, m: by hand from the file's numbers."""
    c, crank = plain.cylinders[0], plain.crank
    piston, rod, valves = c.piston, c.rod, c.valves
    shield = piston.shield.thickness + piston.shield.air_gap if piston.shield.thickness else 0.0
    skirt = c.cylinder.bore - piston.skirt_clearance
    out = min(c.pin.length, skirt - 2 * piston.skirt_thickness)
    lean = math.cos(c.head.valve_axis_angle)
    heads = valves.inlet.head_diameter + valves.exhaust.head_diameter
    offset = c.cylinder.offset
    assert offset == 0.0  # then the throw is half of the stroke
    return {
        "cylinder.bore": (c.cylinder.bore,),
        "cylinder.stroke": (c.cylinder.stroke / 2, c.cylinder.stroke),
        "liner.length": (c.liner.length,),
        "liner.outside_diameter": (c.liner.outside_diameter,),
        "pin.length": (c.pin.length,),
        "pin.diameter": (c.pin.diameter,),
        "pin.inside_diameter": (c.pin.inside_diameter,),
        "rod.length": (rod.length,),
        "rod.shank_width": (rod.shank_width,),
        "rod.shank_thickness": (rod.shank_thickness,),
        "rod.big_end_width": (rod.big_end_width,),
        "rod.small_end_width": (rod.small_end_width,),
        "rod.eye_wall": (crank.crankpin_diameter + 2 * rod.eye_wall,
                         c.pin.diameter + 2 * rod.eye_wall),
        "piston.skirt_clearance": (skirt,),
        "piston.land_clearance": (c.cylinder.bore - piston.land_clearance,),
        "piston.boss_width": (max(out - piston.boss_width, 1e-3),),
        "piston.skirt_thickness": (piston.skirt_thickness,),
        "piston.crown_thickness": (piston.crown_thickness,),
        "piston.top_land": (piston.top_land - shield,),
        "piston.compression_height": (piston.compression_height - shield,),
        "piston.length": (piston.length - shield,),
        "rings.groove_width": (c.rings.groove_width,),
        "rings.groove_depth": (skirt - 2 * c.rings.groove_depth,),
        "head.diameter": (c.head.diameter,),
        "head.thickness": (c.head.thickness,),
        "head.valve_bridge": (heads / 2 * lean + min(c.head.valve_bridge,
                                                     c.cylinder.bore - heads * lean),),
        "head.valve_axis_angle": (c.head.valve_axis_angle,),
        "head.fasteners.circle_diameter": (c.head.fasteners.circle_diameter,),
        "head.fasteners.thread": (Catalog().row("thread", c.head.fasteners.thread).si(
            "clearance_hole"),),
        "valves.inlet.throat_diameter": (valves.inlet.throat_diameter,),
        "valves.exhaust.throat_diameter": (valves.exhaust.throat_diameter,),
        "flywheel.diameter": (plain.flywheel.diameter,),
        "flywheel.thickness": (plain.flywheel.thickness,),
        "flywheel.bore": (plain.flywheel.bore,),
        "flywheel.joint.cross_pin_diameter": (plain.flywheel.joint.cross_pin_diameter,),
        "crank.crankpin_diameter": (crank.crankpin_diameter,),
        "crank.crankpin_length": (crank.crankpin_length,),
        "crank.cheek_thickness": (crank.cheek_thickness,),
        "crank.cheek_width": (crank.cheek_width,),
        "crank.bearing_span": (crank.bearing_span,),
        "crank.main_journal_diameter": (crank.main_journal_diameter,),
        "crank.journal.fillet": (crank.journal.fillet,),
        "crank.joint.plate_thickness": (crank.joint.plate_thickness,),
        "crank.joint.diameter": (crank.joint.diameter,
                                 crank.joint.diameter - crank.joint.interference),
        "crank.joint.cross_pin_diameter": (crank.joint.cross_pin_diameter,),
        "crank.journal.joint.diameter": (crank.journal.joint.diameter
                                         - crank.journal.joint.interference,),
        "crank.journal.joint.cross_pin_diameter": (crank.journal.joint.cross_pin_diameter,),
        "layout.cylinder_spacing": (plain.layout.cylinder_spacing,),
    }  # fmt: skip


def checked(plain: PlainEngine, drawing: Drawing) -> int:
    """Every size against the engine's; how many there were."""
    sizes = expected(plain)
    for d in drawing.dimensions:
        near = min(sizes[d.path], key=lambda size: abs(size - d.value))
        assert d.value == pytest.approx(near, abs=1e-9), d.path
        shown = 1e3 * near if "angle" not in d.path else math.degrees(near)
        # rounded to a hundredth, with a fit to a thousandth; ± 0.05° for an angle
        numbers = [float(x) for x in re.findall(r"\d+(?:\.\d+)?", d.text)]
        assert any(x == pytest.approx(shown, abs=0.0051) for x in numbers), (d.path, d.text)
        apart = math.dist(*d.line)
        if apart > 1e-6:
            # the line is as long as what it measures is apart in its direction
            axis = 0 if d.line[0][1] == d.line[1][1] else 1
            assert abs(d.second[axis] - d.first[axis]) == pytest.approx(apart, abs=1e-9)
            assert apart == pytest.approx(1e3 * near, abs=1e-6), d.path
    return len(drawing.dimensions)


@pytest.mark.parametrize(("name", "part"), SHEETS)
def test_every_size_is_the_engines(name: str, part: str) -> None:
    least = {"pin": 2, "flywheel": 4, "liner": 3, "head": 6, "piston": 8, "rod": 8, "crank": 7}
    assert checked(plain_engine(name), drawn(name, part)) >= least[part]


@pytest.mark.parametrize("kind", LESS_USUAL)
def test_every_size_of_less_usual_parts(kind: str) -> None:
    name, tried = LESS_USUAL[kind]
    for part in PARTS:
        checked(plain_engine(name, **tried), drawn(name, part, **tried))


def size_of(drawing: Drawing, path: str) -> float:
    return next(d.value for d in drawing.dimensions if d.path == path)


def test_an_engine_of_another_bore_is_drawn_otherwise() -> None:
    for part, path, more in (("liner", "cylinder.bore", 2.0), ("liner", "liner.length", None),
                             ("piston", "piston.skirt_clearance", None)):  # fmt: skip
        small = drawn("plover", part)
        large = drawn("plover", part, cylinder__bore="36 mm", liner__outside_diameter="38 mm")
        grown = 1e3 * (size_of(large, path) - size_of(small, path))
        assert grown > 0.1
        if more is not None:
            assert grown == pytest.approx(more, abs=1e-6)
    checked(plain_engine("plover", cylinder__bore="36 mm", liner__outside_diameter="38 mm"), large)


def extents(drawing: Drawing, number: int, kind: str) -> tuple[float, float]:
    part = drawing.part(f"{kind}-{number}")
    box = box_of(reach([s for s in part.shapes if getattr(s, "pen", None) in ("outline", None)]))
    return box.width, box.height


@pytest.mark.parametrize("name", DEMOS)
def test_outlines_are_as_large_as_the_sizes_say(name: str) -> None:
    plain = plain_engine(name)
    c, crank = plain.cylinders[0], plain.crank
    mm = 1e3

    def seen(part: str, kind: str, *wanted: tuple[float, float]) -> None:
        drawing = drawn(name, part)
        for number, size in enumerate(wanted, start=1):
            found = extents(drawing, number, kind)
            assert found == pytest.approx([mm * x for x in size], abs=1e-6), (part, number)

    pin, rod, liner, head = c.pin, c.rod, c.liner, c.head
    seen("pin", "piston-pin", (pin.length, pin.diameter), (pin.diameter, pin.diameter))
    big, small = (d + 2 * rod.eye_wall for d in (crank.crankpin_diameter, pin.diameter))
    long = rod.length + (big + small) / 2
    high = max(rod.big_end_width, rod.small_end_width, rod.shank_thickness)
    seen("rod", "rod", (long, max(big, small)), (long, high))
    out = liner.outside_diameter
    seen("liner", "liner", (liner.length, out), (out, out))
    seen("head", "head", (head.diameter, head.thickness))
    skirt = c.cylinder.bore - c.piston.skirt_clearance
    length = c.piston.length - c.piston.shield.thickness
    seen("piston", "piston", (skirt, length), (skirt, length))
    if plain.flywheel.thickness:
        wheel = plain.flywheel
        across = (wheel.diameter, wheel.diameter)
        seen("flywheel", "flywheel", (wheel.thickness, wheel.diameter), across)
    throw = c.cylinder.stroke / 2
    found = extents(drawn(name, "crank"), 2, "cheek")
    assert found == pytest.approx((mm * crank.cheek_width, mm * (crank.cheek_width + throw)))


@pytest.mark.parametrize(("name", "part"), [s for s in SHEETS if s[0] in DEMOS])
def test_views_stand_in_first_angle(name: str, part: str) -> None:
    """From the left to the right, from above below, each in line with the front view."""
    drawing = drawn(name, part)
    seen = {p.title.partition(", ")[2]: box_of(reach(p.shapes)) for p in drawing.parts}
    front = seen["front"]
    middle = (front.left + front.right) / 2, (front.bottom + front.top) / 2
    if "from the left" in seen:
        view = seen["from the left"]
        assert view.left > front.right
        assert (view.bottom, view.top) == pytest.approx((front.bottom, front.top), abs=5.0)
    if "from above" in seen:
        view = seen["from above"]
        assert view.top < front.bottom
        assert (view.left + view.right) / 2 == pytest.approx(middle[0])
    if "from below" in seen:
        view = seen["from below"]
        assert view.bottom > front.top
        assert (view.left + view.right) / 2 == pytest.approx(middle[0])
    assert len(seen) == len(drawing.parts) or part == "crank"


def test_what_the_file_does_not_size_is_open_and_not_drawn() -> None:
    crank = words_of(drawn("wren", "crank"))
    assert "Open, not in the engine file: outline of the counterweights" in crank
    assert "lengths of both shaft ends" in crank
    head = words_of(drawn("wren", "head"))
    assert "shape of the chamber" in head
    assert "ports" in head
    assert "fillets" in words_of(drawn("wren", "rod"))
    assert "land between the grooves" in words_of(drawn("wren", "piston"))
    assert "land between" not in words_of(drawn("heron", "piston"))
    assert "doesn't open" in words_of(drawn("plover", "rod"))
    assert "doesn't open" not in words_of(drawn("wren", "rod"))


def test_a_print_is_to_be_tried_in_metal_first() -> None:
    assert "--set rod.made=bought" in words_of(drawn("wren", "rod"))
    tried = {"rod__material": "aluminium", "rod__made": "bought"}
    metal = words_of(drawn("wren", "rod", **tried))
    assert "--set" not in metal
    assert "Aluminium" in metal
    # closer in metal than in a plastic that swells: ISO 286 F8 and E9 of 12 mm
    assert "Ø12 F8: +0.043 / +0.016" in metal
    assert "Ø12 E9: +0.075 / +0.032" in words_of(drawn("wren", "rod"))


def test_bob_weight_by_hand() -> None:
    """All of the rod's mass that turns, and the balanced share of what goes up and down."""
    from firstfire.loads.masses import reciprocating_mass

    plain = plain_engine("wren")
    rod = plain.cylinders[0].rod
    turning = 1e3 * rod.mass * (1 - rod.reciprocating_fraction)
    bob = turning + 1e3 * plain.crank.balance_factor * reciprocating_mass(plain, 0)
    assert f"{bob:.3g}" in words_of(drawn("wren", "crank"))


def test_two_cylinders_whose_parts_differ() -> None:
    tried = {"cylinders__2__pin__length": "30 mm"}
    first = drawn("heron", "pin", **tried)
    assert "1 off" in words_of(first)
    assert "cylinder 2's piston pin differs: --cylinder 2" in words_of(first)
    assert size_of(drawn("heron", "pin", cylinder=2, **tried), "pin.length") == 0.03
    assert "2 off" in words_of(drawn("heron", "pin"))


@pytest.mark.parametrize(
    ("name", "part", "cylinder", "said"),
    [
        ("wren", "crnk", 1, "Did you mean crank"),
        ("wren", "gasket", 1, "There is crank, pin, rod, head, liner, piston, flywheel"),
        ("wren", "rod", 2, "wren has one cylinder"),
        ("heron", "rod", 3, "cylinders 1 to 2"),
        ("heron", "flywheel", 1, "flywheel.thickness is 0"),
        ("3_inches", "liner", 1, "bare print"),
    ],
)
def test_refusals(name: str, part: str, cylinder: int, said: str) -> None:
    with pytest.raises(FirstfireError, match=re.escape(said)):
        drawn(name, part, cylinder=cylinder)


def test_the_same_part_is_the_same_bytes() -> None:
    one, other = (part_drawing(plain_engine("plover"), Catalog(), "head") for _ in range(2))
    assert to_pdf(one) == to_pdf(other)
    assert to_svg(one) == to_svg(other)
