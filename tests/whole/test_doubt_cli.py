"""`firstfire explain --doubt` as a person runs it."""

import json
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

ROOT = Path(__file__).resolve().parents[2]
COMMAND = str(Path(sys.executable).with_name("firstfire"))
NYLON = "tests/field/nylon_pistons.toml"


def explain(*words, cwd=ROOT):
    return subprocess.run(
        [COMMAND, "explain", *words],
        cwd=cwd, capture_output=True, text=True, check=False, timeout=300,
    )  # fmt: skip


@pytest.fixture(scope="module")
def told():
    return explain(NYLON, "--doubt")


def test_the_answer_stands_first_and_fits_the_window(told):
    assert told.returncode == 0, told.stderr
    lines = told.stdout.splitlines()
    assert " ".join(lines[:3]).startswith(
        "nylon pistons: measure the gap between piston and bore first: a feeler gauge, 5 minutes."
    )
    assert max(map(len, lines)) <= 80
    assert "piston.skirt_clearance" in told.stdout
    assert "What nobody can measure at home" in told.stdout


def test_the_json_is_as_its_schema_says_and_agrees_with_the_text(told):
    asked = explain(NYLON, "--doubt", "--json")
    assert asked.returncode == 0, asked.stderr
    plain = json.loads(asked.stdout)
    schema = subprocess.run(
        [COMMAND, "schema", "doubt"], capture_output=True, text=True, check=True, timeout=60
    )
    jsonschema.validate(plain, json.loads(schema.stdout))
    first = plain["readings"][0]
    assert first["spans"][0]["path"] == "piston.skirt_clearance"
    share = round(100 * first["decides"]["idle"])
    assert f"{share} of 100 of the doubt about how long it idles" in " ".join(told.stdout.split())


def test_a_layer_that_is_not_there_is_refused():
    asked = explain(NYLON, "--doubt", "--json", "--layer", "/no/such.toml")
    assert asked.returncode == 2
    assert "such.toml" in asked.stderr
    assert "Traceback" not in asked.stderr


def test_a_layer_with_the_reading_takes_its_doubt_away(tmp_path):
    layer = tmp_path / "read.toml"
    layer.write_text(
        'schema = "firstfire.layer/1"\nlayer = "learned"\norigin = "the bench"\n[set]\n'
        'piston.skirt_clearance = { value = "0.25 mm", with = "feeler gauge" }\n'
    )
    asked = explain(NYLON, "--doubt", "--json", "--layer", str(layer))
    assert asked.returncode == 0, asked.stderr
    plain = json.loads(asked.stdout)
    gap = next(
        one for one in plain["readings"] if one["spans"][0]["path"] == "piston.skirt_clearance"
    )
    assert gap["span_left"] == pytest.approx(1.0)
    assert gap["decides"]["idle"] == 0.0


def test_a_bad_file_is_told_as_always_and_nothing_is_run(tmp_path):
    (tmp_path / "bad.toml").write_text('name = "x"\n[cylinder]\nbore = 44\nstrok = "40 mm"\n')
    asked = explain("bad.toml", "--doubt", cwd=tmp_path)
    assert asked.returncode == 2
    assert asked.stdout == ""
    assert "cylinder.bore" in asked.stderr
    assert "strok" in asked.stderr
    assert "Traceback" not in asked.stderr
    assert explain("nowhere.toml", "--doubt", cwd=tmp_path).returncode == 2


def test_it_is_about_the_whole_engine():
    asked = explain(NYLON, "cheek", "--doubt", "--event", "idle")
    assert asked.returncode == 2
    assert asked.stdout == ""
    said = " ".join(asked.stderr.split())
    assert '"cheek" and --event idle' in said
    assert "Leave out one or the other" in said
