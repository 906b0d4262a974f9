"""What must hold whatever the numbers: hotter, thinner, older and wetter is never stronger."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.parts.moments import COLD, FILES, WARM, engine, hotter, moment, numbers, wall

from firstfire.catalog import Catalog
from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.read import with_values
from firstfire.engine.records import Way
from firstfire.engine.sections.make import Made
from firstfire.engine.working import recorded
from firstfire.errors import OutsideValidity
from firstfire.parts import section, softness, strength, ways

ROWS = {row.key: row for row in Catalog().rows("material") if "modulus_in_plane" in row.data}


def material(key: str) -> Material:
    row = ROWS[key]
    numbers = {prop: datum.si for prop, datum in row.data.items()}
    structure, fibres = row.texts.get("structure", ""), "fibres" in row.texts
    return Material(key, row.name, numbers, row.curves, False, structure, fibres)


def find(at: Moment, name: str) -> Way:
    return next(way for way in ways(at) if way.id == name)


def capacities(file: str, name: str, path: str, values: list[str], **what: object) -> list[float]:
    described = [with_values(engine(file), {path: value}) for value in values]
    return [find(moment(one, **what), name).capacity for one in described]  # type: ignore[arg-type]


def rises_throughout(numbers: list[float]) -> bool:
    return all(b >= a * (1 - 1e-12) for a, b in pairwise(numbers))


@pytest.mark.parametrize("key", ROWS)
def test_strength_and_stiffness_never_rise_with_temperature(key: str) -> None:
    it = material(key)
    temperatures = [250.0 + 5.0 * step for step in range(300)]
    for left in (softness.strength_left, softness.modulus_left):
        kept = [left(it, temperature) for temperature in temperatures]
        assert all(0 <= share <= 1 for share in kept)
        assert rises_throughout(kept[::-1])


@pytest.mark.parametrize("key", ROWS)
@pytest.mark.parametrize("share", [0.8, 0.5, 0.1])
def test_where_it_softens_that_share_is_left(key: str, share: float) -> None:
    it = material(key)
    at = softness.softens_at(it, share)
    assert softness.strength_left(it, at - 1.0) >= share - 1e-9
    assert softness.strength_left(it, at + 1.0) <= share + 1e-9


@pytest.mark.parametrize("key", ROWS)
def test_beyond_its_curve_a_part_counts_as_lost(key: str) -> None:
    """Straight to nothing at melting, or within 20 K where none is known."""
    it = material(key)
    end = max(softness.last_known(it) + 21.0, (it.get("melting") or 0.0) + 1.0)
    assert softness.strength_left(it, end) == 0.0


@pytest.mark.parametrize("key", sorted(set(ROWS) - {"retaining_compound"}))
def test_creep_only_takes(key: str) -> None:
    it = material(key)
    by_time = [softness.stress_left(it, h, 296.15) for h in (0.1, 1.0, 12.0, 1000.0)]
    by_heat = [softness.stress_left(it, 12.0, t) for t in (290.0, 310.0, 330.0, 350.0, 400.0)]
    for kept in (by_time, by_heat):
        assert all(0 < share <= 1 for share in kept)
        assert rises_throughout(kept[::-1])


def test_creep_of_what_tells_no_curve_is_known_at_room_only() -> None:
    """A retaining compound fills a gap and clamps nothing: its row tells no relaxation."""
    glue = material("retaining_compound")
    assert 0 < softness.stress_left(glue, 12.0, 296.15) < 1
    with pytest.raises(OutsideValidity, match="relaxation warm"):
        softness.stress_left(glue, 12.0, 310.0)


#: Ways whose demand doesn't depend on temperature and whose capacity is a strength or a limit.
BY_STRENGTH = (
    "piston.crown.break", "piston.land.break", "piston.land.sink", "piston.boss.crush",
    "head.lift", "head.break", "plug.blow", "rod.tear", "rod.buckle", "rod.small_end.crush",
    "body.part", "head.seat.loosen", "head.face.soften", "exhaust_port.soften",
    "liner.bore.soften", "ring.overheat", "piston.crown.char", "head.char", "pin.bend",
    "piston.shield.melt", "piston.shield.loosen", "head.chamber_plate.melt",
)  # fmt: skip


@pytest.mark.parametrize("file", FILES)
def test_hotter_is_never_stronger(file: str) -> None:
    start = moment(file)
    steps = [{way.id: way for way in ways(hotter(start, t))} for t in (0.0, 0.5, 1.0, 1.5, 2.5)]
    for name in BY_STRENGTH:
        if name in steps[0]:
            factors = [step[name].factor for step in steps]
            assert rises_throughout(factors[::-1]), (name, factors)


@pytest.mark.parametrize(
    ("name", "path", "values"),
    [
        (
            "piston.crown.break",
            "piston.crown_thickness",
            ["4 mm", "6 mm", "9 mm", "11 mm", "14 mm"],
        ),
        ("piston.crown.break", "piston.walls", ["1", "3", "6", "12"]),
        ("piston.crown.break", "piston.infill", ["0.2", "0.6", "1.0"]),
        ("head.break", "head.infill", ["0.2", "0.6", "1.0"]),
        ("head.break", "head.walls", ["1", "4", "12"]),
        ("rod.tear", "rod.eye_wall", ["3.5 mm", "4.5 mm", "6 mm", "9 mm"]),
        ("rod.tear", "rod.shank_width", ["4 mm", "8 mm", "14 mm"]),
        ("rod.buckle", "rod.shank_thickness", ["4 mm", "8 mm", "14 mm", "20 mm"]),
        ("piston.land.break", "piston.top_land", ["3 mm", "4 mm", "5 mm"]),
        ("body.part", "body.outside_diameter", ["60 mm", "66 mm", "80 mm"]),
        ("crank.cheek.break", "crank.infill", ["0.2", "0.6", "1.0"]),
        ("head.lift", "head.fasteners.count", ["4", "6", "8"]),
    ],
)
def test_more_of_it_never_holds_less(name: str, path: str, values: list[str]) -> None:
    described = [
        with_values(engine("engines/heron.toml"), {path: value}, comma=True) for value in values
    ]
    found = [find(moment(one, rises=COLD, event="first_fire"), name) for one in described]
    assert rises_throughout([way.capacity for way in found])
    if not name.startswith("rod."):  # a stouter rod is heavier, and pulls harder itself
        assert rises_throughout([way.factor for way in found])


@pytest.mark.parametrize(
    ("name", "path", "values"),
    [
        ("head.break", "head.thickness", ["8 mm", "12 mm", "16 mm", "20 mm", "30 mm"]),
        ("liner.burst", "liner.outside_diameter", ["49 mm", "50 mm", "52 mm", "54 mm"]),
        ("crank.cheek.break", "crank.cheek_width", ["22 mm", "28 mm", "36 mm"]),
        ("crank.pin.bend", "crank.crankpin_diameter", ["12 mm", "14 mm", "18 mm"]),
        ("pin.bend", "pin.diameter", ["9 mm", "11 mm", "14 mm"]),
    ],
)
def test_thicker_never_bears_worse(name: str, path: str, values: list[str]) -> None:
    described = [
        with_values(engine("engines/heron.toml"), {path: value, "body.outside_diameter": "66 mm"})
        for value in values
    ]
    found = [find(moment(one, rises=COLD, event="first_fire"), name) for one in described]
    assert rises_throughout([way.factor for way in found])


@pytest.mark.parametrize("file", FILES)
def test_more_preload_never_opens_the_gasket_earlier(file: str) -> None:
    torques = [f"{t} N*m" for t in (0.2, 0.4, 0.8, 1.6, 3.2, 6.4)]
    name = "gasket.open"
    assert rises_throughout(capacities(file, name, "head.fasteners.torque", torques))
    hot = capacities(file, name, "head.fasteners.torque", torques, event="idle", rises=WARM)
    assert rises_throughout(hot)


@pytest.mark.parametrize("plate", ["", "steel_mild"])
def test_more_interference_never_slips_earlier_and_is_capped_by_the_hub(plate: str) -> None:
    base = {"crank.joint.kind": "plain_press"}
    if plate:
        base |= {"crank.joint.plate": plate, "crank.joint.plate_thickness": "5 mm"}
    pressed = with_values(engine("engines/heron.toml"), base | {"crank.crankpin_material": "steel"})
    fits = [f"{f} mm" for f in (-0.05, 0.0, 0.02, 0.05, 0.1, 0.2, 0.4)]
    described = [with_values(pressed, {"crank.joint.interference": fit}) for fit in fits]
    found = [find(moment(one, rises=COLD), "crank.joint.slip") for one in described]
    assert rises_throughout([way.capacity for way in found])
    assert found[0].capacity == 0.0
    assert found[-1].governs == "section"
    most = numbers(find(recorded(moment(described[-1], rises=COLD)), "crank.joint.slip"))
    assert most["pressure"] == most["pressure_at_yield"] < most["pressure_by_fit"]


def test_a_press_in_plastic_relaxes() -> None:
    pressed = with_values(
        engine("engines/heron.toml"),
        {"crank.joint.kind": "plain_press", "crank.joint.interference": "0.1 mm",
         "crank.crankpin_material": "steel"},
    )  # fmt: skip
    held = [find(moment(pressed, hours=h), "crank.joint.slip").capacity for h in (0.1, 12, 2000)]
    assert held[0] > held[1] > held[2] > 0.4 * held[0]


def test_friction_is_doubted_and_strength_is_not() -> None:
    pressed = with_values(
        engine("engines/heron.toml"),
        {"crank.joint.kind": "plain_press", "crank.joint.interference": "0.1 mm",
         "crank.crankpin_material": "steel"},
    )  # fmt: skip
    whole, doubted = (
        find(moment(pressed, sample=s), "crank.joint.slip")
        for s in (None, {"doubt.press_friction": 0.6})
    )
    assert doubted.capacity == pytest.approx(0.6 * whole.capacity)
    pinned = moment(FILES[0], sample={"doubt.press_friction": 0.6})
    assert find(pinned, "crank.joint.slip").capacity == pytest.approx(
        find(moment(FILES[0]), "crank.joint.slip").capacity
    )


def test_doubt_in_strength_is_for_prints_and_not_for_metal() -> None:
    sure = {way.id: way for way in ways(moment(FILES[0], rises=COLD))}
    doubted = {
        way.id: way
        for way in ways(
            moment(
                FILES[0],
                rises=COLD,
                sample={"doubt.strength_bias": 0.8, "doubt.strength_scatter": 0.9},
            )
        )
    }
    for name in ("piston.crown.break", "plug.blow", "rod.tear", "case.bearing_seat.crush"):
        assert doubted[name].capacity == pytest.approx(0.72 * sure[name].capacity), name
    for name in (
        "pin.bend",
        "flywheel.burst",
        "liner.burst",
        "crank.pin.bend",
        "crank.cheek.break",
    ):
        assert doubted[name].capacity == sure[name].capacity, name


def test_a_bought_plastic_has_no_printers_bias() -> None:
    at = moment("engines/heron.toml", sample={"doubt.strength_bias": 0.5})
    sure = find(moment("engines/heron.toml"), "liner.burst")
    assert find(at, "liner.burst").capacity == pytest.approx(sure.capacity)


@pytest.mark.parametrize("file", FILES)
def test_more_cycles_never_bear_more(file: str) -> None:
    once = {way.id: way for way in ways(moment(file, cycles=1.0))}
    often = {way.id: way for way in ways(moment(file, cycles=1e5))}
    for name, way in once.items():
        if way.judged and name != "crank.bearing.life":
            assert often[name].capacity <= way.capacity * (1 + 1e-12), name


def test_a_wet_polyamide_is_weaker_than_a_dry_one() -> None:
    wet, room, dry = (
        find(
            moment(with_values(engine(FILES[0]), {"printing.moisture": state}), rises=COLD),
            "plug.blow",
        ).capacity
        for state in ("wet", "room", "dry")
    )
    # PA6 with short fibre keeps half of its strength soaked, by the catalog's row.
    assert wet == pytest.approx(0.5 * dry)
    assert wet < room < dry


def test_layers_across_the_pull_govern() -> None:
    flat, upright = (
        find(
            moment(
                with_values(engine(FILES[0]), {"rod.layers_stacked": way}),
                rises=COLD, event="first_fire", cycles=1.0,
            ),
            "rod.tear",
        )
        for way in ("along_crank", "along_bore")
    )  # fmt: skip
    assert upright.governs == "layers"
    # 32 of 65 MPa, by the catalog's row.
    assert upright.capacity == pytest.approx(32 / 65 * flat.capacity)


@given(st.floats(1.0, 12.0), st.floats(0.0, 1.0), st.integers(1, 12))
def test_shares_of_a_printed_wall(thickness: float, infill: float, walls: int) -> None:
    made = Made(material="petg", made="printed", walls=walls, line_width=0.45e-3, infill=infill,
                layers_stacked="along_bore")  # fmt: skip
    pulled = section.pulled_share(made, thickness * 1e-3)
    bent = section.bent_share(made, thickness * 1e-3)
    assert infill - 1e-12 <= pulled <= bent <= 1.0
    solid = made.model_copy(update={"made": "bought"})
    assert section.pulled_share(solid, thickness * 1e-3) == 1.0


@given(st.floats(0.0, 400.0), st.floats(0.3e-3, 10e-3))
def test_a_wall_with_a_hot_skin_is_weaker_than_a_cold_one_and_stronger_than_a_hot_one(
    rise: float, reach: float
) -> None:
    it = material("pa12_cf")
    heat = wall(293.15 + rise, 293.15, reach, 6e-3, 0.0)
    share = section.folded_share(it, heat, 6e-3)
    assert share <= 1.0 + 1e-9
    assert share >= softness.strength_left(it, 293.15 + rise) - 1e-9
    assert section.folded_share(it, None, 6e-3) == 1.0


def test_the_depth_that_is_hotter_than_a_limit() -> None:
    heat = wall(493.15, 293.15, 1e-3, 10e-3, 0.0)
    # 200 K falling e-fold each millimetre passes 100 K at ln 2 mm; profile points every 0.71 mm.
    assert section.depth_beyond(heat, 393.15) == pytest.approx(0.693e-3, rel=0.06)
    assert section.depth_beyond(heat, 500.0) == 0.0
    assert section.depth_beyond(heat, 280.0) == pytest.approx(10e-3)


def test_strength_tells_what_takes_most_off() -> None:
    at = moment(FILES[1], cycles=1e6)
    parts = at.engine.cylinders[0]
    tired = strength.of(at, parts.piston, pull=strength.PRESSED, warm=0.9)
    assert tired.governs == "fatigue"
    hot = strength.of(at, parts.piston, pull=strength.PRESSED, warm=0.05)
    assert hot.governs == "temperature"
    lasting = replace(at, resting_hours=5000.0)
    crept = strength.of(lasting, parts.piston, pull=strength.PRESSED, warm=1.0, load="lasting")
    assert crept.governs == "creep"
    hollow = strength.of(at, parts.piston, pull=strength.PRESSED, warm=1.0, section=0.1)
    assert hollow.governs == "section"
