"""``firstfire cam`` as a person runs it."""

import json
import math
import xml.etree.ElementTree as ET
from pathlib import Path

import ezdxf
import jsonschema
import pytest
from tests.whole.test_parts_and_compare import ENGINES, firstfire, refused

from firstfire.engine.read import read
from firstfire.engine.resolve import resolve
from firstfire.setup.cams.contract import CamsTold

WREN = ENGINES / "wren.toml"
STRANGERS = Path(__file__).resolve().parents[1] / "strangers"
WANTED = ("--valve", "inlet", "--opens", "8 deg", "--closes", "42 deg", "--at-lift", "0.3 mm",
          "--lift", "5 mm", "--law", "4-5-6-7")  # fmt: skip


@pytest.mark.parametrize(
    "file", [*sorted(ENGINES.glob("*.toml")), *sorted(STRANGERS.glob("[1-5]*.toml"))],
    ids=lambda f: f.stem,
)  # fmt: skip
def test_it_reads_well_in_a_terminal(file):
    for more in ((), ("--full",)) if file == WREN else ((),):
        done = firstfire("cam", file, *more)
        assert done.returncode == 0, done.stderr
        assert all(len(line) <= 80 for line in done.stdout.splitlines()), done.stdout
        assert "nan" not in done.stdout
        order = ["cam", "Least gaps", "clears by", "All of it is an estimate", "by hand"]
        places = [done.stdout.index(word) for word in order]
        assert places == sorted(places)


def test_json_is_its_contract():
    told = json.loads(firstfire("cam", WREN, "--json", "--lash", "0.3 mm").stdout)
    schema = json.loads(firstfire("schema", "cam").stdout)
    jsonschema.validate(told, schema)
    assert CamsTold.model_validate(told).name == "wren"
    assert [cam["valve"] for cam in told["cams"]] == ["inlet", "exhaust"]
    gaps = {gap["id"]: gap for gap in told["gaps"]}
    assert gaps["lash_inlet"]["gap_m"] > gaps["drawn_inlet"]["gap_m"]
    for ident in ("tooth_late_1", "tooth_late_2", "tooth_early_1", "tooth_early_2",
                  "floating_inlet", "hung_exhaust", "drawn_between", "drawn_wall"):  # fmt: skip
        assert gaps[ident]["touches"] == (gaps[ident]["gap_m"] <= 0)
    numbers = {one["id"]: one for one in told["cams"][0]["numbers"]}
    assert numbers["contact"]["holds"] is True
    assert numbers["lift_at_cam"]["value"] == pytest.approx(4.6e-3)


def test_a_wanted_cam_goes_into_the_file_and_onto_paper(tmp_path):
    dxf, svg, better = tmp_path / "a.dxf", tmp_path / "a.svg", tmp_path / "better.toml"
    pdf = tmp_path / "a.pdf"
    done = firstfire("cam", WREN, *WANTED, "-o", dxf, "-o", svg, "-o", pdf, "-o", better)
    assert done.returncode == 0, done.stderr
    valve = resolve(read(better)).cylinders[0].valves.inlet
    assert valve.cam_law == "polynomial_4567"
    assert valve.lift == pytest.approx(5e-3)
    assert math.degrees(valve.opens_before_top) > 8
    (edge,) = [
        one for one in ezdxf.readfile(dxf).modelspace()
        if one.dxftype() == "LWPOLYLINE" and one.closed and len(one) > 100
    ]  # fmt: skip
    far = [math.hypot(x, y) for x, y, *_ in edge.get_points()]
    assert max(far) == pytest.approx(1e3 * (valve.base_radius + 5e-3 + valve.lash), abs=0.01)
    assert min(far) == pytest.approx(1e3 * valve.base_radius, abs=0.01)
    assert ET.parse(svg).getroot().tag.endswith("svg")
    assert pdf.read_bytes().startswith(b"%PDF")
    before = better.read_text()
    refused("cam", WREN, *WANTED, "-o", better, says=["is there already", "--overwrite"])
    assert better.read_text() == before
    again = json.loads(firstfire("cam", better, "--json").stdout)
    assert again["cams"][0]["law"] == "polynomial_4567"


def test_bad_input_is_told_all_at_once():
    says = ["Whose cam", '--law is "fast"', "4-5-6-7", "x.png ends in none", "--choose"]
    refused("cam", WREN, "--opens", "8 deg", "--law", "fast", "-o", "x.png",
            "--speed", "3000 rpm", says=says)  # fmt: skip
    refused("cam", WREN, "--valve", "inlet", "--opens", "8", "--lift", "3 kg",
            says=["--opens", "bare number", "--lift", "no", "length"])  # fmt: skip
    refused("cam", WREN, "--valve", "both", says=["inlet or exhaust"])
    refused("cam", WREN, "--choose", "--lift", "5 mm", "--valve", "inlet", says=["--choose"])
    refused("cam", ENGINES / "plover.toml", "--valve", "inlet", "--lift", "3 mm",
            says=["suction", "no cam opens it"])  # fmt: skip
    refused("cam", WREN, "-o", "none.toml", says=["no new cam to write"])


def test_what_can_not_be_made_names_the_nearest():
    told = refused("cam", WREN, "--valve", "inlet", "--lift", "5 mm", "--set",
                   "valves.inlet.follower=flat",
                   says=["undercuts itself", "nearest that can be made",
                         "base_radius"])  # fmt: skip
    assert "Can't" not in told
    refused("cam", WREN, "--valve", "inlet", "--opens", "70 deg", "--set",
            "cylinder.compression_ratio=14",
            says=["piston", "nearest that can be made", "opening"])  # fmt: skip
    refused("cam", WREN, "--valve", "inlet", "--at-lift", "6 mm", says=["State them at"])


def test_the_card_of_a_check_tells_a_tooth_off():
    done = firstfire("check", WREN, "--for", "cranking", "--set", "cylinder.compression_ratio=15",
                     "--set", "valves.exhaust.lift=7 mm")  # fmt: skip
    (line,) = [x for x in done.stdout.splitlines() if x.startswith("  valve and piston")]
    assert "touches" in line
    assert len(line) <= 80
