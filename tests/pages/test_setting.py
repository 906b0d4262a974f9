"""Chapters of setting up as they are made for the page: each with picture, numbers, sheets."""

import csv
import io
import re
import zipfile

import pytest
from tests.pages.served import ROOT

import firstfire as ff
from firstfire.drawing.svg import to_svg
from firstfire.drawing.templates.all import templates
from firstfire.drawing.templates.pages import template_drawing, template_pdf
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import resolve
from firstfire.errors import FirstfireError, OutsideValidity
from firstfire.pages.answers.messages import Told
from firstfire.pages.answers.setting import behind
from firstfire.pages.answers.setting.behind import told
from firstfire.pages.answers.setting.pictures import charts
from firstfire.pages.answers.setting.sheets import chapter_of, numbers_csv, table_csv
from firstfire.pages.show.setting import Setting
from firstfire.pages.show.setting_files import zipped
from firstfire.pages.show.shown import Shown
from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.chapters import CHAPTERS, Listed
from firstfire.setup.number import Number
from firstfire.setup.timing.steps import steps

LIGHT = tuple(one for one in CHAPTERS if one.id not in ("fuel", "spark"))
"""Chapters for which little gas is run."""


def of(engine, listed):
    """All that is told, as one."""
    found = {"put": {}, "whys": {}, "files": {}}
    for data in told(engine, listed):
        for name in ("put", "whys", "files"):
            found[name].update(data.get(name, {}))
        found["options"] = data.get("options", found.get("options"))
        found["done"] = data.get("done", False)
    return found


@pytest.fixture(scope="module")
def wren():
    return of(ff.read(ROOT / "engines" / "wren.toml"), LIGHT)


def test_every_chapter_of_the_registry_comes_with_a_picture_or_its_tables(wren):
    """A list of parts and a gauge's readings are tables; what leads to no spin needs no caution."""
    tables = {"parts": "To buy", "compression": "check valve"}
    for one in (*LIGHT, Listed("timing", "Timing", lambda _: None)):
        html = wren["put"][f"set-{one.id}"]
        assert one.title in html
        assert tables.get(one.id, "<svg") in html
        assert "caution" in html or one.id == "parts"
    assert wren["done"] is True


def test_every_number_opens_and_every_file_that_is_named_is_there(wren):
    html = "".join(wren["put"].values())
    opens = set(re.findall(r'data-why="([^"]+)"', html))
    assert opens == set(wren["whys"])
    assert {"set.cams.cam.inlet.contact", "set.timing.timing.tooth"} <= opens
    assert "Worked through" in wren["whys"]["set.timing.timing.tooth"]
    named = set(re.findall(r'href="/setup/files/([^"]+)"', html)) - {"all.zip"}
    assert named == set(wren["files"])
    assert {"pdf", "svg", "dxf", "csv", "stl"} == {name.rpartition(".")[2] for name in named}


def test_sheets_are_those_of_the_set_up_folder(wren):
    engine = ff.read(ROOT / "engines" / "wren.toml")
    drawn = templates(resolve(engine), engine.catalog)
    for sheet in (one for one in drawn if chapter_of(one.slug) != "spark"):
        assert wren["files"][f"{sheet.slug}.svg"].decode() == to_svg(template_drawing(sheet))
        assert wren["files"][f"{sheet.slug}.pdf"] == template_pdf(sheet)


def test_steps_are_ticked_with_this_engines_numbers(wren):
    found = ff.timing(ff.read(ROOT / "engines" / "wren.toml"))
    html = wren["put"]["set-timing"]
    for step in steps(found):
        assert f'data-tick="timing: {step.title}"' in html
    assert html.count("data-tick") == len(steps(found))


def test_ids_are_once_on_the_page(wren):
    ids = re.findall(r'\sid="([^"]+)"', "".join(wren["put"].values()))
    ids = [one for one in ids if not one.startswith("set-") or "hatch" in one]
    assert len(ids) == len(set(ids))


def test_what_can_be_broken_is_offered(wren):
    assert '<option value="bar petg">' in wren["options"]


def made(ident, work):
    """A registry of one chapter that does that."""
    return of(ff.read(ROOT / "engines" / "wren.toml"), (Listed(ident, "A <title>", work),))


def failing(why):
    def fails(_: Engine):
        raise why

    return fails


@pytest.mark.parametrize(
    ("why", "words"),
    [
        (OutsideValidity("so slow"), "Not judged: so slow"),
        (FirstfireError("a belt of 71.4 teeth"), "a belt of 71.4 teeth"),
        (ZeroDivisionError("oh"), "a fault of firstfire&#39;s own"),
    ],
)
def test_a_chapter_that_fails_says_so_and_the_others_come(why, words, monkeypatch):
    monkeypatch.setattr(behind.traceback, "print_exc", lambda: None)
    found = made("new", failing(why))
    assert words in found["put"]["set-new"]
    assert "<svg" in found["put"]["set-timing"]
    assert found["done"]


def test_a_new_chapter_appears_by_itself_and_its_words_are_text():
    table = Table(
        "Cold <b>", ("air, °C", "times"), (("-10 °C", "2"), ("0 °C", "1.5"), ("9 °C", "1"))
    )
    chapter = Chapter("new", "New", ("<script>x</script>",), (), (table,), "Mind it.")
    html = made("new", lambda _: chapter)["put"]["set-new"]
    assert "&lt;script&gt;" in html
    assert "<script>" not in html
    assert "Cold <b>" not in html
    assert "<svg" in html


def test_a_chapter_that_an_engine_has_not_is_left_out():
    assert made("new", lambda _: None)["put"]["set-new"] == ""


def test_curves_are_drawn_of_tables_that_have_numbers_alone():
    falling = Table("a", ("engine", "times"), (("20 °C", "1.0"), ("0 °C", "1.5"), ("-9 °C", "2")))
    across = Table("b", ("throttle", "500 rpm", "900 rpm", "1500 rpm"),
                   (("25 %", "9° (kick)", "10°", "–"), ("50 %", "8°", "9°", "12.5°")))  # fmt: skip
    words = Table("c", ("wire", "to"), (("W1", "F1"), ("W2", "S1"), ("W3", "coil")))
    gaps = Table("d", ("engine", "times"), (("20 °C", "over 4"), ("0 °C", "1"), ("9 °C", "1")))
    found = list(charts(Chapter("x", "X", (), (), (falling, across, words, gaps))))
    assert [one.title for one in found] == ["a", "b"]
    assert found[1].svg.count("<polyline") == 1


def test_csv_is_no_formula_and_has_all_rows():
    data = table_csv(Table("a", ("x", "y"), (("=1+1", "2,5"), ("@a", 'say "b"'))))
    rows = list(csv.reader(io.StringIO(data.decode("utf-8-sig"))))
    assert rows == [["x", "y"], ["'=1+1", "2,5"], ["'@a", 'say "b"']]


def test_numbers_csv_is_si_and_says_what_is_not_judged():
    numbers = [
        Number("a", "gap", 0.0012, "m", 0.001, "at least", "why", "book"),
        Number("b", "other", float("nan"), "m", why="no cam"),
    ]
    rows = list(csv.DictReader(io.StringIO(numbers_csv(numbers).decode("utf-8-sig"))))
    assert (rows[0]["value"], rows[0]["holds"], rows[0]["limit"]) == ("0.0012", "yes", "0.001")
    assert (rows[1]["value"], rows[1]["holds"]) == ("not judged", "")


def chapter(key, data):
    return Told(1, key, "setting", data)


def test_what_comes_of_another_sheet_is_kept_and_not_shown():
    setting, shown = Setting(), Shown()
    setting.turn_to("a", shown)
    assert setting.add(chapter("b", {"put": {"set-x": "of b"}}), shown) == {}
    assert setting.add(chapter("a", {"put": {"set-x": "of a"}, "done": True}), shown) == {
        "set-x": "of a"
    }
    assert (setting.complete("a"), setting.complete("b")) == (True, False)
    assert setting.turn_to("b", shown) == {"set-x": "of b"}
    assert shown.slots["set-x"] == "of b"


def test_chapters_of_before_are_old_and_their_files_gone_until_they_come():
    setting, shown = Setting(), Shown()
    setting.turn_to("a", shown)
    setting.add(chapter("a", {"put": {"set-x": "1"}, "files": {"x.pdf": b"1"}}), shown)
    assert setting.files == {"x.pdf": b"1"}
    setting.turn_to("b", shown)
    assert (shown.old, dict(setting.files)) == ({"set-x"}, {})
    setting.add(chapter("b", {"put": {"set-x": "2"}}), shown)
    assert shown.old == set()


def test_the_skeleton_is_put_once_so_that_what_stands_in_it_stays():
    setting, shown = Setting(), Shown()
    setting.turn_to("a", shown)
    assert "setting" in setting.add(chapter("a", {"put": {"setting": "s"}}), shown)
    setting.turn_to("b", shown)
    assert setting.add(chapter("b", {"put": {"setting": "s"}}), shown) == {}


def test_all_files_go_into_one():
    archive = zipfile.ZipFile(io.BytesIO(zipped({"b.svg": b"2", "a.pdf": b"1"})))
    assert archive.namelist() == ["a.pdf", "b.svg"]
    assert archive.read("b.svg") == b"2"
