"""``setup``: a folder with JSON, a page and sheets, whole or not at all."""

from __future__ import annotations

import html
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import ezdxf
import html5lib
import pypdfium2
import pytest

import firstfire as ff
from firstfire.cli.parts import parts_told
from firstfire.errors import CannotWrite, EngineFileError, FirstfireError
from firstfire.report import set_up as making
from firstfire.setup.set_up_contract import SetUpTold

ENGINES = Path(__file__).resolve().parents[2] / "engines"


def firstfire(*words):
    return subprocess.run(
        [sys.executable, "-c", "from firstfire.cli.main import run; run()", *map(str, words)],
        capture_output=True, text=True, check=False,
        env={**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip


@pytest.fixture(scope="module")
def wren():
    return ff.set_up(ff.read(ENGINES / "wren.toml"))


@pytest.fixture(scope="module")
def inside(wren):
    """Every file of its folder by name, made once."""
    return dict(wren.files())


@pytest.fixture
def bare(monkeypatch):
    """Without what gas is run for: it has tests of its own, and those above."""
    for name in ("chapters", "of_folder", "beside"):
        monkeypatch.setattr(making, name, lambda *_: ())
    for name in ("held", "compression"):
        monkeypatch.setattr(making, name, lambda *_, **__: None)


def test_all_is_written_and_nothing_replaced_unasked(wren, tmp_path) -> None:
    folder = tmp_path / "wren"
    wren.write(folder)
    told = SetUpTold.model_validate(json.loads((folder / "setup.json").read_text("utf-8")),
                                    by_alias=True)  # fmt: skip
    assert told.name == "wren"
    assert len(told.steps) == 10
    names = {"setup.json", "setup.html", *(name for sheet in told.sheets for name in sheet.files)}
    names |= set(told.beside)
    there = {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}
    assert there == names
    for sheet in told.sheets:
        assert len(pypdfium2.PdfDocument(folder / sheet.files[0])) == sheet.pages
        ezdxf.readfile(folder / sheet.files[2])
    before = (folder / "setup.html").read_bytes()
    (folder / "setup.html").write_text("mine", encoding="utf-8")
    with pytest.raises(CannotWrite, match="stays as it is"):
        wren.write(folder)
    (folder / "setup.json").unlink()
    with pytest.raises(CannotWrite, match="nothing was written"):
        wren.write(folder)
    assert not (folder / "setup.json").exists()
    assert (folder / "setup.html").read_text("utf-8") == "mine"
    wren.write(folder, overwrite=True)
    assert (folder / "setup.html").read_bytes() == before


def test_the_page_is_sound_complete_and_alone(inside) -> None:
    page = inside["setup.html"].decode()
    html5lib.HTMLParser(strict=True).parse(page)
    for words in ("One tooth of the cam", "46.8° either side", "sheets/degree-wheel.pdf",
                  "580°", "40° after bottom", "rotating parts", "Estimates"):  # fmt: skip
        assert words in page
    assert "http://" not in page.replace("http://www.w3.org", "")
    assert "<script" not in page
    # No id twice, though a dozen drawings stand in it.
    ids = [part.split('"')[0] for part in page.split(' id="')[1:]]
    assert len(ids) == len(set(ids))


def test_every_file_of_the_folder_is_linked_and_every_link_leads_somewhere(wren, inside) -> None:
    page = inside["setup.html"].decode()
    body = page.split("</style>", 1)[1]
    links = set(re.findall(r'href="([^"]*)"', html.unescape(body)))
    ids = {part.split('"')[0] for part in page.split(' id="')[1:]}
    there = {*inside} - {"setup.html", "setup.json"}
    assert {link for link in links if not link.startswith("#")} == there
    assert {link[1:] for link in links if link.startswith("#")} <= ids
    assert {"parts.txt", "parts.json", "tables/tables.h", "tables/tables.csv"} <= there


def test_its_json_says_where_all_of_it_is(wren, inside) -> None:
    told = json.loads(inside["setup.json"])
    files = {one["id"]: one["files"] for one in told["chapters"]}
    in_sheets = [name for sheet in told["sheets"] for name in sheet["files"]]
    listed = {name for names in files.values() for name in names} | set(in_sheets)
    assert listed == {*inside} - {"setup.json", "setup.html"}
    assert set(told["beside"]) | set(in_sheets) == listed
    assert files["parts"] == ["parts.txt", "parts.json"]
    assert files["tables"][0] == "tables/tables.h"
    assert files["compression"] == []
    cranked = told["compression"]
    assert cranked["gauge_pa"] == cranked["gauge_pa_each"][0] == wren.compression.turned.gauge
    assert 5e5 < cranked["gauge_pa"] < cranked["gauge_pa_oiled"] < 15e5
    schema = SetUpTold.model_json_schema(by_alias=True, mode="serialization")
    assert {"compression", "beside", "sheets", "chapters"} <= set(schema["required"])


def test_the_parts_list_is_what_its_command_shows(inside, monkeypatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    file = ENGINES / "wren.toml"
    assert inside["parts.txt"].decode() == parts_told(file, (), (), (), as_json=False) + "\n"
    assert inside["parts.json"].decode() == parts_told(file, (), (), (), as_json=True) + "\n"
    found = ff.parts_list(ff.read(file))
    page = html.unescape(inside["setup.html"].decode())
    for item in found.bought:
        assert f"{item.count} × {item.what}" in page
    for thing in found.open:
        assert thing.what in page


def test_true_size_stands_where_it_is_drawn_so_and_nowhere_else(wren, inside) -> None:
    page = html.unescape(inside["setup.html"].decode())
    assert page.lower().count("true size") > len(wren.sheets)
    for sheet in wren.sheets:
        drawn = page.split(f"<h3>{sheet.title}</h3>")[1].split("</figure>")[0]
        assert ("true size" in drawn.lower()) is sheet.to_scale, sheet.slug
        assert ("not to scale" in drawn.lower()) is not sheet.to_scale, sheet.slug
    assert [sheet.slug for sheet in wren.sheets if not sheet.to_scale] == ["wiring"]
    headings = [part.split("</h2>")[0] for part in page.split("<h2")[1:]]
    assert not any("true size" in one.lower() for one in headings)


@pytest.mark.usefixtures("bare")
def test_letter_and_other_papers() -> None:
    engine = ff.read(ENGINES / "plover.toml")
    found = ff.set_up(engine, paper="letter")
    assert {sheet.paper for sheet in found.sheets} == {"Letter"}
    with pytest.raises(FirstfireError, match="A4 and Letter"):
        ff.set_up(engine, paper="A3")


@pytest.mark.usefixtures("bare")
def test_an_undercut_cam_is_refused_only_where_it_was_said() -> None:
    engine = ff.with_values(
        ff.read(ENGINES / "plover.toml"), {"valves.exhaust.follower_radius": "20 mm"}
    )
    by_rule = ff.set_up(engine)
    notes = [note for one in by_rule.sheets if one.slug.startswith("cam-") for note in one.notes]
    assert any('base_radius = "9 mm"' in note for note in notes)
    said = ff.with_values(engine, {"valves.exhaust.base_radius": "7 mm"})
    with pytest.raises(EngineFileError, match=r'valves.exhaust.base_radius = "9 mm" doesn'):
        ff.set_up(said)
    ff.set_up(ff.with_values(engine, {"valves.exhaust.base_radius": "9 mm"}))


@pytest.mark.usefixtures("bare")
def test_a_name_that_would_break_a_page(tmp_path) -> None:
    text = (ENGINES / "heron.toml").read_text("utf-8")
    file = tmp_path / "odd.toml"
    file.write_text(text.replace('name = "heron"', 'name = "<b>&\\u202e x</b>"'), encoding="utf-8")
    page = ff.set_up(ff.read(file)).to_html()
    html5lib.HTMLParser(strict=True).parse(page)
    assert "<b>&" not in page


def test_from_the_command_line(tmp_path) -> None:
    file, folder = ENGINES / "wren.toml", tmp_path / "out"
    done = firstfire("setup", file, "-o", folder)
    assert done.returncode == 0, done.stderr
    assert "degree-wheel" in done.stdout
    assert "100.0 mm" in done.stdout
    assert "plug out" in " ".join(done.stdout.split())
    again = firstfire("setup", file, "-o", folder)
    assert (again.returncode, again.stdout) == (2, "")
    assert "is there already" in " ".join(again.stderr.split())
    nowhere = firstfire("setup", file, "-o", tmp_path / "no" / "way")
    assert nowhere.returncode == 2
    assert "Make it first" in " ".join(nowhere.stderr.split())
    assert firstfire("schema", "setup").returncode == 0


def test_timing_from_the_command_line() -> None:
    file = ENGINES / "wren.toml"
    done = firstfire("timing", file)
    assert done.returncode == 0, done.stderr
    assert max(map(len, done.stdout.splitlines())) <= 80
    assert "exhaust   ...........=====#" in done.stdout
    told = firstfire("timing", file, "--json")
    assert json.loads(told.stdout)["schema"] == "firstfire.timing/1"
    read = firstfire("timing", file, "--measured", "inlet opens=12 deg after top",
                     "--measured", "exhaust closes=28 deg after top")  # fmt: skip
    assert "the cam is 1 tooth late" in read.stdout
    wrong = firstfire("timing", file, "--measured", "inlet opns=1 deg before top",
                      "--measured", "inlet opens=soon")  # fmt: skip
    assert wrong.returncode == 2
    assert "2 problems" in wrong.stderr
    assert 'Did you mean "inlet opens"?' in " ".join(wrong.stderr.split())
    belt = firstfire("timing", file, "--set", "cam_drive.centre_distance=170 mm")
    assert belt.returncode == 2
    assert '"169.28 mm"' in belt.stderr
    assert "7. Check the direction" in firstfire("timing", file, "--steps").stdout


HEAVY = ("numpy", "scipy", "numba", "pint", "reportlab", "jinja2", "pydantic", "rich")


@pytest.mark.parametrize("tried", [(), ("--set", "valves.inlet.lash=0.11 mm")])
def test_a_timing_table_needs_no_arrays_no_gas_and_no_models(tried, tmp_path) -> None:
    code = (
        "import sys\nfrom firstfire.cli.main import run\ntry: run()\nexcept SystemExit: pass\n"
        f"print([m for m in {HEAVY} if m in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, "timing", str(ENGINES / "heron.toml"), *tried],
        capture_output=True, text=True, check=True,
        env={**os.environ, "FIRSTFIRE_CACHE": str(tmp_path)},
    )  # fmt: skip
    assert "Every event" in done.stdout or "crank" in done.stdout
    assert done.stdout.splitlines()[-1] == "[]"


def test_a_valve_that_meets_its_piston_is_refused_with_a_cam_that_clears_it(tmp_path) -> None:
    from firstfire.engine.read import with_values
    from firstfire.engine.resolve import resolve
    from firstfire.errors import EngineFileError
    from firstfire.report.set_up import set_up
    from firstfire.runs.valve_gaps import piston_gap, worked
    from firstfire.setup.cams.events import as_it_is
    from firstfire.setup.cams.makeable import nearest

    engine = with_values(
        ff.read(ENGINES / "wren.toml"),
        {
            "cylinder.compression_ratio": 14,
            "valves.inlet.opens_before_top": "70 deg",
            "valves.inlet.lift": "7 mm",
        },
    )
    with pytest.raises(EngineFileError) as refused:
        set_up(engine)
    said = str(refused.value)
    assert "valves.inlet.lift is 7 mm: as drawn the inlet valve meets the piston" in said
    near = nearest(engine, as_it_is(resolve(engine), "inlet"))
    assert near.words in said
    better = resolve(with_values(engine, near.values))
    assert piston_gap(better, 0, worked(better.cylinders[0])[0]).gap >= 1e-3
    assert not any(tmp_path.iterdir())
