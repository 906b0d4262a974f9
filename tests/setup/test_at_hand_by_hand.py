"""What one has at hand, at sizes just within and just beyond what a calculator says will serve."""

import re
from types import SimpleNamespace

import pytest
from tests.setup.small_lists import engine_set, list_of, mm

from firstfire.setup import have
from firstfire.setup.have import fittings, judged
from firstfire.setup.item import Check, Job
from firstfire.setup.text import parts_text
from firstfire.setup.text_have import follows
from firstfire.setup.text_items import checks_words, limits, reading, will_do


def offered(name, place="", **values):
    """The only fitting of a name, in such a place."""
    (found,) = [f for f in fittings(engine_set(**values), [name]) if place in f.place]
    return found


def test_a_bearing_of_the_same_sizes_serves_as_it_is():
    """6300 is 10 × 35 × 11 mm: turned out to 15 mm in a file it is the 6202's size."""
    same = offered("6202", crank__main_bearing="6300", crank__main_bearing_bore="15 mm")
    assert same.word == "serves"
    assert "same size" in same.why
    wider = offered("6302", crank__main_bearing_outside="42 mm")
    assert wider.word == "serves if"  # 13 mm wide, not 11


def test_what_turns_in_a_bearing_follows_its_bore():
    said = {"crank__main_journal_diameter": "15 mm", "flywheel__bore": "15 mm"}
    other = offered("6203", **said)
    assert other.set["flywheel.bore"] == other.set["crank.main_journal_diameter"] == "17 mm"
    assert "flywheel.bore" not in offered("6302", **said).set


def test_bearings_in_the_rods_ends():
    """6201 is 12 × 32 × 10, 6001 is 12 × 28 × 8, 6000 10 × 26 × 8 mm; the pin 12, its eye 9 mm."""
    rod = {"rod__big_end": "ball", "rod__big_end_width": "8 mm", "rod__shank_thickness": "8 mm"}
    assert offered("6001", "big end", **rod).word == "serves"
    wide = offered("6201", "big end", **rod)
    assert wide.set["rod.big_end_width"] == "10 mm"
    small = offered("6000", "big end", **rod)
    assert small.set == {"crank.crankpin_diameter": "10 mm"}


RING = {"piston__skirt_clearance": "0.24 mm", "rings__section": "2.62 mm",
        "rings__inside_diameter": "37.77 mm", "rings__squeeze": "0.1"}  # fmt: skip


def test_rings_of_another_section():
    """3 mm at 10 %: 2.7 less half of 0.24 is 2.58 mm deep; 44 - 0.24 - 5.16 = 38.6 mm of floor."""
    ring = offered("38x3", **RING, rings__groove_depth="2.238 mm", rings__groove_width="3.7 mm")
    assert ring.word == "serves if"
    assert ring.set["rings.groove_depth"] == "2.58 mm"
    assert ring.set["rings.groove_width"] == "4.2 mm"
    assert ring.set["rings.section"] == "3 mm"
    assert ring.set["rings.inside_diameter"] == "38 mm"
    # 38.6 on 38 mm: 1.6 %.
    assert "on a groove floor of 38.6 mm: 1.6 % of stretch" in mm(ring.why)
    assert "2.58 mm deep instead of 2.238 mm" in mm(ring.why)


@pytest.mark.parametrize(
    ("bore", "word"),
    # The floor is the bore less 0.24 and 2 · 2.238 mm: on 37.77 mm 5.03, 5.07, -0.03, -0.08 %.
    [("44.386 mm", "serves"), ("44.401 mm", "can't"), ("42.475 mm", "serves"),
     ("42.456 mm", "can't")],
)  # fmt: skip
def test_stretch_at_its_limits(bore, word):
    """Five hundredths of a per cent beyond 0 and 5 % still serve."""
    assert offered("as568_128", **RING, cylinder__bore=bore).word == word


LINER = {"cylinder__bore": "45.4 mm", "liner__outside_diameter": "50 mm"}


def test_a_tube_wider_than_drawn():
    """Up to 0.6 mm over the bore drawn is the same engine; beyond it, or below, the bore is set."""
    near = offered("aluminium_46x50", **LINER)
    assert "cylinder.bore" not in near.set
    assert "0.6 mm more than drawn" in mm(near.why)
    assert near.word == "serves if"
    far = offered("aluminium_46x50", **LINER | {"cylinder__bore": "45.3 mm"})
    assert far.set["cylinder.bore"] == "46 mm"
    assert "more than drawn" not in far.why
    tight = offered("aluminium_46x50", **LINER | {"cylinder__bore": "46.2 mm"})
    assert tight.set["cylinder.bore"] == "46 mm"


def test_a_tube_that_is_the_liner_already():
    same = offered("aluminium_46x50", **LINER | {"cylinder__bore": "46 mm"})
    assert same.word == "serves"
    assert "liner.outside_diameter" not in same.set
    assert "cylinder.bore" not in same.set
    assert "more than drawn" not in same.why
    # Ten per cent of bore is another engine: 44 to 40 mm is 9.1 %, 45 to 40 mm 11 %.
    other = {"liner__outside_diameter": "50 mm"}
    assert offered("aluminium_40x50", **other, cylinder__bore="44 mm").word != "can't"
    assert offered("aluminium_40x50", **other, cylinder__bore="45 mm").word == "can't"


SCREWS = {"head__fasteners__kind": "through_bolts", "head__fasteners__thread": "M5",
          "head__fasteners__clamped_length": "91.7 mm"}  # fmt: skip


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("M5x99", "too short"), ("M5x100", "yours are 100 mm"), ("M5x120", "saw off 20 mm"),
        ("M5x110", "yours are 110 mm"),
    ],
)  # fmt: skip
def test_screws(name, told):
    """91.7 clamped, two washers of 1, a nut of 4.7 and two threads of 0.8 mm: 100 mm."""
    screw = offered(name, **SCREWS)
    assert told in mm(screw.why)
    assert (screw.word == "can't") == (told == "too short")
    assert ("saw off" in screw.why) == ("saw off" in told)


def test_belts():
    """Widths that are sold: 9, 15, 25 mm of 5 mm pitch; 4, 6, 9, 10 of 2 mm."""
    drive = {"cam_drive__pitch": "3 mm", "cam_drive__width": "9 mm"}
    five = offered("5 mm curvilinear", **drive)
    assert five.set["cam_drive.pitch"] == "5 mm"
    assert "cam_drive.width" not in five.set
    wide = offered("5 mm curvilinear", **drive | {"cam_drive__width": "10 mm"})
    assert wide.set["cam_drive.width"] == "15 mm"
    widest = offered("5 mm curvilinear", **drive | {"cam_drive__width": "30 mm"})
    assert widest.set["cam_drive.width"] == "25 mm"
    few = offered("3 mm curvilinear", cam_drive__pitch="2 mm", cam_drive__width="9 mm",
                  cam_drive__teeth_crank="15", cam_drive__teeth_cam="30")  # fmt: skip
    assert (few.set["cam_drive.teeth_crank"], few.set["cam_drive.teeth_cam"]) == ("17", "34")
    assert offered("3 mm curvilinear", **drive).word == "serves"


def shift(name, before, after, old="ok", new="ok"):
    return SimpleNamespace(
        name=name, least=min(before, after),
        before=SimpleNamespace(factor=before, word=old),
        after=SimpleNamespace(factor=after, word=new),
    )  # fmt: skip


def ran(monkeypatch, *shifts, on_progress=None):
    """What is told of a bearing if running it moved these."""
    pair = SimpleNamespace(
        overall="worse", worse=shifts, better=(), figures=(), clocks=(), new=()
    )  # fmt: skip

    def checked(engine, *, stop, on_progress):
        del engine, stop
        if on_progress:
            on_progress("half", 0.5)

    monkeypatch.setattr(have, "check", checked)
    monkeypatch.setattr(have, "side_by_side", lambda _: SimpleNamespace(pairs=[pair]))
    engine = engine_set()
    (told,) = judged(engine, fittings(engine, ["6203"]), on_progress=on_progress)
    return told.judged


def test_the_largest_step_is_told_first(monkeypatch):
    """2 to 1.5 is a step of 1.33; 3 to 2.6 of 1.15; 1 to 0.5 of 2."""
    told = ran(
        monkeypatch, shift("pin", 3.0, 2.6), shift("rod", 1.0, 0.5), shift("cheek", 2.0, 1.5)
    )
    assert re.findall("pin|rod|cheek", told) == ["rod", "cheek", "pin"]
    # A fourth is only counted; one whose word changed comes before all steps.
    told = ran(
        monkeypatch, shift("pin", 3.0, 2.6), shift("rod", 1.0, 0.5), shift("cheek", 2.0, 1.5),
        shift("case", 1.1, 1.0, new="fails"),
    )  # fmt: skip
    assert re.findall("pin|rod|cheek|case", told) == ["case", "rod", "cheek"]
    assert "and 1 more ways to fail" in told


def test_a_way_is_told_where_it_is_worst(monkeypatch):
    told = ran(monkeypatch, shift("pin", 4.0, 3.0), shift("pin", 2.0, 1.9))
    assert "2" in told
    assert "4" not in told


def test_how_far_it_is(monkeypatch):
    """Two runs: half of the first is a quarter of it all, half of the second three quarters."""
    told = []
    ran(monkeypatch, shift("pin", 3.0, 2.6), on_progress=lambda _, share: told.append(share))
    assert told == [0.25, 0.75]


def test_what_follows_is_told_eight_at_a_time():
    one = SimpleNamespace(
        path="a.b", each=(SimpleNamespace(written="1"), SimpleNamespace(written="2"))
    )
    assert follows(SimpleNamespace(follows=(one,))) == "a.b 1 → 2"
    assert "more" not in follows(SimpleNamespace(follows=(one,) * 8))
    assert follows(SimpleNamespace(follows=(one,) * 10)).endswith("; and 2 more")


def test_a_reading_as_its_tool_shows_it():
    assert mm(reading(14.9926e-3, "mm", narrow=True)) == "14.993 mm"
    assert mm(reading(14.9926e-3, "mm", narrow=False)) == "14.99 mm"
    narrow = Check("bore", "micrometer", "", 15e-3, 14.992e-3, 15.004e-3, "mm", "")
    assert mm(limits(narrow)) == "15 mm (14.992 to 15.004)"
    wide = Check("bore", "caliper", "", 15e-3, 14.962e-3, 15.038e-3, "mm", "")
    assert mm(limits(wide)) == "15 mm (14.96 to 15.04)"


def lines(found):
    return mm(parts_text(found)).splitlines()


def test_the_text_of_prints():
    """Two cheeks of 15 cm³ of PETG: 38.1 g; at 5 (3 to 10) mm³/s 1.7 (0.83 to 2.8) hours."""
    told = lines(list_of(cylinder__stroke="40 mm"))
    (cheeks,) = [line for line in told if "2 × crank cheek" in line]
    assert cheeks.split()[-5:] == ["38.1", "g", "1.7", "h", "(0.83–2.8)"]
    assert len(cheeks) <= 80


def test_the_sum_of_a_material():
    """Grams and metres of all that is of PETG, with a fifth more to have at hand."""
    found = list_of()
    mass = sum(part.count * part.mass for part in found.printed)
    volume = sum(part.count * part.plastic for part in found.printed)
    text = " ".join(lines(found))
    grams, metres, more = re.search(
        r"PETG: (\S+) g, (\S+) m of 1\.75 mm filament; have (\S+) g at hand", text
    ).groups()
    assert float(grams) == pytest.approx(mass * 1e3, rel=5e-3)
    assert float(metres) == pytest.approx(volume / (3.14159 * 0.875e-3**2), rel=5e-3)
    assert float(more) == pytest.approx(1.2 * mass * 1e3, rel=2e-2)


def test_the_rates_in_the_text():
    told = " ".join(" ".join(lines(list_of(crank__material="resin"))).split())
    assert "lays down 5 mm³ a second (3 to 10)" in told
    assert "builds 20 mm of height an hour (10 to 40)" in told


def test_limits_between_which_a_job_will_do():
    told = " ".join(" ".join(lines(list_of())).split())
    assert "sand bearing seat in the case (2 times): to 35 mm, 11 mm deep" in told
    assert "34.97 to 35.02 mm will do" in told


def test_a_tool_that_is_off_by_more_than_half_the_limits_is_too_coarse():
    rows = engine_set().catalog
    error = rows.row("instrument", "caliper").si("error")
    for band, coarse in ((1.5 * error, True), (2.5 * error, False)):
        check = Check("bore", "caliper", "once", 15e-3, 15e-3 - band, 15e-3, "mm", "")
        assert ("wrong part" in checks_words([check], "", rows)) is coarse


def test_a_job_of_hundredths_is_told_in_thousandths():
    def hole(half):
        return Job("press", "", 1, "", 12e-3, 11.9754e-3, 11.9754e-3 + half, "", "", "crank")

    assert mm(will_do(hole(0.02e-3))) == " 11.975 to 11.995 mm will do."
    assert mm(will_do(hole(0.1e-3))) == " 11.98 to 12.08 mm will do."
