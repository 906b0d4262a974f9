"""Histories: heat is kept to rounding, runs can be cut, stopped and carried on."""

import math

import numpy as np
import pytest

from firstfire.errors import OutsideValidity, Stopped
from firstfire.formulas.solid import Solid
from firstfire.heat.advance import advance
from firstfire.heat.exposure import Exposure
from firstfire.heat.gas_side import steady_gas
from firstfire.heat.history import cold, resumed
from firstfire.heat.layers import Layer
from firstfire.heat.network import Link, Lump, Network
from firstfire.heat.running import resting
from firstfire.heat.stack import flat_stack

START = 293.15


@pytest.mark.parametrize("name", ["wren", "heron", "plover"])
def test_heat_received_is_heat_stored(demo, name):
    one = demo(name)
    history = advance(cold(one.network, START), one.exposure, 120.0)
    history = advance(history, resting(one.engine, 0, one.network), 400.0)
    received = history.received.sum(axis=1)
    assert history.stored == pytest.approx(received, rel=1e-9, abs=1e-6)
    assert history.received[-1, 0] > 0  # gas gave
    assert history.received[-1, 2] < 0  # air took


def test_sources_are_booked_in_full(demo):
    one = demo("wren")
    history = advance(cold(one.network, START), one.exposure, 50.0)
    assert history.received[-1, 1] == pytest.approx(72.0 * 50.0, rel=1e-9)


def test_a_run_cut_in_two_is_the_same_run(demo):
    one = demo("plover")
    whole = advance(cold(one.network, START), one.exposure, 60.0)
    first = advance(cold(one.network, START), one.exposure, 7.0)
    second = advance(first, one.exposure, 60.0)
    assert first.seconds[-1] == 7.0
    assert second.seconds[: first.seconds.size] == pytest.approx(first.seconds)
    rise = np.ptp(whole.temperatures[-1])
    assert _apart(second, whole) < 1e-3 * rise


def test_what_was_given_stays_as_it_is(demo):
    one = demo("plover")
    first = advance(cold(one.network, START), one.exposure, 5.0)
    kept = first.temperatures.copy()
    advance(first, one.exposure, 50.0)
    assert (first.temperatures == kept).all()
    assert first.seconds[-1] == 5.0


def test_a_run_is_carried_on_from_its_last_state(demo):
    one = demo("heron")
    whole = advance(cold(one.network, START), one.exposure, 20.0)
    rest = resting(one.engine, 0, one.network)
    onwards = advance(whole, rest, 40.0)
    again = advance(resumed(one.network, whole.end), rest, 40.0)
    assert again.seconds[0] == 20.0
    assert again.temperatures[-1] == pytest.approx(onwards.temperatures[-1], rel=1e-9)
    assert (again.charred[-1] == onwards.charred[-1]).all()


def test_stop_is_honoured_and_progress_told(demo):
    one = demo("wren")
    asked, told = [], []

    def stop():
        asked.append(True)
        return len(asked) == 2

    with pytest.raises(Stopped):
        advance(cold(one.network, START), one.exposure, 600.0, stop=stop, on_progress=told.append)
    assert len(asked) == 2
    assert 0 < told[0] < told[1] < 1
    told.clear()
    advance(cold(one.network, START), one.exposure, 600.0, on_progress=told.append)
    assert told[-1] == 1.0
    assert told == sorted(told)


def test_time_does_not_run_backwards_nor_for_ever(demo):
    one = demo("wren")
    history = advance(cold(one.network, START), one.exposure, 2.0)
    for until in (1.0, 1e6):
        with pytest.raises(OutsideValidity, match="until"):
            advance(history, one.exposure, until)
    assert advance(history, one.exposure, 2.0) is history


def test_coarse_steps_agree_with_fine_ones(demo, monkeypatch):
    one = demo("heron")
    usual = advance(cold(one.network, START), one.exposure, 30.0)
    monkeypatch.setattr("firstfire.heat.advance.STEP_GROWTH", 1.01)
    fine = advance(cold(one.network, START), one.exposure, 30.0)
    assert fine.seconds.size > 3 * usual.seconds.size
    rise = np.ptp(fine.temperatures[-1])
    assert _apart(usual, fine) < 5e-3 * rise


def _apart(one, other):
    """Largest difference of two ends, K, of all nodes but those of walls that fire eats at.

    There the front may stand a cell or two further, and with it a steep profile: how deep it has
    come is held to a tenth and a cell instead, inside the third that its depth is known to.
    """
    ends = one.temperatures[-1], other.temperatures[-1]
    network, apart = other.network, 0.0
    eaten = set()
    for number, (name, place) in enumerate(network.charring):
        stack, counts = network.stack(name), (one.charred[-1, number], other.charred[-1, number])
        if max(counts) and place == 0:
            eaten.add(name)
            found, wanted = (stack.size[:count].sum() for count in counts)
            assert found == pytest.approx(wanted, rel=0.1, abs=float(stack.size[max(counts)]))
    for stack in network.stacks:
        first = network.first_cells[stack.name]
        if stack.name not in eaten:
            here = slice(first, first + stack.cells)
            apart = max(apart, float(np.max(np.abs(ends[0][here] - ends[1][here]))))
    lumps = slice(network.cells, None)
    return max(apart, float(np.max(np.abs(ends[0][lumps] - ends[1][lumps]))))


def test_cold_engine_at_rest_stays_as_it_is(demo):
    one = demo("wren")
    history = advance(cold(one.network, START), resting(one.engine, 0, one.network), 3600.0)
    assert history.temperatures[-1] == pytest.approx(START, abs=1e-6)


def test_after_a_night_all_is_at_air_again(demo):
    one = demo("wren")
    history = advance(cold(one.network, START), one.exposure, 20.0)
    history = advance(history, resting(one.engine, 0, one.network), 12 * 3600.0)
    assert history.temperatures[-1] == pytest.approx(START, abs=0.5)


def test_heat_soaks_into_plastic_after_the_stop(demo):
    one = demo("wren")
    history = advance(cold(one.network, START), one.exposure, 5.0)
    last_crown_cell = one.network.first_cells["crown"] + one.network.stack("crown").cells - 1
    before = history.temperatures[-1, last_crown_cell]
    history = advance(history, resting(one.engine, 0, one.network), 60.0)
    after = history.temperatures[history.seconds > 5.0, last_crown_cell]
    assert after.max() > before + 10.0
    assert after[-1] < after.max() or history.seconds[-1] < 100


def test_two_lumps_even_out_as_they_must():
    # (T1 - T2) falls with exp(-G (1/C1 + 1/C2) t), the mean stays
    stack = flat_stack("bystander", (Layer("bystander", Solid(1.0, 1e3, 1e3), 1e-3),), 1e-4)
    lumps = (Lump("a", 10.0, 0.0, 1e-3), Lump("b", 30.0, 0.0, 1e-3))
    network = Network((stack,), lumps, (Link("a", 0, "b", 0.5),))
    history = cold(network, 300.0)
    history.temperatures[0, network.lump_nodes["a"]] = 400.0
    history = advance(history, Exposure(), 20.0)
    a, b = history.temperatures[-1, -2:]
    assert a - b == pytest.approx(100.0 * math.exp(-0.5 * (1 / 10 + 1 / 30) * 20.0), rel=1e-3)
    assert 10 * a + 30 * b == pytest.approx(10 * 400.0 + 30 * 300.0, rel=1e-9)


def test_chains_and_lumps_are_solved_as_a_dense_system_would(demo):
    one = demo("wren")
    circuit, nodes = one.network.circuit, one.network.nodes
    matrix = np.zeros((nodes, nodes))
    cells = circuit.inner.size

    def join(a, b, conductance):
        matrix[a, a] -= conductance
        matrix[b, b] -= conductance
        matrix[a, b] += conductance
        matrix[b, a] += conductance

    for cell in range(cells - 1):
        resistance = circuit.outer[cell] + circuit.contact[cell] + circuit.inner[cell + 1]
        join(cell, cell + 1, 1 / resistance)
    for a, b, g in zip(circuit.link_from, circuit.link_to, circuit.link_conductance, strict=True):
        join(a, b, g)
    first = one.network.first_cells["crown"]
    history = cold(one.network, 300.0)
    history.temperatures[0, first : first + 10] = 800.0
    history = advance(history, Exposure(), 5.0)
    # exact: symmetric in sqrt(C) T, so by its eigenvectors
    root = np.sqrt(circuit.capacity)
    values, vectors = np.linalg.eigh(matrix / root[:, None] / root[None, :])
    start = vectors.T @ (root * (history.temperatures[0] - 300.0))
    exact = vectors @ (np.exp(values * 5.0) * start) / root
    largest = exact.max()
    assert history.temperatures[-1] - 300.0 == pytest.approx(exact, abs=3e-3 * largest)


def test_run_ten_rest_sixty_ratchets_up_and_keeps_known_swings(demo):
    one = demo("plover")
    history, rest = cold(one.network, START), resting(one.engine, 0, one.network)
    peaks = []
    for turn in range(4):
        history = advance(history, one.exposure, 70.0 * turn + 10.0)
        peaks.append(history.temperatures[-1, one.network.lump_nodes["skirt"]])
        history = advance(history, rest, 70.0 * (turn + 1))
    assert peaks == sorted(peaks)
    fired = [phase for phase in history.phases if phase.exposure is one.exposure]
    assert fired[-1].swings["liner"] is fired[0].swings["liner"]


def test_hotter_gas_never_cools_anything():
    stack = flat_stack("wall", (Layer("wall", Solid(0.2, 1270.0, 1250.0), 5e-3),), 1.0)
    network = Network((stack,))
    mild, hot = (
        advance(cold(network, START), Exposure(gas={"wall": steady_gas(200.0, t)}), 10.0)
        for t in (700.0, 900.0)
    )
    assert (hot.temperatures[-1] >= mild.temperatures[-1]).all()
