"""What four more reports tell, against judgements of engine files written from them.

These are held to what a report says of a part, not to a whole run: sizes are nearly all guesses.
Moments are plausible ones by statics (`tests/parts/moments.py`), so nothing here waits for a gas.

References
----------
Race engine: encyclopedia article "Plastic automotive engine"; Design-2-Part, "Are You Ready for an
All-Plastic Automotive Engine?", 8 February 2016. O-rings: Gas Engine Magazine, "O-ring Ramblings",
February/March 2004. V-twin: model engineers' forum, V-twin build, page 20. Elbow: AAIB
investigation report, G-BYLZ, 2025.
"""

from __future__ import annotations

import pytest
from tests.parts.moments import engine, moment

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.engine.records import Way
from firstfire.heat.cylinder import network
from firstfire.parts.all import ways

RACE, MODEL, TWIN, ELBOW = (
    f"tests/field/{name}.toml"
    for name in ("plastic_race_engine", "o_ring_model", "home_v_twin", "printed_elbow")
)


def judged(file: str, cylinder: int = 0, **said: str) -> dict[str, Way]:
    written = with_values(engine(file), said) if said else engine(file)
    return {way.id: way for way in ways(moment(written, cylinder=cylinder))}


# --- a race engine of fibre-reinforced polyamide-imide -------------------------------------------


@pytest.mark.parametrize(
    "way", ["valves.inlet.retainer", "valves.exhaust.retainer", "rod.tear", "rod.buckle",
            "piston.swell", "piston.boss.crush", "body.split"],
)  # fmt: skip
def test_parts_of_the_race_engine_that_are_of_plastic_hold(way: str) -> None:
    """It raced two seasons."""
    found = judged(RACE)[way]
    assert found.judged, found.why_not
    assert found.factor > 1.5


def test_its_rods_of_cast_nylon_would_not_do() -> None:
    """Why it took the dearest of plastics."""
    nylon = judged(RACE, **{"rod.material": "pa6_cast"})["rod.tear"]
    assert nylon.factor < 0.5 * judged(RACE)["rod.tear"].factor


def test_wear_of_its_tappets_is_named_and_not_judged() -> None:
    for which in ("inlet", "exhaust"):
        assert not judged(RACE)[f"valves.{which}.tappet"].judged
        assert f"valves.{which}.tappet" not in judged(MODEL)


def test_its_skirt_is_plastic_under_a_metal_crown() -> None:
    parts = {lump.name: lump for lump in network(ff.resolve(engine(RACE)), 0).lumps}
    metal = with_values(engine(RACE), {"piston.skirt_material": "aluminium_piston"})
    skirts = {lump.name: lump for lump in network(ff.resolve(metal), 0).lumps}
    assert parts["skirt"].capacity < skirts["skirt"].capacity
    assert parts["land"].capacity == skirts["land"].capacity


# --- an O-ring for a piston ring -----------------------------------------------------------------


def test_the_reported_groove_squeezes_by_what_is_reported() -> None:
    """About 16 %."""
    assert ff.resolve(engine(MODEL)).cylinders[0].rings.squeeze == pytest.approx(0.16, abs=0.01)


@pytest.mark.parametrize("way", ["ring.leak", "ring.roll", "ring.fill"])
def test_it_works_very_well(way: str) -> None:
    found = judged(MODEL)[way]
    assert found.judged
    assert found.factor > 1.2


# --- a home-built V-twin -------------------------------------------------------------------------


@pytest.mark.parametrize("way", ["head.fasteners.strip", "head.lift"])
def test_a_screw_without_full_thread_is_not_taken_to_hold(way: str) -> None:
    """It let the gasket blow. Threads of less than a diameter are outside the law used here."""
    good, bad = judged(TWIN)[way], judged(TWIN, cylinder=1)[f"{way}#2"]
    assert good.judged
    assert good.factor > 1
    assert not bad.judged
    assert "thread" in bad.why_not.lower()


def test_a_gasket_of_ptfe_is_not_taken_to_seal() -> None:
    """It blew; no gasket factor of PTFE is known here, so nothing is claimed of it."""
    assert not judged(TWIN)["gasket.open"].judged


# --- a printed intake elbow ----------------------------------------------------------------------


def test_as_measured_the_elbow_softens_and_folds_in() -> None:
    found = judged(ELBOW)
    assert found["intake.soften"].factor < 1
    assert found["intake.fold"].factor < 1


def test_as_labelled_it_would_have_held() -> None:
    """A material is what was measured, not what was on the spool."""
    found = judged(ELBOW, **{"intake.material": "elbow_as_labelled"})
    assert found["intake.soften"].factor > 1.3
    assert found["intake.fold"].factor > 1.3


def test_one_size_thicker_does_not_save_it() -> None:
    """Softness, not the wall, is what ends it."""
    assert judged(ELBOW, **{"intake.wall": "5 mm"})["intake.soften"].factor < 1
