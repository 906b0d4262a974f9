"""Templates measured back from PDF and DXF by other libraries, with rulers of our own."""

from __future__ import annotations

import ctypes
import io
import itertools
import math
from functools import cache
from typing import Any

import ezdxf
import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from scipy.interpolate import CubicSpline
from tests.drawing.conftest import FILES, plain_engine

from firstfire.catalog import Catalog
from firstfire.drawing.dxf import to_dxf
from firstfire.drawing.model import Box, Disc, Lettering
from firstfire.drawing.pdf import PAPERS
from firstfire.drawing.svg import to_svg
from firstfire.drawing.templates.all import templates
from firstfire.drawing.templates.cam_outline import cam_shape, workable_base
from firstfire.drawing.templates.inked import crosses, inks
from firstfire.drawing.templates.pages import laid_out, template_drawing, template_pdf, tile
from firstfire.drawing.templates.template import tick
from firstfire.drawing.wiring.sheet import wiring_template
from firstfire.engine.cam_lift import cam_rise, spans, valve_of
from firstfire.engine.read import read, with_values
from firstfire.engine.resolve import resolve
from firstfire.engine.wires import wiring
from firstfire.errors import OutsideValidity

MM = 25.4 / 72
NAMES = ("wren", "heron", "plover", "2_v_twin")


@cache
def of(name: str, **tried: Any) -> dict[str, Any]:
    return {t.slug: t for t in templates(plain_engine(name, **tried), Catalog())}


def entities(template: Any) -> Any:
    return ezdxf.read(io.StringIO(to_dxf(template_drawing(template)))).modelspace()


def pdf_paths(template: Any, paper: str = "A4") -> list[list[list[tuple[float, float]]]]:
    """Of each page, its paths as points in mm from the lower left corner."""
    document = pypdfium2.PdfDocument(template_pdf(template, paper=paper))
    found = []
    for page in document:
        paths = []
        for n in range(pdfium.FPDFPage_CountObjects(page.raw)):
            thing = pdfium.FPDFPage_GetObject(page.raw, n)
            if pdfium.FPDFPageObj_GetType(thing) != pdfium.FPDF_PAGEOBJ_PATH:
                continue
            points = []
            for k in range(pdfium.FPDFPath_CountSegments(thing)):
                x, y = ctypes.c_float(), ctypes.c_float()
                segment = pdfium.FPDFPath_GetPathSegment(thing, k)
                pdfium.FPDFPathSegment_GetPoint(segment, x, y)
                points.append((x.value * MM, y.value * MM))
            paths.append(points)
        found.append(paths)
    return found


def is_line(path: list[tuple[float, float]], long: float, within: float = 0.02) -> bool:
    return len(path) == 2 and abs(math.dist(*path) - long) < within


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_ruler_of_a_hundred_on_every_page(name: str, paper: str) -> None:
    for template in of(name).values():
        data = template_pdf(template, paper=paper)
        document = pypdfium2.PdfDocument(data)
        sheet = laid_out(template, paper)
        assert len(document) == sheet.pages
        for page, paths in zip(document, pdf_paths(template, paper), strict=True):
            size = [one * MM for one in page.get_size()]
            assert sorted(size) == pytest.approx(sorted(PAPERS[paper]), abs=0.1)
            rulers = [p for p in paths if is_line(p, 100.0) and abs(p[0][1] - p[1][1]) < 1e-3
                      and p[0][1] < 20]  # fmt: skip
            assert len(rulers) == 1, (template.slug, len(rulers))
            text = page.get_textpage().get_text_range()
            assert "Measure it: 100.0 mm" in text
            assert "True size, 1 : 1" in text


@pytest.mark.parametrize("name", NAMES)
def test_a_ruler_of_a_hundred_in_dxf_and_svg(name: str) -> None:
    for template in of(name).values():
        space = entities(template)
        lines = [e for e in space.query("LWPOLYLINE") if e.dxf.layer == "legend"]
        longest = max(math.dist(*list(e.vertices())[:2]) for e in lines)
        assert longest == pytest.approx(100.0, abs=1e-6)
        assert space.doc.header["$INSUNITS"] == 4
        svg = to_svg(template_drawing(template))
        box = template_drawing(template).box
        assert f'width="{round(box.width, 3):g}mm"' in svg or "mm" in svg.split(">")[0]


def test_ticks_of_the_wheel_at_their_degrees() -> None:
    for name, sign in (("wren", 1.0), ("heron", 1.0)):
        wheel = of(name)["degree-wheel"]
        (paths,) = pdf_paths(wheel)
        # The wheel's own edge is the largest closed path: its middle is the wheel's.
        edge = max((p for p in paths if len(p) > 50), key=lambda p: np.ptp([x for x, _ in p]))
        xs, ys = zip(*edge, strict=True)
        middle = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
        ends = []
        for path in paths:
            if len(path) != 2:
                continue
            far = max(path, key=lambda p: math.dist(p, middle))
            if abs(math.dist(far, middle) - 52.0) < 0.02 and math.dist(*path) < 6.1:
                ends.append(math.degrees(math.atan2(far[1] - middle[1], far[0] - middle[0])))
        counted = sorted((sign * (one - 90)) % 360 for one in ends)
        assert len(counted) == 360
        for n, angle in enumerate(sorted(round(one, 3) % 360 for one in counted)):
            assert angle == pytest.approx(n, abs=0.03)


def test_events_stand_where_the_table_has_them() -> None:
    # wren turns clockwise: what comes after top lies anticlockwise.
    space = entities(of("wren")["degree-wheel"])
    at = [
        math.degrees(math.atan2(y1, x1))
        for e in space.query("LWPOLYLINE")
        for (x0, y0), (x1, y1) in [list(e.vertices())[:2]]
        if abs(math.hypot(x0, y0) - 52) < 1e-6 and abs(math.hypot(x1, y1) - 54.5) < 1e-6
    ]
    wanted = [0, 135, 252.5, 350, 10, 105, 220, 340, 340, 355, 355]  # degrees after top
    assert sorted(round((one - 90) % 360, 6) for one in at) == sorted(wanted)
    # The other way round for an engine that turns the other way.
    space = entities(of("wren", layout__rotation="anticlockwise")["degree-wheel"])
    other = [
        round((90 - math.degrees(math.atan2(y1, x1))) % 360, 6)
        for e in space.query("LWPOLYLINE")
        for (x0, y0), (x1, y1) in [list(e.vertices())[:2]]
        if abs(math.hypot(x0, y0) - 52) < 1e-6 and abs(math.hypot(x1, y1) - 54.5) < 1e-6
    ]
    assert sorted(other) == sorted(wanted)


@pytest.mark.parametrize(("name", "diameter"), [("wren", 110.0), ("plover", 140.0)])
def test_the_strip_is_as_long_as_the_rim(name: str, diameter: float) -> None:
    strip = of(name)["rim-strip"]
    space = entities(strip)
    (edge,) = [e for e in space.query("LWPOLYLINE") if e.closed and e.dxf.layer == "cut"]
    xs = [x for x, _ in edge.vertices()]
    assert max(xs) - min(xs) == pytest.approx(math.pi * diameter, abs=1e-6)
    # A degree is pi D / 360, a sensible number of ticks has it.
    ticks = sorted({round(v[0][0], 6) for e in space.query("LWPOLYLINE")
                    if e.dxf.layer == "marks" for v in [list(e.vertices())]
                    if len(v) == 2 and v[0][1] == 0.0})  # fmt: skip
    per = math.pi * diameter / 360
    degrees = {round(x / per, 4) for x in ticks}
    assert set(range(-180, 181)) <= degrees


@pytest.mark.parametrize("name", ["wren", "plover"])
def test_the_strip_on_its_pages_adds_up(name: str) -> None:
    strip = of(name)["rim-strip"]
    pages = pdf_paths(strip)
    sheet = laid_out(strip, "A4")
    assert sheet.across == 2
    lefts, rights = [], []
    for column, paths in enumerate(pages):
        edge = next(p for p in paths if len(p) in (4, 5) and np.ptp([x for x, _ in p]) > 200)
        xs = [x - sheet.window.left + column * sheet.window.width for x, _ in edge]
        lefts.append(min(xs))
        rights.append(max(xs))
    diameter = 1e3 * plain_engine(name).flywheel.diameter
    assert max(rights) - min(lefts) == pytest.approx(math.pi * diameter, abs=0.02)
    # Every page carries the same strip on, its window's width further.
    assert lefts == pytest.approx([lefts[0]] * len(lefts), abs=0.02)


def cam_edges(name: str, **tried: Any) -> list[tuple[Any, Any, np.ndarray[Any, Any]]]:
    """Valve, span and edge from DXF, key line turned along x, later marks anticlockwise."""
    plain = plain_engine(name, **tried)
    found = []
    for slug, template in of(name, **tried).items():
        if not slug.startswith("cam-"):
            continue
        which = slug.split("-")[1]
        number = int(slug.split("-")[2]) if slug.count("-") > 1 else 1
        parts = plain.cylinders[number - 1]
        sign = 1.0 if plain.layout.rotation == "clockwise" else -1.0
        found.append((valve_of(parts, which), spans(parts)[which], edge_of(template, sign)))
    return found


def edge_of(template: Any, sign: float) -> np.ndarray[Any, Any]:
    """The cam's edge from DXF, key line turned along x, later marks anticlockwise."""
    (edge,) = [e for e in entities(template).query("LWPOLYLINE")
               if e.closed and e.dxf.layer == "cut"]  # fmt: skip
    points = np.array(list(edge.vertices()))
    return np.column_stack([points[:, 1], -sign * points[:, 0]])


@pytest.mark.parametrize(
    ("follower", "radius", "base"),
    [("curved", "20 mm", "18 mm"), ("flat", "20 mm", "26 mm"), ("roller", "6 mm", "14 mm"),
     ("roller", "0.2 mm", "14 mm")],
)  # fmt: skip
@pytest.mark.parametrize("rotation", ["clockwise", "anticlockwise"])
def test_a_follower_on_the_printed_edge_rises_as_the_law_says(
    follower: str, radius: str, base: str, rotation: str
) -> None:
    tried = {"layout__rotation": rotation}
    for which in ("inlet", "exhaust"):
        tried |= {
            f"valves__{which}__follower": follower,
            f"valves__{which}__follower_radius": radius,
            f"valves__{which}__base_radius": base,
        }
    for valve, span, edge in cam_edges("wren", **tried):
        base_mm = 1e3 * valve.base_radius
        for degrees in range(0, 360, 2):
            turned = math.radians(degrees)
            rise = 1e3 * cam_rise(valve, span, turned)[0]
            along = np.array([math.cos(turned), math.sin(turned)])
            if follower == "flat":
                # The face stands square to its way: the edge's farthest reach.
                assert (edge @ along).max() == pytest.approx(base_mm + rise, abs=0.01)
                continue
            round_ = 1e3 * valve.follower_radius
            middle = (base_mm + round_ + rise) * along
            assert np.hypot(*(edge - middle).T).min() == pytest.approx(round_, abs=0.01)


def farthest_swing(edge: np.ndarray[Any, Any], pivot: complex, arm: float, rider: float) -> float:
    """How far out an arm is pushed by an edge at rest, rad: from square to the line to the axis."""
    away = edge[:, 0] + 1j * edge[:, 1] - pivot
    if rider == 0.0:  # its foot is a line through the pivot
        near = away[away.imag > 0]
        return float(np.max(math.pi / 2 - np.angle(near)))
    low, high = -0.2, 1.2
    for _ in range(50):
        swing = 0.5 * (low + high)
        centre = arm * np.exp(1j * (math.pi / 2 - swing))
        clear = np.abs(away - centre).min() > rider
        low, high = (low, swing) if clear else (swing, high)
    return low


@pytest.mark.parametrize(
    ("rocker", "follower", "radius", "base"),
    [("direct", "flat", "8 mm", "34 mm"), ("direct", "roller", "6 mm", "15 mm"),
     ("rocker", "flat", "8 mm", "34 mm"), ("rocker", "roller", "6 mm", "15 mm"),
     ("rocker", "curved", "16 mm", "18 mm")],
)  # fmt: skip
@pytest.mark.parametrize("law", ["polynomial_4567", "table"])
def test_the_printed_edge_lifts_the_valve_as_the_file_says(
    rocker: str, follower: str, radius: str, base: str, law: str
) -> None:
    """Cut, put on its shaft and turned: what it lifts, through the rocker, less the lash.

    The file's lift is worked out here: 4-5-6-7 by its polynomial, a table by SciPy's spline.
    """
    rows = [(0.0, 0.0), (30, 0.35), (60, 1.6), (95, 3.7), (125, 4.5), (150, 3.9), (190, 1.7),
            (215, 0.35), (240, 0.0)]  # fmt: skip
    tried: dict[str, Any] = {
        "valves__inlet__rocker": rocker, "valves__inlet__rocker_ratio": 1.4,
        "valves__inlet__rocker_arm": "32 mm", "valves__inlet__follower": follower,
        "valves__inlet__follower_radius": radius, "valves__inlet__base_radius": base,
        "valves__inlet__cam_law": law, "valves__inlet__lift": "4.5 mm",
        "valves__inlet__lash": "0.2 mm", "valves__inlet__opens_before_top": "20 deg",
        "valves__inlet__closes_after_bottom": "40 deg",
    }  # fmt: skip
    if law == "table":
        tried["valves__inlet__lift_table"] = [[f"{a} deg", f"{y} mm"] for a, y in rows]
    changed = with_values(read(FILES["wren"]), {k.replace("__", "."): v for k, v in tried.items()})
    sheets = {t.slug: t for t in templates(resolve(changed), Catalog())}
    edge = edge_of(sheets["cam-inlet"], 1.0)
    places, lifts = np.array(rows).T
    spline = CubicSpline(places, lifts, bc_type="clamped")
    ratio = 1.4 if rocker == "rocker" else 1.0
    size, rider = float(base[:2]), 0.0 if follower == "flat" else float(radius.split(maxsplit=1)[0])
    met = 0
    for crank in range(0, 720, 3):
        turned = math.radians(crank / 2)
        z = (edge[:, 0] + 1j * edge[:, 1]) * np.exp(-1j * turned)
        seen = np.column_stack([z.real, z.imag])
        if rocker == "rocker":
            rise = 32.0 * farthest_swing(seen, complex(size + rider, -32.0), 32.0, rider)
        elif follower == "flat":
            rise = z.real.max() - size
        else:  # a centre on the line of its way, as near as the edge lets it
            beside = np.abs(z.imag) < rider
            rise = (z.real + np.sqrt(np.clip(rider**2 - z.imag**2, 0, None)))[beside].max()
            rise -= size + rider
        into = crank - 340.0
        share = 1.0 - abs(into - 120.0) / 120.0
        x = min(max(share, 0.0), 1.0)
        want = 4.5 * x**4 * (35 - 84 * x + 70 * x**2 - 20 * x**3)
        if law == "table":
            want = float(spline(into)) if 0 < into < 240 else 0.0
        assert max(rise * ratio - 0.2, 0.0) == pytest.approx(want, abs=0.01), crank
        met += want > 0.0
    assert met > 70


def test_a_twins_second_cam_stands_half_a_turn_on() -> None:
    # Both fire a turn of the crank apart: half a turn of their shaft.
    noses = []
    for valve, _, edge in cam_edges("plover"):
        far = edge[np.argmax(np.hypot(*edge.T))]
        noses.append(math.degrees(math.atan2(far[1], far[0])) % 360)
        assert np.hypot(*far) > 1e3 * (valve.base_radius + valve.lift)
    # 252.5° of the crank is 126.25° of the cam; the other 180° on.
    assert noses == pytest.approx([126.25, 306.25], abs=0.3)


def test_a_cam_that_undercuts_is_refused_with_one_that_works() -> None:
    parts = plain_engine("plover", valves__exhaust__follower_radius="20 mm").cylinders[0]
    valve, span = parts.valves.exhaust, spans(parts)["exhaust"]
    with pytest.raises(OutsideValidity, match='base_radius = "9 mm"'):
        cam_shape(valve, span)
    wider = valve.model_copy(update={"base_radius": workable_base(valve, span)})
    assert cam_shape(wider, span).least_radius > 0.5


def test_the_breaker_opens_at_its_angle() -> None:
    # heron: 15° before each firing top, on the cam: 7.5° of it, twice a turn.
    (edge,) = [e for e in entities(of("heron")["breaker-lobe"]).query("LWPOLYLINE")
               if e.closed and e.dxf.layer == "cut"]  # fmt: skip
    points = np.array(list(edge.vertices()))
    radius = np.hypot(*points.T)
    # The cam turns clockwise: what comes later lies anticlockwise of the key, which is up.
    angle = (np.degrees(np.arctan2(points[:, 1], points[:, 0])) - 90) % 360
    order = np.argsort(angle)
    angle, radius = angle[order], radius[order]
    points_of = plain_engine("heron").spark.points
    # Points open once the rise has taken up the heel's clearance, and shut where it is back there.
    open_ones = radius > radius.min() + 1e3 * (points_of.lobe_rise - points_of.gap)
    begins = [angle[n] for n in range(len(angle)) if open_ones[n] and not open_ones[n - 1]]
    assert begins == pytest.approx([172.5, 352.5], abs=0.26)
    shut = 360 * (~open_ones).mean()
    assert shut == pytest.approx(110.0, abs=1.1)  # 55° of the cam for each, twice
    assert radius.max() - radius.min() == pytest.approx(1e3 * points_of.lobe_rise, abs=1e-3)


def test_the_sensors_tooth_and_a_heads_holes() -> None:
    wheel = entities(of("plover")["sensor-plate"])
    tooth = next(e for e in wheel.query("LWPOLYLINE") if e.closed and e.dxf.layer == "cut"
                 and any(abs(math.hypot(x, y) - 26) < 1e-6 for x, y in e.vertices()))  # fmt: skip
    sides = [math.degrees(math.atan2(y, x)) - 90 for x, y in tooth.vertices()
             if abs(math.hypot(x, y) - 26) < 1e-6]  # fmt: skip
    # On the crank, since it is wasted: 10° before top comes by before it, so clockwise of the key.
    assert sorted(sides) == pytest.approx([-10.0, 10.0], abs=1e-6)
    head = plain_engine("wren").cylinders[0].head
    holes = [c for c in entities(of("wren")["head-drilling"]).query("CIRCLE")
             if abs(math.hypot(c.dxf.center.x, c.dxf.center.y)
                    - 500 * head.fasteners.circle_diameter) < 1e-6]  # fmt: skip
    assert len(holes) == head.fasteners.count
    # M5: a hole of 5.5 mm (ISO 273, medium).
    assert {round(2 * c.dxf.radius, 6) for c in holes} == {5.5}


def test_the_belts_line_is_as_long_as_its_teeth() -> None:
    (edge,) = [e for e in entities(of("wren")["belt"]).query("LWPOLYLINE")
               if e.closed and e.dxf.layer == "cut"]  # fmt: skip
    from ezdxf import path

    flat = list(path.make_path(edge).flattening(1e-5))
    long = sum(a.distance(b) for a, b in itertools.pairwise(flat))
    assert long == pytest.approx(144 * 3.0, abs=0.01)


@pytest.mark.parametrize("name", sorted(FILES))
def test_every_engine_has_its_templates(name: str) -> None:
    found = of(name)
    plain = plain_engine(name)
    assert {"degree-wheel", "base-gasket", "head-drilling", "assembled-from-flywheel",
            "assembled-from-cam-drive"} <= {s.removesuffix("-1") for s in found}  # fmt: skip
    assert ("rim-strip" in found) == (plain.flywheel.thickness > 0)
    assert ("breaker-lobe" in found) == (plain.spark.source == "points")
    # Nothing on a template lies outside of its own box, so that no tile cuts it off.
    for template in found.values():
        assert all(one.layer in ("cut", "marks", "words") for one in template.parts)


def test_seen_from_the_other_side_it_is_mirrored() -> None:
    there, here = (of("wren")[f"assembled-from-{side}"] for side in ("flywheel", "cam-drive"))
    one, other = (
        np.array(next(p for p in t.parts if p.id == "cams").shapes[0].loops[0])[:, :2]
        for t in (there, here)
    )
    assert other == pytest.approx(one * [-1, 1], abs=1e-9)
    text = " ".join(here.notes)
    assert "the crank turns anticlockwise, the cam anticlockwise" in text


def dark(page: Any, window: Any, scale: float = 1.5) -> int:
    """Pixels that aren't white within a window of a page, mm from its lower left corner."""
    picture = page.render(scale=scale, grayscale=True).to_numpy().squeeze()
    dot = scale / MM  # pixels a mm
    high = picture.shape[0]
    rows = slice(round(high - (window.top - 0.5) * dot), round(high - (window.bottom + 0.5) * dot))
    columns = slice(round((window.left + 0.5) * dot), round((window.right - 0.5) * dot))
    return int((picture[rows, columns] < 200).sum())


def test_no_page_of_a_v_twin_is_empty_and_what_is_left_out_is_said() -> None:
    plain, paper = plain_engine("2_v_twin"), "A4"
    left_out = []
    for template in (*of("2_v_twin").values(), wiring_template("v", wiring(plain))):
        sheet = laid_out(template, paper)
        document = pypdfium2.PdfDocument(template_pdf(template, paper=paper))
        assert len(document) == sheet.pages == len(set(sheet.tiles))
        empty = set(itertools.product(range(sheet.across), range(sheet.down))) - {*sheet.tiles}
        left_out += [template.slug] * len(empty)
        for number, page in enumerate(document):
            assert dark(page, sheet.window) > 0, (template.slug, number)
            text = " ".join(page.get_textpage().get_text_range().split())
            if sheet.across * sheet.down == 1:
                continue
            column, row = sheet.tiles[number]
            assert f"page {number + 1} of {sheet.pages}: " in text
            assert f"column {column + 1} of {sheet.across}" in text or sheet.across == 1
            assert f"row {row + 1} of {sheet.down}" in text or sheet.down == 1
            for gone in empty:
                assert f"column {gone[0] + 1}, row {gone[1] + 1}" in text
            # each page goes on where its neighbours end
            here, first = tile(template, sheet, column, row), tile(template, sheet, 0, 0)
            assert here.left == pytest.approx(first.left + column * sheet.window.width)
            assert here.top == pytest.approx(first.top - row * sheet.window.height)
    assert left_out  # its picture as assembled has a corner with nothing in it


def test_what_goes_through_a_tile_is_on_it_and_what_passes_it_by_is_not() -> None:
    box = Box(0.0, 0.0, 10.0, 10.0)
    ring = Disc((20.0, 5.0), 12.0, "none", "outline")  # x from 8 on, at y = 5
    assert crosses([*inks([ring])], box)
    assert not crosses([*inks([Disc((20.0, 5.0), 9.0, "none", "outline")])], box)
    # A ring round it all leaves it empty; so does an edge whose own box covers it.
    assert not crosses([*inks([Disc((5.0, 5.0), 30.0, "none", "outline")])], box)
    assert not crosses([*inks([tick((-3.0, 8.0), (8.0, 19.0))])], box)
    assert crosses([*inks([tick((-1.0, 8.0), (8.0, 9.0))])], box)
    assert crosses([*inks([Lettering((-30.0, 5.0), "as far as this", 5.0)])], box)
    assert not crosses([*inks([Lettering((-30.0, 5.0), "so", 5.0)])], box)
