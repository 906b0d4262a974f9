"""Friction along a cycle, by its own laws."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.cycle.fired import Fired, fired_cycle
from firstfire.cycle.friction_along import Friction, friction_along, lift_along
from firstfire.cycle.rubbing import rubbing
from firstfire.formulas import oring_friction
from firstfire.runs.walls import assumed_warm

RPM = math.pi / 30
DEG = math.pi / 180
ROOT = Path(__file__).parent.parent.parent


@pytest.fixture(scope="module")
def engine() -> ff.PlainEngine:
    return ff.resolve(ff.read(ROOT / "engines" / "wren.toml"))


@pytest.fixture(scope="module")
def fired(engine: ff.PlainEngine) -> Fired:
    return fired_cycle(engine, 2500 * RPM, -20 * DEG, assumed_warm(engine))


@pytest.fixture(scope="module")
def usual(engine: ff.PlainEngine, fired: Fired) -> Friction:
    return friction_along(engine, fired.spec, fired.cycle.curves)


def changed(engine: ff.PlainEngine, section: str, **values: object) -> ff.PlainEngine:
    new = getattr(engine, section).model_copy(update=values)
    return engine.model_copy(update={section: new})


def with_part(engine: ff.PlainEngine, part: str, **values: object) -> ff.PlainEngine:
    parts = engine.cylinders[0]
    new = parts.model_copy(update={part: getattr(parts, part).model_copy(update=values)})
    return engine.model_copy(update={"cylinders": (new,)})


def again(engine: ff.PlainEngine, fired: Fired) -> dict[str, float]:
    return friction_along(engine, fired.spec, fired.cycle.curves).by_contact


def test_it_never_drives_and_adds_up(usual: Friction) -> None:
    assert usual.torque.min() >= 0
    assert math.fsum(usual.by_contact.values()) == pytest.approx(usual.mean_torque, rel=1e-12)


def test_no_ring_or_skirt_friction_where_the_piston_stands(usual: Friction, fired: Fired) -> None:
    """At top centre the arm is nought: only bearings, cams and belt are left."""
    curves = fired.cycle.curves
    local = (curves.angle + 2 * math.pi) % (4 * math.pi) - 2 * math.pi
    top = np.abs(local).argmin()
    near = np.abs(local - 70 * DEG).argmin()
    assert usual.torque[top] < 0.5 * usual.torque[near]


def test_doubt_scales_each_contact_alone(
    engine: ff.PlainEngine, fired: Fired, usual: Friction
) -> None:
    named = {"ring": "rings", "skirt": "skirts", "valve_gear": "valve gear", "belt": "cam drive"}
    for path, contact in named.items():
        doubt = engine.doubt.friction.model_copy(update={path: 2 * getattr(engine.doubt.friction,
                                                                         path)})  # fmt: skip
        found = again(changed(engine, "doubt", friction=doubt), fired)
        for name, torque in usual.by_contact.items():
            factor = 2.0 if name == contact else 1.0
            assert found[name] == pytest.approx(factor * torque, rel=1e-9)


def test_one_o_ring_costs_more_than_half_of_two(
    engine: ff.PlainEngine, fired: Fired, usual: Friction
) -> None:
    """The second sees half the pressure; line friction of both is the same."""
    one = again(with_part(engine, "rings", count=1), fired)["rings"]
    assert 0.5 < one / usual.by_contact["rings"] < 1.0


def test_more_squeeze_and_harder_rings_drag_more(
    engine: ff.PlainEngine, fired: Fired, usual: Friction
) -> None:
    rings = engine.cylinders[0].rings
    squeezed = again(with_part(engine, "rings", squeeze=rings.squeeze + 0.05), fired)
    harder = again(with_part(engine, "rings", hardness=90.0), fired)
    assert squeezed["rings"] > usual.by_contact["rings"]
    assert harder["rings"] > 1.1 * usual.by_contact["rings"]


@pytest.mark.parametrize(("dry", "oiled"), [("dry", "splash"), ("dry", "grease")])
def test_dry_rubs_more(engine: ff.PlainEngine, fired: Fired, dry: str, oiled: str) -> None:
    more = again(changed(engine, "case", lubrication=dry), fired)
    less = again(changed(engine, "case", lubrication=oiled), fired)
    for contact in ("rings", "skirts", "bearings"):
        assert more[contact] > less[contact]


def test_o_rings_by_line_and_area(engine: ff.PlainEngine, fired: Fired, usual: Friction) -> None:
    """Summed by hand over the cycle; to 0.5 %, as the slope of the volume is a difference here."""
    spec, curves = rubbing(engine, 0), fired.cycle.curves
    names = [v.name for v in (*fired.spec.cylinders, *fired.spec.volumes)]
    drop = np.abs(curves.pressure[:, 0] - curves.pressure[:, names.index("case")])
    arm = np.abs(np.gradient(curves.volume[:, 0], curves.angle)) / (math.pi / 4 * 0.040**2)
    torque = np.zeros(len(drop))
    for share in (1.0, 0.5):
        force = [
            oring_friction.running_friction(
                spec.line_level, spec.ring_length, spec.ring_area, share * float(d)
            )
            for d in drop
        ]
        torque += np.array(force) * arm * spec.ring_doubt
    mean = np.trapezoid(torque, curves.angle) / (4 * math.pi)
    assert usual.by_contact["rings"] == pytest.approx(mean, rel=5e-3)


def test_cams_rub_only_while_they_lift(fired: Fired) -> None:
    angle = np.linspace(-360, 360, 1441) * DEG
    for valve in fired.spec.valves:
        lift = lift_along(valve, angle)
        assert valve.opens is not None
        assert valve.closes is not None
        share = np.count_nonzero(lift > 0) / len(lift)
        assert share == pytest.approx((valve.closes - valve.opens) / (4 * math.pi), abs=0.01)
        assert lift.max() == pytest.approx(valve.max_lift, rel=1e-3)
