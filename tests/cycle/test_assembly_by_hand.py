"""The network of an engine with round sizes, worked out with a calculator.

The air around is set to 86.1 kPa and 300 K, at which a gas of 287 J/(kg K) weighs 1 kg/m³.
"""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
from scipy.interpolate import CubicSpline
from tests.loads.small_engines import engine_of

from firstfire.cycle.assembly import network, steam_share
from firstfire.cycle.records import BurnSpec, EngineSpec
from firstfire.engine.records import Walls
from firstfire.engine.resolve import PlainEngine

DEG = math.pi / 180
MM2 = 1e-6
BURN = BurnSpec(start=-10 * DEG, duration=60 * DEG)
WALLS = Walls(crown=500.0, head=450.0, valves=600.0, liner=400.0)
AIR = {"surroundings__air_pressure": 86100.0, "surroundings__air_temperature": 300.0,
       "surroundings__humidity": 0.0}  # fmt: skip


@cache
def made(layout: str = "single", **values: object) -> PlainEngine:
    return engine_of(layout, **AIR | values)


def doubted(engine: PlainEngine, **doubts: float) -> PlainEngine:
    return engine.model_copy(update={"doubt": engine.doubt.model_copy(update=doubts)})


def spec_of(engine: PlainEngine, burn: BurnSpec | None = BURN, **how: object) -> EngineSpec:
    count = len(engine.cylinders)
    return network(engine, [WALLS] * count, [burn] * count, **how)  # type: ignore[arg-type]


def called(things, name):
    (one,) = [thing for thing in things if thing.name == name]
    return one


def circle(diameter: float) -> float:
    return math.pi * (diameter / 2) ** 2


THROTTLE = {"intake__throttle_diameter": 10e-3, "intake__air_cleaner_loss": 0.0}


def throttle_of(engine: PlainEngine, name: str = "throttle", **how: object):
    return called(spec_of(engine, **how).passages, name)


def test_a_throttle_alone() -> None:
    """78.54 mm² of bore, 0.8 of it pass; a carburettor is necked to 0.72, an injector isn't."""
    injected = made(**THROTTLE, intake__mixture_by="injector")
    assert throttle_of(injected, throttle_opening=1.0).area == pytest.approx(62.832 * MM2, rel=1e-5)
    assert throttle_of(injected, throttle_opening=0.5).area == pytest.approx(31.416 * MM2, rel=1e-5)
    necked = made(**THROTTLE, intake__mixture_by="carburettor")
    assert throttle_of(necked, throttle_opening=1.0).area == pytest.approx(45.239 * MM2, rel=1e-5)
    assert throttle_of(necked, throttle_opening=0.5).area == pytest.approx(31.416 * MM2, rel=1e-5)
    half = doubted(necked, flow=0.5)
    assert throttle_of(half, throttle_opening=1.0).area == pytest.approx(22.6195 * MM2, rel=1e-5)
    wide = made(**THROTTLE, intake__mixture_by="injector", intake__throttle_opening=0.25)
    assert throttle_of(wide).area == pytest.approx(15.708 * MM2, rel=1e-5)


def test_a_throttle_behind_its_cleaner() -> None:
    """50 Pa lost at 10 m/s and 1 kg/m³: an ideal orifice of the bore's own size, 78.54 mm².

    In series with 62.83 mm²: 1/sqrt(1/78.54² + 1/62.83²) = 49.06 mm².
    """
    engine = made(**THROTTLE | {"intake__air_cleaner_loss": 50.0, "intake__mixture_by": "injector"})
    found = throttle_of(engine, throttle_opening=1.0)
    assert found.area == pytest.approx(49.064 * MM2, rel=1e-4)
    assert (found.start, found.end) == ("mouth", "plenum")
    # Four times the loss is half the orifice: 1/sqrt(1/39.27² + 1/62.83²) = 33.30 mm².
    worse = made(**THROTTLE | {"intake__air_cleaner_loss": 200.0, "intake__mixture_by": "injector"})
    assert throttle_of(worse, throttle_opening=1.0).area == pytest.approx(33.300 * MM2, rel=1e-4)


PIPES = {"runner__length": 50e-3, "runner__diameter": 10e-3,
         "stub__length": 80e-3, "stub__diameter": 16e-3, "stub__silencer": False}  # fmt: skip


def test_runner_and_stub() -> None:
    """Both 5 diameters long: 1 + 0.5 + 0.03 · 5 = 1.65, a coefficient of 0.7785."""
    spec = spec_of(made(**PIPES))
    arm, tail = called(spec.passages, "arm 1"), called(spec.passages, "tail 1")
    assert (arm.start, arm.end) == ("plenum", "runner 1")
    assert (tail.start, tail.end) == ("stub 1", "outside")
    assert arm.area == pytest.approx(circle(10e-3))
    assert tail.area == pytest.approx(circle(16e-3))
    assert arm.coefficient == pytest.approx(0.77850, abs=1e-5)
    assert tail.coefficient == pytest.approx(0.77850, abs=1e-5)
    silent = spec_of(made(**PIPES | {"stub__silencer": True}))
    assert called(silent.passages, "tail 1").coefficient == pytest.approx(0.38925, abs=1e-5)
    long = spec_of(made(**PIPES | {"runner__length": 100e-3}))
    assert called(long.passages, "arm 1").coefficient == pytest.approx(1 / math.sqrt(1.8))


def test_what_pipes_hold_and_where_they_are_warm() -> None:
    """Each holds its length and a diameter more; the runner's wall is as long, the stub's not."""
    spec = spec_of(made(**PIPES))
    runner, stub = called(spec.volumes, "runner 1"), called(spec.volumes, "stub 1")
    assert runner.volume == pytest.approx(circle(10e-3) * 60e-3)
    assert stub.volume == pytest.approx(circle(16e-3) * 96e-3)
    assert runner.wall_area == pytest.approx(math.pi * 10e-3 * 60e-3)
    assert stub.wall_area == pytest.approx(math.pi * 16e-3 * 80e-3)
    # A plastic head's port is 25 K above the air around, the stub 80 K.
    assert runner.wall_temperature == pytest.approx(325.0)
    assert stub.wall_temperature == pytest.approx(380.0)
    assert (runner.wall_coefficient, stub.wall_coefficient) == (150.0, 60.0)
    assert (runner.temperature, stub.temperature) == (300.0, 600.0)
    assert (runner.burned_fraction, stub.burned_fraction) == (0.0, 1.0)
    metal = spec_of(made(**PIPES, head__material="cast_iron_grey"))
    assert called(metal.volumes, "runner 1").wall_temperature == pytest.approx(360.0)


@pytest.mark.parametrize("how", [{"burn": None}, {"burn": BURN, "first": True}])
def test_nothing_is_warm_where_nothing_burned_yet(how: dict) -> None:
    spec = spec_of(made(**PIPES), **how)
    for name in ("runner 1", "stub 1"):
        volume = called(spec.volumes, name)
        assert (volume.temperature, volume.wall_temperature) == (300.0, 300.0)
        assert volume.burned_fraction == 0.0


def test_a_throttle_for_each_cylinder() -> None:
    engine = made("parallel 360", **THROTTLE, intake__kind="separate", intake__plenum_volume=20e-6)
    spec = spec_of(engine, throttle_opening=0.5)
    for number in (1, 2):
        throttle = called(spec.passages, f"throttle {number}")
        assert (throttle.start, throttle.end) == ("mouth", f"plenum {number}")
        assert called(spec.passages, f"arm {number}").start == f"plenum {number}"
        assert called(spec.volumes, f"plenum {number}").volume == pytest.approx(20e-6)
    assert "plenum" not in [volume.name for volume in spec.volumes]


def test_shared_volumes() -> None:
    engine = made(intake__plenum_volume=30e-6, case__volume=200e-6, intake__equivalence_ratio=1.1)
    spec = spec_of(engine)
    assert called(spec.volumes, "plenum").volume == pytest.approx(30e-6)
    assert called(spec.volumes, "case").volume == pytest.approx(200e-6)
    phis = {volume.name: volume.equivalence_ratio for volume in spec.volumes}
    assert phis == {"mouth": 1.1, "outside": 0.0, "case": 0.0, "plenum": 1.1, "runner 1": 1.1,
                    "stub 1": 0.0}  # fmt: skip
    assert [volume.name for volume in spec.volumes if volume.fixed] == ["mouth", "outside"]
    assert {volume.pressure for volume in spec.volumes} == {86100.0}
    assert (spec.ambient_pressure, spec.ambient_temperature) == (86100.0, 300.0)


@pytest.mark.parametrize(
    ("breather", "share", "one_way"),
    [("hole", 1.0, False), ("hose", 1.0, False), ("open", 4.0, False), ("closed", 1e-4, False),
     ("one_way_valve", 1.0, True)],
)  # fmt: skip
def test_breather(breather: str, share: float, one_way: bool) -> None:
    """6 mm bore: 28.274 mm², of which an orifice passes 0.7."""
    passage = called(
        spec_of(made(case__breather=breather, case__breather_diameter=6e-3)).passages, "breather"
    )
    assert passage.area == pytest.approx(share * 28.274 * MM2, rel=1e-4)
    assert (passage.coefficient, passage.one_way) == (0.7, one_way)
    assert (passage.start, passage.end) == ("case", "outside")


def test_leaks_go_where_they_leak_to() -> None:
    leaks = {"leak__ring": 1e-8, "leak__inlet_seat": 2e-8, "leak__exhaust_seat": 3e-8,
             "leak__gasket": 4e-8, "leak__plug": 5e-8, "leak__wall": 0.0}  # fmt: skip
    found = {p.name: (p.start, p.end, p.area) for p in spec_of(made(**leaks)).passages
             if "leak" in p.name}  # fmt: skip
    assert found == {
        "ring leak 1": ("cylinder 1", "case", 1e-8),
        "inlet_seat leak 1": ("cylinder 1", "runner 1", 2e-8),
        "exhaust_seat leak 1": ("cylinder 1", "stub 1", 3e-8),
        "gasket leak 1": ("cylinder 1", "outside", 4e-8),
        "plug leak 1": ("cylinder 1", "outside", 5e-8),
    }


def test_steam_in_the_air() -> None:
    """Air of 30 °C at half humidity: steam tables give 4246 Pa of saturation, so 2123 of 1e5."""
    damp = made(surroundings__air_pressure=1e5, surroundings__air_temperature=303.15,
                surroundings__humidity=0.5)  # fmt: skip
    assert steam_share(damp) == pytest.approx(0.02123, rel=5e-3)
    assert spec_of(damp).water == steam_share(damp)


VALVES = {
    "valves__inlet__head_diameter": 18e-3, "valves__exhaust__head_diameter": 16e-3,
    "valves__inlet__throat_diameter": 16e-3, "valves__inlet__stem_diameter": 4e-3,
    "valves__inlet__lift": 4e-3, "valves__inlet__opens_before_top": 10 * DEG,
    "valves__inlet__closes_after_bottom": 40 * DEG,
    "valves__exhaust__opens_before_bottom": 50 * DEG,
    "valves__exhaust__closes_after_top": 20 * DEG,
}  # fmt: skip


def test_faces_of_the_chamber() -> None:
    """Bore of 40 mm: 1256.6 mm²; valves of 18 and 16 mm: 455.5 mm², the head's rest 801.1."""
    engine = made(**VALVES, cylinder__bore=40e-3, cylinder__stroke=36e-3,
                  cylinder__compression_ratio=7.0)  # fmt: skip
    (cylinder,) = spec_of(doubted(engine, wall_heat=1.5)).cylinders
    assert cylinder.crown_area == pytest.approx(1256.64 * MM2, rel=1e-5)
    assert cylinder.valves_area == pytest.approx(455.53 * MM2, rel=1e-5)
    assert cylinder.head_area == pytest.approx(801.11 * MM2, rel=1e-5)
    # 45.239 cm³ swept at 7 to 1: a sixth of it.
    assert cylinder.clearance_volume == pytest.approx(7.5398e-6, rel=1e-4)
    assert (cylinder.throw, cylinder.rod, cylinder.bore) == pytest.approx((18e-3, 70e-3, 40e-3))
    walls = cylinder.walls
    assert (walls.crown, walls.head, walls.valves, walls.liner) == (500.0, 450.0, 600.0, 400.0)
    assert walls.scale == 1.5
    assert cylinder.burn == BURN


def test_side_valves_have_a_roof_of_their_own() -> None:
    """Roof and floor of the pocket are 1.8 times the valves' faces: 1256.6 + 820.0 mm²."""
    engine = made(**VALVES, cylinder__bore=40e-3, valves__placed="side")
    (cylinder,) = spec_of(engine).cylinders
    assert cylinder.head_area == pytest.approx(2076.59 * MM2, rel=1e-5)
    assert cylinder.valves_area == pytest.approx(455.53 * MM2, rel=1e-5)


def test_valve_timing_of_both_cylinders() -> None:
    """The inlet opens 10° before the top a turn before firing, and shuts 40° after bottom."""
    spec = spec_of(made("parallel 360", **VALVES))
    assert [cylinder.phase for cylinder in spec.cylinders] == pytest.approx([0.0, 360 * DEG])
    for number, phase in ((1, 0.0), (2, 360.0)):
        inlet, exhaust = (called(spec.valves, f"{name} {number}") for name in ("inlet", "exhaust"))
        assert inlet.opens == pytest.approx((phase - 370) * DEG)
        assert inlet.closes == pytest.approx((phase - 140) * DEG)
        assert exhaust.opens == pytest.approx((phase + 130) * DEG)
        assert exhaust.closes == pytest.approx((phase + 380) * DEG)
        assert (inlet.cylinder, inlet.port) == (f"cylinder {number}", f"runner {number}")
        assert (exhaust.cylinder, exhaust.port) == (f"cylinder {number}", f"stub {number}")


def test_valve_sizes() -> None:
    engine = doubted(made(**VALVES, valves__inlet__flow_coefficient=0.9), flow=0.5)
    inlet = called(spec_of(engine).valves, "inlet 1")
    sizes = (inlet.head_diameter, inlet.throat_diameter, inlet.stem_diameter, inlet.max_lift)
    assert sizes == pytest.approx((18e-3, 16e-3, 4e-3, 4e-3))
    assert inlet.scale == pytest.approx(0.45)


def lift_law(**values: object) -> np.ndarray:
    law = called(spec_of(made(**VALVES, **values)).valves, "inlet 1").lift_law
    assert law is not None
    return np.asarray(law)


@pytest.mark.parametrize(
    ("name", "quarter"),
    [
        # Half way up the rise every symmetric law is at a half; a quarter of the way up:
        ("polynomial_345", 10 / 4**3 - 15 / 4**4 + 6 / 4**5),
        ("polynomial_4567", 35 / 4**4 - 84 / 4**5 + 70 / 4**6 - 20 / 4**7),
        ("cycloidal", 0.25 - 1 / (2 * math.pi)),
        ("harmonic", 0.5 * (1 - math.cos(math.pi / 4))),
    ],
)
def test_lift_laws(name: str, quarter: float) -> None:
    """Textbook laws of cams: rise in the first half of the opening, fall in the second."""
    law = lift_law(valves__inlet__cam_law=name)
    share = np.linspace(0.0, 1.0, len(law))
    at = np.interp([0.125, 0.25, 0.5, 0.75, 0.875], share, law)
    assert at == pytest.approx([quarter, 0.5, 1.0, 0.5, quarter], abs=1e-3)
    assert law[0] == law[-1] == 0.0


def test_a_table_of_lifts() -> None:
    """Half of 4 mm at 60° and 170°, whole at 115°; the opening is 230° long."""
    table = ((0.0, 0.0), (60 * DEG, 2e-3), (115 * DEG, 4e-3), (170 * DEG, 2e-3), (230 * DEG, 0.0))
    engine = made(**VALVES, valves__inlet__cam_law="table")
    parts = engine.cylinders[0]
    inlet = parts.valves.inlet.model_copy(update={"lift_table": table})
    # The exhaust is open for 180 + 50 + 20 = 250°: at its end, from 230° on, the table has nothing.
    exhaust = parts.valves.exhaust.model_copy(
        update={"lift_table": table, "cam_law": "table", "lift": 4e-3}
    )
    valves = parts.valves.model_copy(update={"inlet": inlet, "exhaust": exhaust})
    told = engine.model_copy(update={"cylinders": (parts.model_copy(update={"valves": valves}),)})
    between = float(CubicSpline(*np.array(table).T, bc_type="clamped")(30 * DEG)) / 4e-3
    for name, opened in (("inlet 1", 230), ("exhaust 1", 250)):
        law = np.asarray(called(spec_of(told).valves, name).lift_law)
        share = np.array([30, 60, 115, 170]) / opened
        at = np.interp(share, np.linspace(0, 1, len(law)), law)
        # at rest at 0°: a cubic with 2 mm at 60° and the slope there that its neighbours give
        assert at == pytest.approx([between, 0.5, 1.0, 0.5], abs=1e-3)


def test_a_suction_valve_is_stilled_by_its_guide() -> None:
    """Film of 30 µm round a stem of 4 mm, four stems long: 201.06 mm² · 0.02 Pa s / 30 µm."""
    values = VALVES | {
        "valves__inlet__worked": "suction", "valves__inlet__mass": 5e-3,
        "valves__inlet__spring_rate": 100.0, "valves__inlet__spring_preload": 0.5,
        "case__lubrication": "splash",
    }  # fmt: skip
    inlet = called(spec_of(made(**values)).valves, "inlet 1")
    assert inlet.damping == pytest.approx(0.134041, rel=1e-5)
    assert (inlet.mass, inlet.spring_rate, inlet.preload) == (5e-3, 100.0, 0.5)
    assert inlet.opens is None
    greased = called(spec_of(made(**values | {"case__lubrication": "grease"})).valves, "inlet 1")
    assert greased.damping == pytest.approx(2.5 * inlet.damping)
    dry = called(spec_of(made(**values | {"case__lubrication": "dry"})).valves, "inlet 1")
    assert dry.damping == 0.0
