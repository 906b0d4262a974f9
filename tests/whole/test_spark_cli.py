"""``firstfire spark`` and ``firstfire wiring`` as a person runs them."""

import json
import xml.etree.ElementTree as ET
from pathlib import Path

import ezdxf
import jsonschema
import pytest
from tests.whole.test_parts_and_compare import ENGINES, firstfire, refused

WREN, HERON = ENGINES / "wren.toml", ENGINES / "heron.toml"
STRANGERS = Path(__file__).resolve().parents[1] / "strangers"
ALL = [*sorted(ENGINES.glob("*.toml")), *sorted(STRANGERS.glob("[1-5]*.toml"))]


@pytest.mark.parametrize("file", ALL, ids=lambda f: f.stem)
def test_every_engine_is_answered_in_eighty_columns(file):
    for command in ("spark", "wiring"):
        done = firstfire(command, file)
        assert done.returncode == 0, done.stderr
        assert all(len(line) <= 80 for line in done.stdout.splitlines()), done.stdout
        assert " nan" not in done.stdout
        assert "kilovolts" in done.stdout


@pytest.mark.slow
def test_spark_as_json_is_its_contract_with_the_table():
    told = json.loads(firstfire("spark", WREN, "--json", "--table").stdout)
    jsonschema.validate(told, json.loads(firstfire("schema", "spark").stdout))
    assert told["schema"] == "firstfire.spark/1"
    advance = told["advance"]
    rows, columns = len(advance["throttle_openings"]), len(advance["speeds_rad_per_s"])
    assert {len(advance["advance_before_top_rad"])} == {rows}
    assert {len(row) for row in advance["advance_before_top_rad"]} == {columns}
    assert told["sensor"]["kind"] == "hall"
    assert told["points"] is None
    without = json.loads(firstfire("spark", WREN, "--json").stdout)
    assert without["advance"] is None
    assert {**without, "advance": None} == {**told, "advance": None, "not_judged": []}


def test_the_table_is_read_in_eighty_columns():
    text = firstfire("spark", WREN, "--table").stdout
    assert "Advance by speed and load" in text
    assert all(len(line) <= 80 for line in text.splitlines())


def test_what_is_wrong_comes_first_with_what_to_type():
    text = firstfire("spark", WREN, "--set", "plug.gap=1.4 mm").stdout
    assert "never jumps" in text.splitlines()[0] + text.splitlines()[1]
    assert "--set plug.gap='" in text


def test_a_contradiction_is_refused_in_one_message():
    refused("spark", WREN, "--set", "spark.coil.driver_drop=9 V", "--set",
            "spark.coil.voltage=6 V", says=("never charges", "spark.coil.driver_drop"))  # fmt: skip


def test_wiring_is_drawn_and_never_over_a_file(tmp_path):
    files = [tmp_path / f"wiring.{end}" for end in ("svg", "pdf", "dxf")]
    asked = [word for file in files for word in ("-o", file)]
    assert firstfire("wiring", HERON, *asked).returncode == 0
    assert ET.parse(files[0]).getroot().tag.endswith("svg")
    assert files[1].read_bytes().startswith(b"%PDF")
    assert len(ezdxf.readfile(files[2]).modelspace()) > 20
    before = files[0].read_bytes()
    refused("wiring", HERON, "-o", files[0], says=("there already",))
    assert files[0].read_bytes() == before
    assert firstfire("wiring", WREN, "-o", files[0], "--overwrite").returncode == 0
    assert files[0].read_bytes() != before


def test_another_kind_of_file_is_refused(tmp_path):
    refused("wiring", WREN, "-o", tmp_path / "wiring.png", says=(".svg, .pdf or .dxf",))
    refused("wiring", WREN, "-o", tmp_path / "w.pdf", "--paper", "A3", says=("A4 and Letter",))


def test_wiring_as_json_is_its_contract():
    told = json.loads(firstfire("wiring", HERON, "--json").stdout)
    jsonschema.validate(told, json.loads(firstfire("schema", "wiring").stdout))
    assert told["fuse_a"] >= 1.25 * told["current_a"]
