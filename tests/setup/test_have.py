"""Things at hand: what fits, what fits on a condition, what can't, what is nothing."""

from pathlib import Path

import pytest

import firstfire as ff
from firstfire.errors import FirstfireError
from firstfire.setup import have
from firstfire.setup.have import OFFERS, fittings, judged, named_rows

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def wren():
    return ff.read(ROOT / "engines" / "wren.toml")


@pytest.fixture(scope="module")
def heron():
    return ff.read(ROOT / "engines" / "heron.toml")


@pytest.fixture(scope="module")
def plover():
    return ff.read(ROOT / "engines" / "plover.toml")


def only(engine, name):
    (found,) = fittings(engine, [name])
    return found


def test_the_bearing_the_file_names_serves_under_any_of_its_names(wren):
    for name in ("6202", "6202-2RS", "6202 zz", "15x35x11"):
        found = only(wren, name)
        assert found.word == "serves"
        assert not found.set
        assert not found.follows


def test_a_larger_bearing_serves_if_sizes_change(wren):
    found = only(wren, "6203")
    assert found.word == "serves if"
    assert found.set == {"crank.main_bearing": "6203"}
    follows = {d.path: (d.each[0].value, d.each[1].value) for d in found.follows}
    # ISO 15: 6203 is 17 × 40 × 12 mm.
    assert follows["crank.main_bearing_bore"] == pytest.approx((15e-3, 17e-3))
    assert follows["crank.main_bearing_outside"] == pytest.approx((35e-3, 40e-3))
    assert follows["crank.main_journal_diameter"] == pytest.approx((15e-3, 17e-3))
    assert follows["flywheel.bore"] == pytest.approx((15e-3, 17e-3))


def test_a_journal_that_was_said_has_to_be_set(wren):
    said = ff.with_values(wren, {"crank.main_journal_diameter": "15 mm"}, layer="trial")
    found = only(said, "6203")
    assert found.set["crank.main_journal_diameter"] == "17 mm"


def test_a_bearing_as_wide_as_the_cheek_cant(wren):
    thin = ff.with_values(wren, {"crank.cheek_width": "24 mm"})
    found = only(thin, "6205")
    assert found.word == "can't"
    assert "cheek" in found.why
    assert not found.set


def test_orings_by_stretch(wren, plover):
    """The groove's floor is 40 - 0.24 - 2 · 2.238 = 35.28 mm; AS568-126 is 34.59 mm inside."""
    fits = only(wren, "AS568-126")
    assert fits.word == "serves"
    assert "2.0" in fits.why
    loose = only(wren, "AS568-128")
    assert loose.word == "can't"
    assert "loose" in loose.why
    assert only(plover, "AS568-126").word == "can't"


def test_another_section_wants_another_groove(wren):
    """36 × 2 mm: a groove 2 · 0.9 - 0.12 = 1.68 mm deep, its floor 36.4 mm, stretch 1.1 %."""
    found = only(wren, "36x2")
    assert found.word == "serves if"
    assert found.set["rings.section"] == "2 mm"
    assert "1.1" in found.why
    follows = {d.path: d.each[1].value for d in found.follows}
    assert follows["rings.groove_depth"] == pytest.approx(1.68e-3)


def test_tubes(wren):
    assert only(wren, "aluminium 40x44").word == "serves"
    other = only(wren, "aluminium 44x50")
    assert other.word == "serves if"
    assert other.set["cylinder.bore"] == "44 mm"
    assert other.set["liner.outside_diameter"] == "50 mm"
    steel = only(wren, "steel 40x48")
    assert steel.set["liner.material"] == "steel_mild"
    far = only(wren, "aluminium 56x60")
    assert far.word == "can't"
    assert "another engine" in far.why


def test_screws_say_how_long(wren, heron):
    found = {f.row.kind: f for f in fittings(wren, ["M5"])}
    assert found["thread"].word == "serves"
    assert "95.5" in found["thread"].why
    assert found["insert"].word == "serves if"
    assert found["insert"].set["head.fasteners.kind"] == "inserts"
    bigger = {f.row.kind: f for f in fittings(heron, ["M5"])}
    # Inserts of that thread come with it.
    assert bigger["thread"].set["head.fasteners.insert"] == "M5"
    assert only(wren, "M10x1").place == "spark plug"


def test_screws_with_a_length(wren):
    """95.5 mm are wanted under the head: see the parts list's own test."""
    long = only(wren, "M5x100")
    assert long.word == "serves"
    assert "100" in long.why
    short = only(wren, "M5 × 60 mm")
    assert short.word == "can't"
    assert "too short" in short.why
    # A plug's thread stays one: its pitch is no length.
    assert only(wren, "M10x1").place == "spark plug"
    assert "saw off" in only(wren, "M5x140").why


def test_belts(wren):
    assert only(wren, "3 mm curvilinear").word == "serves"
    other = only(wren, "2 mm curvilinear")
    assert other.word == "serves if"
    assert other.set["cam_drive.pitch"] == "2 mm"
    chained = ff.with_values(wren, {"cam_drive.kind": "chain"})
    assert only(chained, "2 mm curvilinear").word == "can't"


def test_fuel_and_starter(wren):
    assert only(wren, "petrol").word == "serves"
    gas = only(wren, "propane")
    assert gas.set["intake.mixture_by"] == "gas_mixer"
    assert only(wren, "mains drill").set == {"starter.kind": "mains"}


def test_what_makes_the_engine_impossible_is_told(wren):
    wide = ff.with_values(
        wren, {"valves.inlet.head_diameter": "20 mm", "valves.exhaust.head_diameter": "18 mm"}
    )
    found = only(wide, "aluminium 36x40")
    assert found.word == "can't"
    assert "impossible" in found.why
    assert "valves" in found.why


@pytest.mark.parametrize("name", ["6309", "ABS+", "", "   ", "\u202e", "a" * 500, "bearing", "M5;"])
def test_what_is_nothing_is_refused_with_what_is_near(wren, name):
    with pytest.raises(FirstfireError, match="is nothing the catalog has"):
        fittings(wren, [name])


def test_near_names_are_told(wren):
    with pytest.raises(FirstfireError) as refusal:
        fittings(wren, ["62O2", "AS568-12"])
    text = str(refusal.value)
    assert "62O2" in text
    assert "bearing 6202" in text
    assert "oring as568_12" in text


def test_a_material_is_sent_elsewhere(wren):
    with pytest.raises(FirstfireError, match="--set"):
        fittings(wren, ["PETG"])


def test_a_kind_may_stand_before_the_name(wren):
    (row,) = named_rows(wren.catalog, "insert M5")
    assert row.kind == "insert"
    assert {row.kind for row in named_rows(wren.catalog, "M5")} == {"thread", "insert"}


def test_every_kind_has_its_places(wren, heron, plover):
    for engine in (wren, heron, plover):
        for kind in OFFERS:
            row = engine.catalog.rows(kind)[0]
            found = fittings(engine, [f"{kind} {row.key}"])
            assert found, kind
            assert all(f.why and f.place and f.path for f in found)


def test_nothing_is_run_where_nothing_changes(wren, monkeypatch):
    monkeypatch.setattr(have, "check", lambda *_, **__: pytest.fail("was run"))
    told = judged(wren, fittings(wren, ["6202", "AS568-128"]))
    assert [f.judged for f in told] == ["Nothing that is judged changes.", None]
