"""Walls, strength, warmth, growth and grip of parts, of made-up numbers that a pencil can follow.

A part here is a print of four lines of half a millimetre, a fifth full, unless a line says
otherwise: 2 mm of each of its faces are solid.
"""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest
from tests.parts.moments import engine, moment

from firstfire.engine.materials import Material
from firstfire.engine.read import with_values
from firstfire.engine.records import PartTemperature
from firstfire.engine.shapes import BOSS_OUTSIDE
from firstfire.parts import (
    assumed,
    bearings,
    clamped,
    piston,
    ring,
    seal,
    section,
    strength,
    swell,
    warmth,
)

WREN = "engines/wren.toml"
MM = 1e-3
PRINT = SimpleNamespace(made="printed", walls=4, line_width=0.5 * MM, infill=0.2)
SOLID = SimpleNamespace(made="bought", walls=4, line_width=0.5 * MM, infill=0.2)


def warm(*profile, depth=None):
    """Temperatures at depths a millimetre apart, or at these."""
    depths = np.arange(len(profile)) * MM if depth is None else np.array(depth, dtype=float)
    return PartTemperature(profile[0], profile[0], depths, np.array(profile, dtype=float))


def here(temperatures=(), *, air=300.0, **other):
    """What a law asks of a moment; each number that is given is the engine's own."""
    engine_parts = {
        "surroundings": SimpleNamespace(air_temperature=air),
        "printing": SimpleNamespace(moisture="dry"),
        "doubt": SimpleNamespace(strength_scatter=0.9, strength_bias=0.8),
    } | other.pop("engine", {})
    return SimpleNamespace(
        temperatures=SimpleNamespace(parts=dict(temperatures)), recorded=False,
        given=lambda _, value: value, engine=SimpleNamespace(**engine_parts), **other,
    )  # fmt: skip


# Walls


def test_a_wall_bears_by_its_faces():
    """4 of 10 mm are lines: pulled 0.4 + 0.6 · 0.2; bent 1 - 0.8 · 0.6³, since the middle counts
    least."""
    assert section.pulled_share(PRINT, 10 * MM) == pytest.approx(0.52)
    assert section.bent_share(PRINT, 10 * MM) == pytest.approx(0.8272)
    assert section.bent_share(PRINT, 3 * MM) == 1.0
    assert section.bent_share(PRINT, 0.0) == 1.0
    assert section.pulled_share(SOLID, 10 * MM) == section.bent_share(SOLID, 10 * MM) == 1.0


@pytest.mark.parametrize(
    ("diameter", "hole", "share"),
    [
        # 1 - 0.8 · (2/4)⁴
        (8.0, 0.0, 0.95),
        # lines round the hole too: 1 - 0.8 (8⁴ - 4⁴)/(10⁴ - 2⁴)
        (20.0, 4.0, 1 - 0.8 * 3840 / 9984),
        # of a hole of 6 the lines of both sides meet at 5
        (14.0, 6.0, 1.0),
        (4.0, 0.0, 1.0),
    ],
)
def test_a_bar_bears_by_its_rim(diameter, hole, share):
    assert section.turned_share(PRINT, diameter * MM, hole * MM) == pytest.approx(share)


def test_a_thread_is_gripped_by_a_circle_wider_by_the_lines():
    """1 + 4/8 wider, of (4 + 0.2 · 16)/20 of its length: 1.5 · 0.36; never more than all."""
    assert section.gripped_share(PRINT, 8 * MM, 20 * MM) == pytest.approx(0.54)
    assert section.gripped_share(PRINT, 8 * MM, 6 * MM) == 1.0


def test_a_washer_stands_on_lines_and_infill():
    """Lines back 4 to 8 of its 4 to 12 mm: 48 of 128; and a fifth of the rest."""
    share = section.under_washer_share(PRINT, 4 * MM, 12 * MM)
    assert share == pytest.approx(0.375 + 0.625 * 0.2)
    assert section.under_washer_share(PRINT, 4 * MM, 7 * MM) == 1.0
    assert section.under_washer_share(SOLID, 4 * MM, 12 * MM) == 1.0


def test_slices_stand_in_their_middles(monkeypatch):
    """From 1 down to 0 through a wall: 0.95, 0.85 and so on to 0.05, half on the whole."""
    monkeypatch.setattr(section, "strength_left", lambda _, t: t)
    heat = warm(1.0, 0.0, depth=(5 * MM, 9 * MM))
    assert section._shares(None, heat, 4 * MM) == pytest.approx(
        [0.95, 0.85, 0.75, 0.65, 0.55, 0.45, 0.35, 0.25, 0.15, 0.05]
    )
    assert section.stretched_share(None, heat, 4 * MM) == pytest.approx(0.5)
    assert section.stretched_share(None, None, 4 * MM) == 1.0


def test_a_wall_folds_by_what_its_slices_hold(monkeypatch):
    """A wall of 1 folds at ¼; half as strong all through it is at half of that."""
    monkeypatch.setattr(section, "strength_left", lambda *_: 0.5)
    assert section.folded_share(None, warm(400.0, 350.0), MM) == pytest.approx(0.5)
    assert section.folded_share(None, None, MM) == 1.0


@pytest.mark.parametrize(
    ("limit", "deep"), [(450.0, 0.0), (360.0, 1.5), (380.0, 1.0), (395.0, 0.25), (310.0, 3.0)]
)
def test_how_deep_a_wall_is_warmer_than_a_limit(limit, deep):
    """400, 380, 340 and 320 K a millimetre apart from 10 mm on."""
    heat = warm(400.0, 380.0, 340.0, 320.0, depth=[(10 + n) * MM for n in range(4)])
    assert section.depth_beyond(heat, limit) == pytest.approx(deep * MM)


# Strength

PLASTIC = Material(
    key="made_up", name="made-up plastic", yours=False, structure="amorphous", curves={},
    properties={
        "strength_in_plane": 50e6, "strength_across": 20e6, "fatigue_fraction_1e6": 0.25,
        "wet_strength_factor": 0.6, "strength_lost_per_decade": 0.05, "strength_per_decade": 0.1,
        "reference_strain_rate": 1e-3, "modulus_in_plane": 2e9, "modulus_across": 1e9,
        "compressive_strength": 75e6,
    },
)  # fmt: skip
METAL = Material(
    key="made_up", name="made-up metal", yours=False, structure="metal", curves={},
    properties={
        "strength_in_plane": 400e6, "yield_strength": 200e6, "fatigue_fraction_1e6": 0.25,
        "modulus_in_plane": 70e9,
    },
)  # fmt: skip


def loaded(cycles=1000.0, moisture="dry"):
    """A moment of 10 h since assembly, 1 h on."""
    printing = SimpleNamespace(moisture=moisture)
    return here(cycles=cycles, resting_hours=10.0, seconds=3600.0, engine={"printing": printing})


@pytest.mark.parametrize(
    ("asked", "mpa", "governs"),
    [
        # 50 · 0.9 · 0.8 = 36 as this printer and part have it; · 0.8 of it · 0.5 warm = 14.4;
        # three decades faster than tested 1.3; √¼ after a thousand cycles, half way to a million
        ({}, 9.36, "temperature"),
        ({"load": "once"}, 18.72, "temperature"),
        # across layers 0.4, and brittle: no gain by speed
        ({"across": True}, 2.88, "layers"),
        # 10 h are two decades past 0.1 h, an hour one
        ({"load": "lasting"}, 12.96, "temperature"),
        ({"load": "pressed"}, 13.68, "temperature"),
        # what is no print has no printer's bias
        ({"printed": False, "load": "once"}, 23.4, "temperature"),
    ],
)
def test_what_a_plastic_bears(asked, mpa, governs):
    put = {"printed": True, "warm": 0.5, "section": 0.8} | asked
    found = strength.of_material(loaded(), PLASTIC, **put)
    assert found.value == pytest.approx(mpa * 1e6)
    assert found.governs == governs
    assert found.at_room == 50e6


@pytest.mark.parametrize(("moisture", "left"), [("dry", 1.0), ("room", 0.88), ("wet", 0.6)])
def test_a_print_is_weaker_wet(moisture, left):
    """0.6 of it wet; 0.3 of that loss left in the room."""
    found = strength.of_material(
        loaded(moisture=moisture), PLASTIC, warm=1.0, printed=True, load="once"
    )
    assert found.value == pytest.approx(50e6 * 0.72 * 1.3 * left)


@pytest.mark.parametrize(
    ("cycles", "load", "mpa"),
    [
        # 400 by 0.25 after a million are 100, half of what it yields at; after a thousand 200
        (1e6, "pulse", 90.0), (1e9, "pulse", 90.0), (1e3, "pulse", 180.0), (1.0, "pulse", 180.0),
        (1e6, "lasting", 180.0),
    ],
)  # fmt: skip
def test_a_metal_yields_or_tires(cycles, load, mpa):
    """0.9 of it is left by its warmth."""
    found = strength.of_material(loaded(cycles), METAL, warm=0.9, load=load)
    assert found.value == pytest.approx(mpa * 1e6)
    brittle = replace(METAL, properties={
        "strength_in_plane": 400e6, "elongation": 0.01, "fatigue_fraction_1e6": 0.25,
    })  # fmt: skip
    tired = strength.of_material(loaded(1e6), brittle, warm=0.9)
    assert tired.value == pytest.approx(90e6)
    assert strength.of_material(loaded(1.0), brittle, warm=0.9).value == pytest.approx(360e6)


def test_strength_in_shear_when_pressed_and_of_a_glue():
    """0.5 of a plastic's 30 MPa, 0.577 of a metal's; 75 of 50 pressed; 10 · 30/60 of a glue."""
    bears = strength.Strength(30e6, "", 60e6, {}, {})
    assert strength.shear(PLASTIC, bears) == pytest.approx(15e6)
    assert strength.shear(METAL, bears) == pytest.approx(17.31e6)
    assert strength.pressed_share(PLASTIC) == pytest.approx(1.5)
    assert strength.pressed_share(METAL) == 1.0
    glue = strength.sticking(bears, 10e6)
    assert (glue.value, glue.at_room) == (pytest.approx(5e6), 10e6)


def test_a_part_is_as_stiff_as_its_layers_lie(monkeypatch):
    """Half of 2 GPa is left by its warmth, or of 1 GPa across its layers."""
    monkeypatch.setattr(strength, "modulus_left", lambda *_: 0.5)
    made = SimpleNamespace(made="printed", layers_stacked="along_bore")
    along = strength.stiffness(made, PLASTIC, 350.0, strength.ROUND_THE_BORE)
    across = strength.stiffness(made, PLASTIC, 350.0, strength.ALONG_BORE)
    assert (along, across) == (pytest.approx(1e9), pytest.approx(0.5e9))


# Warmth


def test_where_it_is_how_warm():
    """An eye of 360 K and one of 380 in air of 300: a shank of 340; 400 and 340 meet at 370."""
    at = here({
        "small_end": warm(360.0, 360.0), "big_end": warm(380.0, 380.0), "head": warm(440.0, 360.0),
        "liner": warm(340.0, 340.0), "deep": warm(400.0, 300.0, depth=(5 * MM, 9 * MM)),
    })  # fmt: skip
    assert warmth.shank(at) == pytest.approx(340.0)
    assert warmth.joint_face(at) == pytest.approx(370.0)
    assert warmth.below(at, 1 * MM, "deep") == pytest.approx(375.0)
    assert warmth.rise(at, 375.0) == pytest.approx(75.0)
    assert warmth.rise(at, 275.0) == 0.0
    assert warmth.outer_face(at, "head") == 360.0


def test_a_warm_skin_counts_by_the_stiffness_it_still_has(monkeypatch):
    """400 to 300 K in nine steps: none is left above 350, five count: 325 on the mean."""
    monkeypatch.setattr(piston, "modulus_left", lambda _, t: 1.0 if t < 351.0 else 0.0)
    heat = warm(400.0, 300.0, depth=(1 * MM, 3 * MM))
    assert piston.weighed_mean(heat, None) == pytest.approx(325.0)
    assert swell._working_mean(here({"crown": heat}), None) == pytest.approx(325.0)
    assert swell._working_mean(here(), None) == 300.0


# Pistons and bores


def test_a_rod_pulls_or_pushes_most():
    for forces, most in (([-300.0, 200.0], 300.0), ([-100.0, 400.0], 400.0)):
        rod = SimpleNamespace(rod=np.array(forces))
        at = here(loads=SimpleNamespace(cylinders=[None, rod]), cylinder=1)
        assert piston._largest(at) == most


def test_a_piston_spreads_across_its_layers_where_these_stand():
    for made, stacked, across in (("printed", "along_bore", False),
                                  ("printed", "across_bore", True),
                                  ("bought", "across_bore", False)):  # fmt: skip
        told = SimpleNamespace(along_or_across=lambda prop, *, across: (prop, across))
        part = SimpleNamespace(made=made, layers_stacked=stacked)
        assert piston.across_the_bore(part, told) == ("expansion", across)


def test_a_boss_is_four_tenths_of_its_pin_thick(monkeypatch):
    """1.8 pins across: of 10 mm the wall is 4, and 600 N press on 10 by 20 mm with 3 MPa."""
    assert BOSS_OUTSIDE == 1.8
    asked = []
    monkeypatch.setattr(piston, "pulled_share", lambda _, wall: asked.append(wall) or 1.0)
    monkeypatch.setattr(piston, "_largest", lambda _: 600.0)
    sizes = {"pin.diameter": "10 mm", "piston.boss_width": "20 mm"}
    way = piston.bosses_crush(moment(with_values(engine(WREN), sizes)))
    assert asked == [pytest.approx(4 * MM)]
    assert way.demand == pytest.approx(3e6)


def test_a_pin_bends_over_eye_half_its_bosses_and_their_play(monkeypatch):
    """12 mm of eye, half of 18 and 1 of play: 22 mm."""
    asked = []
    monkeypatch.setattr(
        piston.plain_bearing, "pin_bending_moment", lambda *put: asked.append(put) or 1.0
    )
    monkeypatch.setattr(piston, "_largest", lambda _: 600.0)
    sizes = {"rod.small_end_width": "12 mm", "piston.boss_width": "18 mm"}
    piston.pin_bends(moment(with_values(engine(WREN), sizes)))
    assert asked == [(600.0, pytest.approx(22 * MM), pytest.approx(12 * MM))]


def test_what_swells_takes_of_its_clearance(monkeypatch):
    """40 mm by 50 K · 10⁻⁴ and 0.2 · 0.05 of water are 0.6 mm, of which the bore gives 0.1."""
    monkeypatch.setattr(swell, "across_the_bore", lambda *_: 1e-4)
    parts = SimpleNamespace(piston=None, cylinder=SimpleNamespace(bore=40.2 * MM))
    soaked = Material("nylon", "nylon", {"water_uptake": 0.05}, {}, False, structure="amorphous")
    place = swell.Place("skirt", 50.0, 0.2 * MM, "piston.skirt_clearance", soaked)
    wet = here(parts=parts, engine={"printing": SimpleNamespace(moisture="wet")})
    assert swell._taken(wet, place, 0.1 * MM) == pytest.approx(0.5 * MM)
    assert swell._taken(here(parts=parts), place, 0.1 * MM) == pytest.approx(0.1 * MM)
    assert swell._taken(here(parts=parts), place, 0.3 * MM) == 0.0
    assert swell._soaked(wet, METAL) == 0.0
    assert assumed.SWELLING_PER_UPTAKE == 0.2


def test_where_a_metal_piston_may_seize(monkeypatch):
    """A skirt 40 K warmer than air and a crown 100 K: 70 K between; bosses of 60 along the pin,
    where 0.05 mm of ovality are room besides."""
    monkeypatch.setattr(swell, "weighed_mean", lambda *_: 400.0)
    made = SimpleNamespace(
        material="metal", skirt_material=None, skirt_clearance=0.1 * MM, top_clearance=0.2 * MM,
        ovality=0.05 * MM, land_clearance=0.3 * MM,
    )  # fmt: skip
    at = here(
        {"skirt": warm(340.0, 340.0), "crown": warm(420.0, 380.0), "boss": warm(360.0, 360.0)},
        parts=SimpleNamespace(piston=made), engine={"materials": {"metal": METAL}},
    )  # fmt: skip
    found = {one.name: (one.rise, one.clearance) for one in swell._places(at)}
    assert found == {
        "skirt": pytest.approx((40.0, 0.1 * MM)),
        "top of the skirt": pytest.approx((70.0, 0.2 * MM)),
        "skirt along the pin": pytest.approx((60.0, 0.15 * MM)),
        "lands": pytest.approx((100.0, 0.3 * MM)),
    }


@pytest.mark.parametrize(
    ("pulls", "fit", "micrometres"),
    [
        # 40 mm · 10⁻⁵ · 40 K = 16; the body's hole of 50 mm grows by 50 (6 - 4) · 10⁻⁴ = 10 more,
        # of which half comes through; no more than a fit of 4; none where there is no fit
        (0.5, 60.0, 21.0), (0.5, 4.0, 18.0), (0.0, 60.0, 16.0), (0.5, 0.0, 16.0),
    ],
)  # fmt: skip
def test_a_bore_grows_and_is_pulled_open(monkeypatch, pulls, fit, micrometres):
    monkeypatch.setattr(swell, "across_the_bore", lambda _, spreads: spreads)
    monkeypatch.setattr(swell, "_body_pulls", lambda *_: pulls)
    liner = SimpleNamespace(material="liner", fit_interference=fit * 1e-6, outside_diameter=50 * MM)
    parts = SimpleNamespace(
        liner=liner, body=SimpleNamespace(material="body"), cylinder=SimpleNamespace(bore=40 * MM)
    )
    at = here(
        {"liner": warm(340.0, 340.0), "body": warm(330.0, 330.0)},
        parts=parts, engine={"materials": {"liner": 1e-5, "body": 2e-5}},
    )  # fmt: skip
    assert swell._bore_grows(at) == pytest.approx(micrometres * 1e-6)


def test_a_body_hands_on_its_growth_by_its_stiffness(monkeypatch):
    """A liner that gives way three times as far as its body follows by three quarters."""
    asked = []
    laws = SimpleNamespace(
        shrinking_of_outside=lambda *put: asked.append(put) or 3.0,
        growth_of_bore=lambda *put: asked.append(put) or 1.0,
    )
    monkeypatch.setattr(swell, "thick_cylinder", laws)
    monkeypatch.setattr(swell.strength, "stiffness", lambda part, *_: part.stiff)
    parts = SimpleNamespace(
        liner=SimpleNamespace(outside_diameter=50 * MM, stiff=7.0),
        body=SimpleNamespace(outside_diameter=70 * MM, stiff=8.0),
        cylinder=SimpleNamespace(bore=40 * MM),
    )
    iron, block = (
        replace(METAL, properties={**METAL.properties, "poisson": ratio}) for ratio in (0.25, 0.35)
    )
    assert swell._body_pulls(here(parts=parts), iron, block) == pytest.approx(0.75)
    assert asked == [(1.0, 40 * MM, 50 * MM, 7.0, 0.25), (1.0, 50 * MM, 70 * MM, 8.0, 0.35)]
    assert swell._body_pulls(here(parts=parts), iron, PLASTIC) == 0.0


def test_more_room_is_offered_where_it_is_taken(monkeypatch):
    """1.4 · 0.25 mm = 0.35 mm, at the lands and at the top where that is wider than the skirt."""
    made = SimpleNamespace(ovality=0.0, top_clearance=0.3 * MM, skirt_clearance=0.2 * MM)
    at = here(parts=SimpleNamespace(piston=made))
    for name in ("land", "top"):
        place = swell.Place("lands", 9.0, 0.25 * MM, f"piston.{name}_clearance", METAL)
        assert swell._freed(at, place).set == {f"piston.{name}_clearance": "0.35 mm"}


# Rings


def test_a_ring_and_its_bore_grow_by_their_own_rise(monkeypatch):
    """40 mm by 10⁻⁴ · 20 K: 40.08; a section of 2 mm by 2 · 10⁻⁴ · 50 K: 2.02."""
    asked = []
    monkeypatch.setattr(
        ring.oring_gland, "stretched_section", lambda *put: asked.append(put) or 2.0 * MM
    )
    monkeypatch.setattr(ring, "across_the_bore", lambda *_: 1e-4)
    rings = SimpleNamespace(section=2.1 * MM, inside_diameter=34 * MM, material="rubber")
    parts = SimpleNamespace(
        rings=rings, liner=SimpleNamespace(material="tube"), cylinder=SimpleNamespace(bore=40 * MM)
    )
    materials = {"rubber": {"expansion": 2e-4}, "tube": None}
    at = here({"liner": warm(320.0, 320.0)}, parts=parts, engine={"materials": materials})
    assert ring._bore_warm(at) == pytest.approx(40.08 * MM)
    assert ring._section_warm(at, 35 * MM, 50.0) == pytest.approx(2.02 * MM)
    assert asked == [(2.1 * MM, 34 * MM, 35 * MM)]


def test_a_rings_squeeze_sets_as_its_row_was_tested(monkeypatch):
    """Its set and its continuous use, over the 22 h of the test, at 400 K for 60 s."""
    asked = []
    monkeypatch.setattr(
        ring.compression_set, "squeeze_lost", lambda *put: asked.append(put) or 0.125
    )
    parts = SimpleNamespace(rings=SimpleNamespace(material="rubber"))
    rubber = {"rubber": {"compression_set": 0.2, "continuous_use": 473.0}}
    at = here({"ring": warm(400.0, 400.0)}, parts=parts, seconds=60.0, engine={"materials": rubber})
    assert ring._lost(at) == 0.125
    assert asked == [(0.2, 473.0, 79200.0, 400.0, 60.0)]


# Bearings


def test_forces_count_by_their_cubes(monkeypatch):
    """One of eight of 2 N: ⅛ · 2³ is 1. 7200 turns at a turn a second are two hours."""
    assert bearings._cubic_mean(np.array([2.0] + 7 * [0.0])) == pytest.approx(1.0)
    monkeypatch.setattr(bearings.bearing_life, "rating_life", lambda *_: 7200.0)
    way = bearings.wears_out(moment(WREN, rpm=60.0, cycles=30.0))
    assert way.demand == 60.0
    assert way.inputs["life_hours"] == pytest.approx(2.0)


# Clamping and sealing


def test_what_is_clamped_yields_one_behind_the_other(monkeypatch):
    """Two of 2 N/m in a row are 1; crept to 1 and 2 they are ⅔."""
    pieces = [clamped._Piece(2.0, 0.5), clamped._Piece(2.0, 1.0)]
    monkeypatch.setattr(clamped, "_head", lambda *_: pieces[0])
    monkeypatch.setattr(clamped, "_gasket", lambda _: [pieces[1]])
    monkeypatch.setattr(clamped, "_column", lambda _: [])
    assert clamped.clamped(here(), None) == pytest.approx((1.0, 2.0 / 3.0))


def test_a_sheets_face_is_shared_by_its_fasteners(monkeypatch):
    """π · 50 · 5 mm² by five: 50π; of 2 GPa half is left, over a millimetre: 50π · 10⁶ N/m."""
    monkeypatch.setattr(clamped, "modulus_left", lambda *_: 0.5)
    monkeypatch.setattr(clamped, "stress_left", lambda *_: 0.9)
    sheet = SimpleNamespace(
        kind="sheet", thickness=MM, material="sheet", inside_diameter=45 * MM, width=5 * MM
    )
    head = SimpleNamespace(fasteners=SimpleNamespace(count=5))
    at = here(
        parts=SimpleNamespace(gasket=sheet, head=head), resting_hours=1.0,
        engine={"materials": {"sheet": PLASTIC}},
    )  # fmt: skip
    (piece,) = clamped._gasket(at)
    assert piece == pytest.approx((50e6 * math.pi, 0.9))


def long_ones(**other):
    fasteners = SimpleNamespace(count=4, long=True, washer_diameter=6 * MM)
    return here(
        parts=SimpleNamespace(
            head=SimpleNamespace(fasteners=fasteners),
            liner=SimpleNamespace(length=100 * MM, outside_diameter=50 * MM),
            body=SimpleNamespace(outside_diameter=70 * MM),
            cylinder=SimpleNamespace(bore=40 * MM),
        ),
        **other,
    )


def test_liner_and_body_stand_side_by_side_under_long_fasteners(monkeypatch):
    """3 and 1 MN over 0.1 m by four: 10 MN/m; (3 · 0.5 + 1 · 0.9)/4 = 0.6 of it is left."""
    walls = clamped._Piece(3e6, 0.5), clamped._Piece(1e6, 0.9)
    monkeypatch.setattr(clamped, "_walls", lambda _: walls)
    (piece,) = clamped._column(long_ones())
    assert piece == pytest.approx((1e7, 0.6))


def test_sections_of_liner_and_body(monkeypatch):
    """π/4 (50² - 40²) = 225π; π/4 (70² - 50²) = 600π mm², half of it laid, 10 mm thick."""
    asked = []
    monkeypatch.setattr(clamped, "_wall", lambda *put: put[-1])
    monkeypatch.setattr(clamped, "pulled_share", lambda _, wall: asked.append(wall) or 0.5)
    assert clamped._walls(long_ones()) == pytest.approx((225e-6 * math.pi, 300e-6 * math.pi))
    assert asked == [pytest.approx(10 * MM)]


def test_a_wall_is_as_stiff_as_its_section(monkeypatch):
    """2 GPa of 3 mm² are 6 kN."""
    monkeypatch.setattr(clamped.strength, "stiffness", lambda *_: 2e9)
    monkeypatch.setattr(clamped, "stress_left", lambda *_: 0.9)
    at = here(
        parts=SimpleNamespace(liner=SimpleNamespace(material="tube")), resting_hours=1.0,
        engine={"materials": {"tube": PLASTIC}},
    )  # fmt: skip
    assert clamped._wall(at, "liner", 3e-6) == pytest.approx((6e3, 0.9))


def test_a_washer_keeps_a_rim():
    """0.9 of 6 mm where the hole would be 5.5; its own 4.5 else."""
    at = long_ones()
    for hole, kept in ((5.5, 5.4), (4.5, 4.5)):
        size = SimpleNamespace(clearance_hole=hole * MM)
        assert clamped.washer_hole(at, size) == pytest.approx(kept * MM)


def test_a_head_is_two_cones(monkeypatch):
    """Each through half of its 12 mm, and half as stiff together."""
    asked = []
    monkeypatch.setattr(clamped.bolt, "cone_stiffness", lambda *put: asked.append(put) or 8e7)
    monkeypatch.setattr(clamped.strength, "stiffness", lambda *_: 2e9)
    monkeypatch.setattr(clamped, "stress_left", lambda *_: 0.9)
    fasteners = SimpleNamespace(washer_diameter=10 * MM)
    head = SimpleNamespace(material="plastic", thickness=12 * MM, fasteners=fasteners)
    at = here(
        parts=SimpleNamespace(head=head), resting_hours=1.0,
        engine={"materials": {"plastic": PLASTIC}},
    )  # fmt: skip
    size = SimpleNamespace(clearance_hole=5.5 * MM)
    assert clamped._head(at, size) == pytest.approx((4e7, 0.9))
    assert asked == [(2e9, 5.5 * MM, 10 * MM, pytest.approx(6 * MM))]


def sealed(**gasket):
    row = {"skin_time": 500.0, "shear_strength": 6e6, "shear_strength_on_plastic": 4e6,
           "gasket_m": 2.0}  # fmt: skip
    parts = SimpleNamespace(
        gasket=SimpleNamespace(material="bead", **gasket),
        head=SimpleNamespace(material="head"),
        body=SimpleNamespace(material="body"),
    )
    return here(parts=parts, engine={"materials": {"bead": row, "head": METAL, "body": METAL}})


def test_a_gasket_opens_at_what_its_clamping_has_left_for_it():
    """4 · 1000 N on π/4 · 40² mm², of which ¾ unload it, and as much again by its own need of
    π · 40 · 5 mm² · 2: 4000/1.75."""
    joint = SimpleNamespace(number=4, left=1000.0, share=0.25, seal_diameter=40 * MM)
    at = sealed(kind="sheet", width=5 * MM)
    assert seal._sealed_force(at, joint) == pytest.approx(4000 / 1.75)
    # an O-ring has no need of its own
    at = sealed(kind="o_ring", width=5 * MM)
    assert seal._sealed_force(at, joint) == pytest.approx(4000 / 0.75)


def test_a_bead_sticks_as_much_as_is_left_of_its_glue(monkeypatch):
    """20 of 40 MPa: half of 6 MPa on metal, of 4 on plastic."""
    glue = strength.Strength(20e6, "", 40e6, {}, {})
    assert seal._sticks(sealed(), glue) == pytest.approx(3e6)
    monkeypatch.setattr(seal, "_on_metal", lambda _: False)
    assert seal._sticks(sealed(), glue) == pytest.approx(2e6)


@pytest.mark.parametrize(("seconds", "faces"), [(249.0, 2.0), (251.0, 1.0)])
def test_a_bead_that_lay_open_has_a_skin(monkeypatch, seconds, faces):
    """Twice as fast as at room: 500 s of skin are 250."""
    monkeypatch.setattr(seal.cure, "pace", lambda _: 2.0)
    assert seal._faces_stuck(sealed(open_time=seconds, cure_temperature=306.0)) == faces
