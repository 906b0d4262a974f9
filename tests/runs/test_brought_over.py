"""Over the top or not: against energy by hand, a march of its own, by property, for the engines."""

import math
from functools import cache
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from scipy.integrate import solve_ivp

import firstfire as ff
from firstfire.bench.gauge import _slowed
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.formulas.slider_crank import piston_height, piston_height_slope, top_centre_angle
from firstfire.runs import brought_over, over_the_top
from firstfire.runs.bout import turned
from firstfire.runs.brought_over import turned_over
from firstfire.runs.comes_over import comes_over
from firstfire.runs.cranking import gauge_reading
from firstfire.runs.over_the_top import helped_over
from firstfire.runs.spun import Spun, starter_line
from firstfire.runs.stalled import Stalled
from firstfire.runs.steadily import kept_turning, slowest_top, steadily

ENGINES = Path(__file__).resolve().parents[2] / "engines"
RPM = math.pi / 30
CYCLE = 4 * math.pi


@cache
def engine(name, **changes):
    read = ff.read(ENGINES / f"{name}.toml")
    return resolve(with_values(read, {k.replace("__", "."): v for k, v in changes.items()}))


@cache
def tried(name, **changes):
    plain = engine(name, **changes)
    return plain, turned_over(plain, turned(plain, "cranked", plain.use.cranking_speed).point)


LIGHT = {"starter__stall_torque": "4 N*m", "starter__inertia": "0.00001 kg*m^2"}


def test_energy_of_a_compression_by_hand():
    """10 N·m times the sine, before 360°: 20 J from bottom to top, and friction of 1 N·m π more."""
    angle = np.linspace(0.0, CYCLE, 2001)
    torque = np.where((angle > math.pi) & (angle < 3 * math.pi), 10 * np.sin(angle), 0.0)
    point = SimpleNamespace(
        friction=SimpleNamespace(torque=np.ones(2001)),
        fired=SimpleNamespace(
            cycle=SimpleNamespace(curves=SimpleNamespace(angle=angle - CYCLE, gas_torque=torque))
        ),
    )
    assert brought_over._taken(point, 2 * math.pi) == pytest.approx(20.0 + math.pi, rel=1e-3)
    assert brought_over._taken(point, 0.0) == pytest.approx(math.pi, rel=1e-3)


@pytest.mark.parametrize(
    ("speeds", "found"),
    [
        ((0.0, 3.0, 40.0, 2.0, 30.0), False), ((0.0, 3.0, 40.0, 0.0, 30.0), True),
        ((0.0, 3.0, -20.0, 30.0), True), ((0.0, 0.0), True),
    ],
)  # fmt: skip
def test_what_stands_or_is_thrown_back_once_it_turned_stands(speeds, found):
    shaft = Stalled()
    shaft.feel(np.array(speeds), let_off=False)
    assert shaft.over is not found


def by_a_march_of_its_own(plain, shaft, bottom_speed):
    """Speed at the firing top, rad/s, and the mean speed before it that a leak goes by.

    Polytropic gas from the inlet's closing, marched by SciPy.

    Exponent 1.3, no leak; the inlet is taken to shut 40° after bottom, as the gas of a slow engine
    finds it; friction of 0.8 N·m. Crank and rotor are one while it is slowed.
    """
    cylinder = plain.cylinders[0].cylinder
    size = cylinder.stroke / 2, plain.cylinders[0].rod.length, cylinder.offset
    area = math.pi / 4 * cylinder.bore**2
    swept = area * cylinder.stroke
    clearance = swept / (cylinder.compression_ratio - 1)
    top = top_centre_angle(*size)
    highest = piston_height(top, *size)

    def volume(angle):
        return clearance + area * (highest - piston_height(top + angle, *size))

    shut = math.radians(-140)

    def pressure(angle):
        return 1e5 * (volume(shut) / volume(angle)) ** 1.3 if angle > shut else 1e5

    def rates(_, state):
        angle, speed = state
        gas = -area * (pressure(angle) - 1e5) * piston_height_slope(top + angle, *size)
        pulls = max(shaft.starter_stall * (1 - speed / shaft.starter_free), 0.0)
        return [speed, (pulls + gas - 0.8) / (shaft.inertia + shaft.rotor)]

    def at_top(_, state):
        return state[0]

    at_top.terminal = True
    ends = solve_ivp(
        rates, (0, 1), [-math.pi, bottom_speed], events=at_top, rtol=1e-8, max_step=1e-3
    )
    time = np.linspace(0.0, ends.t[-1], 4000)
    pressed = np.array([pressure(angle) for angle in np.interp(time, ends.t, ends.y[0])])
    speed = np.interp(time, ends.t, ends.y[1])
    leaks_by = np.trapezoid(pressed * speed, time) / np.trapezoid(pressed, time)
    return float(ends.y[1, -1]), float(leaks_by)


def test_wrens_drill():
    """50 N·m at a stand are five times the peak: over from any stand.

    By hand: 10 bar on 12.6 cm² at a throw of 18 mm and a leverage of about 0.45 is 10 N·m. The
    drill's rotor of 0.020 kg·m² is held to 360 rpm; the crank, of 0.0014 kg·m², is thrown ahead of
    it by each expansion, through the clutch, and slowed to it by the next compression.
    """
    plain, over = tried("wren")
    assert over.over
    assert over.from_rest
    assert over.peak_torque == pytest.approx(10.0, rel=0.15)
    assert over.speed == pytest.approx(360 * RPM, rel=0.02)
    assert over.crank_speed > 1.2 * over.speed
    own = 0.020 * over.speed**2 + 0.0014 * over.crank_speed**2
    assert over.stored_energy == pytest.approx(0.5 * own, rel=0.02)
    assert over.slowest < over.at_top < over.speed
    at_top, leaks_by = by_a_march_of_its_own(plain, over.shaft, over.shaft.starter_free)
    # exponents of 1.25 to 1.4 and an inlet shut 30 to 50° late move it by 4 %
    assert over.at_top == pytest.approx(at_top, rel=0.05)
    assert _slowed(plain, 360 * RPM, 0) == pytest.approx(leaks_by / (360 * RPM), rel=0.03)


def test_herons_mains_drill_passes_a_peak_it_could_not_hold():
    """15 N·m at a stand, 18 to 19 N·m at the peak: 21 J against 15 N·m over half a turn, 47 J."""
    _, over = tried("heron")
    assert over.stall_torque < over.peak_torque
    assert over.compression_energy == pytest.approx(21.0, rel=0.05)
    assert over.over
    assert over.from_rest


def test_plovers_rope():
    """200 N on 22.5 mm: 4.5 N·m below the peak of 5.5; the wheel carries it, five turns a pull.

    0.7 m of rope on 45 mm are 4.95 turns and one compression a turn; it coasts on for some.
    """
    _, over = tried("plover")
    assert over.stall_torque == pytest.approx(4.5)
    assert over.stall_torque < over.peak_torque
    assert over.over
    assert 5 <= over.pulls <= 20


def test_sixty_newtons_needed_a_run_up():
    """1.35 N·m over half a turn are 4.2 J, and compression takes 6.4 J; over a whole turn 8.5 J."""
    _, over = tried("plover", starter__pull_force="60 N")
    assert over.stall_torque == pytest.approx(1.35)
    assert over.stall_torque * math.pi < over.compression_energy < over.stall_torque * 2 * math.pi
    assert over.over
    assert not over.from_rest


def test_thirty_newtons_do_not_though_the_compression_leaks_away_in_the_end():
    """0.675 N·m over a whole turn are 4.2 J of 6.4 J."""
    _, over = tried("plover", starter__pull_force="30 N")
    assert not over.over
    assert over.lacking_torque > 0.2


def test_a_rope_does_not_bring_wren_over_and_what_is_offered_does():
    plain, over = tried("wren", starter__kind="rope")
    assert not over.over
    assert over.lacking_torque > 0
    assert (over.speed, over.slowest, over.at_top, over.gauge) == (0.0, 0.0, 0.0, ())
    offered = helped_over(plain)
    assert offered
    for change in offered:
        changed = with_values(
            with_values(ff.read(ENGINES / "wren.toml"), {"starter.kind": "rope"}), change.set
        )
        assert comes_over(resolve(changed)), change.text


def test_the_torque_lacking_brings_it_over():
    """Of 12.2 J and a friction of 0.4 N·m or so: 2 π less a little with the run-up of a turn and
    three quarters is what 4 N·m of a shaft without a wheel can't store past the last half turn."""
    plain, over = tried("wren", **LIGHT)
    assert not over.over

    def with_torque(torque):
        stronger = plain.starter.model_copy(update={"stall_torque": torque})
        return comes_over(plain.model_copy(update={"starter": stronger}))

    enough = over.stall_torque + over.lacking_torque
    assert with_torque(1.01 * enough)
    assert not with_torque(0.97 * enough)
    assert enough < over.peak_torque


def test_a_hand_brings_a_leaky_engine_over_that_it_would_not_bring_over_tight():
    """5 N·m against 9.4 N·m of peak: over as it leaks, at its own slow pace."""
    leaky, over = tried("wren", starter__kind="hand", use__cranking_speed="100 rpm")
    assert over.over
    assert over.slowest < 0.2 * over.speed
    parts = leaky.cylinders[0]
    tight = parts.leak.model_copy(
        update={name: 0.02 * getattr(parts.leak, name) for name in type(parts.leak).model_fields}
    )
    assert not comes_over(
        leaky.model_copy(update={"cylinders": (parts.model_copy(update={"leak": tight}),)})
    )


def test_more_torque_never_slows_it_at_the_top():
    plain = engine("wren")
    tops = []
    for torque in (12.0, 20.0, 35.0, 60.0):
        starter = plain.starter.model_copy(update={"stall_torque": torque, "inertia": 0.004})
        tops.append(steadily(plain.model_copy(update={"starter": starter})).at_top)
    assert tops == sorted(tops)


def test_decompression_gives_a_run_up():
    """4 N·m don't bring it over; let off until 250 of its 450 rpm, the heavy wheel has 14 J stored
    at 350 rpm, ½ 0.0205 37², for the 12.2 J that the shut compression takes."""
    assert not tried("wren", **LIGHT)[1].over
    heavy = {**LIGHT, "flywheel__inertia": "0.02 kg*m^2"}
    let_off = {"starter__decompression": "true", "starter__decompression_until": "250 rpm"}
    assert comes_over(engine("wren", **heavy, **let_off))
    assert not comes_over(engine("wren", **LIGHT, **let_off))


def test_a_battery_that_sags_gives_less_at_a_stand():
    """50 N·m at 450 rpm on 18 V are 0.1375 ohm: behind 0.0458 more, a third, it has 37.5 N·m."""
    plain = engine("wren")
    starter = plain.starter.model_copy(
        update={"stall_torque": 50.0, "no_load_speed": 450 * RPM, "ratio": 1.0,
                "battery_voltage": 18.0, "battery_resistance": 0.04584}
    )  # fmt: skip
    sags = plain.model_copy(update={"starter": starter})
    over = turned_over(sags, turned(sags, "x", 360 * RPM).point, gauged=False)
    assert over.stall_torque == pytest.approx(37.5, rel=1e-3)


@pytest.mark.parametrize("without", ["stall_torque", "no_load_speed"])
def test_a_starter_without_torque_or_speed_gives_nothing(without):
    """A row of one's own may say so."""
    plain = engine("wren")
    starter = plain.starter.model_copy(update={without: 0.0})
    nothing = plain.model_copy(update={"starter": starter})
    over = turned_over(nothing, turned(plain, "x", 360 * RPM).point)
    assert not over.over
    assert over.speed == 0.0
    assert math.isfinite(over.lacking_torque)
    assert steadily(nothing) is None


def test_each_cylinder_has_its_gauge_and_the_leaky_one_shows_less():
    plain = engine("heron")
    one, other = plain.cylinders
    leaky = other.model_copy(
        update={"leak": other.leak.model_copy(update={"ring": other.leak.ring + 1e-6})}
    )
    plain = plain.model_copy(update={"cylinders": (one, leaky)})
    shaft = starter_line(plain)
    dry, leaking = (gauge_reading(plain, shaft, 2.0, cylinder=row) for row in (0, 1))
    assert leaking < 0.97 * dry


def test_a_heavy_wheel_turns_where_the_starters_line_meets_the_mean_torque():
    """T (1 - ω/ω_f) is what the cycle takes at ω, of a wheel too heavy to dip.

    From a stand it would want longer than 3 s for its first cycle: 2 rad/s² over 12.6 rad.
    """
    plain = engine("wren", flywheel__inertia="1 kg*m^2", starter__coupling="rigid",
                   starter__stall_torque="2 N*m", starter__no_load_speed="600 rpm",
                   use__cranking_speed="360 rpm")  # fmt: skip
    meets = 360 * RPM
    for _ in range(20):
        takes = -turned(plain, "x", meets).point.brake_torque
        meets += 0.5 * (600 * RPM * (1 - takes / 2.0) - meets)
    slow = plain.model_copy(update={"use": plain.use.model_copy(update={"cranking_speed": meets})})
    found = kept_turning(slow)
    assert found.last.mean_speed == pytest.approx(meets, rel=0.015)
    assert found.at_top == pytest.approx(meets, rel=0.02)


def test_a_trigger_is_let_back_to_what_was_asked_for():
    for name in ("wren", "heron", "plover"):
        plain = engine(name)
        found = steadily(plain)
        assert found.shaft.starter_free < starter_line(plain).starter_free
        turns = found.last.rotor if found.shaft.rotor else found.last.speed
        mean = np.trapezoid(turns, found.last.time) / np.ptp(found.last.time)
        assert mean == pytest.approx(plain.use.cranking_speed, rel=0.011)
        assert np.ptp(found.last.angle) == pytest.approx(CYCLE, rel=1e-3)


def test_the_slowest_of_its_tops_counts():
    """Of a twin with tops at 0 and 360°: speeds of 5 and 3 rad/s there."""
    angle = np.linspace(-math.pi, CYCLE - math.pi, 4001)
    speed = 4.0 + np.cos(angle / 2)
    spun = Spun(angle, angle, speed, speed, speed[:, None])
    assert slowest_top(engine("plover"), spun) == pytest.approx(3.0, abs=1e-4)
    assert slowest_top(engine("wren"), spun) == pytest.approx(5.0, abs=1e-4)


@pytest.mark.parametrize(("reached", "pulls"), [(3.0, 0), (7.0, 1), (12.0, 1), (20.0, 2),
                                                (32.0, 3)])  # fmt: skip
def test_each_cycle_that_a_pull_coasts_on_is_a_compression_more(monkeypatch, reached, pulls):
    """One cylinder that fires at 0: from 10° behind it, its tops lie at 720°, 1440° and so on, 12.6
    rad apart; one that fires at 360° has its first 6.28 rad on."""
    plain = SimpleNamespace()
    monkeypatch.setattr(brought_over, "firing_angles", lambda _: (2 * math.pi,))
    monkeypatch.setattr(brought_over, "PAST_TOP", -math.radians(10.0))
    stood = SimpleNamespace(
        angle=np.array([0.0, 30.0]), **{name: np.array([0.0, 1.0]) for name in
                                        ("time", "speed", "rotor", "pressure")},
    )  # fmt: skip
    for name, value in {"stroke_of": 1.0, "cold": None, "on_its_shaft": None, "coasted": reached,
                        "turned_from_a_stand": (None, stood)}.items():  # fmt: skip
        monkeypatch.setattr(brought_over, name, lambda *_, value=value, **__: value)
    monkeypatch.setattr(brought_over, "_with_speeds", lambda _, base, __: base)
    base = tried("plover")[1]
    assert brought_over._pulled(plain, base, None).pulls == pulls


def test_a_rope_on_a_larger_drum_pulls_by_its_radius_and_turns_slower_by_it():
    """60 N on a drum of 40 mm: 1.2 N·m; on 50 mm 1.5 N·m at 400 rpm, where 40 mm turned 500."""
    starter = SimpleNamespace(pull_force=60.0, drum_diameter=0.040, no_load_speed=500 * RPM)
    starter.model_copy = lambda update: SimpleNamespace(**update)
    plain = SimpleNamespace(starter=starter)
    plain.model_copy = lambda update: SimpleNamespace(**update)
    tried_drums = list(over_the_top._drums(plain))
    assert [change.set for change, _ in tried_drums] == [
        {"starter.drum_diameter": f"{size} mm"} for size in (50, 60, 80, 100, 120)
    ]
    first, last = tried_drums[0][1].starter, tried_drums[-1][1].starter
    assert (first.drum_diameter, first.stall_torque) == pytest.approx((0.050, 1.5))
    assert (last.drum_diameter, last.stall_torque) == pytest.approx((0.120, 3.6))
    assert first.no_load_speed == pytest.approx(400 * RPM)
    assert list(over_the_top._gears(plain)) == []
