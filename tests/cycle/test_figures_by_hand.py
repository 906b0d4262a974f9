"""The figures of a made-up cycle whose answers are known, and weights that integrate a parabola.

The second cylinder fires at 2 rad of the shaft. Its gas stands at 1 bar but for a hump, a parabola
of 20 bar and half a radian either side of 0.2 rad after top; its volume grows by 4 cm³ a radian all
along, as no piston does, so that work is pressure times turn.
"""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import layout
from firstfire.cycle.figures import cylinder_figures, is_inlet
from firstfire.cycle.friction_along import lift_along
from firstfire.cycle.health import both_sides, integral_weights
from firstfire.cycle.records import PassageSpec, ValveSpec
from firstfire.cycle.run import Trace

PHASE, SWEPT, GROWTH = 2.0, 50e-6, 4e-6
ANGLE = np.linspace(0.0, 4 * math.pi, 722)  # so that half a cycle is no whole number of steps
LOCAL = (ANGLE - PHASE + 2 * math.pi) % (4 * math.pi) - 2 * math.pi
FIRST_SUMS, PASSAGES = 3, 13
OWN_SUMS = FIRST_SUMS + layout.CYLINDER_SUMS  # of the second cylinder
EVENT = np.dtype([(f"reference_{name}", float) for name in ("mass", "fuel", "burned", "angle")])


def valve(name, opens, closes):
    return ValveSpec(name, "cylinder 2", "port", 18e-3, 16e-3, 4e-3, 4e-3, opens=opens,
                     closes=closes)  # fmt: skip


INLET = valve("inlet", PHASE - 2 * math.pi - 0.2, PHASE - math.pi + 0.7)
EXHAUST = valve("exhaust", PHASE + math.pi - 0.7, PHASE + 2 * math.pi + 0.2)
SPEC = SimpleNamespace(
    cylinders=[SimpleNamespace(name="cylinder 1", phase=9.0),
               SimpleNamespace(name="cylinder 2", phase=PHASE)], valves=[INLET, EXHAUST],
    passages=[PassageSpec("ring", "cylinder 2", "case", 1e-8),
              PassageSpec("odd", "case", "cylinder 2", 1e-8),
              PassageSpec("breather", "case", "outside", 1e-8)],
    ambient_pressure=86100.0, ambient_temperature=300.0, water=0.0,
)  # fmt: skip
ENGINES = [{
    "cylinders": [{"displacement": 1.0}, {"displacement": SWEPT}], "cylinder_sums_at": FIRST_SUMS,
    "passage_sums_at": PASSAGES,
    "gas": {"lower_heating_value": 44e6, "stoichiometric_air_fuel_ratio": 14.7},
}]  # fmt: skip
# Mass, fuel, burned, enthalpy and mass that went back, through each opening, mg.
PASSED = {0: (40, 2, 1, 0, 5), 1: (-41, 0, -35, 0, 3), 2: (1.5, 0, 0, 0, 0), 3: (0.5, 0, 0, 0, 0),
          4: (9, 0, 0, 0, 0)}  # fmt: skip


def hump(local):
    """The hump's pressure over 1 bar, and its area from -∞ to there, Pa and Pa rad."""
    x = np.clip((local - 0.2) / 0.5, -1.0, 1.0)
    return 2e6 * (1 - x**2), 1e6 * (x - x**3 / 3 + 2 / 3)


def beside(own):
    """A column of the first cylinder, of which nothing is asked, and its own."""
    return np.stack([np.zeros(len(own)), own], axis=1)


def trace_and_curves(air_at_end: float = 0.9e-6):
    pressure, area = hump(LOCAL)
    fires = int(np.searchsorted(ANGLE, PHASE)) - 1
    values = np.full((len(ANGLE), 40), 7.0)
    start = hump(LOCAL[0])[1]
    turned = np.where(PHASE + 2 * math.pi < ANGLE, hump(2 * math.pi)[1], 0.0)
    values[:, OWN_SUMS] += GROWTH * (1e5 * ANGLE + area + turned - start)
    for at, joules in enumerate((1.0, 2.0, 3.0, 4.0), start=1):
        values[-1, OWN_SUMS + at] += joules
    for passage, amounts in PASSED.items():
        at = PASSAGES + passage * layout.PASSAGE_SUMS
        values[-1, at : at + layout.PASSAGE_SUMS] += np.array(amounts) * 1e-6
    events = np.zeros((len(ANGLE), 2), EVENT)
    events[: fires + 1, 1] = (40e-6, 2e-6, 4e-6, PHASE - math.pi + 0.7)
    events[fires + 1 :, 1] = (99e-6, 1e-6, 1e-6, 0.0)
    burned = np.interp(LOCAL, [-7.0, 0.0, 1.0, 3.0, 3.5, 7.0], [0.0, 0.0, 0.9, 0.9, 0.0, 0.0])
    mass = np.full((len(ANGLE), 2), 3e-6)
    top = int(np.argmin(LOCAL))
    gone = np.full((len(ANGLE), 2), 2e-6)
    curves = SimpleNamespace(
        angle=ANGLE, pressure=beside(1e5 + pressure), volume=beside(GROWTH * (10 + LOCAL)),
        temperature=beside(500 + 100 * np.cos(LOCAL / 4)), burned_fraction=beside(burned),
        burned_temperature=beside(np.where(burned > 0, 2000 + burned * 100, np.nan)),
        mass=mass, mass_fuel=np.full((len(ANGLE), 2), 0.1e-6), mass_burned=gone,
    )  # fmt: skip
    if air_at_end != 0.9e-6:
        mass[-1] += air_at_end - 0.9e-6
        mass[fires] = 37.1e-6  # 35 mg of it air
    assert curves.mass[top, 1] == 3e-6
    return SimpleNamespace(values=values, events=events), curves


def figures(**how):
    return cylinder_figures(SPEC, ENGINES, *trace_and_curves(**how), 1)


def test_the_peak_lies_between_two_steps() -> None:
    found = figures()
    assert found.peak_pressure == pytest.approx(21e5, rel=1e-9)
    assert found.peak_angle == pytest.approx(0.2, abs=1e-9)
    assert found.peak_temperature == pytest.approx(600.0, rel=1e-5)
    assert found.burned_peak_temperature == pytest.approx(2090.0)


def test_work() -> None:
    """The hump is 2/3 · 20 bar · 1 rad; in all 4e-6 · (1e5 · 4π + 1.3333e6) = 10.360 J."""
    found, of_hump = figures(), 4e6 / 3
    assert found.work == pytest.approx(GROWTH * (1e5 * 4 * math.pi + of_hump), rel=1e-9)
    assert found.imep_net == pytest.approx(found.work / SWEPT, rel=1e-9)
    gross = GROWTH * (1e5 * 2 * math.pi + of_hump) / SWEPT
    assert found.imep_gross == pytest.approx(gross, rel=1e-9)
    assert found.pmep == pytest.approx(GROWTH * 1e5 * 2 * math.pi / SWEPT, rel=1e-9)


def test_burn() -> None:
    """0.9 burns evenly over the radian after top: half of it after half a radian."""
    assert figures().ca50 == pytest.approx(0.5, abs=1e-9)


def test_filling() -> None:
    """50 cm³ at 1 kg/m³ are 50 mg: 40 - 2 - 1 = 37 mg of air came in; 5 of 45 went back.

    Air's molar mass of 28.96 to 28.97 g gives 287.0 to 287.1 J/(kg K).
    """
    found = figures()
    assert found.volumetric_efficiency == pytest.approx(0.74, rel=1e-3)
    assert found.spat_back == pytest.approx(5 / 45)
    # 40 - 2 - 4 = 34 mg of fresh air, 3 - 0.1 - 2 = 0.9 mg of it left from before.
    assert found.filling_trapped == pytest.approx(33.1 / 50, rel=1e-3)
    assert found.trapped_mass == pytest.approx(40e-6)
    assert found.residual_fraction == pytest.approx(0.1)
    assert found.trapped_phi == pytest.approx(2 / 34 * 14.7)
    assert found.inlet_shut == pytest.approx(0.7)
    # Out through the ring 1.5 mg, in through the other 0.5 mg.
    assert found.leaked_fraction == pytest.approx(1 / 40)


def test_filling_of_a_cycle_that_does_not_repeat() -> None:
    """Air of 35 mg as the spark finds it, in a least of 10 - 2π over a most of 10 + 2π."""
    left = 35 * (10 - 2 * math.pi) / (10 + 2 * math.pi)
    found = figures(air_at_end=10e-6)
    # The least and the greatest volume lie within a step of those.
    assert found.filling_trapped == pytest.approx((34 - left) / 50, rel=2e-2)


def test_heat() -> None:
    """1, 2, 3, 4 J of the 2 mg · 44 MJ/kg = 88 J of its fuel."""
    found = figures()
    assert found.heat == pytest.approx((1.0, 2.0, 3.0, 4.0))
    assert found.heat_fraction == pytest.approx((1 / 88, 2 / 88, 3 / 88, 4 / 88))


def test_which_valve_lets_in() -> None:
    assert is_inlet(INLET, PHASE)
    assert not is_inlet(EXHAUST, PHASE)
    for phase in np.linspace(0.0, 12.0, 9):
        later = [valve("", v.opens - PHASE + phase, v.closes - PHASE + phase)
                 for v in (INLET, EXHAUST)]  # fmt: skip
        assert [is_inlet(each, phase) for each in later] == [True, False]
    late = 4 * math.pi
    assert is_inlet(valve("inlet", INLET.opens + late, INLET.closes + late), PHASE)
    assert is_inlet(valve("suction", None, None), PHASE)


def test_lift_of_a_cam_along_the_shaft() -> None:
    """A tent of 4 mm from 1 to 3 rad: 2 mm at 1.5, 4 at 2, 1 at 2.75, and a cycle later alike."""
    law = np.array([0.0, 0.5, 1.0, 0.5, 0.0])
    tent = ValveSpec("inlet 1", "cylinder 1", "port", 18e-3, 16e-3, 4e-3, 4e-3, opens=1.0,
                     closes=3.0, lift_law=law)  # fmt: skip
    at = np.array([0.5, 1.5, 2.0, 2.75, 3.5])
    for angles in (at, at + 4 * math.pi, at - 4 * math.pi):
        assert lift_along(tent, angles) == pytest.approx([0.0, 2e-3, 4e-3, 1e-3, 0.0], abs=1e-9)
    assert not lift_along(valve("suction", None, None), at).any()


@pytest.mark.parametrize("times", [
    [0.0, 1.0, 3.0], [0.0, 2.0, 3.0, 4.0], [0.0, 1.0, 1.5, 3.5, 4.0],
    [0.0, 0.5, 2.0, 3.0, 3.7, 5.0],
])  # fmt: skip
def test_weights_are_exact_for_parabolas(times: list[float]) -> None:
    """1, t and t² over uneven steps, even and odd in number."""
    time = np.array(times)
    weights = integral_weights(time)
    for power in (0, 1, 2):
        exact = time[-1] ** (power + 1) / (power + 1)
        assert weights @ time**power == pytest.approx(exact, rel=1e-12)


def test_weights_take_each_smooth_stretch_alone() -> None:
    """A step at 2 s from t² to 10: 8/3 before and 10 · 3 after."""
    time = np.array([0.0, 1.0, 2.0, 2.0, 3.0, 5.0])
    values = np.array([0.0, 1.0, 4.0, 10.0, 10.0, 10.0])
    assert integral_weights(time) @ values == pytest.approx(8 / 3 + 30)


@pytest.mark.parametrize(
    "times", [[0.0, 1.0, 1.05], [0.0, 0.05, 1.0], [0.0, 1.0, 2.0, 2.05], [0.0, 2.0]]
)
def test_weights_of_steps_that_are_too_unlike_are_of_chords(times: list[float]) -> None:
    """Straight lines stay exact, and no weight is negative."""
    time = np.array(times)
    weights = integral_weights(time)
    assert weights.sum() == pytest.approx(time[-1])
    assert weights @ time == pytest.approx(time[-1] ** 2 / 2)
    assert (weights > 0).all()


def test_an_event_is_seen_from_both_sides() -> None:
    events = np.zeros((4, 1), np.dtype([(n, int) for n in ("burning", "closed", "fired")]))
    events["closed"][2:] = 1
    trace = Trace(np.arange(4.0), np.arange(8.0).reshape(4, 2), events)
    found = both_sides(trace)
    assert found.time.tolist() == [0.0, 1.0, 1.0, 2.0, 3.0]
    assert found.events["closed"][:, 0].tolist() == [0, 0, 1, 1, 1]
