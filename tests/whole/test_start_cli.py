"""``firstfire start`` as a person uses it: few runs, of the smallest draws."""

import csv
import json
import os
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from firstfire.verdict.start.contract import StartTold

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"
FEW = ("--engines", "8", "--tries", "1")


def firstfire(*words):
    return subprocess.run(
        [sys.executable, "-c", "from firstfire.cli.main import run; run()", *map(str, words)],
        capture_output=True, text=True, check=False,
        env={**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip


def test_json_is_as_its_schema_says_and_options_are_heard(tmp_path):
    """With another spark, throttle and temperature, and every step of it written down."""
    traces, page = tmp_path / "start.csv", tmp_path / "start.html"
    done = firstfire("start", WREN, *FEW, "--json", "--spark", "12", "--throttle", "60 %",
                     "--temperature", "30 °C", "--seed", "7", "--traces", traces,
                     "--report", page)  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert "The report is in" in done.stderr
    said = json.loads(done.stdout, parse_constant=pytest.fail)
    schema = json.loads(firstfire("schema", "start").stdout)
    assert schema["title"] == "StartTold"
    jsonschema.validate(said, schema)
    told = StartTold.model_validate(said)
    assert told.odds.engines == 8
    assert told.odds.tries == 1
    assert told.odds.starts > 0.5
    assert page.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")
    assert told.sentence in page.read_text(encoding="utf-8").replace("</bdi></b>", "")
    first = next(one.what for one in told.story if "first combustion" in one.what)
    assert "12° before top" in first
    with traces.open() as file:
        rows = list(csv.DictReader(file))
    assert list(rows[0])[:4] == ["seconds", "angle_deg", "speed_rpm", "pressure_1_pa"]
    assert float(rows[0]["speed_rpm"]) == 0.0
    times = [float(row["seconds"]) for row in rows]
    assert times == sorted(times)
    # What is told of its end is the mean of the last fifth of a second of these.
    late = [row for row in rows if float(row["seconds"]) >= times[-1] - 0.2]
    turned = float(late[-1]["angle_deg"]) - float(late[0]["angle_deg"])
    mean = turned / 6 / (float(late[-1]["seconds"]) - float(late[0]["seconds"]))
    assert told.story[-1].speed_rpm == pytest.approx(mean, rel=0.01)


def test_text_has_its_plan_and_cautions_within_80_columns():
    done = firstfire("start", WREN, *FEW, "--full")
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("wren: better than 19 in 20 that it starts within 3")
    assert max(map(len, done.stdout.splitlines())) <= 80
    for heading in ("How it goes", "Torque by speed", "Step by step", "Cautions"):
        assert f"\n{heading}\n" in done.stdout
    for word in ("burst", "high voltage", "fuel", "starter"):
        assert f"\n{word}: " in done.stdout


def test_every_fault_of_the_options_is_said_at_once():
    done = firstfire("start", WREN, "--spark", "frog", "--throttle", "300 %", "--prime", "much")
    assert done.returncode == 2
    assert done.stdout == ""
    said = " ".join(done.stderr.split())
    assert '--spark is "frog"' in said
    assert '--throttle is "300 %"' in said
    assert '--prime is "much"' in said
    assert "3 problems" in said


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--spark", "200 deg"), "--spark"),
        (("--throttle", "0 %"), "--throttle"),
        (("--starter", "catapult"), "catapult"),
        (("--prime", "-1"), "--prime"),
        (("--prime", "3 mm"), "--prime"),
        (("--prime", "1 l"), "--prime"),
        (("--traces", "start.txt"), "ends in .csv"),
        (("--report", "start.csv"), "ends in .html"),
        (("--report", "nowhere/start.html"), "its folder isn't there"),
    ],
)
def test_what_can_not_be_is_refused(words, said):
    done = firstfire("start", WREN, *words)
    assert done.returncode == 2
    assert said in " ".join(done.stderr.split())


def test_a_gas_is_not_primed():
    done = firstfire("start", WREN.with_name("plover.toml"), "--prime", "2")
    assert done.returncode == 2
    assert "its fuel is a gas" in " ".join(done.stderr.split())


@pytest.mark.slow
def test_priming_is_heard_in_pulses_and_by_volume():
    told = []
    for said in ("4", "0.0248 ml"):
        done = firstfire("start", WREN, *FEW, "--json", "--prime", said)
        assert done.returncode == 0, done.stderr
        told.append(StartTold.model_validate_json(done.stdout))
    by_count, by_volume = told
    assert by_count.story[1].what == "primed with 4 pulses of fuel a port"
    pulse = by_count.priming.pulse_m3
    assert by_volume.story[1].what == f"primed with {2.48e-8 / pulse:.2g} pulses of fuel a port"
    assert len(by_count.charges) > 5
    assert by_count.charges[0].vapour > 1.3
    assert by_count.cycles[0].mixture > 1.1


@pytest.mark.parametrize(("option", "name"), [("--traces", "mine.csv"), ("--report", "mine.html")])
def test_files_that_are_there_stay(tmp_path, option, name):
    file = tmp_path / name
    file.write_text("mine")
    done = firstfire("start", WREN, *FEW, option, file)
    assert done.returncode == 2
    assert done.stdout == ""
    assert "is there already and stays as it is" in " ".join(done.stderr.split())
    assert file.read_text() == "mine"
