"""The compiled march held to systems whose answers are known: dense steps, steady balances, a cell
that decomposes, a step plan."""

import math

import numpy as np
import pytest
from tests.heat.small_circuits import Run, circuit, dense, dense_step, faces_of

from firstfire.heat.border import march_cycles
from firstfire.heat.decomposing import NOTHING_LEFT
from firstfire.heat.march import CHARRED, FULL, REACHED

INNER, OUTER = 1, 2
INF = math.inf

# Three chains of 3, 1 and 4 cells, then four lumps; links to lumps and among them.
LINKED = circuit(
    capacity=[2.0, 3.0, 5.0, 4.0, 1.0, 2.5, 3.5, 6.0, 7.0, 2.0, 9.0, 4.0],
    inner=[0.1, 0.2, 0.3, 0.15, 0.25, 0.35, 0.12, 0.22],
    outer=[0.3, 0.1, 0.2, 0.35, 0.15, 0.22, 0.32, 0.11],
    contact=[0.0, 0.4, INF, INF, 0.0, 0.5, 0.0, INF],
    links=[(0, 8, 1.5), (2, 8, 0.7), (2, 9, 0.4), (3, 9, 2.0), (4, 10, 1.1), (7, 11, 0.6),
           (6, 8, 0.9), (8, 9, 0.3), (10, 11, 1.3), (9, 11, 0.8), (5, 10, 0.5)],
)  # fmt: skip
AROUND = faces_of(
    8,
    [
        {"node": 0, "half": INNER, "film": 2.0, "temperature": 900.0, "source": 30.0, "gas": 1},
        {"node": 3, "half": INNER, "film": 0.0, "source": 12.0, "gas": 1},
        {"node": 4, "half": INNER, "film": 1.5, "temperature": 800.0, "gas": 1},
        {"node": 7, "half": OUTER, "film": 0.7, "temperature": 290.0},
        {"node": 10, "film": 0.4, "temperature": 285.0, "source": 3.0, "gas": 1},
        {"node": 11, "film": 0.2, "temperature": 280.0},
    ],
)
START = np.linspace(300.0, 520.0, 12)


@pytest.mark.parametrize("seconds", [0.05, 2.0, 300.0])
def test_a_step_is_what_a_dense_solution_gives(seconds) -> None:
    run = Run(LINKED, AROUND, START, (0.0, seconds, seconds, 1e9))
    _, wanted = dense_step(LINKED, AROUND, START, seconds)
    assert run.count == 1
    assert run.end == pytest.approx(wanted, rel=1e-10)
    assert run.temperatures[0] == pytest.approx(wanted, rel=1e-10)


def test_links_to_lumps_alone_are_solved_too() -> None:
    """Chains of one cell each; every lump joined to every other."""
    pairs = [(a, b, 0.3 + 0.2 * a + 0.1 * b) for a in range(2, 6) for b in range(a + 1, 6)]
    net = circuit([1.0, 2.0, 3.0, 4.0, 5.0, 6.0], [0.1, 0.2], [0.2, 0.1], [INF, INF],
                  [(0, 2, 1.0), (1, 5, 2.0), *pairs])  # fmt: skip
    around = faces_of(2, [{"node": 0, "half": INNER, "film": 3.0, "temperature": 900.0}])
    start = np.linspace(300.0, 400.0, 6)
    run = Run(net, around, start, (0.0, 7.0, 7.0, 1e9))
    assert run.end == pytest.approx(dense_step(net, around, start, 7.0)[1], rel=1e-10)


def test_heat_of_a_step_is_booked_by_where_it_came_from() -> None:
    """√2/4 of the flow at the start and the middle, 1 - √2/2 of that at the end; a source in full,
    what of it goes the other way off the gas or the air."""
    seconds = 3.0
    middle, end = dense_step(LINKED, AROUND, START, seconds)
    gas = cooling = 0.0
    for row in range(AROUND.node.size):
        node, film = AROUND.node[row], AROUND.film[row]
        half = {0: 0.0, INNER: LINKED.inner[node % 8], OUTER: LINKED.outer[node % 8]}
        half = half[AROUND.half[row]]
        for weight, one in zip((math.sqrt(2) / 4, math.sqrt(2) / 4, 1 - math.sqrt(0.5)),
                               (START, middle, end), strict=True):  # fmt: skip
            # the face's own temperature, from heat that meets there
            meets = (film * AROUND.temperature[row] + AROUND.source[row]) * half + one[node]
            face = meets / (1 + film * half)
            flow = weight * seconds * film * (AROUND.temperature[row] - face)
            gas, cooling = (gas + flow, cooling) if AROUND.gas[row] else (gas, cooling + flow)
    run = Run(LINKED, AROUND, START, (0.0, seconds, seconds, 1e9))
    assert run.heat[0] == pytest.approx([gas, 45.0 * seconds, cooling], rel=1e-9)


def test_heat_is_kept_to_rounding() -> None:
    run = Run(LINKED, AROUND, START, (0.0, 500.0, 0.01, 20.0), 1.1)
    stored = (run.temperatures - run.begin) @ LINKED.capacity
    assert stored == pytest.approx(run.heat.sum(axis=1), rel=1e-9)


def test_it_settles_where_the_dense_system_does() -> None:
    matrix, source = dense(LINKED, AROUND)
    run = Run(LINKED, AROUND, START, (0.0, 1e5, 1.0, 1e4), 1.3)
    assert run.end == pytest.approx(np.linalg.solve(matrix, source), rel=1e-9)


def test_an_even_wall_stays_even() -> None:
    """Eight like cells, warmed alike on both sides."""
    net = circuit([2.0] * 8, [0.1] * 8, [0.1] * 8, [0.0] * 7 + [INF])
    both = faces_of(8, [{"node": 0, "half": INNER, "film": 3.0, "temperature": 700.0},
                        {"node": 7, "half": OUTER, "film": 3.0, "temperature": 700.0}])  # fmt: skip
    run = Run(net, both, 300.0, (0.0, 4.0, 0.5, 1.0), 1.05)
    assert run.temperatures[:, ::-1] == pytest.approx(run.temperatures, rel=1e-12)


# -- faces that change with temperature: one cell, settled, by its balance


def settled(**face) -> tuple[float, float, Run]:
    """Cell and back face of a wall of one cell, 0.5 K/W on either side, 100 W put in in front."""
    net = circuit([10.0], [0.5], [0.5], [INF])
    around = faces_of(1, [{"node": 0, "half": INNER, "source": 100.0, "gas": 1},
                          {"node": 0, "half": OUTER} | face])  # fmt: skip
    run = Run(net, around, 300.0, (0.0, 9000.0, 0.1, 50.0), 1.3)
    cell = run.end[0]
    return cell, cell - 50.0, run


def test_free_air_settles_by_its_power() -> None:
    """0.3 ΔT^1.25 = 100 W."""
    _, back, run = settled(free=0.3, exponent=0.25)
    assert 0.3 * (back - 300.0) ** 1.25 == pytest.approx(100.0, rel=1e-6)
    assert np.diff(run.heat[-2:], axis=0)[0] == pytest.approx(
        [0.0, 100.0 * np.diff(run.times)[-1], -100.0 * np.diff(run.times)[-1]], rel=1e-6, abs=1e-6
    )


def test_radiation_settles_by_the_fourth_power() -> None:
    radiating = 5.67e-8 * 0.02
    _, back, _ = settled(radiating=radiating)
    assert radiating * (back**4 - 300.0**4) == pytest.approx(100.0, rel=1e-6)


def test_films_beside_each_other_add() -> None:
    radiating = 5.67e-8 * 0.005
    _, back, _ = settled(radiating=radiating, free=0.1, exponent=0.3, film=0.2)
    rise = back - 300.0
    out = 0.2 * rise + 0.1 * rise**1.3 + radiating * (back**4 - 300.0**4)
    assert out == pytest.approx(100.0, rel=1e-6)


def rubbed(limit: float) -> tuple[float, float]:
    """Front face of a wall rubbed with 50 W under a film of 0.1 W/K to 300 K, 1 W/K behind."""
    net = circuit([10.0], [0.5], [0.5], [INF])
    around = faces_of(1, [
        {"node": 0, "half": INNER, "source": 50.0, "limit": limit, "film": 0.1, "gas": 1},
        {"node": 0, "half": OUTER, "film": 2.0},
    ])  # fmt: skip
    run = Run(net, around, 300.0, (0.0, 9000.0, 0.1, 50.0), 1.3)
    # 1 K/W behind the cell, half a K/W before it
    into = (run.end[0] - 300.0) / 1.0
    return into, run.end[0] + 0.5 * into


@pytest.mark.parametrize("limit", [340.0, 350.0, 360.0])
def test_friction_fades_over_twenty_kelvin(limit) -> None:
    """Half of 50 W ten kelvin below the limit, and so on: 50 (limit - T)/20."""
    into, face = rubbed(limit)
    assert limit - 20 < face < limit
    assert into + 0.1 * (face - 300.0) == pytest.approx(50.0 * (limit - face) / 20.0, rel=1e-6)


def test_friction_is_whole_more_than_twenty_kelvin_below() -> None:
    into, face = rubbed(600.0)
    assert into + 0.1 * (face - 300.0) == pytest.approx(50.0, rel=1e-6)


# -- the plan of steps


CELL = circuit([10.0], [0.5], [0.5], [INF])
NOTHING = faces_of(1, [{"node": 0}])


def test_steps_grow_to_the_longest_and_land_on_the_end() -> None:
    """1, 2, 4, 5, 5 ... from 10; what is left of the last one."""
    run = Run(CELL, NOTHING, 300.0, (10.0, 30.0, 1.0, 5.0), 2.0)
    assert run.times == pytest.approx([11.0, 13.0, 17.0, 22.0, 27.0, 30.0])
    assert run.why == REACHED
    assert run.step == pytest.approx(10.0)  # twice the step before the cut one


def test_a_step_that_all_but_reaches_the_end_is_the_last() -> None:
    run = Run(CELL, NOTHING, 300.0, (0.0, 1.0000005, 1.0, 5.0), 2.0)
    assert (run.count, run.times[0], run.step) == (1, 1.0000005, 1.0)
    assert Run(CELL, NOTHING, 300.0, (0.0, 1.00001, 1.0, 5.0), 2.0).count == 2


def test_full_room_ends_a_march() -> None:
    run = Run(CELL, NOTHING, 300.0, (0.0, 100.0, 1.0, 50.0), 2.0, room=3)
    assert run.why == FULL
    assert run.times == pytest.approx([1.0, 3.0, 7.0])
    assert run.step == pytest.approx(8.0)


def test_no_time_is_no_step() -> None:
    run = Run(CELL, NOTHING, 300.0, (5.0, 5.0, 1.0, 50.0), 2.0)
    assert (run.count, run.why) == (0, REACHED)


# -- what decomposes


def eaten(power=20.0, *, step, seconds, growth=1.0, longest=1e9, begin=0.0):
    """A cell of 10 J/K that decomposes at 400 K, taking up 2000 J, under a constant power."""
    net = circuit([10.0], [0.5], [0.5], [INF], layers=[(0, 1, 400.0, 0, INF)],
                  decomposing=np.array([2000.0]))  # fmt: skip
    around = faces_of(1, [{"node": 0, "half": INNER, "source": power, "gas": 1}])
    return Run(net, around, 300.0, (begin, begin + seconds, step, longest), growth)


@pytest.mark.parametrize("step", [0.2, 0.5, 3.0, 7.0])
def test_what_decomposes_takes_up_the_heat_it_needs(step) -> None:
    """1000 J warm it to 400 K in 50 s; it then stands for 100 s, as 2000 J char it, whatever the
    steps; and goes on."""
    half = eaten(step=step, seconds=99.0, longest=step)
    taken = -half.heat[-1, 2]
    assert taken == pytest.approx(20.0 * 49.0, abs=2 * 10.0)  # two kelvin of 10 J/K
    assert half.decomposed[0] == pytest.approx(taken / 2000.0, rel=1e-9)
    assert half.end[0] == pytest.approx(400.0, abs=2.0)
    assert half.charred[0] == 0
    whole = eaten(step=step, seconds=200.0, longest=step)
    assert whole.charred[0] == 1
    assert whole.decomposed[0] == 1.0
    assert -whole.heat[-1, 2] == pytest.approx(2000.0, rel=1e-3)
    assert whole.end[0] == pytest.approx(300.0 + (20.0 * 200 - 2000) / 10, abs=0.2)
    # straight up, level within two kelvin, straight up
    assert whole.temperatures[:, 0] == pytest.approx(
        np.interp(whole.times, [0, 50, 150, 200], [300, 400, 400, 500]), abs=2.0 + 2.0 * step
    )


def test_cells_behind_each_other_char_one_by_one() -> None:
    """A sheet, then three cells of 10 J/K and 2000 J each, under 200 W from the front: the fourth
    chars last, each by the heat that was taken from it, and the sheet never."""
    net = circuit([10.0] * 4, [0.05] * 4, [0.05] * 4, [0.0] * 3 + [INF],
                  layers=[(1, 4, 400.0, 0, INF)], decomposing=np.full(4, 2000.0))  # fmt: skip
    around = faces_of(4, [{"node": 0, "half": INNER, "source": 200.0, "gas": 1}])
    for seconds in (15.0, 25.0, 32.0, 80.0):
        run = Run(net, around, 300.0, (0.0, seconds, 0.25, 0.25))
        booked = -run.heat[-1, 2]
        # what is 0.999 of the way counts as there
        assert run.decomposed.sum() * 2000.0 == pytest.approx(booked, rel=1.1e-3)
        assert run.decomposed[0] == 0.0
        assert (np.diff(run.decomposed[1:]) <= 0).all()
        assert run.charred[0] == int((run.decomposed >= 1.0).sum())
        behind = run.end[1:][run.decomposed[1:] < 1.0]
        assert (behind < 402.0).all()
    assert run.charred[0] == 3
    assert 40.0 * run.end.mean() == pytest.approx(40.0 * 300 + 200 * 80 - 6000, abs=6.0)


def test_neighbours_that_make_up_for_it_are_counted() -> None:
    """A film of 50 W/K to 900 K refills 10 J/K many times in a step: it is held by 25 kW."""
    net = circuit([10.0], [0.5], [0.5], [INF], layers=[(0, 1, 400.0, 0, INF)],
                  decomposing=np.array([1e9]))  # fmt: skip
    around = faces_of(1, [{"node": 0, "film": 50.0, "temperature": 900.0, "gas": 1}])
    run = Run(net, around, 400.0, (0.0, 40.0, 10.0, 1e9))
    assert run.temperatures[:, 0] == pytest.approx(400.0, abs=2.0)
    assert run.heat[-1, 2] == pytest.approx(-50.0 * 500.0 * 40.0, rel=0.01)
    assert run.decomposed[0] == pytest.approx(-run.heat[-1, 2] / 1e9, rel=1e-9)


def test_what_eats_is_stepped_finely() -> None:
    """0.04 of the time that has passed at the longest, while something decomposes."""
    run = eaten(step=0.5, seconds=130.0, begin=100.0, growth=1.5)
    steps = np.diff(np.concatenate(([100.0], run.times)))
    eating = np.flatnonzero(np.diff(np.concatenate(([0.0], run.heat[:, 2]))) < -1e-9)
    later = eating[eating < run.count - 2] + 1
    assert later.size > 1
    assert steps[later] == pytest.approx(0.04 * run.times[later - 1], rel=1e-9)
    # never below the first step
    early = eaten(power=2000.0, step=0.2, seconds=1.3, growth=1.0, longest=5.0)
    assert np.diff(early.times[:5]) == pytest.approx(0.2)


THREE = {"capacity": [10.0] * 3, "inner": [0.5, 0.6, 0.7], "outer": [0.55, 0.65, 0.75],
         "contact": [0.1, 0.2, INF]}  # fmt: skip
HOT_AND_COLD = faces_of(3, [{"node": 0, "half": INNER, "film": 2.0, "temperature": 900.0, "gas": 1},
                            {"node": 2, "half": OUTER, "film": 1.0}])  # fmt: skip


def held_to(factors, **run) -> None:
    """A step of the charred wall is that of a wall whose halves have so many times the
    resistance."""
    net = circuit(**THREE, layers=[(0, 3, 5000.0, 0, run.pop("kept", INF))],
                  thickness=np.array([1e-3, 2e-3, 4e-3]), char_ratio=0.4)  # fmt: skip
    factors = np.array(factors)
    plain = net._replace(inner=net.inner * factors, outer=net.outer * factors)
    start = np.array([500.0, 400.0, 350.0])
    found = Run(net, HOT_AND_COLD, start, (0.0, 2.0, 2.0, 1e9), **run)
    assert found.end == pytest.approx(dense_step(plain, HOT_AND_COLD, start, 2.0)[1], rel=1e-10)


def test_char_conducts_less() -> None:
    """0.4 of what the plastic did: 2.5 times the resistance."""
    held_to([1.0, 1.0, 1.0])
    held_to([2.5, 1.0, 1.0], charred=[1], decomposed=[1.0, 0.0, 0.0])
    # a cell that is 30 % char: 0.7 + 0.3 · 2.5
    held_to([2.5, 1.45, 1.0], charred=[1], decomposed=[1.0, 0.3, 0.0])
    held_to([1.45, 1.15, 1.0], charred=[0], decomposed=[0.3, 0.1, 0.0])
    # and no further than the first that has none
    held_to([1.0, 1.0, 1.0], charred=[0], decomposed=[0.0, 0.3, 0.0])


def test_char_that_fire_eats_leaves_next_to_nothing() -> None:
    """Cells of 1, 2 and 4 mm; what is kept is counted from the front that is reached."""
    gone = NOTHING_LEFT
    # 1.5 mm kept of 1 + 2: three quarters of the second
    held_to([gone, 0.75 * 2.5 + 0.25 * gone, 1.0], charred=[2], decomposed=[1.0, 1.0, 0.0],
            kept=1.5e-3)  # fmt: skip
    # 2.5 mm: the second, and half of the first
    held_to([0.5 * 2.5 + 0.5 * gone, 2.5, 1.0], charred=[2], decomposed=[1.0, 1.0, 0.0],
            kept=2.5e-3)  # fmt: skip
    # a quarter of the third's 4 mm is kept already: 1 mm of 2.5
    held_to([gone, 0.75 * 2.5 + 0.25 * gone, 0.75 + 0.25 * 2.5], charred=[2],
            decomposed=[1.0, 1.0, 0.25], kept=2.5e-3)  # fmt: skip


def skin(limit, slope=0.1, excess=50.0, face=0):
    """Three cells at 300 K that nothing warms, and their peaks: on the first 50 K and a tenth of
    the surface's 300 K, on the second half of that, on the third none."""
    net = circuit([10.0] * 3, [0.5] * 3, [0.5] * 3, [0.0, 0.0, INF],
                  layers=[(0, 3, limit, face, INF)])  # fmt: skip
    around = faces_of(3, [{"node": 0, "half": INNER, "gas": 1}],
                      [excess, excess / 2, 0.0], [slope, slope / 2, 0.0])  # fmt: skip
    return Run(net, around, 300.0, (0.0, 1.0, 1.0, 1e9))


@pytest.mark.parametrize(
    ("limit", "face", "cells"),
    [(380.5, 0, 0), (379.5, 0, 1), (340.5, 0, 1), (339.5, 0, 2), (300.5, 0, 2),
     (350.5, -1, 0), (349.5, -1, 1)],
)  # fmt: skip
def test_a_skin_chars_at_its_peak(limit, face, cells) -> None:
    run = skin(limit, face=face)
    assert run.charred[0] == run.fronts[0, 0] == cells
    assert run.decomposed == pytest.approx([1.0] * cells + [0.0] * (3 - cells))
    assert run.end == pytest.approx(300.0)
    assert run.heat[0] == pytest.approx([0.0, 0.0, 0.0])


def test_a_march_ends_where_char_passes_its_limit() -> None:
    net = circuit([10.0] * 2, [0.5] * 2, [0.5] * 2, [0.0, INF], layers=[(0, 2, 340.0, 0, INF)])
    around = faces_of(2, [{"node": 0, "half": INNER, "gas": 1}], [50.0, 0.0], [0.0, 0.0])
    ended = Run(net, around, 300.0, (0.0, 9.0, 1.0, 1.0), limits=[1])
    assert (ended.count, ended.why) == (1, CHARRED)
    on = Run(net, around, 300.0, (0.0, 9.0, 1.0, 1.0), limits=[2])
    assert (on.count, on.why) == (9, REACHED)


def test_no_more_can_be_charred_than_a_layer_has() -> None:
    net = circuit(**THREE, layers=[(1, 3, 5000.0, 0, INF)])
    Run(net, HOT_AND_COLD, 300.0, (0.0, 1.0, 1.0, 1.0), charred=[2], decomposed=[0.0, 1.0, 1.0])
    with pytest.raises(ValueError, match="charred"):
        Run(net, HOT_AND_COLD, 300.0, (0.0, 1.0, 1.0, 1.0), charred=[3])


# -- cycles resolved in time


def test_a_wall_through_its_cycles() -> None:
    """Each interval is a dense step under its own film."""
    net = circuit(**THREE)
    film, gas = np.array([0.0, 4.0, 1.0]), np.array([300.0, 1500.0, 700.0])
    temperatures = np.array([320.0, 310.0, 300.0])
    around = faces_of(3, [{"node": 0, "half": INNER, "gas": 1}, {"node": 2, "half": OUTER,
                                                                "film": 0.5}])  # fmt: skip
    node, surfaces, each = temperatures.copy(), [], []
    for one in range(6):
        now = faces_of(3, [{"node": 0, "half": INNER, "film": film[one % 3],
                            "temperature": gas[one % 3]},
                           {"node": 2, "half": OUTER, "film": 0.5}])  # fmt: skip
        _, node = dense_step(net, now, node, 0.7)
        each.append(node)
        into = film[one % 3] * (gas[one % 3] - node[0]) / (1 + film[one % 3] * 0.5)
        surfaces.append(node[0] + 0.5 * into)
    begin = temperatures.copy()
    surface, hottest, mean = march_cycles(net, around, film, gas, 0.7, 2, temperatures)
    assert surface == pytest.approx(surfaces, rel=1e-10)
    assert temperatures == pytest.approx(each[-1], rel=1e-10)
    assert hottest == pytest.approx(np.max([begin, *each], axis=0), rel=1e-10)
    assert mean == pytest.approx(np.mean(each[3:], axis=0), rel=1e-10)
