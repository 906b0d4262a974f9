"""The commands as a person runs them, and what they print."""

import hashlib
import itertools
import json
import math
import os
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

HERE = Path(__file__).resolve().parent
ENGINES = HERE.parents[1] / "engines"
STRANGERS = HERE.parent / "strangers"


def firstfire(*words, cwd=None, env=None, stdin=None):
    return subprocess.run(
        [sys.executable, "-c", "from firstfire.cli.main import run; run()", *map(str, words)],
        capture_output=True, text=True, cwd=cwd, input=stdin, check=False,
        env={**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8", **(env or {})},
    )  # fmt: skip


def refused(*words, says, **more):
    done = firstfire(*words, **more)
    assert done.returncode == 2, done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    assert done.stdout == ""
    assert says in " ".join(done.stderr.split())
    return done.stderr


CHECKED_AT = ["check", ENGINES / "wren.toml", "--at", "2500 rpm"]


@pytest.fixture(scope="module")
def traced(tmp_path_factory):
    """Where the curves of the two checks below are written."""
    return tmp_path_factory.mktemp("traced")


@pytest.fixture(scope="module")
def wren_text(traced):
    """Wren as its check is printed, with curves and page, strictly: once for all that read it."""
    written = ["--traces", traced / "wren.csv", "--report", traced / "wren.html"]
    return firstfire(*CHECKED_AT, *written, "--strict", "--full", "--engines", "16")


@pytest.fixture(scope="module")
def wren_json(traced):
    """Wren, checked once for all tests that read its result."""
    words = ["check", ENGINES / "wren.toml", "--json", "--engines", "16"]
    words += ["--traces", traced / "wren.parquet"]
    done = firstfire(*words)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


@pytest.fixture(scope="module")
def weakened():
    """Wren's file as it was before, and wren with another bore and bolts that fail, strictly."""
    before = (ENGINES / "wren.toml").read_bytes()
    return before, firstfire(
        *CHECKED_AT, "--set", "cylinder.bore=42 mm", "--set", "head.fasteners.thread=M2",
        "--for", "first_fire,full_throttle", "--engines", "16", "--strict", "--json",
    )  # fmt: skip


def test_check_reads_well_in_a_terminal(wren_text):
    assert wren_text.returncode == 0, wren_text.stderr
    assert wren_text.stdout.startswith("wren, single of 40")
    order = [
        "The card",
        "What gives way",
        "How long full throttle",
        "The next move",
        "What it makes",
        "By arithmetic",
        "Not judged yet",
        "Cautions",
    ]
    places = [wren_text.stdout.index(word) for word in order]
    assert places == sorted(places)
    assert max(map(len, wren_text.stdout.splitlines())) <= 80
    assert "estimate" in wren_text.stdout


def test_the_page_says_what_the_terminal_says(wren_text, traced):
    target = traced / "wren.html"
    assert f"The report is in {target}." in wren_text.stderr
    page = target.read_text(encoding="utf-8")
    assert page.startswith("<!DOCTYPE html>")
    power = next(line for line in wren_text.stdout.splitlines() if line.startswith("  power "))
    assert power.removeprefix("  power").strip() in page


def test_check_json_keeps_its_contract(wren_json):
    schema = json.loads((HERE / "stored" / "result.schema.json").read_text())
    jsonschema.validate(wren_json, schema)
    assert wren_json["schema"] == "firstfire.result/1"
    assert wren_json["engine"]["firing_intervals_deg"] == [720.0]
    assert wren_json["engine"]["firing_angles_deg"] == [0.0]
    # pi/4 * 40^2 * 36 mm³, by hand.
    assert wren_json["engine"]["displacement_m3"] == pytest.approx(45.239e-6, rel=1e-4)
    assert wren_json["engine"]["compression_ratio"] == 6.5
    assert wren_json["cautions"]
    wanted = hashlib.sha256((ENGINES / "wren.toml").read_bytes()).hexdigest()
    assert wren_json["provenance"]["engine_file_sha256"] == wanted
    assert len(wren_json["provenance"]["inputs_sha256"]) == 64


def test_operating_points_keep_their_contract(wren_json):
    points = wren_json["operating_points"]
    assert [p["event"] for p in points] == [
        "cranking", "first_fire", "idle", "full_throttle", "full_throttle", "free_rev",
    ]  # fmt: skip
    cranked, idle, full, free = points[0], points[2], points[3], points[5]
    # It idles by itself, nearly shut; let rev freely it is held by its limiter.
    assert idle["speed_rpm"] == pytest.approx(1500)
    assert abs(idle["brake_torque_nm"]) < 0.05
    assert 0.005 < idle["throttle_opening"] < 0.2
    assert full["throttle_opening"] is None
    assert free["speed_rpm"] == pytest.approx(5000)
    assert full["speed_rpm"] == pytest.approx(2000)
    motored, fired = cranked["cylinders"][0], full["cylinders"][0]
    assert motored["ca50_deg"] is None
    assert motored["heat_to_walls_fraction"] is None
    assert motored["peak_pressure_rare_pa"] == motored["peak_pressure_pa"]
    assert cranked["brake_torque_nm"] < 0 < full["brake_torque_nm"]
    assert fired["peak_pressure_pa"] < fired["peak_pressure_strong_pa"]
    assert fired["peak_pressure_strong_pa"] < fired["peak_pressure_rare_pa"]
    # Power is torque times speed; bmep as imep less friction, but for the crankcase's pumping.
    assert full["brake_power_w"] == pytest.approx(full["brake_torque_nm"] * 2000 * math.pi / 30)
    bmep = full["brake_torque_nm"] * 4 * math.pi / wren_json["engine"]["displacement_m3"]
    assert bmep == pytest.approx(fired["imep_net_pa"] - full["friction_mep_pa"], abs=0.5e5)
    for health in ("energy_closure", "mass_closure"):
        assert abs(full[health]) < 1e-4


def test_margins_keep_their_contract(wren_json):
    margins = wren_json["margins"]
    judged = [m for m in margins if m["judged"]]
    assert len(judged) > 40
    assert {m["word"] for m in margins} <= {"fails", "marginal", "holds", "not judged"}
    ends = [-1.0 if m["ends_fraction"] is None else m["ends_fraction"] for m in margins]
    assert all(after <= before + 0.005 for before, after in itertools.pairwise(ends))
    for m in judged:
        if m["demand"] and m["factor"] is not None:
            assert m["factor"] == pytest.approx(m["capacity"] / m["demand"], rel=1e-9, abs=1e-12)
            assert m["factor_low"] <= m["factor"] <= m["factor_high"]
        assert m["formula"]
        assert m["source"]
    for m in margins:
        if not m["judged"]:
            assert m["why_not"]
            assert m["factor"] is None
    assert {m["event"] for m in margins} == {
        "cranking", "first_fire", "kick_back", "idle", "full_throttle", "free_rev",
    }  # fmt: skip
    told = wren_json["verdict"]
    assert told["first_to_fail"] in {m["id"] for m in margins}
    assert told["sentence"].endswith("an estimate.")
    seconds = [r["seconds"] for r in wren_json["run_time"] if r["seconds"] is not None]
    assert seconds == sorted(seconds)


@pytest.mark.parametrize("kind", ["csv", "parquet"])
def test_traces_hold_every_curve(request, traced, kind):
    from pyarrow import csv, parquet

    request.getfixturevalue({"csv": "wren_text", "parquet": "wren_json"}[kind])
    file = traced / f"wren.{kind}"
    table = (csv.read_csv if kind == "csv" else parquet.read_table)(file).to_pydict()
    angle = table["angle_deg"]
    assert min(angle) == pytest.approx(-360)
    assert max(angle) == pytest.approx(360)
    volume, pressure = table["cylinder_1_volume_m3"], table["cylinder_1_pressure_pa"]
    # pi/4 * 40^2 * 36 mm³ swept, by hand.
    assert max(volume) - min(volume) == pytest.approx(45.24e-6, rel=1e-3)
    assert 15e5 < max(pressure) < 50e5
    assert {"cylinder_1_torque_nm", "cylinder_1_temperature_burned_k", "flow_throttle_kg_s",
            "flow_ring_leak_1_kg_s", "friction_torque_nm"} <= table.keys()  # fmt: skip
    refused(*CHECKED_AT, "--traces", file, says="stays as it is")


def test_a_trial_value_changes_the_answer_and_not_the_file(weakened):
    before, done = weakened
    told = json.loads(done.stdout)
    # pi/4 * 42^2 * 36 mm³, by hand.
    assert told["engine"]["displacement_m3"] == pytest.approx(49.876e-6, rel=1e-4)
    full = [p for p in told["operating_points"] if p["event"] == "full_throttle"]
    assert [p["speed_rpm"] for p in full] == pytest.approx([2500.0])
    assert (ENGINES / "wren.toml").read_bytes() == before


def test_strict_exits_1_where_something_fails(wren_text, weakened):
    assert wren_text.returncode == 0, wren_text.stderr
    _, fails = weakened
    assert fails.returncode == 1, fails.stderr
    assert json.loads(fails.stdout)["verdict"]["word"] == "fails"


def test_every_reason_at_once():
    stderr = refused("check", STRANGERS / "6_refused.toml", says="4 problems")
    for word in ("ABS+", "30 mm", "3 mm", "24 mm"):
        assert word in stderr


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["check", "gone.toml"], "gone.toml is not there. `firstfire new gone.toml` writes one."),
        (["check", "."], "is a folder"),
        (["check", "{wren}", "--set", "bore"], '"bore" is not path=value'),
        (["check", "{wren}", "--set", "cylinder.bor=4 mm"], "Did you mean cylinder.bore?"),
        (["catalog", "materials"], "nearest: material"),
        (["catalog", "material", "ABS+"], "nearest: ABS"),
        (
            ["schema", "motor"],
            "judgements, timing, spark, wiring, fuel, setup, misset, coupon, fits, doubt, cam.",
        ),
        (["new", "x.toml"], "--bore"),
        (["new", "x.toml", "--power", "3 mm", "--material", "petg"], "not a power"),
        (["new", "x.toml", "--power", "-3 kW", "--material", "petg"], "not more than zero"),
        (["new", "{wren}"], "stays as it is"),
        (["check"], "Missing argument"),
        (["check", "{wren}", "--at", "3 mm"], "not a speed"),
        (["check", "{wren}", "--at", "3 rpm"], "from 30 rpm to 20000 rpm"),
        (["check", "{wren}", "--traces", "x.txt"], "ends in .csv or .parquet"),
    ],
)
def test_what_is_wrong_is_told_in_words(tmp_path, words, says):
    wren = str(ENGINES / "wren.toml")
    refused(*[w.replace("{wren}", wren) for w in words], says=says, cwd=tmp_path)
    assert list(tmp_path.iterdir()) == []


FINCH = ["--layout", "single", "--bore", "44 mm", "--stroke", "40 mm", "--material", "petg"]


def test_new_writes_what_check_understands(tmp_path):
    done = firstfire("new", "finch.toml", *FINCH, "--set", "rod.length=76 mm", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    text = (tmp_path / "finch.toml").read_text()
    assert 'length = "76 mm"' in text
    full = firstfire("new", "full.toml", "--from", "finch.toml", "--full", cwd=tmp_path)
    assert full.returncode == 0, full.stderr
    meant = ("--for", "first_fire", "--engines", "16")
    checked = firstfire("check", "full.toml", *meant, cwd=tmp_path)
    assert checked.returncode == 0, checked.stderr
    assert checked.stdout.startswith("finch, single of 44")


def test_a_wish_is_said_to_be_rough(tmp_path):
    done = firstfire("new", "w.toml", "--power", "0.5 kW", "--material", "petg", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "rough" in done.stdout
    # 2 P / (p n): 0.5 kW, 66.7 turns a second; 2.5, 4.9 and 7 bar: 60, 31 and 21 cm³, by hand.
    said = " ".join(done.stdout.split())
    assert "21 to 60 cm³" in said
    assert "2.5 to 7 bar" in said
    assert "starts from 31 cm³, at 4.9 bar" in said


def test_a_file_that_is_there_is_replaced_only_when_told(tmp_path):
    file = tmp_path / "finch.toml"
    file.write_text("mine")
    words = ["new", "finch.toml", *FINCH]
    refused(*words, says="stays as it is", cwd=tmp_path)
    assert file.read_text() == "mine"
    assert firstfire(*words, "--overwrite", cwd=tmp_path).returncode == 0
    assert "finch" in file.read_text()
    assert [f.name for f in tmp_path.iterdir()] == ["finch.toml"]


def test_a_folder_that_is_not_there(tmp_path):
    refused("new", "no/such/x.toml", *FINCH, says="its folder isn't there", cwd=tmp_path)


def test_own_rows_are_marked_as_yours(tmp_path):
    (tmp_path / "catalog.toml").write_text(
        '[material.my_petg]\nname = "my PETG"\nlike = "petg"\n'
        'strength_across = { value = 19, low = 15, high = 23, unit = "MPa", '
        'source = "my own bars, five of them", sure = "read here" }\n'
    )
    firstfire("new", "finch.toml", *FINCH[:-1], "my_petg", cwd=tmp_path)
    shown = firstfire("catalog", "material", "my_petg", "--beside", "finch.toml", cwd=tmp_path)
    assert "(yours)" in shown.stdout
    assert "my own bars" in shown.stdout


def test_help_lists_commands_in_the_order_of_work_each_in_a_whole_line():
    done = firstfire("--help")
    assert done.returncode == 0, done.stderr
    lines = done.stdout.partition("Commands:\n")[2].splitlines()
    assert [line.split()[0] for line in lines] == [
        "open", "new", "check", "start", "improve", "explain", "compare", "parts", "draw", "cam",
        "timing", "spark", "wiring", "fuel", "tables", "fits", "setup", "coupon", "leak", "catalog",
        "faults", "schema",
    ]  # fmt: skip
    assert all(len(line) <= 80 for line in lines)
    # One that is too long is cut with three points, one that says nothing has no words.
    assert all(line.endswith(".") and not line.endswith("...") for line in lines)


@pytest.mark.parametrize("which", ["engine", "result"])
def test_the_schema_is_the_one_that_was_stored(which):
    """A change of the contract must be meant: renew the copy with ``firstfire schema``."""
    stored = json.loads((HERE / "stored" / f"{which}.schema.json").read_text())
    assert json.loads(firstfire("schema", which).stdout) == stored
    jsonschema.Draft202012Validator.check_schema(stored)


@pytest.mark.parametrize(
    "file", [*ENGINES.glob("*.toml"), *STRANGERS.glob("*.toml")], ids=lambda f: f.stem
)
def test_the_engine_schema_accepts_every_engine(file):
    import tomllib

    schema = json.loads((HERE / "stored" / "engine.schema.json").read_text())
    jsonschema.validate(tomllib.loads(file.read_text()), schema)


def test_the_engine_schema_refuses_a_slip():
    schema = json.loads((HERE / "stored" / "engine.schema.json").read_text())
    slip = {"layout": {"kind": "singel"}, "cylinder": {"bor": "4 mm"}, "printing": {}}
    assert len(list(jsonschema.Draft202012Validator(schema).iter_errors(slip))) == 2


def test_stopped_by_hand_says_so_and_leaves_no_trace(tmp_path):
    code = (
        "import os, signal\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        "from firstfire.cli import main\n"
        "import firstfire.cli.asking as asking\n"
        "asking.asked_engine = lambda *_: os.kill(os.getpid(), signal.SIGINT)\n"
        "main.run()\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, "check", str(ENGINES / "wren.toml")],
        capture_output=True, text=True, check=False, cwd=tmp_path,
    )  # fmt: skip
    assert done.returncode == 130
    assert "Traceback" not in done.stderr
