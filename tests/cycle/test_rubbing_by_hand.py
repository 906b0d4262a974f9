"""What rubs in an engine with round sizes, worked out with a calculator."""

from __future__ import annotations

import math
from functools import cache

import pytest
from tests.loads.small_engines import engine_of

from firstfire.cycle.layout import IRON_RINGS, NO_RINGS, O_RINGS, PTFE_RINGS
from firstfire.cycle.rubbing import cam_rubbing, rubbing, shaft_rubbing
from firstfire.engine.resolve import PlainEngine

SIZES = {
    "crank__crankpin_diameter": 12e-3, "pin__diameter": 10e-3, "rod__big_end": "plain",
    "rod__small_end": "plain", "liner__bore_finish": "smooth", "case__lubrication": "grease",
}  # fmt: skip


@cache
def made(**values: object) -> PlainEngine:
    return engine_of(**SIZES | values)


def doubted(engine: PlainEngine, **friction: float) -> PlainEngine:
    doubt = engine.doubt.friction.model_copy(update=friction)
    return engine.model_copy(update={"doubt": engine.doubt.model_copy(update={"friction": doubt})})


@pytest.mark.parametrize(
    ("lubrication", "plastic", "metal"),
    [("dry", 0.25, 0.30), ("grease", 0.10, 0.10), ("oil_in_fuel", 0.10, 0.08),
     ("splash", 0.07, 0.05), ("drip", 0.08, 0.06)],
)  # fmt: skip
def test_skirts(lubrication: str, plastic: float, metal: float) -> None:
    """Usual coefficients of plastic and of metal (common practice, as the file says)."""
    printed = rubbing(made(case__lubrication=lubrication), 0)
    assert printed.skirt == pytest.approx(plastic)
    iron = made(case__lubrication=lubrication, piston__material="aluminium_6061_t6")
    assert rubbing(iron, 0).skirt == pytest.approx(metal)
    assert rubbing(doubted(iron, skirt=3.0), 0).skirt == pytest.approx(3 * metal)


def test_ends_of_the_rod() -> None:
    """A plain eye in grease has 0.10: times half of 12 and of 10 mm. A needle bearing 0.003."""
    plain = rubbing(made(), 0)
    assert (plain.crankpin, plain.piston_pin) == pytest.approx((0.6e-3, 0.5e-3))
    rolling = rubbing(made(rod__big_end="needle", rod__small_end="ball"), 0)
    assert (rolling.crankpin, rolling.piston_pin) == pytest.approx((18e-6, 15e-6))
    # A metal rod in flung oil floats: 0.03, a printed one 0.06.
    splash = {"case__lubrication": "splash"}
    assert rubbing(made(**splash), 0).crankpin == pytest.approx(0.36e-3)
    metal = made(**splash, rod__material="aluminium_6061_t6")
    assert rubbing(metal, 0).crankpin == pytest.approx(0.18e-3)
    twice = rubbing(doubted(made(), bearings=2.0), 0)
    assert (twice.crankpin, twice.piston_pin) == pytest.approx((1.2e-3, 1.0e-3))


def test_what_goes_up_and_down() -> None:
    """Piston 50 g, a pin of 10 by 40 mm, 0.35 of a rod of 20 g; no ring."""
    engine = made(piston__mass=50e-3, pin__length=40e-3, pin__inside_diameter=0.0,
                  rod__mass=20e-3, rod__reciprocating_fraction=0.35, rings__count=0)  # fmt: skip
    steel = engine.materials["steel_mild"]["density"]
    assert rubbing(engine, 0).reciprocating_mass == pytest.approx(
        50e-3 + math.pi * 25e-6 * 40e-3 * steel + 7e-3
    )


RING = {"cylinder__bore": 44e-3, "piston__skirt_clearance": 0.4e-3}


def test_an_o_ring() -> None:
    """Groove floor 44 - 0.4 - 4.6 = 39 mm: 325.9 mm² of groove, 138.2 mm of line.

    At 10 % of squeeze and 70 Shore A the handbooks' chart says 0.75 lbf/in: 131.3 N/m; 80 Shore A
    half as much again.
    """
    engine = made(
        **RING, rings__kind="o_ring", rings__count=2, rings__groove_depth=2.3e-3,
        rings__squeeze=0.10, rings__hardness=70.0,
    )  # fmt: skip
    found = rubbing(engine, 0)
    assert (found.ring_kind, found.ring_count) == (O_RINGS, 2)
    assert found.ring_length == pytest.approx(138.230e-3, rel=1e-5)
    assert found.ring_area == pytest.approx(325.94e-6, rel=1e-4)
    assert found.line_level == pytest.approx(131.345, rel=1e-5)
    harder = made(
        **RING, rings__kind="o_ring", rings__groove_depth=2.3e-3, rings__squeeze=0.10,
        rings__hardness=80.0,
    )  # fmt: skip
    assert rubbing(harder, 0).line_level == pytest.approx(1.5 * 131.345, rel=1e-5)


def test_an_o_ring_beyond_its_chart_is_taken_at_its_end() -> None:
    """Below nothing and above 30 % (2.15 lbf/in); below 60 and above 95 Shore A (0.5 and 2.25)."""

    def level(squeeze: float, hardness: float) -> float:  # fmt: skip
        engine = made(
            **RING, rings__kind="o_ring", rings__squeeze=squeeze, rings__hardness=hardness,
            rings__groove_depth=2.3e-3,
        )  # fmt: skip
        return rubbing(engine, 0).line_level

    assert level(-0.1, 70.0) == 0.0
    assert level(0.4, 70.0) == pytest.approx(2.15 * 175.1268, rel=1e-5)
    assert level(0.1, 50.0) == pytest.approx(0.5 * 131.345, rel=1e-5)
    assert level(0.1, 99.0) == pytest.approx(2.25 * 131.345, rel=1e-5)


@pytest.mark.parametrize(("kind", "number"), [("metal", IRON_RINGS), ("ptfe", PTFE_RINGS)])
def test_other_rings(kind: str, number: int) -> None:
    """A face of 1.5 mm round 44 mm: 207.3 mm², pressed by its own spring."""
    engine = made(**RING, rings__kind=kind, rings__count=2, rings__axial_height=1.5e-3,
                  rings__wall_pressure=1e5)  # fmt: skip
    found = rubbing(engine, 0)
    assert (found.ring_kind, found.ring_count) == (number, 2)
    assert found.ring_length == pytest.approx(138.230e-3, rel=1e-5)
    assert found.ring_area == pytest.approx(207.345e-6, rel=1e-5)
    assert found.ring_spring == 1e5
    assert found.line_level == 0.0


def test_no_rings() -> None:
    assert rubbing(made(rings__kind="none"), 0).ring_kind == NO_RINGS


@pytest.mark.parametrize(
    ("finish", "lubrication", "factor"),
    [("smooth", "grease", 1.0), ("sanded", "grease", 1.2), ("as_cut", "splash", 1.4),
     ("as_printed", "dry", 3.0), ("smooth", "dry", 1.5)],
)  # fmt: skip
def test_rough_and_dry_bores(finish: str, lubrication: str, factor: float) -> None:
    engine = made(liner__bore_finish=finish, case__lubrication=lubrication)
    assert rubbing(engine, 0).ring_doubt == pytest.approx(factor)
    assert rubbing(doubted(engine, ring=0.5), 0).ring_doubt == pytest.approx(factor / 2)


SHAFT = {
    "crank__main_bearing_bore": 15e-3, "crank__main_bearing_outside": 35e-3,
    "crank__main_bearing_static_load": 3750.0, "crank__main_bearings": 2,
    "crank__main_journal_diameter": 15e-3, "case__shaft_seals": 2,
    "cam_drive__teeth_crank": 20, "cam_drive__pitch": 3e-3, "cam_drive__tension": 30.0,
    "cam_drive__count": 1,
}  # fmt: skip


def test_main_bearings() -> None:
    """Palmgren: 1e-7 · 1.4 · (ν n)^(2/3) · 25³ N mm, ν of grease 60 mm²/s; both at 1 rad/s.

    n = 9.5493 rpm: (573.0)^(2/3) = 68.99; 2 · 1.4e-7 · 68.99 · 15625 = 0.30183 N mm. (Carried
    down from where the law holds.)
    """
    found = shaft_rubbing(made(**SHAFT))
    assert found.bearings == 2.0
    assert found.bearing_diameter == pytest.approx(25e-3)
    assert found.bearing_rating == 3750.0
    drag = 2 * 1e-7 * 1.4 * (60 * 30 / math.pi) ** (2 / 3) * 25**3 * 1e-3
    assert found.bearing_drag == pytest.approx(drag, rel=1e-9)
    assert found.bearing_drag == pytest.approx(0.3018e-3, rel=1e-3)
    assert shaft_rubbing(doubted(made(**SHAFT), bearings=1.5)).bearing_doubt == 1.5


def test_seals() -> None:
    """A lip on 15 mm drags 0.03 N m, and as the square of its shaft: 30 mm four times as much."""
    assert shaft_rubbing(made(**SHAFT)).constant == pytest.approx(0.06)
    thick = made(**SHAFT | {"crank__main_journal_diameter": 30e-3})
    assert shaft_rubbing(thick).constant == pytest.approx(0.24)


def test_cam_drive() -> None:
    """3 % of two strands of 30 N at 20 · 3/2π = 9.549 mm: 17.19 N mm; of two belts twice that."""
    found = shaft_rubbing(made(**SHAFT))
    assert found.drive == pytest.approx(17.1887e-3, rel=1e-5)
    two = shaft_rubbing(made(**SHAFT | {"cam_drive__count": 2}))
    assert two.drive == pytest.approx(2 * found.drive)
    doubt = shaft_rubbing(doubted(made(**SHAFT), belt=0.5))
    assert doubt.drive == pytest.approx(found.drive / 2)


CAM = {"valves__inlet__base_radius": 11e-3, "valves__inlet__lift": 4e-3,
       "valves__inlet__rocker": "rocker", "valves__inlet__rocker_ratio": 1.5}  # fmt: skip


@pytest.mark.parametrize(
    ("lubrication", "sliding"),
    [("dry", 0.20), ("grease", 0.12), ("oil_in_fuel", 0.15), ("splash", 0.10), ("drip", 0.10)],
)
def test_cams(lubrication: str, sliding: float) -> None:
    """Half the crank's speed, mean radius 11 + 2 = 13 mm, by a rocker of 1.5: 9.75 mm of it."""
    flat = made(**CAM, valves__inlet__follower="flat", case__lubrication=lubrication)
    inlet = flat.cylinders[0].valves.inlet
    assert cam_rubbing(flat, inlet) == pytest.approx(sliding * 9.75e-3)
    assert cam_rubbing(doubted(flat, valve_gear=2.0), inlet) == pytest.approx(sliding * 19.5e-3)
    roller = made(**CAM, valves__inlet__follower="roller", case__lubrication=lubrication)
    assert cam_rubbing(roller, roller.cylinders[0].valves.inlet) == pytest.approx(0.02 * 9.75e-3)


def test_a_suction_valve_has_no_cam() -> None:
    engine = made(**CAM, valves__inlet__worked="suction")
    assert cam_rubbing(engine, engine.cylinders[0].valves.inlet) == 0.0
