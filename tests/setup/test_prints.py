"""What prints weigh and take: bodies by hand, sums, plastic by walls and infill."""

import math
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.engine.rules.rule import PRACTICE
from firstfire.setup import laid
from firstfire.setup.outline import hollow_cylinder, outlines
from firstfire.setup.parts_list import parts_list
from firstfire.setup.printed import printed_parts, total_mass, total_time

ROOT = Path(__file__).resolve().parents[2]
WREN = ROOT / "engines" / "wren.toml"
ENGINES = [
    *sorted((ROOT / "engines").glob("*.toml")),
    *sorted((ROOT / "tests" / "strangers").glob("[1-5]*.toml")),
]


@pytest.fixture(scope="module")
def wren():
    return ff.read(WREN)


def printed(engine):
    return {part.part: part for part in printed_parts(engine, ff.resolve(engine))}


def test_a_hollow_cylinder_by_hand():
    # pi/4 (60² - 44²) 68.4 mm³ = 0.785398 · 1664 · 68.4 = 89 391 mm³.
    assert hollow_cylinder(60e-3, 44e-3, 68.4e-3) == pytest.approx(89.391e-6, rel=1e-4)


def test_wrens_body_by_hand(wren):
    """60 × 44 × 68.4 mm of PETG in a wall of 8 mm, six lines of 0.45 mm a face, 40 % between.

    Of 8 mm, 5.4 are lines and 2.6 at 40 %: share 1 - 0.6 · 2.6/8 = 0.805; 89.39 cm³ · 0.805 =
    71.96 cm³; PETG at 1270 kg/m³ (the catalog's): 91.4 g; at 5 mm³/s 4.0 h.
    """
    body = printed(wren)["body"]
    assert body.outline == pytest.approx(89.391e-6, rel=1e-4)
    assert body.plastic == pytest.approx(71.96e-6, rel=1e-3)
    assert body.mass == pytest.approx(91.39e-3, rel=1e-3)
    assert body.time.value / 3600 == pytest.approx(3.998, rel=1e-3)


def test_the_piston_weighs_what_the_files_own_rule_says(wren):
    """The default of `piston.mass` is disc, tube and bosses, and the shield on top."""
    plain = ff.resolve(wren)
    piston, shield = plain.cylinders[0].piston, plain.cylinders[0].piston.shield
    disc = math.pi / 4 * shield.diameter**2 * shield.thickness
    sheet = disc * plain.materials[shield.material]["density"]
    assert printed(wren)["piston"].mass + sheet == pytest.approx(piston.mass, rel=1e-9)


def test_the_rod_weighs_what_the_files_own_rule_says(wren):
    plain = ff.resolve(wren)
    assert printed(wren)["con rod"].mass == pytest.approx(plain.cylinders[0].rod.mass, rel=1e-9)


def test_a_spool_of_a_kilogram_is_about_330_metres():
    # 1 kg of PLA at 1240 kg/m³ is 806 cm³; 1.75 mm round is 2.405 mm²: 335 m. Filament dealers
    # say 330 to 335 m of a kilogram (common practice, no source).
    assert 330 <= laid.filament_length(1 / 1240) <= 336


@pytest.mark.parametrize("file", ENGINES, ids=lambda f: f.stem)
def test_sums_are_sums(file):
    found = parts_list(ff.read(file))
    assert found.printed_mass == pytest.approx(sum(p.count * p.mass for p in found.printed))
    for n in range(3):
        wanted = sum(p.count * p.time[n] for p in found.printed)
        assert found.print_time[n] == pytest.approx(wanted)
    assert found.print_time.low < found.print_time.value < found.print_time.high
    for part in found.printed:
        assert 0 < part.plastic <= part.outline * (1 + 1e-12), part.part
        assert part.mass > 0


def test_more_infill_and_more_walls_never_weigh_less(wren):
    before = total_mass(printed_parts(wren, ff.resolve(wren)))
    for change in ({"body.infill": 0.8}, {"body.walls": 8}, {"case.wall": "8 mm"}):
        after = ff.with_values(wren, change)
        assert total_mass(printed_parts(after, ff.resolve(after))) > before, change


def test_a_twin_prints_its_cylinder_twice():
    one = ff.read(ROOT / "engines" / "heron.toml")
    pistons = printed(one)["piston"]
    assert (pistons.count, pistons.cylinders) == (2, (1, 2))
    apart = ff.with_values(one, {"cylinders.2.piston.infill": 0.5})
    found = [p for p in printed_parts(apart, ff.resolve(apart)) if p.part == "piston"]
    assert [(p.count, p.cylinders) for p in found] == [(1, (1,)), (1, (2,))]


def test_nothing_of_metal_is_printed():
    metal = ff.read(ROOT / "tests" / "strangers" / "5_metal_wren.toml")
    assert not {"piston", "con rod", "head", "body", "liner", "crank cheek"} & set(printed(metal))


def test_bare_print_prints_its_liner():
    assert "liner" in printed(ff.read(ROOT / "tests" / "strangers" / "3_inches.toml"))


def test_resin_goes_by_height_and_comes_out_solid():
    resin = ff.read(ROOT / "tests" / "strangers" / "1_resin_methanol.toml")
    body = printed(resin)["body"]
    assert body.resin
    assert body.plastic == body.outline
    tall = ff.resolve(resin).cylinders[0].liner.length
    assert body.time.value == pytest.approx(tall / laid.RISE.value)


def test_lying_otherwise_is_said(wren):
    upright = ff.with_values(wren, {"rod.layers_stacked": "along_bore"})
    assert "standing" in printed(upright)["con rod"].lies
    assert "flat" in printed(wren)["con rod"].lies
    assert printed(wren)["piston"].lies == "crown down on the bed"


def test_hostile_names_stay_text(tmp_path):
    file = tmp_path / "%s {x}.toml"
    text = WREN.read_text().replace('name = "wren"', 'name = "a\\nb %s {x} [bold] \\u202e"')
    file.write_text(text)
    told = str(parts_list(ff.read(file)))
    assert "%s {x} [bold]" in told
    assert max(map(len, told.splitlines())) <= 80


def test_total_time_of_nothing_is_nothing():
    assert total_time([]) == (0, 0, 0)
    assert total_mass([]) == 0


def test_outlines_know_their_way_of_making(wren):
    for outline in outlines(ff.resolve(wren)):
        assert outline.volume > 0
        assert min(outline.sizes) > 0
        assert outline.how


def test_what_has_no_source_says_so():
    assert laid.PRACTICE == PRACTICE


def test_a_printed_pin_is_listed_as_it_is_laid():
    """Heron's pins are printed with its cheeks; here they get more lines than those."""
    heron = ff.read(ROOT / "engines" / "heron.toml")
    laid = ff.with_values(heron, {"crank.crankpin.walls": 12, "crank.infill": 0.5})
    found = {part.part: part for part in parts_list(laid).printed}
    assert found["crankpin"].walls == 12
    assert found["crank cheek"].walls == 6
    assert found["crankpin"].material == found["crank cheek"].material
