"""``firstfire fits`` and ``coupon`` as a person uses them: a layer kept, drawings to print."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from firstfire.report.shop import ENDS

ENGINES = Path(__file__).resolve().parents[2] / "engines"
WREN, HERON = ENGINES / "wren.toml", ENGINES / "heron.toml"
HOLE = ("--measured", "hole 12=11.82 mm")


def firstfire(*words):
    return subprocess.run(
        [sys.executable, "-c", "from firstfire.cli.main import run; run()", *map(str, words)],
        capture_output=True, text=True, check=False,
        env={**os.environ, "COLUMNS": "80", "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip


def test_what_was_read_is_written_and_read_again(tmp_path):
    layer = tmp_path / "printer.toml"
    done = firstfire("fits", WREN, *HOLE, "-o", layer)
    assert done.returncode == 0, done.stderr
    assert 'layer = "printer"' in layer.read_text()
    assert f"--layer {layer}" in done.stdout
    again = firstfire("fits", WREN, "--layer", layer, "--json")
    told = json.loads(again.stdout)
    wheel = next(one for one in told["seats"] if one["id"] == "cam-wheel")
    assert wheel["draw_hole_m"] == pytest.approx(9.98e-3 + 0.18e-3)


def test_nothing_is_written_unasked_nor_over(tmp_path):
    done = firstfire("fits", WREN, *HOLE)
    assert "Nothing is written" in done.stdout
    layer = tmp_path / "printer.toml"
    layer.write_text("mine")
    refused = firstfire("fits", WREN, *HOLE, "-o", layer)
    assert refused.returncode == 2
    assert layer.read_text() == "mine"
    assert "stays as it is" in " ".join(refused.stderr.split())
    assert firstfire("fits", WREN, *HOLE, "-o", layer, "--overwrite").returncode == 0
    assert layer.read_text() != "mine"
    assert firstfire("fits", WREN, "-o", tmp_path / "no.toml").returncode == 2
    only_bore = ("--measured", "bore top along=39.96 mm", "-o", tmp_path / "no.toml")
    assert firstfire("fits", WREN, *only_bore).returncode == 2
    assert not (tmp_path / "no.toml").exists()


def test_the_gauge_and_the_pieces_are_drawn(tmp_path):
    place = tmp_path / "gauge"
    assert firstfire("fits", WREN, "--draw", place).returncode == 0
    assert sorted(file.name for file in place.iterdir()) == sorted(
        f"hole-gauge.{end}" for end in ENDS
    )
    stl = (place / "hole-gauge.stl").read_bytes()
    assert len(stl) == 84 + 50 * int.from_bytes(stl[80:84], "little")
    again = firstfire("fits", WREN, "--draw", place)
    assert again.returncode == 2
    assert "nothing was written" in " ".join(again.stderr.split())
    pieces = tmp_path / "pieces"
    done = firstfire("coupon", HERON, "--draw", pieces, "--json")
    assert done.returncode == 0, done.stderr
    slugs = {one["drawing"] for one in json.loads(done.stdout)["coupons"]}
    assert {file.stem for file in pieces.iterdir()} == slugs
    assert len(list(pieces.iterdir())) == len(ENDS) * len(slugs)
    assert firstfire("fits", WREN, "--draw", WREN).returncode == 2


def test_a_broken_bar_becomes_a_layer_that_stands_in_the_material(tmp_path):
    layer = tmp_path / "learned.toml"
    done = firstfire("coupon", HERON, "--reading", "bar petg=4 kg", "-o", layer)
    assert done.returncode == 0, done.stderr
    assert "Liquid only" in done.stdout
    # the last two lines have a path in them, to be copied whole
    assert max(map(len, done.stdout.splitlines()[:-2])) <= 80
    again = json.loads(firstfire("coupon", HERON, "--layer", layer, "--json").stdout)
    bar = next(one for one in again["coupons"] if one["id"] == "bar petg")
    assert bar["expected"] == pytest.approx(4 * 9.80665, rel=1e-3)
    refused = firstfire("coupon", HERON, "--reading", "bar petg=4", "--reading", "zebra=1 kg")
    assert refused.returncode == 2
    assert "2 problems" in refused.stderr
    assert "Traceback" not in refused.stderr


@pytest.mark.parametrize("which", ["fits", "coupon"])
def test_its_schema_is_told(which):
    done = firstfire("schema", which)
    assert done.returncode == 0
    assert f"firstfire.{which}/1" in done.stdout


def test_a_fit_that_cracks_is_refused_and_the_nearest_named():
    tight = (
        "--set", "crank.joint.kind=plain_press", "--set", "crank.joint.plate_thickness=0 mm",
        "--set", "crank.joint.length=14 mm", "--set", "crank.joint.interference=0.5 mm",
    )  # fmt: skip
    done = firstfire("fits", WREN, *tight)
    assert done.returncode == 2
    assert 'crank.joint.interference = "0.' in " ".join(done.stderr.split())
