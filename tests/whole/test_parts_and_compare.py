"""``firstfire parts`` and ``firstfire compare`` as a person runs them."""

import json
import os
import subprocess
import sys
from functools import partial
from pathlib import Path

import jsonschema
import pytest
from tests.whole.terminal import Terminal
from typer.testing import CliRunner

from firstfire.cli.main import app
from firstfire.setup import have
from firstfire.setup.contract import PartsTold
from firstfire.verdict.check import check
from firstfire.verdict.compare import compare as comparing
from firstfire.verdict.compare.contract import CompareTold

HERE = Path(__file__).resolve().parent
ENGINES = HERE.parents[1] / "engines"
STRANGERS = HERE.parent / "strangers"
RUN = [sys.executable, "-c", "from firstfire.cli.main import run; run()"]
ENV = {**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"}


def firstfire(*words, cwd=None):
    return subprocess.run(
        [*RUN, *map(str, words)], capture_output=True, text=True, check=False, env=ENV, cwd=cwd
    )


def refused(*words, says):
    done = firstfire(*words)
    assert done.returncode == 2, done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    assert done.stdout == ""
    told = " ".join(done.stderr.split())
    for word in says:
        assert word in told
    return done.stderr


@pytest.mark.parametrize(
    "file", [ENGINES / "wren.toml", ENGINES / "heron.toml", *sorted(STRANGERS.glob("[1-5]*.toml"))],
    ids=lambda f: f.stem,
)  # fmt: skip
def test_parts_reads_well_in_a_terminal(file):
    done = firstfire("parts", file)
    assert done.returncode == 0, done.stderr
    order = ["To print", "To buy", "To make by hand", "Yours to choose", "To take to the store",
             "How mass and hours were had"]  # fmt: skip
    places = [done.stdout.index(f"\n{word}") for word in order]
    assert places == sorted(places)
    assert max(map(len, done.stdout.splitlines())) <= 80
    assert "estimates" in done.stdout.split("\n\n")[0]
    assert "common practice, no source" in " ".join(done.stdout.split())
    for slip in ("None", "nan", "inf "):
        assert slip not in done.stdout


def test_parts_json_keeps_its_contract():
    done = firstfire("parts", ENGINES / "wren.toml", "--json")
    assert done.returncode == 0, done.stderr
    data = json.loads(done.stdout)
    PartsTold.model_validate(data)
    jsonschema.validate(data, json.loads(firstfire("schema", "parts").stdout))
    assert data["schema"] == "firstfire.parts/1"
    assert data["have"] == []
    total = sum(p["count"] * p["mass_kg"] for p in data["printed"])
    assert data["printed_mass_kg"] == pytest.approx(total)
    time_s = sum(p["count"] * p["print_time_s"] for p in data["printed"])
    assert data["print_time_s"] == pytest.approx(time_s)
    assert all(item["count"] >= 1 for item in data["bought"])


@pytest.mark.parametrize("which", ["parts", "compare"])
def test_schemas_are_given(which):
    done = firstfire("schema", which)
    assert done.returncode == 0, done.stderr
    schema = json.loads(done.stdout)
    jsonschema.Draft202012Validator.check_schema(schema)
    assert schema["properties"]["schema"]["const"] == f"firstfire.{which}/1"


def test_parts_of_a_trial_differ_from_the_files():
    mass = [
        json.loads(firstfire("parts", ENGINES / "wren.toml", "--json", *more).stdout)[
            "printed_mass_kg"
        ]
        for more in ((), ("--set", "body.infill=0.8"))
    ]
    assert mass[1] > mass[0]


def test_parts_refuses_what_it_cannot_read():
    refused("parts", STRANGERS / "6_refused.toml", says=["4 problems", "ABS+", "rod.length"])
    refused("parts", "not-there.toml", says=["is not there"])
    refused(
        "parts", ENGINES / "wren.toml", "--have", "6309", "--have", "ABS+", "--have", "petg",
        says=['"6309"', '"ABS+"', "--set piston.material"],
    )  # fmt: skip


def test_what_is_at_hand_and_is_named_needs_no_gas(monkeypatch):
    def stepped(*_):
        pytest.fail("the gas was asked")

    monkeypatch.setattr("firstfire.cycle.advance.step_on", stepped)
    words = ["parts", str(ENGINES / "wren.toml"), "--have", "6202-2RS", "--have", "as568_128"]
    done = CliRunner().invoke(app, words)
    assert done.exit_code == 0, done.output
    assert "fits as it is" in done.output
    assert "can't serve" in done.output


@pytest.mark.slow
def test_a_larger_bearing_is_really_run_through(monkeypatch):
    monkeypatch.setattr(have, "check", partial(check, drawn=16))
    words = ["parts", str(ENGINES / "wren.toml"), "--have", "6203", "--json",
             "--set", 'use.full_throttle_speeds=["4000 rpm"]']  # fmt: skip
    done = CliRunner().invoke(app, words)
    assert done.exit_code == 0, done.output
    (found,) = json.loads(done.stdout)["have"]
    assert found["word"] == "serves if"
    assert found["set"] == {"crank.main_bearing": "6203"}
    assert found["follows"]["crank.main_bearing_bore"] == ["15 mm", "17 mm"]
    # A larger static load: its races dent later.
    assert "main bearing" in found["judged"].partition("Better")[2]
    # What no bearing touches is no news: neither the shield's clock nor the head's gasket.
    assert "shield" not in found["judged"]
    assert "gasket" not in found["judged"]


@pytest.fixture(scope="module")
def compared():
    """Wren with one ring, and with a wish besides: checked once for all that reads it."""
    words = [
        "compare", str(ENGINES / "wren.toml"), "--set", "rings.count=1",
        "--set", 'use.full_throttle_speeds=["4000 rpm"]',
        "--with", "thin pin: pin.diameter=7 mm; head.fasteners.count=6", "--json",
    ]  # fmt: skip
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(comparing, "check", partial(check, drawn=16))
        done = CliRunner().invoke(app, words)
    assert done.exit_code == 0, done.output
    return json.loads(done.stdout)


@pytest.mark.slow
def test_compare_json_keeps_its_contract(compared):
    CompareTold.model_validate(compared)
    jsonschema.validate(compared, json.loads(firstfire("schema", "compare").stdout))
    assert compared["schema"] == "firstfire.compare/1"
    assert [c["label"] for c in compared["columns"]] == ["wren", "thin pin"]
    paths = {d["path"]: d for d in compared["differences"]}
    # By hand: 42.3 bar on 12.57 cm² is 5310 N, times (12 + 18/2)/4 - 12/8 = 3.75 mm is 19.9 N m;
    # at 150 MPa that takes (32 M / pi s)^(1/3) = 11.1 mm, and the next rod in shops is 12.
    assert [s["written"] for s in paths["pin.diameter"]["each"]] == ["12 mm", "7 mm"]
    # What --set says holds for both, so that it is no difference.
    assert "rings.count" not in paths


@pytest.mark.slow
def test_compare_tells_worse_and_better_apart(compared):
    (pair,) = compared["pairs"]
    assert pair["overall"] == "mixed"
    worse, better = ({s["id"] for s in pair[w]} for w in ("worse", "better"))
    assert any(id.startswith("piston.pin") or id.startswith("pin") for id in worse), worse
    assert any(id.startswith("head") for id in better), better
    for shift in pair["worse"]:
        assert shift["after"]["factor"] < shift["before"]["factor"]
    factors = [s["after"]["factor"] for s in pair["worse"]]
    assert factors == sorted(factors)


@pytest.mark.slow
def test_identical_files_differ_in_nothing(tmp_path, monkeypatch):
    text = (ENGINES / "wren.toml").read_text()
    files = [tmp_path / f"{name}.toml" for name in ("a", "b")]
    for file in files:
        file.write_text(text)
    monkeypatch.setattr(comparing, "check", partial(check, only=["first_fire"], drawn=14))
    done = CliRunner().invoke(app, ["compare", *map(str, files)])
    assert done.exit_code == 0, done.output
    assert "Nothing differs" in done.stdout
    assert "a.toml" in done.stdout
    assert "b.toml" in done.stdout


def test_compare_refuses_all_files_at_once():
    refused(
        "compare", STRANGERS / "6_refused.toml", "not-there.toml", STRANGERS / "6_refused.toml",
        says=["4 problems", "not-there.toml is not there"],
    )  # fmt: skip
    told = refused(
        "compare", ENGINES / "wren.toml", "--with", "rings.cuont=1", "--with", "; ;",
        "--with", "rings.count", says=["rings.cuont", "changes nothing", "path=value"],
    )  # fmt: skip
    assert told.count("rings.cuont=1") == 1


def test_compare_refuses_what_is_no_comparison():
    wren = ENGINES / "wren.toml"
    refused("compare", wren, says=["Name a second file"])
    refused("compare", wren, wren, "--with", "rings.count=1", says=["--with goes with one file"])
    refused("compare", *([wren] * 9), says=["At most 8"])
    refused("compare", wren, "--with", "cylinder.bore=400 mm", says=["cylinder.bore"])


@pytest.mark.slow
def test_stopping_is_clean(tmp_path):
    heron, wren = str(ENGINES / "heron.toml"), str(ENGINES / "wren.toml")
    at = Terminal(tmp_path, "compare", heron, wren)
    at.waits("spread of cranking")  # the first event is under way
    at.presses(b"\x03")
    assert at.ends() == 130, at.heard
    assert "Traceback" not in at.heard
    # before the first event is through there is nothing to show; after it, what was finished
    assert "Nothing was finished" in at.heard or "stopped when only" in at.heard
