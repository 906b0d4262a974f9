"""What a history answers, of one written down by hand; how one is carried on; first cycles.

A crown of 1 mm of aluminium on 4 mm of PETG, a head under paint, two bands of bore, valves, a pin.
Kept are the moments 0, 1, 3 and 7 s: fired till 3 s, at rest after.
"""

import math

import numpy as np
import pytest
from tests.heat.small_circuits import dense_step, faces_of

from firstfire.errors import OutsideValidity
from firstfire.formulas.solid import Solid
from firstfire.heat.advance import advance
from firstfire.heat.answers import (
    char_depths,
    part_series,
    swelling_temperature,
    temperatures_at,
    temperatures_through,
    time_to,
    walls,
)
from firstfire.heat.char import char_depth
from firstfire.heat.decomposing import NOTHING_LEFT
from firstfire.heat.edges import faces
from firstfire.heat.exposure import Cooling, Exposure, Film
from firstfire.heat.first_cycle import Cycles, decomposition, first_cycles
from firstfire.heat.gas_side import GasSide, steady_gas
from firstfire.heat.history import FIRST_STEP, HeatHistory, Phase, begin, cold, resumed
from firstfire.heat.layers import Layer
from firstfire.heat.network import Link, Lump, Network
from firstfire.heat.profiles import row_at, rows_at
from firstfire.heat.stack import flat_stack
from firstfire.heat.swing import Swing, no_swing, swing

PLASTIC, METAL = Solid(0.2, 1270.0, 1250.0), Solid(167.0, 2700.0, 896.0)
PAINT = Solid(0.8, 2000.0, 900.0)
AREA = 1e-3
NETWORK = Network(
    (
        flat_stack("crown", (Layer("shield", METAL, 1e-3),
                             Layer("crown", PLASTIC, 4e-3, 5e-4, 650.0)), AREA),
        flat_stack("head", (Layer("head", PAINT, 0.2e-3), Layer("head", PLASTIC, 3e-3)), AREA),
        flat_stack("valves", (Layer("valves", METAL, 2e-3),), AREA),
        flat_stack("liner", (Layer("liner", PLASTIC, 3e-3, 0.0, 650.0),), 2 * AREA),
        flat_stack("liner_low", (Layer("liner_low", PLASTIC, 3e-3),), 4 * AREA),
    ),
    (Lump("pin", 5.0, 0.0, 6e-3), Lump("skirt", 7.0, 0.0, 3e-3)),
)  # fmt: skip
CROWN, HEAD, VALVES, LINER, LOW = NETWORK.stacks
FIRED = Exposure(
    gas={name: steady_gas(300.0, 900.0) for name in ("crown", "head", "valves", "liner")}
    | {"liner_low": steady_gas(50.0, 700.0)},
    sources={"crown": 3.0},
    cooling={"crown": Cooling(310.0, constant=40.0),
             "head": Cooling(290.0, 10.0, 2.0, 0.3, 0.9), "liner": Cooling(295.0, constant=30.0)},
)  # fmt: skip
REST = Exposure(cooling=FIRED.cooling)
# peaks: 60 - 0.05 T at the crown's face and 30 - 0.02 T 1.5 mm down, and the other way
SWING = Swing(300.0, 900.0, np.array([0.0, 1.5e-3]), np.array([[60.0, -60.0], [30.0, -30.0]]),
              np.array([[0.05, -0.05], [0.02, -0.02]]))  # fmt: skip
KEPT = np.array([0.0, 1.0, 3.0, 7.0])


def phase(first, exposure, swings):
    return Phase(first, exposure, swings, {}, faces(NETWORK, exposure, swings))


def rising(nodes):
    place = np.linspace(0.0, 1.0, nodes)
    return np.array([300 + 0 * place, 400 + 50 * place**2, 600 - 200 * place, 500 - 150 * place])


def written(charred=((0, 0),) * 4) -> HeatHistory:
    swings = {name: no_swing(gas) for name, gas in FIRED.gas.items()} | {"crown": SWING}
    return HeatHistory(
        NETWORK, KEPT, rising(NETWORK.nodes), np.zeros((4, 3)), np.array(charred),
        np.zeros(NETWORK.cells), (phase(1, FIRED, swings), phase(3, REST, {})), 0.5,
    )  # fmt: skip


HISTORY = written()


def cells(stack, row) -> np.ndarray:
    first = NETWORK.first_cells[stack.name]
    return rising(NETWORK.nodes)[row][first : first + stack.cells]


def met(cell, half, film, outside, source=0.0) -> float:
    """A face's temperature between half a cell, K/W, and a film, W/K."""
    return (cell / half + film * outside + source) / (1 / half + film)


def test_fire_faces() -> None:
    """300 W/(m² K) on 10 cm² of 900 K and 3 W rubbed in; nothing before, nothing at rest."""
    warm, halves = cells(CROWN, 2), CROWN.inner[0]
    found = temperatures_at(HISTORY, 3.0).parts["shield"]
    assert found.surface == pytest.approx(met(warm[0], halves, 0.3, 900.0, 3.0))
    assert temperatures_at(HISTORY, 0.0).parts["shield"].surface == 300.0
    assert temperatures_at(HISTORY, 7.0).parts["shield"].surface == cells(CROWN, 3)[0]


def test_backs() -> None:
    found = temperatures_at(HISTORY, 3.0).parts
    last = cells(CROWN, 2)[-1]
    assert found["crown"].profile[-1] == pytest.approx(met(last, CROWN.outer[-1], 0.04, 310.0))
    last = cells(HEAD, 2)[-1]
    film = 0.01 + 2e-3 * abs(last - 290.0) ** 0.3
    film += 0.9 * 5.670374e-8 * AREA * (last**2 + 290.0**2) * (last + 290.0)
    assert found["head"].profile[-1] == pytest.approx(met(last, HEAD.outer[-1], film, 290.0))
    # nothing cools it, and nothing has happened yet
    assert found["valves"].profile[-1] == cells(VALVES, 2)[-1]
    assert temperatures_at(HISTORY, 0.0).parts["crown"].profile[-1] == 300.0


def test_faces_between_layers() -> None:
    """Contact of 5e-4 m² K/W on 10 cm², between halves of a cell of metal and of plastic."""
    found, warm = temperatures_at(HISTORY, 3.0).parts, cells(CROWN, 2)
    first = CROWN.starts[1]
    before, behind = 0.5 * CROWN.size[first - 1] / 0.167, 0.5 * CROWN.size[first] / 2e-4
    flow = (warm[first - 1] - warm[first]) / (before + 0.5 + behind)
    assert found["shield"].profile[-1] == pytest.approx(warm[first - 1] - flow * before)
    assert found["crown"].profile[0] == pytest.approx(warm[first] + flow * behind)
    assert found["crown"].surface == found["crown"].profile[0]
    assert found["crown"].profile[1:-1] == pytest.approx(warm[first:])


def test_faces_between_layers_of_one_part() -> None:
    """Paint on print, without contact: both meet at one temperature between their halves."""
    found, warm = temperatures_at(HISTORY, 3.0).parts["head"], cells(HEAD, 2)
    first = HEAD.starts[1]
    before, behind = 0.5 * HEAD.size[first - 1] / 8e-4, 0.5 * HEAD.size[first] / 2e-4
    meets = (warm[first - 1] / before + warm[first] / behind) / (1 / before + 1 / behind)
    # behind the face and as many cells as the paint has
    drop = warm[first - 1] - meets
    assert warm[first - 1] - found.profile[first + 1] == pytest.approx(drop, rel=1e-6)
    assert found.profile[first + 2] - warm[first] == pytest.approx(meets - warm[first], rel=1e-6)


def test_a_wall_charred_through_conducts_half_at_its_back() -> None:
    """30 W/(m² K) on its back; all of the last cell is kept."""
    whole = LINER.cells
    history = written(((0, 0), *((0, whole),) * 3))
    found = temperatures_at(history, 3.0).parts["liner"].profile[-1]
    film = 30.0 * LINER.back_area
    assert found == pytest.approx(met(cells(LINER, 2)[-1], 2 * LINER.outer[-1], film, 295.0))


def test_depths_of_parts() -> None:
    found = temperatures_at(HISTORY, 3.0).parts
    assert found["shield"].depth == pytest.approx([0.0, *CROWN.depth[: CROWN.starts[1]], 1e-3])
    inside = CROWN.depth[CROWN.starts[1] :] - 1e-3
    assert found["crown"].depth == pytest.approx([0.0, *inside, 4e-3])
    paint = HEAD.starts[1]
    assert found["head"].depth == pytest.approx(
        [0.0, *HEAD.depth[:paint], 0.2e-3, 0.2e-3, *HEAD.depth[paint:], 3.2e-3]
    )
    pin = found["pin"]
    assert (pin.depth.tolist(), pin.profile.tolist()) == ([0.0, 6e-3], [pin.surface] * 2)
    assert pin.surface == pin.peak == rising(NETWORK.nodes)[2][NETWORK.cells]


def test_peaks() -> None:
    """At the face its own; 1 mm down that of 1.5 mm, by the fire face's mean; none below zero."""
    found = temperatures_at(HISTORY, 3.0).parts
    face = found["shield"].surface
    assert found["shield"].peak == pytest.approx(face + 60 - 0.05 * face)
    assert found["crown"].peak == pytest.approx(found["crown"].surface + 30 - 0.02 * face)
    assert found["valves"].peak == found["valves"].surface
    at_rest = temperatures_at(HISTORY, 7.0).parts["shield"]
    assert at_rest.peak == at_rest.surface


def test_char_in_the_way() -> None:
    """Three charred cells behind the sheet conduct half; 0.1 mm stays on the bore, the rest is
    worn off."""
    gone = LINER.starts[-1]
    count = int((LINER.depth < 0.3e-3).sum())
    assert 3 < count < gone
    parts = temperatures_at(written(((0, 0), (1, 2), (3, count), (3, count))), 3.0).parts
    first, warm = CROWN.starts[1], cells(CROWN, 2)
    before, behind = CROWN.outer[first - 1], 2 * CROWN.inner[first]
    flow = (warm[first - 1] - warm[first]) / (before + 0.5 + behind)
    assert parts["crown"].profile[0] == pytest.approx(warm[first] + flow * behind)
    # far behind the front nothing is left: the fire meets the first cell almost at its middle
    warm = cells(LINER, 2)
    half = NOTHING_LEFT * LINER.inner[0]
    assert parts["liner"].surface == pytest.approx(met(warm[0], half, 0.6, 900.0))
    # and of one cell alone all stays, twice as bad
    parts = temperatures_at(written(((0, 0), (0, 1), (0, 1), (0, 1))), 3.0).parts
    assert parts["liner"].surface == pytest.approx(met(warm[0], 2 * LINER.inner[0], 0.6, 900.0))


def test_a_cell_partly_worn_off() -> None:
    """Charred down to where 0.1 mm of it leaves the first cell in part."""
    deep = np.cumsum(LINER.size)
    count = int((deep < 1e-4).sum()) + 1
    share = (1e-4 - (deep[count - 1] - deep[0])) / LINER.size[0]
    assert 0 < share < 1
    parts = temperatures_at(written(((0, 0), *((0, count),) * 3)), 3.0).parts
    half = LINER.inner[0] * (2 * share + (1 - share) * NOTHING_LEFT)
    assert parts["liner"].surface == pytest.approx(met(cells(LINER, 2)[0], half, 0.6, 900.0))


def test_moments_between_those_kept() -> None:
    """1.5 s is a quarter from 1 to 3 s; char is what it was at 1 s until it is 3."""
    history = written(((0, 0), (1, 0), (2, 1), (4, 3)))
    kept = rising(NETWORK.nodes)
    row = row_at(history, 1.5)
    assert row.temperatures[0] == pytest.approx(0.75 * kept[1] + 0.25 * kept[2])
    assert row.charred.tolist() == [[1, 0]]
    assert row.phase is history.phases[0]
    assert row_at(history, 3.0).charred.tolist() == [[2, 1]]
    assert row_at(history, 3.1).phase is history.phases[1]
    assert row_at(history, 0.0).phase is None
    assert row_at(history, 0.0).charred.tolist() == [[0, 0]]
    # a hair beyond what is kept, by rounding, is its end
    end = row_at(history, 7.0 * (1 + 1e-12)).temperatures[0]
    assert end == pytest.approx(row_at(history, 7.0).temperatures[0])
    for seconds in (-0.1, 7.1):
        with pytest.raises(OutsideValidity):
            row_at(history, seconds)


def test_many_moments_at_once() -> None:
    """As one by one; before and after it stand its ends."""
    history = written(((0, 0), (1, 0), (2, 1), (4, 3)))
    asked = [-5.0, 0.0, 0.25, 1.0, 1.5, 3.0, 5.0, 7.0, 9.0]
    found = {}
    for places, rows in rows_at(history, asked):
        for row, place in enumerate(places):
            found[place] = (rows.temperatures[row], rows.charred[row].tolist(), rows.phase)
    assert sorted(found) == list(range(9))
    for place, seconds in enumerate(asked):
        one = row_at(history, min(max(seconds, 0.0), 7.0))
        temperatures, charred, stretch = found[place]
        assert temperatures == pytest.approx(one.temperatures[0])
        assert charred == one.charred[0].tolist()
        assert stretch is one.phase
    through = temperatures_through(history, asked)
    assert through(4).seconds == 1.5
    wanted = temperatures_at(history, 1.5).parts["crown"]
    assert through(4).parts["crown"].profile == pytest.approx(wanted.profile)
    assert set(through(4).parts) == set(temperatures_at(history, 1.5).parts)


def test_walls_that_gas_sees() -> None:
    """The bore's bands count by 300 · 2 and 50 · 4; alike where no gas is."""
    found, parts = walls(HISTORY, 3.0), temperatures_at(HISTORY, 3.0).parts
    assert found.crown == pytest.approx(parts["shield"].surface)
    assert (found.head, found.valves) == pytest.approx(
        (parts["head"].surface, parts["valves"].surface)
    )
    high, low = parts["liner"].surface, parts["liner_low"].surface
    assert found.liner == pytest.approx((600 * high + 200 * low) / 800)
    parts = temperatures_at(HISTORY, 7.0).parts
    even = (parts["liner"].surface + parts["liner_low"].surface) / 2
    assert walls(HISTORY, 7.0).liner == pytest.approx(even)


def test_depths_of_char() -> None:
    history = written(((0, 0), (0, 0), (2, 0), (4, 3)))
    assert char_depths(history, 1.0) == {}
    assert char_depths(history, 3.0) == {"crown": char_depth(CROWN, 1, 2)}
    assert char_depths(history, 7.0) == {
        "crown": char_depth(CROWN, 1, 4), "liner": char_depth(LINER, 0, 3)
    }  # fmt: skip


def test_series_of_a_part() -> None:
    """At every moment kept, by place: as the moments say one by one."""
    each = [temperatures_at(HISTORY, seconds).parts["crown"] for seconds in KEPT]
    assert part_series(HISTORY, "crown", "surface") == pytest.approx([one.surface for one in each])
    assert part_series(HISTORY, "crown", "peak") == pytest.approx([one.peak for one in each])
    assert part_series(HISTORY, "crown", "back") == pytest.approx([one.profile[-1] for one in each])
    assert part_series(HISTORY, "crown", "mean") == pytest.approx([one.mean for one in each])
    assert part_series(HISTORY, "crown", 2e-3) == pytest.approx([one.at(2e-3) for one in each])


def test_when_a_part_was_so_warm() -> None:
    """The pin is at 300, then some 450, falling: straight between."""
    pin = part_series(HISTORY, "pin", "surface")
    assert pin[0] == 300.0 < pin[1]
    quarter = 300.0 + 0.25 * (pin[1] - 300.0)
    assert time_to(HISTORY, "pin", "surface", quarter) == pytest.approx(0.25)
    assert time_to(HISTORY, "pin", "surface", 299.0) == 0.0
    assert time_to(HISTORY, "pin", "surface", 900.0) is None
    crown = part_series(HISTORY, "crown", "back")
    late = crown[1] + 0.75 * (crown[2] - crown[1])
    assert time_to(HISTORY, "crown", "back", late) == pytest.approx(2.5)


def test_swelling_is_the_mean_of_crown_and_skirt() -> None:
    found = temperatures_at(HISTORY, 3.0)
    wanted = (found.parts["crown"].mean + found.parts["skirt"].surface) / 2
    assert swelling_temperature(found) == pytest.approx(wanted)


def test_heat_stored() -> None:
    held = NETWORK.circuit.capacity
    wanted = [(row - 300.0) @ held for row in rising(NETWORK.nodes)]
    assert HISTORY.stored == pytest.approx(wanted)
    assert [HISTORY.phase_of(index) for index in range(4)] == [
        None, HISTORY.phases[0], HISTORY.phases[0], HISTORY.phases[1],
    ]  # fmt: skip


def test_histories_that_begin() -> None:
    state = HISTORY.end
    assert (state.seconds, state.step) == (7.0, 0.5)
    again = resumed(NETWORK, state)
    assert again.seconds.tolist() == [7.0]
    assert again.step == FIRST_STEP
    assert (again.temperatures[0] == state.temperatures).all()
    assert cold(NETWORK, 290.0).temperatures.tolist() == [[290.0] * NETWORK.nodes]
    assert begin(NETWORK, np.arange(NETWORK.nodes), 3.0).seconds.tolist() == [3.0]


# -- carried on

BLOCK = Network(
    (flat_stack("wall", (Layer("wall", METAL, 100e-6),), AREA),),
    (Lump("a", 10.0, 0.0, 1e-3), Lump("b", 30.0, 0.0, 1e-3)),
    (Link("wall", 0, "a", 1.0), Link("a", 0, "b", 0.5)),
)
WARMED = Exposure(films={"a": Film(2.0, 900.0)})


def test_steps_of_a_run_and_of_its_parts() -> None:
    """From a thousandth of a second, each 1.08 of the one before; anew under another exposure."""
    first = advance(cold(BLOCK, 300.0), WARMED, 2.0)
    steps = np.diff(first.seconds)
    assert steps[:-1] == pytest.approx(1e-3 * 1.08 ** np.arange(steps.size - 1))
    assert first.step == pytest.approx(steps[-2] * 1.08)
    on = advance(first, WARMED, 5.0)
    assert np.diff(on.seconds)[steps.size] == pytest.approx(first.step)
    other = advance(first, Exposure(), 5.0)
    assert np.diff(other.seconds)[steps.size] == pytest.approx(1e-3)
    assert [one.first for one in other.phases] == [1, steps.size + 1]
    assert np.diff(advance(first, Exposure(), 3000.0).seconds).max() == pytest.approx(30.0)


def test_a_run_in_chunks_is_the_same_run(monkeypatch) -> None:
    whole = advance(advance(cold(BLOCK, 300.0), WARMED, 2.0), Exposure(films=WARMED.films), 6.0)
    monkeypatch.setattr("firstfire.heat.advance.CHUNK", 7)
    told = []
    first = advance(cold(BLOCK, 300.0), WARMED, 2.0)
    cut = advance(first, Exposure(films=WARMED.films), 6.0, on_progress=told.append)
    assert cut.seconds == pytest.approx(whole.seconds)
    assert cut.temperatures == pytest.approx(whole.temperatures)
    assert cut.received == pytest.approx(whole.received)
    assert [one.first for one in cut.phases] == [one.first for one in whole.phases]
    ends = cut.seconds[first.seconds.size + 6 : -1 : 7]
    assert told == pytest.approx([*((ends - 2.0) / 4.0), 1.0])
    assert cut.stored == pytest.approx(cut.received.sum(axis=1), rel=1e-9)
    assert 300.0 < cut.temperatures[-1, -1] < cut.temperatures[-1, -2] < 900.0


def test_links_of_an_exposure_count() -> None:
    joined = Exposure(films=WARMED.films, links=(Link("wall", 0, "b", 5.0),))
    with_link, without = (
        advance(cold(BLOCK, 300.0), one, 20.0).temperatures[-1, -1] for one in (joined, WARMED)
    )
    assert with_link > without + 20.0


def test_a_day_is_the_longest() -> None:
    assert advance(cold(BLOCK, 300.0), Exposure(), 86400.0).seconds[-1] == 86400.0
    with pytest.raises(OutsideValidity):
        advance(cold(BLOCK, 300.0), Exposure(), 86401.0)


def test_a_wall_that_chars_is_swung_anew() -> None:
    """At 8 and 80 µm of char: two more stretches, each with what that char does to the swing."""
    wall = Network((flat_stack("wall", (Layer("wall", PLASTIC, 3e-3, 0.0, 650.0),), AREA),))
    turn = 2 * math.pi * np.arange(32) / 32
    gas = GasSide(0.04, 900 + 800 * np.cos(turn), 1500 + 600 * np.cos(turn))
    exposure = Exposure(gas={"wall": gas})
    found = advance(cold(wall, 300.0), exposure, 4.0)
    assert [one.stages["wall"] for one in found.phases] == [0, 1, 2]
    for one in found.phases[1:]:
        depth = char_depth(wall.stacks[0], 0, int(found.charred[one.first - 1, 0]))
        front = (Layer("wall", Solid(0.1, 1270.0, 1250.0), min(depth, 1e-4)),
                 Layer("wall", PLASTIC, 3e-3 - min(depth, 1e-4)))  # fmt: skip
        wanted = swing(gas, front, np.zeros(0))
        assert one.swings["wall"].coefficient == pytest.approx(wanted.coefficient)


# -- first cycles


def test_how_deep_it_was_hotter() -> None:
    """500 K at the face, 400 at 1 mm, 300 at 3: 450 K at half a millimetre, 325 at 2.5."""
    found = Cycles(np.array([1.0]), np.array([480.0, 500.0]), np.array([0.0, 1e-3, 3e-3]),
                   np.array([500.0, 400.0, 300.0]), np.zeros(2))  # fmt: skip
    assert found.peak == 500.0
    assert found.depth_over(450.0) == pytest.approx(0.5e-3)
    assert found.depth_over(325.0) == pytest.approx(2.5e-3)
    assert found.depth_over(600.0) == 0.0
    assert found.depth_over(200.0) == pytest.approx(3e-3)


def test_first_cycles_step_by_step() -> None:
    """A foil of three cells, its back insulated: each interval a dense step under its own gas."""
    foil = flat_stack("foil", (Layer("foil", METAL, 30e-6, 0.0, 700.0),), 2e-3, fire_area=1e-3)
    gas = GasSide(0.03, np.array([0.0, 4000.0, 900.0]), np.array([300.0, 1500.0, 700.0]))
    found = first_cycles(foil, gas, 320.0, 2)
    node, surfaces, each = np.full(foil.cells, 320.0), [], []
    circuit = Network((foil,)).circuit
    for one in range(6):
        film, hot = 1e-3 * gas.coefficient[one % 3], gas.temperature[one % 3]
        around = faces_of(foil.cells, [{"node": 0, "half": 1, "film": film, "temperature": hot}])
        node = dense_step(circuit, around, node, 0.01)[1]
        each.append(node)
        surfaces.append(met(node[0], foil.inner[0], film, hot))
    assert found.surface == pytest.approx(surfaces, rel=1e-9)
    assert found.mean == pytest.approx(np.mean(each[3:], axis=0), rel=1e-9)
    assert found.seconds == pytest.approx([0.01, 0.02, 0.03, 0.04, 0.05, 0.06])
    assert found.depth == pytest.approx([0.0, *foil.depth])
    hottest = np.max(each, axis=0)
    assert found.hottest == pytest.approx([max(surfaces), *hottest], rel=1e-9)
    assert decomposition(foil) == 700.0


def test_a_wall_that_gas_cools_was_hottest_at_the_start() -> None:
    foil = flat_stack("foil", (Layer("foil", METAL, 30e-6),), 1e-3)
    found = first_cycles(
        foil, GasSide(0.03, np.array([0.0, 900.0]), np.array([300.0, 290.0])), 400.0
    )
    assert found.hottest == pytest.approx(400.0)
    assert decomposition(foil) == math.inf
