"""What the cams ask of the crank, the swing of the speed, and the crank as a spring."""

import dataclasses
import math
from types import SimpleNamespace

import numpy as np
import pytest
from tests.loads.small_engines import all_fired, engine_of, gas_cycle

from firstfire.errors import OutsideValidity
from firstfire.loads import loads, mean_torque, speed_variation, torsion
from firstfire.loads.cam_drive import cam_drive_torque, valve_lift
from firstfire.loads.cam_forces import acceleration
from firstfire.loads.masses import flywheel_inertia, throw_inertia
from firstfire.loads.running import running, running_at
from firstfire.loads.torsion import first_frequency
from firstfire.loads.turning import energy_swing, turning_inertia

LAWS = [
    "polynomial_345",
    "polynomial_4567",
    "cycloidal",
    "harmonic",
    "modified_trapezoid",
    "modified_sine",
]


def test_lift_is_that_of_the_345_cam() -> None:
    valve = engine_of().cylinders[0].valves.inlet
    angle = np.linspace(-2 * math.pi, 2 * math.pi, 1441)
    opens, shuts = math.radians(350), math.radians(580)
    found = valve_lift(valve, angle, opens, shuts)
    # 3-4-5 written out, up from the opening and down to the closing. Tables of 181 points.
    flank = (shuts - opens) / 2
    for i in range(0, angle.size, 7):
        into = (angle[i] - opens) % (4 * math.pi)
        way = 1.0 if into < flank else -1.0
        x = min(max(min(into, 2 * flank - into) / flank, 0.0), 1.0)
        lift = valve.lift * x**3 * (10 - 15 * x + 6 * x**2)
        slope = way * valve.lift * 30 * x**2 * (1 - x) ** 2 / flank
        curvature = valve.lift * 60 * x * (1 - x) * (1 - 2 * x) / flank**2
        assert found.lift[i] == pytest.approx(lift, abs=1e-4 * valve.lift)
        assert found.slope[i] == pytest.approx(slope, abs=1e-3 * valve.lift)
        assert found.curvature[i] == pytest.approx(curvature, abs=4e-3 * valve.lift)


@pytest.mark.parametrize("law", LAWS)
def test_springs_give_back_what_they_take(law: str) -> None:
    engine = engine_of(valves__inlet__cam_law=law, valves__exhaust__cam_law=law)
    run = running(gas_cycle(engine.surroundings.air_pressure))
    torque = cam_drive_torque(engine, 0, run)
    assert np.trapezoid(torque, run.angle) == pytest.approx(0.0, abs=1e-3 * np.max(torque))
    assert np.max(torque) > 0.01


def test_gas_left_in_the_cylinder_costs_work_at_the_exhaust_valve() -> None:
    engine = engine_of()
    air = engine.surroundings.air_pressure
    still, hot = (
        cam_drive_torque(engine, 0, running(gas_cycle(lambda a, p=p: np.where(a > 0, p, air))))
        for p in (air, 4e5)
    )
    assert np.max(hot) > 1.5 * np.max(still)


def test_a_suction_inlet_asks_nothing() -> None:
    engine = engine_of(valves__inlet__worked="suction")
    run = running(gas_cycle(engine.surroundings.air_pressure))
    torque = cam_drive_torque(engine, 0, run)
    shut = np.mod(run.angle, 4 * math.pi) > math.radians(400)
    assert not np.any(torque[shut])
    assert np.any(torque)


def test_a_lift_table_is_used_as_it_stands() -> None:
    # lift 2.5 mm (1 - cos θ): slope 2.5 mm at 90°, curvature -2.5 mm at 180°
    table = tuple(
        (math.radians(2 * d), 5e-3 * math.sin(math.radians(d)) ** 2) for d in range(0, 181, 2)
    )
    engine = engine_of()
    valve = engine.cylinders[0].valves.inlet.model_copy(
        update={"cam_law": "table", "lift_table": table}
    )
    angle = np.radians([0.0, 90.0, 180.0, 270.0, 400.0])
    found = valve_lift(valve, angle, 0.0, math.radians(360))
    assert found.lift == pytest.approx([0.0, 2.5e-3, 5e-3, 2.5e-3, 0.0], abs=1e-9)
    assert found.slope[1] == pytest.approx(2.5e-3, rel=1e-2)
    assert found.curvature[2] == pytest.approx(-2.5e-3, rel=1e-2)


def test_a_heavier_flywheel_swings_less() -> None:
    def swing(thickness: float):
        engine = engine_of(flywheel__thickness=thickness)
        return speed_variation(engine, loads(engine, all_fired(engine)), 100 * math.pi)

    light, heavy = swing(8e-3), swing(16e-3)
    assert heavy.fluctuation < light.fluctuation
    assert heavy.energy == pytest.approx(light.energy)
    assert light.fluctuation * light.inertia == pytest.approx(heavy.fluctuation * heavy.inertia)
    assert (light.highest + light.lowest) / 2 == pytest.approx(100 * math.pi)


def test_a_swing_larger_than_what_turns_is_refused() -> None:
    engine = engine_of(flywheel__thickness=0.0)
    whole = loads(engine, all_fired(engine))
    with pytest.raises(OutsideValidity, match="stops a shaft"):
        speed_variation(engine, whole, 20.0)


def test_two_firings_swing_less_than_one() -> None:
    def share(layout: str) -> float:
        engine = engine_of(layout)
        whole = loads(engine, all_fired(engine))
        swing = speed_variation(engine, whole, 100 * math.pi)
        return swing.energy / (4 * math.pi * mean_torque(whole))

    assert share("parallel 360") < 0.6 * share("single")


def test_inertia_of_all_that_turns() -> None:
    engine = engine_of("parallel 180", load__kind="propeller")
    throws = throw_inertia(engine, [0]) + throw_inertia(engine, [1])
    assert engine.load.inertia > 0
    assert flywheel_inertia(engine) == pytest.approx(engine.flywheel.inertia + engine.load.inertia)
    assert turning_inertia(engine) == pytest.approx(flywheel_inertia(engine) + throws)
    # A counterweight for more of the piston turns along.
    more = engine_of("parallel 180", crank__balance_factor=1.0)
    assert throw_inertia(more, [0]) > throw_inertia(engine, [0])


def test_steel_is_stiffer_than_plastic_and_swings_faster() -> None:
    plastic = torsion(engine_of(crank__journal__material="petg"))
    steel = torsion(engine_of(crank__material="steel_mild"))
    assert steel.stiffness > 20 * plastic.stiffness
    assert steel.frequency > 3 * plastic.frequency
    assert plastic.resonant_speed(1.0) == pytest.approx(2 * math.pi * plastic.frequency)
    assert plastic.resonant_speed(0.5) == pytest.approx(2 * plastic.resonant_speed(1.0))


def test_thicker_never_softer() -> None:
    base = torsion(engine_of()).stiffness
    for change in (
        {"crank__main_journal_diameter": 17e-3},
        {"crank__cheek_width": 40e-3},
        {"crank__crankpin_diameter": 16e-3},
    ):
        assert torsion(engine_of(**change)).stiffness > base


def test_a_rod_in_a_printed_pin_stiffens_it() -> None:
    printed = {"crank__crankpin_material": "petg"}
    bare = torsion(engine_of(**printed)).stiffnesses["pin 1"]
    cored = torsion(engine_of(**printed, crank__through_rod_diameter=8e-3)).stiffnesses["pin 1"]
    assert cored > 10 * bare


def test_two_throws_between_one_flywheel() -> None:
    engine = engine_of("opposed", crank__bearing_span=110e-3)
    found = torsion(engine)
    assert len(found.throw_inertias) == 2
    assert 1 / found.stiffness == pytest.approx(sum(1 / k for k in found.stiffnesses.values()))
    # With both throws as one at the near end it would be faster, at the far end slower.
    both = sum(found.throw_inertias)
    near = [found.stiffnesses[name] for name in ("journal", "cheek 1", "pin 1")]
    near_stiffness = 1 / sum(1 / k for k in near)
    slow = first_frequency([found.stiffness], [found.flywheel_inertia, both])
    fast = first_frequency([near_stiffness], [found.flywheel_inertia, both])
    assert slow < found.frequency < fast


def test_what_cannot_be_judged_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="no flywheel"):
        torsion(engine_of(flywheel__inertia=0.0))
    with pytest.raises(OutsideValidity, match="bearing_span"):
        torsion(engine_of(crank__bearing_span=20e-3))
    with pytest.raises(OutsideValidity, match="no room is left"):
        torsion(engine_of("opposed", layout__cylinder_spacing=10e-3, crank__bearing_span=0.1))
    bare = engine_of()
    petg = bare.materials["petg"]
    unknown = {k: v for k, v in petg.properties.items() if k != "poisson"}
    materials = {
        **bare.materials,
        "petg": type(petg)(petg.key, petg.name, unknown, petg.curves, petg.yours),
    }
    with pytest.raises(OutsideValidity, match="Poisson"):
        torsion(bare.model_copy(update={"materials": materials}))


def test_a_cycle_that_is_cut_short_is_told_in_degrees() -> None:
    """From -360° to 300°: 660° of 720."""
    whole = gas_cycle(1e5, points=721)
    kept = slice(0, 661)
    short = dataclasses.replace(
        whole, **{one.name: getattr(whole, one.name)[kept] for one in dataclasses.fields(whole)}
    )
    with pytest.raises(OutsideValidity, match=r"covers 660° from -360°: .* all 720°"):
        running_at(short, np.zeros(3))


def test_a_valve_is_thrown_where_its_rocker_has_taken_up_the_lash() -> None:
    """1.5 times 0.1 and 0.2 mm on the cam are 0.15 and 0.3 mm, of which the lash is 0.2: at 100
    rad/s of the crank, 50 of the cam, 1.5 · 2 mm · 50² is 7.5 m/s²."""
    made = SimpleNamespace(
        ratio=1.5, rise=np.array([0.1e-3, 0.2e-3]), second=np.array([2e-3, 2e-3]),
        valve=SimpleNamespace(lash=0.2e-3),
    )  # fmt: skip
    assert acceleration(made, 100.0) == pytest.approx([0.0, 7.5])


def test_a_swing_is_about_the_mean_wherever_its_angles_begin() -> None:
    """From 1 to 3 rad 0, 2 and 4 N·m: 1 J and 3 J where the mean gives 2 each: a swing of 1 J."""
    swing = energy_swing(np.array([0.0, 2.0, 4.0]), np.array([1.0, 2.0, 3.0]))
    assert swing == pytest.approx(1.0)
