"""``firstfire leak`` as a person uses it: a gauge in hand, a layer for the next check."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.bench.contract import LeakTold

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"
GAUGE = ("--gauge", "6.2 bar", "--rpm", "360", "--hose", "0.5 cm^3")


def firstfire(*words):
    return subprocess.run(
        [sys.executable, "-c", "from firstfire.cli.main import run; run()", *map(str, words)],
        capture_output=True, text=True, check=False,
        env={**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip


def test_a_gauge_reading_becomes_a_layer_that_check_reads(tmp_path):
    layer = tmp_path / "learned.toml"
    done = firstfire("leak", WREN, *GAUGE, "-o", layer)
    assert done.returncode == 0, done.stderr
    text = " ".join(done.stdout.split())
    assert text.startswith("It leaks 0.")
    assert "5 to 95 %; an estimate" in text
    assert "--layer" in text
    # Cautions stand where it leads to spinning.
    for word in ("rotating parts", "spark", "starter", "estimates"):
        assert f"{word}:" in done.stdout
    # A command stays on its line, to be copied whole: here it has a long path in it.
    told = [line for line in done.stdout.splitlines() if not line.startswith("  firstfire ")]
    assert max(map(len, told)) <= 80
    # Without the layer 0.044 mm²; with it the gauge comes back down.
    before = ff.run(ff.read(WREN), "cranking", drawn=1).points[0].fired.cycle.cylinders[0]
    checked = firstfire(
        "check", WREN, "--json", "--for", "cranking", "--engines", "16", "--layer", layer
    )
    after = json.loads(checked.stdout)["operating_points"][0]
    assert after["event"] == "cranking"
    peaks = [before.peak_pressure, after["cylinders"][0]["peak_pressure_pa"]]
    assert peaks[1] < 0.75 * peaks[0]


def test_a_file_that_is_there_stays(tmp_path):
    layer = tmp_path / "learned.toml"
    layer.write_text("mine")
    down = ("--supply", "3 bar", "--held", "2.4 bar", "--orifice", "1 mm", "-o", layer)
    done = firstfire("leak", WREN, *down)
    assert done.returncode == 2
    assert "is there already and stays as it is" in " ".join(done.stderr.split())
    assert layer.read_text() == "mine"
    assert firstfire("leak", WREN, *down, "--overwrite").returncode == 0
    assert "firstfire.layer/1" in layer.read_text()


def test_json_keeps_its_contract():
    done = firstfire("leak", WREN, "--supply", "3 bar", "--loss", "20 %", "--orifice", "1 mm",
                     "--json")  # fmt: skip
    told = LeakTold.model_validate(json.loads(done.stdout))
    assert told.total.low_m2 < told.total.area_m2 < told.total.high_m2
    assert json.loads(firstfire("schema", "leak").stdout)["title"] == "LeakTold"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "Say one test"),
        (("--gauge", "6.2 bar", "--supply", "3 bar"), "Say one test"),
        (("--gauge", "6.2 bar"), "--rpm was not said"),
        (("--gauge", "6.2", "--rpm", "360"), "--gauge"),
        (("--gauge", "6.2 bar", "--rpm", "360", "--cylinder", "2"), "There is no cylinder 2"),
        (("--gauge", "16 bar", "--rpm", "360"), "no leak explains it"),
        (("--supply", "3 bar", "--held", "3 bar", "--orifice", "1 mm"), "tells nothing"),
        (("--supply", "3 bar", "--loss", "20 %"), "--orifice was not said"),
    ],
)
def test_what_is_refused_is_said_in_words(words, said):
    done = firstfire("leak", WREN, *words)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert said in " ".join(done.stderr.split())
