"""Sizes worked out by hand, each with its numbers beside it; and handbook figures.

Short names: Shigley 9: Budynas, Nisbett, *Shigley's Mechanical Engineering Design*, 9th ed.;
Norton: *Cam Design and Manufacturing Handbook*, 2nd ed.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.parts.moments import COLD, RPM, engine, moment, numbers, said

from firstfire.engine.engine import Engine
from firstfire.engine.moment import Breath, Moment
from firstfire.engine.read import with_values
from firstfire.engine.records import Way
from firstfire.engine.working import recorded
from firstfire.parts import ways
from firstfire.parts.all import REPORTED

BASE = """
name = "hand"
[layout]
kind = "single"
[cylinder]
bore = "44 mm"
stroke = "40 mm"
[printing]
material = "petg"
moisture = "dry"
"""


def find(at: Moment, name: str) -> Way:
    return next(way for way in ways(recorded(at)) if way.id == name)


def cold(described: Engine, **what: float | str) -> Moment:
    """One first combustion, cold, at rest for twelve hours: no fatigue, no warmth."""
    kept = {"event": "first_fire", "cycles": 1.0, "rises": COLD, "rpm": 500.0} | what
    return moment(described, **kept)  # type: ignore[arg-type]


def changed(text: str = "", **values: str) -> Engine:
    return with_values(said(BASE + text), {k.replace("__", "."): v for k, v in values.items()})


def test_thirty_bar_push_five_kilonewtons_on_46_mm() -> None:
    # π/4 × (46 mm)² = 1662 mm²; × 3.0 MPa = 4.99 kN.
    at = cold("engines/heron.toml", peak=30e5 + 101300.0)
    assert float(at.loads.cylinders[0].gas.max()) == pytest.approx(4.99e3, rel=0.005)
    # The head feels it out to the gasket's middle, 51 mm: 2043 mm² × 3.0 MPa = 6.13 kN.
    assert find(at, "head.lift").demand == pytest.approx(6.13e3, rel=0.005)


def test_an_m4_insert_holds_about_a_kilonewton() -> None:
    # Makers' and print services' short pulls of M4 by 6 to 8 mm: 0.7 to 1.8 kN (from memory).
    for material in ("petg", "pla", "pla_tough", "pa12_cf"):
        described = with_values(engine("engines/heron.toml"), {"body.material": material})
        each = numbers(find(cold(described), "head.lift"))["each_holds"]
        assert 0.7e3 < each < 1.8e3, material


def test_four_m4_inserts_do_not_hold_a_strong_first_combustion() -> None:
    # Four at about 0.86 kN against 6 kN: the head lifts, as its builder was told.
    assert find(cold("engines/heron.toml"), "head.lift").factor < 1
    # Four M5 8.8 through-bolts: 4 × 8.23 kN (ISO 898-1, Table 3) against 5 kN.
    through = find(cold("engines/wren.toml"), "head.lift")
    assert through.capacity == pytest.approx(4 * 8.23e3, rel=0.01)


def test_preload_of_3_3_newton_metre_on_m5() -> None:
    # T/(K d) = 3.29/(0.20 × 5 mm) = 3.29 kN (Shigley 9, Eq. 8-27).
    described = with_values(engine("engines/wren.toml"), {"head.fasteners.torque": "3.29 N*m"})
    assert find(cold(described), "head.fasteners.strip").demand == pytest.approx(3.29e3, rel=0.002)
    over = moment(described, event="overtighten", rises=COLD)
    assert find(over, "head.fasteners.strip").demand == pytest.approx(1.5 * 3.29e3, rel=0.002)


def test_a_plain_press_by_lame() -> None:
    # 0.118 mm less 0.8 × 23 µm of ripples leaves 0.0996 mm. PETG after 12 h keeps 0.641 of its
    # press-fit stress (table of relaxation), so E 1.9 × 0.641 = 1.218 GPa; hub 12/30 mm:
    # (30² + 12²)/(30² - 12²) + 0.39 = 1.771; steel pin (1 - 0.29)/207 GPa. p = 5.69 MPa;
    # T = 0.2 × p × π × 12² × 20/2 = 5.15 N·m. Tolerance: the table's three figures.
    described = changed(
        crank__joint__kind="plain_press", crank__joint__interference="0.118 mm",
        crank__crankpin_diameter="12 mm", crank__joint__diameter="12 mm",
        crank__joint__length="20 mm", crank__cheek_thickness="20 mm", crank__cheek_width="30 mm",
    )  # fmt: skip
    slips = find(cold(described), "crank.joint.slip")
    assert numbers(slips)["pressure"] == pytest.approx(5.69e6, rel=0.005)
    assert slips.capacity == pytest.approx(5.15, rel=0.005)


def test_a_cross_pinned_joint_by_equilibrium() -> None:
    # 3 mm pin across 12 mm: it crushes a pin of mild steel at 250 MPa × 3 mm × (12 mm)²/6 = 18.0
    # N·m, long before 420 MPa shears it at 420 × π × 9 × 12/4 = 35.6 N·m. Its hole leaves 1 - 8 ×
    # 3/(3 π 12) = 0.788 of 0.577 × 250 MPa × π/16 × 12³ mm³ = 48.9 N·m: 38.6. Of a plate 8 mm
    # thick with 10.5 mm of wall it leaves 250 × (8 - 3) × 10.5 × 22.5 = 295 N·m.
    described = with_values(
        engine("engines/wren.toml"),
        {"crank.joint.cross_pin_diameter": "3 mm", "crank.joint.cross_pins": "1",
         "crank.joint.pins_run": "across", "crank.joint.plate_thickness": "8 mm",
         "crank.joint.length": "8 mm", "crank.crankpin_material": "steel"}, comma=True,
    )  # fmt: skip
    slips = find(cold(described), "crank.joint.slip")
    assert slips.capacity == pytest.approx(18.0, rel=0.002)
    assert numbers(slips)["torque_shears_pins"] == pytest.approx(35.6, rel=0.002)
    assert numbers(slips)["torque_tears_hub"] == pytest.approx(295, rel=0.002)
    thick = with_values(described, {"crank.joint.cross_pin_diameter": "5.333 mm"})
    assert cold(thick).engine.crank.joint.cross_pin_diameter > 5e-3


def test_a_rod_of_8_by_14_as_eulers_column() -> None:
    # Shigley 9, Eq. 4-43: π² × 1.9 GPa × 14 × 8³/12 mm⁴/(80 mm)² = 1750 N with C 1; ends that a
    # pin holds against turning along its axis: 1.2 times as much, 2100 N, the weaker plane.
    described = changed(
        rod__length="80 mm", rod__shank_width="14 mm", rod__shank_thickness="8 mm"
    )  # fmt: skip
    buckles = find(cold(described), "rod.buckle")
    assert buckles.capacity == pytest.approx(2100.0, rel=0.002)
    assert buckles.governs == "buckling"


def test_a_crown_as_a_plate_that_folds() -> None:
    # 6 × 45 MPa × (6 mm)²/4/(22 mm)² = 5.02 MPa (Hopkins, Prager 1953), × 1.15 by the rate of a
    # gas pulse (three decades at 0.05 each, table of rates). Bosses so far apart that they do not
    # help.
    sizes = {
        "cylinder__bore": "50 mm",
        "piston__skirt_thickness": "3 mm",
        "piston__crown_thickness": "6 mm",
    }
    apart = changed(rod__small_end_width="44 mm", **sizes)
    assert find(cold(apart), "piston.crown.break").capacity == pytest.approx(
        5.02e6 * 1.15, rel=0.002
    )
    # Bosses 16 mm apart on a pin of 12 mm (21.6 mm wide): 11.2 mm are left beside them, a circle
    # of (11.2² + 8²)/22.4 = 8.46 mm; 2 × 22.5 MPa × 6/8.46 punches it, before 34 MPa fold it.
    pillars = changed(rod__small_end_width="15 mm", pin__diameter="12 mm", **sizes)
    assert find(cold(pillars), "piston.crown.break").capacity == pytest.approx(
        31.9e6 * 1.15, rel=0.002
    )


def test_an_aluminium_liner_in_a_petg_body_by_lame() -> None:
    # 44/50 mm in 50/80 mm of 2.0 GPa under 3 MPa passes on 0.207 MPa and pulls 21.8 MPa at its
    # bore (closed form, compound cylinder); largest less smallest stress 21.8 + 3.0 MPa.
    # Tolerance: PETG's row says 1.9 GPa.
    described = changed(
        '[liner]\nmaterial = "aluminium"\noutside_diameter = "50 mm"\n'
        'fit_interference = "0 mm"\n[body]\noutside_diameter = "80 mm"\ninfill = 1.0\n'
    )
    bursts = find(cold(described, peak=3e6 + 101300.0), "liner.burst")
    assert bursts.demand == pytest.approx(24.8e6, rel=0.01)
    assert numbers(bursts)["pressure_on_body"] == pytest.approx(0.207e6, rel=0.07)


def test_a_valve_floats_where_the_cam_handbook_has_it() -> None:
    # Norton, force-closed follower: 3-4-5 rise of 5 mm in 60° of cam, 20 g, 20 N and 2.5 N/mm
    # float at 4680 rpm of the crank.
    described = changed(
        valves__exhaust__lift="5 mm", valves__exhaust__mass="20 g",
        valves__exhaust__spring_preload="20 N", valves__exhaust__spring_rate="2.5 N/mm",
        valves__exhaust__opens_before_bottom="45 deg", valves__exhaust__closes_after_top="15 deg",
    )  # fmt: skip
    floats = find(cold(described), "valves.exhaust.float")
    assert floats.capacity / RPM == pytest.approx(4680.0, rel=0.002)


@pytest.mark.parametrize(("share", "factor"), [(0.29, 0.345), (0.01, 10.0)])
def test_a_suction_inlet_is_told_by_what_it_gives_back(share: float, factor: float) -> None:
    at = replace(moment("engines/plover.toml", rpm=3000.0), breath=Breath(1.4, share))
    late = find(at, "valves.inlet.late")
    assert late.factor == pytest.approx(factor, rel=1e-3)
    assert late.id in REPORTED


def test_a_suction_inlet_that_was_not_traced_is_not_judged() -> None:
    assert not find(moment("engines/plover.toml"), "valves.inlet.late").judged


def test_a_3_mm_belt_of_9_mm_pulls_180_newton() -> None:
    # 20.0 N/mm of width (belt makers' handbook D265, p. T-15, Table 3), six teeth and more in mesh.
    assert find(cold("engines/wren.toml"), "cam_drive.belt.tear").capacity == pytest.approx(180.0)


def test_a_steel_disc_at_its_hole() -> None:
    # ρ ω² r²/4 × (3.29 + 0.71 (15/110)²): 7850 × 418.9² × 0.055²/4 × 3.303 = 3.44 MPa
    # (Timoshenko, Goodier, art. 32).
    bursts = find(moment("engines/wren.toml", rpm=4000.0), "flywheel.burst")
    assert bursts.demand == pytest.approx(3.44e6, rel=0.005)
    assert bursts.factor > 50


def test_an_oring_in_its_groove() -> None:
    # 2.62 × 37.77 mm on 39.40 mm in a bore of 44 mm: stretched by 4.32 % its section is 2.569 mm,
    # squeezed to 2.30 mm by 10.46 % (geometry of the gland; ring AS568-130's neighbour).
    described = changed(
        rings__section="2.62 mm", rings__inside_diameter="37.77 mm",
        piston__skirt_clearance="0.264 mm", rings__groove_depth="2.168 mm",
        rings__groove_width="3.6 mm", liner__material="aluminium",
    )  # fmt: skip
    still = moment(described, event="idle", rises=COLD)
    assert find(still, "ring.roll").demand == pytest.approx(0.1046, abs=1e-3)
    assert find(still, "ring.fill").demand == pytest.approx(0.626, abs=2e-3)


def test_twenty_minutes_do_not_cure_a_sealant() -> None:
    # 2.5 mm in the first day (catalog row), by the root of time 0.29 mm in 20 min at 23 °C and
    # 0.27 mm at 20 °C: one fifteenth of a bead 4 mm wide.
    blows = find(cold("engines/heron.toml"), "gasket.sealant.blow")
    assert numbers(blows)["share_cured"] == pytest.approx(1 / 15, rel=0.02)
    assert blows.governs == "cure"
    assert blows.factor < 1
    two_days = with_values(engine("engines/heron.toml"), {"gasket.cure_time": "48 h"})
    assert find(cold(two_days), "gasket.sealant.blow").factor > 3


def test_a_6202_outlasts_the_engine() -> None:
    # C 7.8 kN; a cubic mean of 1 kN would give 10⁶ × 7.8³ = 4.7·10⁸ turns (ISO 281): days.
    life = find(moment("engines/wren.toml"), "crank.bearing.life")
    assert life.capacity == pytest.approx(
        1e6 * (7800 / life.inputs["cubic_mean_force"]) ** 3, rel=1e-6
    )
    assert life.inputs["life_hours"] > 100


def test_a_bent_crankpin() -> None:
    # 4 kN in the middle of 12 mm × 30 mm between the middles of its joints, spread over 12 mm:
    # M = 4000 × (30/4 - 12/8) mm = 24 N·m; 32 M/(π d³) = 141 MPa (Shigley 9, Eq. 3-24).
    described = changed(
        crank__crankpin_diameter="12 mm", crank__crankpin_length="14 mm",
        crank__joint__length="16 mm",
        crank__cheek_thickness="16 mm", rod__big_end_width="12 mm",
    )  # fmt: skip
    bends = find(cold(described), "crank.pin.bend")
    assert numbers(bends)["bending_stress"] == pytest.approx(
        141.5e6 * bends.inputs["crankpin_force"] / 4000.0, rel=0.002
    )


def test_the_plug_sits_far_from_its_limit_in_a_cold_print() -> None:
    # π/4 × (10 mm)² × 3 MPa = 236 N against 12 mm of M10 in PETG, τ about 14 MPa over
    # π × 9.35 × 12 = 352 mm²: 4.9 kN. The head is stacked along the bore, so layers govern.
    blows = find(cold(changed(), peak=30e5 + 101300.0), "plug.blow")
    assert blows.demand == pytest.approx(236.0, rel=0.01)
    assert blows.capacity == pytest.approx(4.9e3, rel=0.02)
    assert blows.governs == "layers"


def test_a_warm_exhaust_valve_takes_up_its_lash() -> None:
    """By hand: a valve of 20 mm, 60 mm long, of steel (12e-6), in a head that stays cold.

    Its head 300 K over the air warms the stem by a third of that: 60 mm × 12e-6 × 100 K = 0.072 mm.
    A head of the same steel as warm as the valve grows as much, and nothing is taken up.
    """
    text = BASE + (
        '[valves.exhaust]\nhead_diameter = "20 mm"\nlash = "0.1 mm"\nmaterial = "steel_mild"\n'
    )
    metal = text + '[head]\nmaterial = "steel_mild"\nmade = "bought"\n'
    rises = {"valves": (300.0, 300.0), "head": (0.0, 0.0)}
    way = find(moment(said(text), rises=rises), "valves.exhaust.lash.close")
    own = moment(said(text)).engine.materials["steel_mild"]["expansion"]
    assert way.demand == pytest.approx(60e-3 * own * 100.0, rel=1e-6)
    assert way.demand == pytest.approx(0.072e-3, rel=0.05)
    assert way.capacity == pytest.approx(0.1e-3)
    alike = find(
        moment(said(metal), rises={"valves": (300.0, 300.0), "head": (300.0, 300.0)}),
        "valves.exhaust.lash.close",
    )
    assert alike.demand == pytest.approx(0.0, abs=1e-9)
