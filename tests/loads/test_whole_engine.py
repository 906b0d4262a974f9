"""All cylinders on one shaft: phasing, momentum, work and mirror, for every layout."""

import cmath
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from tests.loads.small_engines import LAYOUTS, all_fired, engine_of, fired, gas_cycle

from firstfire.engine.geometry import firing_angles, mechanism, mechanism_layout
from firstfire.errors import OutsideValidity
from firstfire.formulas import slider_crank
from firstfire.loads import cylinder_loads, loads, mean_torque, shaking
from firstfire.loads.crank_layout import cylinder_places
from firstfire.loads.shaft import shaft

EVERY = pytest.mark.parametrize("layout", LAYOUTS)


def surging(angle):
    """A speed over shaft angle that repeats every turn, rad/s."""
    return 300.0 * (1 + 0.1 * np.sin(angle))


def phased(engine, speed):
    """Cycles of every cylinder for one speed of the shaft."""
    return [
        gas_cycle(fired, lambda own, late=late: speed(own + late)) for late in firing_angles(engine)
    ]


@EVERY
def test_mean_torque_is_the_gas_work_over_two_turns(layout: str) -> None:
    # Reference: the scalar formulas under SciPy's adaptive quadrature.
    engine = engine_of(layout)

    def work_by_angle(angle: float) -> float:
        made = mechanism(engine.cylinders[0])
        inline = angle + slider_crank.top_centre_angle(*made)
        slope = -slider_crank.piston_height_slope(inline, *made)
        return (float(fired(angle)) - 1e5) * math.pi / 4 * 0.044**2 * slope

    done, _ = quad(work_by_angle, -2 * math.pi, 2 * math.pi, points=[0.25], epsabs=1e-10)
    expected = len(engine.cylinders) * done / (4 * math.pi)
    assert mean_torque(loads(engine, all_fired(engine))) == pytest.approx(expected, rel=1e-7)


@EVERY
def test_what_the_case_feels_is_what_moves(layout: str) -> None:
    # Momentum: bearings, walls and heads together are the shaking force, and with their places
    # its moment; at changing speed too. The two are put together apart.
    engine = engine_of(layout, cylinder__offset=2e-3)
    on_shaft = shaft(engine, phased(engine, surging))
    force = sum(on_shaft.support_forces)
    moment = sum(
        s.place * f for s, f in zip(on_shaft.supports, on_shaft.support_forces, strict=True)
    )
    banks = mechanism_layout(engine).banks
    for own, bank, place in zip(on_shaft.cylinders, banks, cylinder_places(engine), strict=True):
        on_bore = (own.gas - 1j * own.side) * cmath.exp(1j * bank)
        force = force + on_bore
        moment = moment + place * on_bore
    assert force == pytest.approx(on_shaft.shaking_force, abs=1e-8)
    assert moment == pytest.approx(on_shaft.shaking_moment, abs=1e-9)


@EVERY
def test_shaking_of_the_cycle_is_that_of_the_turn(layout: str) -> None:
    engine = engine_of(layout)
    whole = loads(engine, all_fired(engine))
    shakes = shaking(engine, 100 * math.pi)
    biggest = max(shakes.largest_force, 1.0)
    assert whole.shaking_force == pytest.approx(shakes.largest_force, abs=1e-9 * biggest)
    assert whole.shaking_moment == pytest.approx(shakes.largest_moment, abs=1e-9 * biggest)


@EVERY
def test_torque_is_each_cylinders_own_at_its_phase(layout: str) -> None:
    engine = engine_of(layout)
    gases = all_fired(engine)
    whole = loads(engine, gases)
    total = np.zeros_like(whole.shaft_angle)
    for c, late in enumerate(firing_angles(engine)):
        own = cylinder_loads(engine, c, gases[c])
        place = (whole.shaft_angle - late + 2 * math.pi) % (4 * math.pi) - 2 * math.pi
        total += np.interp(place, own.angle, own.torque)
    assert whole.torque == pytest.approx(total, abs=2e-3 * np.max(np.abs(total)))


def test_two_equal_cylinders_of_an_even_twin_repeat_every_turn() -> None:
    engine = engine_of("parallel 360")
    torque = loads(engine, all_fired(engine)).torque
    half = torque.size // 2
    assert torque[:half] == pytest.approx(torque[half:-1], abs=1e-8)
    alone = loads(engine_of("single"), all_fired(engine_of("single")))
    both = loads(engine, all_fired(engine))
    assert mean_torque(both) == pytest.approx(2 * mean_torque(alone), rel=1e-9)


@given(st.floats(20, 160))
@settings(max_examples=15, deadline=None)
def test_mirrored_v_mirrors_its_torque(degrees: float) -> None:
    # The mirror image of a V on a common pin is itself with its cylinders changed about, run
    # backwards: with the same even pressure in both, torque is odd about half way between firings.
    def even(angle):
        return 1e5 + 2e6 * np.exp(-((angle / 0.6) ** 2))

    engine = engine_of("V 90", layout__v_angle=math.radians(degrees))
    whole = loads(engine, [gas_cycle(even, points=5761)] * 2)
    second = firing_angles(engine)[1]
    mirrored = (second - whole.shaft_angle) % (4 * math.pi)
    other = np.interp(mirrored, whole.shaft_angle, whole.torque)
    # straight lines between half-degree samples
    assert whole.torque == pytest.approx(-other, abs=3e-3 * np.max(np.abs(whole.torque)))


def test_rotation_does_not_matter() -> None:
    one, other = (
        loads(engine_of("V 45", layout__rotation=way), all_fired(engine_of("V 45")))
        for way in ("clockwise", "anticlockwise")
    )
    assert one.torque == pytest.approx(other.torque)
    assert one.main_bearings[0] == pytest.approx(other.main_bearings[0])


def test_one_cycle_a_cylinder_is_wanted() -> None:
    with pytest.raises(OutsideValidity, match="1 gas cycles don't fit"):
        loads(engine_of("V 90"), [gas_cycle(fired)])


def test_half_a_cycle_is_refused_for_the_shaft_but_not_for_the_cylinder() -> None:
    whole = gas_cycle(fired)
    kept = {name: getattr(whole, name)[400:] for name in whole.__dataclass_fields__}
    part = type(whole)(**kept)
    with pytest.raises(OutsideValidity, match="need all 720°"):
        loads(engine_of(), [part])
    assert cylinder_loads(engine_of(), 0, part).torque.size == part.angle.size
