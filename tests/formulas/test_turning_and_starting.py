import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from firstfire.errors import OutsideValidity
from firstfire.formulas import flywheel, spin_down
from firstfire.formulas.spin_down import Drag

drags = st.builds(Drag, st.floats(0.01, 1.0), st.floats(0.0, 5e-3))


@given(drags, st.floats(5.0, 500.0), st.floats(0.05, 0.95))
def test_time_and_speed_agree(drag: Drag, speed: float, part: float) -> None:
    time = part * spin_down.time_to_slow(1e-3, drag, speed)
    left = spin_down.speed_after(1e-3, drag, speed, time)
    assert 0 < left < speed
    assert spin_down.time_to_slow(1e-3, drag, speed, left) == pytest.approx(time, rel=1e-6)


@given(drags, st.floats(5.0, 500.0))
@example(Drag(0.5, 1.35e-10), 5.0)  # the closed form once lost all its figures here
@example(Drag(1.0, 1.9e-6), 500.0)  # on the series' side of the change-over
@example(Drag(1.0, 2.1e-6), 500.0)  # and just beyond it
def test_drag_eats_the_energy(drag: Drag, speed: float) -> None:
    # Work of the constant drag is at most all the energy, of both together exactly all.
    angle = spin_down.angle_to_slow(1e-3, drag, speed)
    energy = 0.5e-3 * speed**2
    steps = 2000
    time = spin_down.time_to_slow(1e-3, drag, speed)
    viscous = sum(
        drag.viscous * spin_down.speed_after(1e-3, drag, speed, (i + 0.5) * time / steps) ** 2
        for i in range(steps)
    )
    assert drag.constant * angle + viscous * time / steps == pytest.approx(energy, rel=1e-4)


@given(st.floats(0.05, 0.5), st.floats(2e-4, 3e-3))
def test_a_record_returns_its_drag(constant: float, viscous: float) -> None:
    drag = Drag(constant, viscous)
    end = 0.95 * spin_down.time_to_slow(1.2e-3, drag, 150.0)
    times = [end * i / 400 for i in range(401)]
    speeds = [spin_down.speed_after(1.2e-3, drag, 150.0, t) for t in times]
    fitted = spin_down.fit_drag(times, speeds, 1.2e-3)
    assert fitted.constant == pytest.approx(constant, rel=1e-3)
    assert fitted.viscous == pytest.approx(viscous, rel=1e-3)


def test_a_record_too_short_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="four readings"):
        spin_down.fit_drag([0.0, 0.1, 0.2], [100.0, 90.0, 80.0], 1e-3)
    steady = [0.01 * i for i in range(10)]
    with pytest.raises(OutsideValidity, match="too short"):
        spin_down.fit_drag(steady, [100.0] * 10, 1e-3)


def test_a_shaft_does_not_speed_up_by_drag() -> None:
    with pytest.raises(OutsideValidity, match="slowing"):
        spin_down.time_to_slow(1e-3, Drag(0.1, 0.0), 50.0, 60.0)


@given(st.floats(0.1, 10.0))
def test_speed_swing_holds_the_energy(energy: float) -> None:
    swing = flywheel.speed_swing(2e-3, 300.0, energy)
    held = 1e-3 * (swing.highest**2 - swing.lowest**2)
    assert held == pytest.approx(energy)
    fluctuation = (swing.highest - swing.lowest) / 300.0
    assert flywheel.inertia_for_swing(energy, 300.0, fluctuation) == pytest.approx(2e-3)


def test_a_swing_that_stops_the_shaft_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="heavier flywheel"):
        flywheel.speed_swing(1e-4, 10.0, 5.0)


def test_simpson_is_exact_for_cubics_and_wants_an_odd_count() -> None:
    values = [(0.1 * i) ** 3 for i in range(11)]
    assert flywheel.simpson(values, 0.1) == pytest.approx(0.25)
    with pytest.raises(OutsideValidity, match="odd number"):
        flywheel.simpson(values[:-1], 0.1)


def test_a_small_hole_doubles_the_stress_of_a_disc() -> None:
    solid = flywheel.disc_stress(0.12, 7850.0, 0.3, 400.0)
    drilled = flywheel.disc_stress(0.12, 7850.0, 0.3, 400.0, 0.12e-3)
    assert drilled == pytest.approx(2 * solid, rel=1e-5)
    # A thin ring tends to the hoop formula, density times rim speed squared.
    ring = flywheel.disc_stress(0.12, 7850.0, 0.3, 400.0, 0.1199)
    assert ring == pytest.approx(7850.0 * (400.0 * 0.06) ** 2, rel=2e-3)


def test_energy_swing_does_not_mind_where_the_cycle_starts() -> None:
    wave = [math.sin(0.1 * i) + 0.3 * math.sin(0.37 * i) for i in range(63)]
    swing = flywheel.energy_swing(wave, 0.1)
    assert flywheel.energy_swing(wave[20:] + wave[:20], 0.1) == pytest.approx(swing)
