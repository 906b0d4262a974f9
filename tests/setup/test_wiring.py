"""The wiring: what each engine has and lacks, currents and wires by hand, and how it is drawn."""

from __future__ import annotations

import itertools
import xml.etree.ElementTree as ET

import pytest
from tests.drawing.conftest import FILES, plain_engine

from firstfire.drawing.model import Lettering, Stroke
from firstfire.drawing.svg import to_svg
from firstfire.drawing.templates.pages import laid_out
from firstfire.drawing.wiring.paths import BOTTOM
from firstfire.drawing.wiring.sheet import elements, wiring_sheet, wiring_template
from firstfire.drawing.wiring.symbols import HIGH, SYMBOLS
from firstfire.engine.wires import DROP, FUSE_OVER, STARTER_DROP, Wiring, caution, wiring
from firstfire.formulas.wire import CARRIES
from firstfire.setup.wiring.text import opening, wiring_text

NAMES = sorted(FILES)


def of(name: str, **tried: str) -> Wiring:
    return wiring(plain_engine(name, **tried))


def kinds(found: Wiring) -> set[str]:
    return {one.kind for one in elements(found.paths)}


def test_each_has_what_its_file_says() -> None:
    assert kinds(of("wren")) == {"coil", "driver", "plug", "regulator", "controller", "sensor"}
    assert kinds(of("heron")) == {"coil", "points", "condenser", "plug"}
    injected = kinds(of("wren", intake__mixture_by="injector"))
    assert {"injector", "diode", "pump", "relay"} <= injected
    assert "resistor" in kinds(of("wren", spark__coil__resistor="1.5 ohm"))
    assert "starter" in kinds(of("2_v_twin"))


def test_a_pair_shares_a_coil_and_bonds_its_shells() -> None:
    pair, two = of("plover"), of("heron")
    assert [one.cylinders for one in pair.pairs] == [(1, 2)]
    assert [one.cylinders for one in two.pairs] == [(1,), (2,)]
    shells = [(wire.start, wire.end) for wire in pair.wires if "shell" in wire.start]
    assert shells == [("E1 shell", "E2 shell")]
    assert len([wire for wire in two.wires if "shell" in wire.start]) == 2


def test_currents_by_hand() -> None:
    # 12 V less 1.5 on 3.675 ohms: 2.857 A; 0.1 for the controller and 0.02 for its sensor.
    found = of("wren")
    assert found.current == pytest.approx(10.5 / 3.675 + 0.12)
    assert found.fuse == 4.0  # 1.25 × 2.977 = 3.72
    # An injector of 12 ohms and a pump of 2 A besides, and the relay's 0.15.
    more = of("wren", intake__mixture_by="injector")
    assert more.current == pytest.approx(found.current + 1.0 + 2.0 + 0.15)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("metres", ["0.3 m", "2 m", "6 m"])
def test_no_path_loses_more_than_it_may_and_each_wire_carries_its_fuse(
    name: str, metres: str
) -> None:
    found = of(name, wiring__length=metres)
    feed = sum(wire.drop for wire in found.wires if wire.path == "feed")
    for path in found.paths:
        own = [wire for wire in found.wires if wire.path == path.id and wire.kind == "plain"]
        if any(wire.section is None for wire in own):
            assert "thick enough" in opening(name, found)
            continue
        lost = sum(wire.drop for wire in own)
        if path.fed_by == "battery":
            assert lost <= STARTER_DROP * found.voltage
        else:
            assert feed + lost <= DROP * found.voltage
            fused = [wire.section for wire in own if "shell" not in wire.start]
            assert all(CARRIES.get(section, 63.0) >= found.fuse for section in fused)
    assert found.fuse >= FUSE_OVER * found.current


def test_too_far_away_is_said() -> None:
    far = of("2_v_twin", wiring__length="20 m")
    assert "no wire up to 50 mm² is thick enough" in opening("far", far)
    assert "over 50" in wiring_text("far", far)


@pytest.mark.parametrize("kind", SYMBOLS)
def test_a_symbol_joins_its_cells_top_and_bottom(kind) -> None:
    if kind == "sensor":
        return  # it hangs beside the controller
    ends = {
        (round(x, 6), round(y, 6))
        for shape in SYMBOLS[kind]() if isinstance(shape, Stroke)
        for x, y, _ in (shape.vertices[0], shape.vertices[-1])
    }  # fmt: skip
    assert {(0.0, 0.0), (0.0, -HIGH)} <= ends


@pytest.mark.parametrize("name", NAMES)
def test_the_sheet_names_every_element_and_every_wire(name: str) -> None:
    found = of(name)
    sheet = wiring_sheet(name, found)
    drawn = [
        shape.text for part in sheet.parts if part.id != "tables"
        for shape in part.shapes if isinstance(shape, Lettering)
    ]  # fmt: skip
    for one in elements(found.paths):
        assert one.id in drawn
    marks = {word for text in drawn for word in text.split() if word[:1] == "W"}
    assert marks == {wire.id for wire in found.wires}
    for part in sheet.parts:
        for shape in part.shapes:
            if isinstance(shape, Lettering):
                assert sheet.box.left <= shape.at[0] <= sheet.box.right
                assert sheet.box.bottom <= shape.at[1] <= sheet.box.top
    assert ET.fromstring(to_svg(sheet)).tag.endswith("svg")


@pytest.mark.parametrize("name", NAMES)
def test_no_path_touches_another(name: str) -> None:
    """Levels and uprights of different paths meet at the two rails alone."""
    sheet = wiring_sheet(name, of(name))
    lines = [
        (part.id, a, b)
        for part in sheet.parts if part.id not in ("tables", "rails", "feed")
        for shape in part.shapes if isinstance(shape, Stroke)
        for a, b in zip(shape.vertices, shape.vertices[1:], strict=False)
    ]  # fmt: skip
    for one, a, b in lines:
        if abs(a[0] - b[0]) > 1e-9:
            continue
        low, high = sorted((a[1], b[1]))
        for other, c, d in lines:
            if other == one or abs(c[1] - d[1]) > 1e-9:
                continue
            left, right = sorted((c[0], d[0]))
            relayed = {one, other} <= {"pump", "injector-1", "injector-2", "relay"}
            crosses = left < a[0] < right and low < c[1] < high
            assert relayed or not crosses or c[1] in (0.0, BOTTOM), (one, other)


@pytest.mark.parametrize("name", NAMES)
def test_it_reads_well_in_a_terminal(name: str) -> None:
    found = of(name)
    text = wiring_text(name, found)
    assert all(len(line) <= 80 for line in text.splitlines())
    assert "nan" not in text
    assert caution(found).split(".")[0] in text
    assert ("driver is held off" in text.replace("\n", " ")) == ("driver" in kinds(found))


@pytest.mark.parametrize("name", NAMES)
def test_high_voltage_stays_off_the_plus_rail(name: str) -> None:
    """What a spark's path has besides its own column keeps below the rail that feeds it."""
    found = of(name)
    sheet = wiring_sheet(name, found)
    paths = {path.id.replace(" ", "-"): path for path in found.paths}
    for part in sheet.parts:
        if part.id not in paths or not paths[part.id].plugs:
            continue
        strokes = [shape for shape in part.shapes if isinstance(shape, Stroke)]
        own = min(x for shape in strokes for x, y, _ in shape.vertices if y == 0.0)
        beside = [y for shape in strokes for x, y, _ in shape.vertices if x > own + 1.0]
        assert beside
        assert max(beside) <= -1.5


@pytest.mark.parametrize("name", NAMES)
def test_lettering_is_high_enough_on_paper(name: str) -> None:
    """ISO 3098: 2.5 mm at the least; a wide one goes over pages and isn't made smaller."""
    made = wiring_template(name, of(name))
    words = [s for part in made.parts for s in part.shapes if isinstance(s, Lettering)]
    assert min(one.height for one in words) >= 2.5
    laid = laid_out(made, "A4")
    assert laid.pages * 210.0 * 297.0 > made.box.width * made.box.height


def test_no_word_stands_on_another() -> None:
    """Words of the paths, as wide as their letters are at the least (0.5 of their height)."""
    for name in NAMES:
        sheet = wiring_sheet(name, of(name))
        words = [
            (one.text, left, left + wide, one.at[1], one.at[1] + one.height)
            for part in sheet.parts if part.id != "tables"
            for one in part.shapes if isinstance(one, Lettering)
            for wide in (0.5 * one.height * len(one.text),)
            for left in (one.at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[one.anchor],)
        ]  # fmt: skip
        for (a, la, ra, ba, ta), (b, lb, rb, bb, tb) in itertools.combinations(words, 2):
            apart = ra <= lb or rb <= la or ta <= bb or tb <= ba
            assert apart, f"{name}: {a} on {b}"
