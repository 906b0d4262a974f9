"""A drawing's SVG, measured with a ruler of our own: its sizes are the engine file's.

Independent of the drawing's code: the SVG text is parsed, and positions come from the textbook's
closed form of the slider-crank (Heywood, Internal Combustion Engine Fundamentals, Eq. 2.5).
"""

from __future__ import annotations

import math

import pytest
from tests.drawing.conftest import SVG, Measured, outline, plain_engine

from firstfire.drawing.along_crank import along_crank
from firstfire.drawing.section import section
from firstfire.drawing.svg import to_svg
from firstfire.verdict.numbers import shown

CLOSE = 2e-3  # mm: the SVG has thousandths


def measured(name: str, degrees: float = 30.0, **tried: object) -> Measured:
    return Measured(to_svg(section(plain_engine(name, **tried), crank_angle=math.radians(degrees))))


SINGLES = ("wren", "1_resin_methanol", "3_inches", "5_metal_wren", "plover")


@pytest.mark.parametrize("name", SINGLES)
def test_widths_of_upright_parts(name: str) -> None:
    plain = plain_engine(name)
    parts = plain.cylinders[0]
    m = measured(name)
    left, _, right, _ = m.box("piston-1")
    clearance = parts.piston.skirt_clearance
    assert right - left == pytest.approx(1e3 * (parts.cylinder.bore - clearance), abs=CLOSE)
    left, top, right, low = m.box("bore-1")
    assert right - left == pytest.approx(1e3 * parts.cylinder.bore, abs=CLOSE)
    assert low - top == pytest.approx(1e3 * parts.liner.length, abs=CLOSE)
    left, _, right, _ = m.box("liner-1")
    assert right - left == pytest.approx(1e3 * parts.liner.outside_diameter, abs=CLOSE)
    left, _, right, _ = m.box("head-1")
    assert right - left == pytest.approx(1e3 * parts.head.diameter, abs=CLOSE)
    _, top, _, low = m.box("piston-1")
    shield = 1e3 * (parts.piston.shield.thickness or 0.0)
    assert low - top == pytest.approx(1e3 * parts.piston.length - shield, abs=CLOSE)


@pytest.mark.parametrize("name", SINGLES)
def test_valve_heads(name: str) -> None:
    valves = plain_engine(name).cylinders[0].valves
    m = measured(name)
    for which, valve in (("inlet", valves.inlet), ("exhaust", valves.exhaust)):
        head = m.part(f"{which}-valve-1").findall(f"{SVG}path")[0]
        xs = [x for x, _ in outline(head)]
        assert max(xs) - min(xs) == pytest.approx(1e3 * valve.head_diameter, abs=CLOSE)


@pytest.mark.parametrize("name", ["wren", "heron", "plover", "2_v_twin", "4_even_v"])
@pytest.mark.parametrize("degrees", [-360.0, -200.0, 0.0, 30.0, 90.0, 250.0])
def test_pin_stands_where_the_crank_puts_it(name: str, degrees: float) -> None:
    plain = plain_engine(name)
    throw = 500 * plain.cylinders[0].cylinder.stroke
    rod = 1e3 * plain.cylinders[0].rod.length
    m = measured(name, degrees)
    (px, py, pr), *_ = m.circles("piston-pin-1")
    assert pr == pytest.approx(500 * plain.cylinders[0].pin.diameter, abs=CLOSE)
    crank = m.circles("shaft")[0]
    angle = math.radians(degrees)
    expected = throw * math.cos(angle) + math.sqrt(rod**2 - (throw * math.sin(angle)) ** 2)
    assert math.dist((px, py), crank[:2]) == pytest.approx(expected, abs=CLOSE)
    pin = min(m.circles("crankpin"), key=lambda c: abs(math.dist(c[:2], (px, py)) - rod))
    assert math.dist(pin[:2], (px, py)) == pytest.approx(rod, abs=CLOSE)
    assert math.dist(pin[:2], crank[:2]) == pytest.approx(throw, abs=CLOSE)


@pytest.mark.parametrize(("name", "between"), [("2_v_twin", 90.0), ("4_even_v", 60.0),
                                               ("heron", 180.0)])  # fmt: skip
def test_bores_stand_at_the_layouts_angle(name: str, between: float) -> None:
    m = measured(name, 17.0)
    crank = m.circles("shaft")[0]
    directions = [
        math.atan2(crank[1] - pin[1], pin[0] - crank[0])
        for pin in (m.circles("piston-pin-1")[0], m.circles("piston-pin-2")[0])
    ]
    turn = math.degrees(directions[0] - directions[1]) % 360
    assert min(turn, 360 - turn) == pytest.approx(between, abs=0.01)


def test_a_clockwise_crank_goes_to_the_right_after_top() -> None:
    m = measured("wren", 40.0)
    assert m.circles("crankpin")[0][0] > m.circles("shaft")[0][0]
    other = measured("wren", 40.0, layout__rotation="anticlockwise")
    assert other.circles("crankpin")[0][0] < other.circles("shaft")[0][0]


def test_an_offset_bore_stands_beside_the_crank() -> None:
    m = measured("wren", 0.0, cylinder__offset="3 mm")
    assert m.circles("piston-pin-1")[0][0] - m.circles("shaft")[0][0] == pytest.approx(
        3.0, abs=CLOSE
    )


@pytest.mark.parametrize("name", ["wren", "heron", "plover", "2_v_twin"])
def test_dimension_texts_are_the_numbers_shown_everywhere(name: str) -> None:
    plain = plain_engine(name)
    for drawing in (section(plain), along_crank(plain)):
        found = Measured(to_svg(drawing)).measures()
        assert len(found) >= 10
        for dimension in drawing.dimensions:
            value = _value(plain, dimension.path)
            assert dimension.value == pytest.approx(value)
            text = found[dimension.path].find(f"{SVG}text")
            assert text is not None
            assert (text.text or "").endswith(" ".join(shown(value, "mm").split()))
            if dimension.to_scale:
                apart = math.dist(dimension.first, dimension.second)
                halves = (1.0, 0.5)  # a thickness may be pointed at in its middle
                assert any(apart == pytest.approx(1e3 * value * h, rel=1e-6) for h in halves)


def _value(plain: object, path: str) -> float:
    first, *rest = path.split(".")
    here = getattr(plain, first, None)
    here = getattr(plain.cylinders[0], first) if here is None else here  # type: ignore[attr-defined]
    for name in rest:
        here = getattr(here, name)
    return float(here)  # type: ignore[arg-type]


def test_a_number_the_drawing_could_not_keep_to_is_underlined() -> None:
    near = measured("wren", cam_drive__centre_distance="130 mm")
    marked = near.measures()["cam_drive.centre_distance"]
    text = marked.find(f"{SVG}text")
    assert text is not None
    assert "ff-not-to-scale" in text.attrib["class"]
    far = measured("wren", cam_drive__centre_distance="190 mm")
    text = far.measures()["cam_drive.centre_distance"].find(f"{SVG}text")
    assert text is not None
    assert "ff-not-to-scale" not in text.attrib["class"]


@pytest.mark.parametrize("name", ["wren", "heron", "plover", "5_metal_wren"])
def test_lift_follows_the_cam(name: str) -> None:
    """At the middle of its opening a valve is as far open as the file says; shut it is shut."""
    plain = plain_engine(name)
    exhaust = plain.cylinders[0].valves.exhaust
    middle = 180 - math.degrees(exhaust.opens_before_bottom)
    middle = (middle + 360 + math.degrees(exhaust.closes_after_top)) / 2
    for degrees, lift in ((middle, exhaust.lift), (10.0, 0.0)):
        points = section(plain, crank_angle=math.radians(degrees)).points
        apart = math.dist(points["exhaust-valve-1"], points["exhaust-seat-1"])
        assert apart == pytest.approx(1e3 * lift, abs=1e-3)


@pytest.mark.parametrize("name", ["wren", "1_resin_methanol", "3_inches", "5_metal_wren"])
def test_piston_meets_neither_head_nor_valve(name: str) -> None:
    """Every 10° of a cycle: the crown stays under the head's face and under open valves' heads."""
    plain = plain_engine(name)
    deck = 1e3 * plain.cylinders[0].cylinder.deck
    least = math.inf
    for degrees in range(0, 720, 10):
        m = measured(name, float(degrees))
        crown = min(m.box("piston-1")[1], m.box("piston-crown-1")[1])
        if plain.cylinders[0].piston.shield.thickness > 0:
            crown = min(crown, m.box("shield-1")[1])
        assert crown > m.box("gasket-1")[3] - 1e-3
        least = min(least, crown - m.box("bore-1")[1])
        for which in ("inlet", "exhaust"):
            assert crown > m.box(f"{which}-valve-1")[3]
    assert least == pytest.approx(deck, abs=CLOSE)


def test_rings_touch_the_bore_and_their_grooves_bottom() -> None:
    for name in ("wren", "3_inches", "plover", "5_metal_wren"):
        m = measured(name)
        bore, rings = m.box("bore-1"), m.box("rings-1")
        assert rings[0] == pytest.approx(bore[0], abs=CLOSE)
        assert rings[2] == pytest.approx(bore[2], abs=CLOSE)
        said = plain_engine(name).cylinders[0].rings
        assert len(m.part("rings-1").findall(f"{SVG}path")) == said.count


def test_screws_stand_on_their_circle_and_their_number_is_written() -> None:
    for name in ("wren", "heron", "2_v_twin"):
        plain = plain_engine(name)
        said = plain.cylinders[0].head.fasteners
        text = to_svg(section(plain))
        assert f"{said.count} × {said.thread} on" in text
    m = measured("wren")
    left, _, right, _ = m.box("washers-1")
    said = plain_engine("wren").cylinders[0].head.fasteners
    across = 1e3 * (said.circle_diameter + said.washer_diameter)
    assert right - left == pytest.approx(across, abs=CLOSE)


def test_along_the_crank() -> None:
    plain = plain_engine("wren")
    m = Measured(to_svg(along_crank(plain)))
    left, top, right, low = m.box("flywheel")
    assert right - left == pytest.approx(1e3 * plain.flywheel.thickness, abs=CLOSE)
    assert low - top == pytest.approx(1e3 * plain.flywheel.diameter, abs=CLOSE)
    left, _, right, _ = m.box("crankpin")
    assert right - left == pytest.approx(1e3 * plain.crank.crankpin_length, abs=CLOSE)
    _, top, _, low = m.box("main-bearing")
    assert low - top == pytest.approx(1e3 * plain.crank.main_bearing_outside, abs=CLOSE)
    left, _, right, _ = m.box("main-bearing")
    span = 1e3 * (plain.crank.bearing_span + plain.crank.main_bearing_width)
    assert right - left == pytest.approx(span, abs=CLOSE)
    left, top, right, low = m.box("piston-pin-1")
    long = 1e3 * plain.cylinders[0].pin.length
    assert right - left == pytest.approx(long, abs=2.0)  # circlips stand out
    count = len(m.part("cam-drive").findall(f"{SVG}path"))
    assert count > plain.cam_drive.count


def test_parallel_bores_stand_their_spacing_apart() -> None:
    plain = plain_engine("plover")
    points = along_crank(plain).points
    apart = points["pin-2"][0] - points["pin-1"][0]
    assert apart == pytest.approx(1e3 * plain.layout.cylinder_spacing)


@pytest.mark.parametrize("name", ["wren", "2_v_twin"])
def test_an_engine_that_turns_the_other_way_is_the_mirror_image(name: str) -> None:
    one = measured(name, 60.0)
    other = measured(name, 60.0, layout__rotation="anticlockwise")
    for ident in ("case", "cheek", "crankpin", "liner-1", "rod-1", "body-1"):
        sizes = []
        for m in (one, other):
            crank = m.circles("shaft")[0]
            left, top, right, low = m.box(ident)
            sizes.append((left - crank[0], top - crank[1], right - crank[0], low - crank[1]))
        (left, top, right, low), mirrored = sizes
        assert mirrored == pytest.approx((-right, top, -left, low), abs=0.02)


@pytest.mark.parametrize("name", ["wren", "plover"])
def test_the_floor_of_the_case_is_as_thick_as_the_file_says(name: str) -> None:
    """Seen along the crank; its end walls are as thick as the bearings in them are wide."""
    plain = plain_engine(name)
    for wall in (1e3 * plain.case.wall, 9.0):
        made = plain.case.model_copy(update={"wall": 1e-3 * wall})
        drawn = along_crank(plain.model_copy(update={"case": made}))
        case = next(part for part in drawn.parts if part.id == "case")
        below = sorted({y for shape in case.shapes[1:] for loop in shape.loops
                        for _, y, _ in loop if y < 0})  # fmt: skip
        assert below[1] - below[0] == pytest.approx(wall)
        across = sorted({x for shape in case.shapes[1:] for loop in shape.loops
                         for x, y, _ in loop if y < 0})  # fmt: skip
        wide = 1e3 * plain.crank.main_bearing_width
        for out, inner in ((across[0], across[1]), (across[-1], across[-2])):
            assert abs(out - inner) == pytest.approx(wide + 1.0)  # half a millimetre each side


def test_studs_with_nuts_have_them_at_both_ends() -> None:
    """A stud of M5 stands out of its nut above; below, a nut as a through bolt's: ISO 4032."""
    kinds = ("through_bolts", "nutted_studs", "studs")
    through, nutted, into = (measured("wren", head__fasteners__kind=k).box("fasteners-1")
                             for k in kinds)  # fmt: skip
    nut, head = 4.7, 3.5  # ISO 4032 and ISO 4017, M5
    tip = 0.4 * 5.0
    assert nutted[3] == pytest.approx(through[3], abs=CLOSE)
    assert through[1] - nutted[1] == pytest.approx(nut + tip - head, abs=0.05)
    assert nutted[1] == pytest.approx(into[1], abs=CLOSE)
    assert nutted[3] != pytest.approx(into[3], abs=1.0)
