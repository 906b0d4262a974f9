"""From an engine file to volumes and passages: what is joined to what, how wide, and when."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from scipy.interpolate import CubicSpline

import firstfire as ff
from firstfire.cycle.assembly import network
from firstfire.cycle.build import build_engine, volumes_at
from firstfire.cycle.fired import Fired, fired_cycle
from firstfire.cycle.records import BurnSpec, EngineSpec, ValveSpec
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.runs.walls import assumed_warm, cold

DEG = math.pi / 180
ROOT = Path(__file__).parents[2]
DEMO = [ROOT / "engines" / f"{name}.toml" for name in ("wren", "heron", "plover")]
STRANGERS = sorted((ROOT / "tests" / "strangers").glob("[1-5]_*.toml"))
BURN = BurnSpec(-10 * DEG, 60 * DEG)


def plain(path: Path, **changed: object) -> PlainEngine:
    values = {name.replace("__", "."): value for name, value in changed.items()}
    return resolve(ff.with_values(ff.read(path), values))


def unfired(engine: PlainEngine) -> EngineSpec:
    return network(engine, cold(engine), [None] * len(engine.cylinders))


def fired(engine: PlainEngine) -> EngineSpec:
    return network(engine, assumed_warm(engine), [BURN] * len(engine.cylinders))


def valve(spec: EngineSpec, name: str) -> ValveSpec:
    return next(v for v in spec.valves if v.name == name)


def area(spec: EngineSpec, name: str) -> float:
    """Effective, m²."""
    return next(p.area * p.coefficient for p in spec.passages if p.name == name)


@pytest.mark.parametrize("path", DEMO + STRANGERS, ids=lambda p: p.stem)
def test_every_engine_is_a_network_that_the_kernel_takes(path: Path) -> None:
    engine = plain(path)
    spec = fired(engine)
    engines = build_engine(spec)
    for row, parts in enumerate(engine.cylinders):
        top = spec.cylinders[row].phase
        turn = np.linspace(0.0, 2 * math.pi, 721)
        volumes = [volumes_at(engines, top + at)[row] for at in turn]
        ratio = max(volumes) / min(volumes)
        assert ratio == pytest.approx(parts.cylinder.compression_ratio, rel=1e-4)
        assert int(np.argmin(volumes)) in (0, 720)


@pytest.mark.parametrize("path", DEMO + STRANGERS, ids=lambda p: p.stem)
def test_every_leak_is_there_once_with_its_area(path: Path) -> None:
    engine = plain(path)
    spec = unfired(engine)
    to = {"ring": "case", "gasket": "outside", "plug": "outside", "wall": "outside"}
    for number, parts in enumerate(engine.cylinders, start=1):
        to |= {"inlet_seat": f"runner {number}", "exhaust_seat": f"stub {number}"}
        for name, place in to.items():
            found = [p for p in spec.passages if p.name == f"{name} leak {number}"]
            asked = getattr(parts.leak, name)
            assert [p.area * p.coefficient for p in found] == ([asked] if asked > 0 else [])
            assert all((p.start, p.end) == (f"cylinder {number}", place) for p in found)


@pytest.mark.parametrize("path", [DEMO[0], STRANGERS[1], STRANGERS[3]], ids=lambda p: p.stem)
def test_valves_open_about_their_own_cylinders_top(path: Path) -> None:
    engine = plain(path)
    spec = fired(engine)
    for row, (parts, phase) in enumerate(
        zip(engine.cylinders, firing_angles(engine), strict=True), start=1
    ):
        inlet, exhaust = valve(spec, f"inlet {row}"), valve(spec, f"exhaust {row}")
        for moment in (inlet.opens, inlet.closes, exhaust.opens, exhaust.closes):
            assert moment is not None
        said = parts.valves
        assert (inlet.opens or 0) + said.inlet.opens_before_top == pytest.approx(phase - 360 * DEG)
        assert (inlet.closes or 0) - said.inlet.closes_after_bottom == pytest.approx(
            phase - 180 * DEG
        )
        assert (exhaust.opens or 0) + said.exhaust.opens_before_bottom == pytest.approx(
            phase + 180 * DEG
        )
        assert (exhaust.closes or 0) - said.exhaust.closes_after_top == pytest.approx(
            phase + 360 * DEG
        )


@pytest.mark.parametrize(
    "law", ["polynomial_345", "polynomial_4567", "cycloidal", "harmonic", "modified_sine"]
)
def test_lift_leaves_and_meets_its_seat_and_is_full_in_the_middle(law: str) -> None:
    lift = valve(unfired(plain(DEMO[0], valves__inlet__cam_law=law)), "inlet 1").lift_law
    assert lift is not None
    assert lift[0] == lift[-1] == 0.0
    assert lift.max() == pytest.approx(1.0)
    assert lift == pytest.approx(lift[::-1])
    assert np.all(np.diff(lift[: len(lift) // 2 + 1]) >= 0)


def test_a_lift_table_is_followed() -> None:
    table = [["0 deg", "0 mm"], ["60 deg", "1 mm"], ["115 deg", "4.5 mm"], ["190 deg", "1.5 mm"],
             ["230 deg", "0 mm"]]  # fmt: skip
    engine = plain(DEMO[0], valves__inlet__cam_law="table", valves__inlet__lift_table=table)
    inlet = valve(unfired(engine), "inlet 1")
    assert inlet.lift_law is not None
    assert inlet.opens is not None
    assert inlet.closes is not None
    rows = np.array([[0.0, 0.0], [60.0, 1e-3], [115.0, 4.5e-3], [190.0, 1.5e-3], [230.0, 0.0]])
    smooth = CubicSpline(rows[:, 0] * DEG, rows[:, 1], bc_type="clamped")
    after = np.array([30.0, 60.0, 115.0, 172.5]) * DEG
    steps = np.linspace(0.0, inlet.closes - inlet.opens, len(inlet.lift_law))
    found = np.interp(after, steps, inlet.lift_law) * inlet.max_lift
    assert found[1:3] == pytest.approx([1e-3, 4.5e-3], abs=5e-6)
    # Straight over steps of 1.3 degrees: off by an eighth of its bend times their square.
    assert found == pytest.approx(smooth(after), abs=5e-6)


def test_a_cleaner_loses_what_it_is_said_to_at_10_metres_a_second() -> None:
    clean, hindered = plain(DEMO[0]), plain(DEMO[0], intake__air_cleaner_loss="800 Pa")
    throttle = area(unfired(clean), "throttle")
    both = area(unfired(hindered), "throttle")
    cleaner = 1 / math.sqrt(1 / both**2 - 1 / throttle**2)
    around, intake = clean.surroundings, clean.intake
    density = around.air_pressure / (287.0 * around.air_temperature)
    through = math.pi / 4 * intake.throttle_diameter**2 * 10.0 / cleaner
    assert density / 2 * through**2 == pytest.approx(800.0)


def test_doubt_of_flow_widens_valves_and_throttle_alike() -> None:
    usual, free = unfired(plain(DEMO[0])), unfired(plain(DEMO[0], doubt__flow=1.1))
    for name in ("inlet 1", "exhaust 1"):
        assert valve(free, name).scale == pytest.approx(1.1 * valve(usual, name).scale)
    assert area(free, "throttle") == pytest.approx(1.1 * area(usual, "throttle"))
    assert area(free, "ring leak 1") == area(usual, "ring leak 1")


def test_what_hinders_hinders() -> None:
    usual = unfired(plain(DEMO[0]))
    assert area(unfired(plain(DEMO[0], stub__silencer=True)), "tail 1") < area(usual, "tail 1")
    assert area(unfired(plain(DEMO[0], runner__length="200 mm")), "arm 1") < area(usual, "arm 1")
    part = plain(DEMO[0], intake__throttle_opening=0.3)
    assert area(unfired(part), "throttle") < 0.5 * area(usual, "throttle")
    given = network(plain(DEMO[0]), cold(part), [None], 0.3)
    assert area(given, "throttle") == area(unfired(part), "throttle")


def test_separate_throttles_share_nothing_but_the_case() -> None:
    spec = unfired(plain(DEMO[1], intake__kind="separate"))
    names = {v.name for v in spec.volumes}
    assert {"plenum 1", "plenum 2"} <= names
    assert "plenum" not in names
    ends = {p.name: (p.start, p.end) for p in spec.passages}
    assert ends["throttle 2"] == ("mouth", "plenum 2")
    assert ends["arm 2"] == ("plenum 2", "runner 2")


def test_breathers() -> None:
    hole = unfired(plain(DEMO[0]))
    one_way = unfired(plain(DEMO[0], case__breather="one_way_valve"))
    closed = unfired(plain(DEMO[0], case__breather="closed"))
    passage = next(p for p in one_way.passages if p.name == "breather")
    assert passage.one_way
    assert (passage.start, passage.end) == ("case", "outside")
    assert area(closed, "breather") < 1e-3 * area(hole, "breather")


def test_a_suction_valve_is_stilled_by_oil_in_its_guide_only() -> None:
    """``μ π d L / c``: film of 0.05 Pa s, 12.6 mm long, 0.03 mm all round a stem of 3.14 mm."""
    greased = valve(unfired(plain(DEMO[2], case__lubrication="grease")), "inlet 1")
    dry = valve(unfired(plain(DEMO[2], case__lubrication="dry")), "inlet 1")
    assert greased.opens is None
    stem = greased.stem_diameter
    assert greased.damping == pytest.approx(0.05 * math.pi * stem * 4 * stem / 0.03e-3)
    assert dry.damping == 0.0
    assert valve(unfired(plain(DEMO[2])), "exhaust 1").opens is not None


def test_mixture_stands_where_fuel_enters_and_nothing_is_warm_before_it_fires() -> None:
    engine = plain(DEMO[0])
    walls = cold(engine)
    air = engine.surroundings.air_temperature
    turned = {v.name: v for v in network(engine, walls, [None]).volumes}
    first = {v.name: v for v in network(engine, walls, [BURN], first=True).volumes}
    running = {v.name: v for v in fired(engine).volumes}
    assert turned["mouth"].equivalence_ratio == 0.0
    for volumes in (first, running):
        assert volumes["mouth"].equivalence_ratio == engine.intake.equivalence_ratio
        assert volumes["outside"].equivalence_ratio == 0.0
    for volumes in (turned, first):
        assert volumes["stub 1"].burned_fraction == 0.0
        assert volumes["stub 1"].wall_temperature == air
        assert volumes["runner 1"].wall_temperature == air
    assert running["stub 1"].burned_fraction == 1.0
    assert running["stub 1"].wall_temperature > air
    assert running["runner 1"].wall_temperature > air


def run_twin(crank_offset: str) -> tuple[PlainEngine, Fired]:
    """Heron as a parallel twin with equal arms."""
    engine = plain(
        DEMO[1], layout__kind="parallel_twin", layout__crank_offset=crank_offset,
        runner__length="80 mm", **{"cylinders.1.runner__length": "80 mm",
                                   "cylinders.2.runner__length": "80 mm"},
    )  # fmt: skip
    return engine, fired_cycle(engine, 2500 * math.pi / 30, -15 * DEG, assumed_warm(engine))


def test_a_mirrored_twin_has_mirrored_torque() -> None:
    """Firing 270° apart and 450° apart are one engine with its cylinders called the other way.

    Two limit cycles stop at a change of 5e-4 each and agree with their burns to 0.3°: 1 %.
    """
    plainly, run = run_twin("90 deg")
    mirrored, other = run_twin("270 deg")
    assert firing_angles(plainly) == pytest.approx((0.0, 270 * DEG))
    assert firing_angles(mirrored) == pytest.approx((0.0, 450 * DEG))
    for one, two in zip(run.cycle.cylinders, other.cycle.cylinders[::-1], strict=True):
        assert two.imep_net == pytest.approx(one.imep_net, rel=0.01)
        assert two.volumetric_efficiency == pytest.approx(one.volumetric_efficiency, rel=0.01)
    # What cylinder 1 does at an angle, the other engine's cylinder 2 does 450° later.
    angles = np.linspace(0.0, 4 * math.pi, 500)
    there = np.interp(
        angles + 450 * DEG, other.cycle.curves.angle, other.cycle.curves.gas_torque,
        period=4 * math.pi,
    )  # fmt: skip
    here = np.interp(
        angles, run.cycle.curves.angle, run.cycle.curves.gas_torque, period=4 * math.pi
    )
    assert np.abs(there - here).max() < 0.015 * np.abs(here).max()
    assert other.cycle.mean_gas_torque == pytest.approx(run.cycle.mean_gas_torque, rel=0.01)
