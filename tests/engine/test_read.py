"""Engine files that are understood, and files that are refused with everything wrong at once."""

import os
from pathlib import Path

import pytest

from firstfire.engine.read import read, understand, with_values
from firstfire.errors import EngineFileError

ENGINES = Path(__file__).resolve().parents[2] / "engines"


def refused(say, more="", base=None):
    with pytest.raises(EngineFileError) as why:
        say(more, base) if base else say(more)
    return why.value


def test_four_words_are_an_engine(say):
    engine = say()
    assert (engine.name, engine.cylinders) == ("finch", 1)


@pytest.mark.parametrize(
    ("more", "path", "says"),
    [
        ("[piston]\nmas = '3 g'\n", "piston.mas", "piston.mass"),
        ("[pistn]\nmass = '3 g'\n", "pistn", "piston"),
        ("[piston]\nmass = '3 mm'\n", "piston.mass", "not a mass"),
        ("[piston]\nmass = 35\n", "piston.mass", '"35 g"'),
        ("[piston]\nmass = '-35 g'\n", "piston.mass", "negative"),
        ("[piston]\nmass = nan\n", "piston.mass", "not a number"),
        ("[piston]\nmaterial = 'unobtainium'\n", "piston.material", "no such material"),
        ("[rod]\nlength = '9 m'\n", "rod.length", "above what makes sense"),
        ("[rings]\ncount = 1.5\n", "rings.count", "whole number"),
        ("[rings]\ncount = 99\n", "rings.count", "from 0 to 5"),
        ("[rings]\nkind = 'oring'\n", "rings.kind", "o_ring"),
        ("[rod]\nsplit = 'yes'\n", "rod.split", "true or false"),
        ("rod = 3\n", "rod", "table"),
        ("[rod.length]\nx = 1\n", "rod.length", "a table without a value"),
        ("[use]\nfull_throttle_speeds = []\n", "use.full_throttle_speeds", "not a list"),
        ("[use]\nfull_throttle_speeds = ['3 mm']\n", "use.full_throttle_speeds", "not a speed"),
        ("[spark]\nadvance_table = [['900 rpm']]\n", "spark.advance_table", "pair"),
        (
            "[spark]\nadvance_table = [['900 rpm', '5 deg'], ['800 rpm', '9 deg']]\n",
            "spark.advance_table",
            "rise",
        ),
        ("[cylinders.2.piston]\nmass = '30 g'\n", "cylinders.2.piston.mass", "one cylinder"),
        ("[as_built.piston]\nmas = '3 g'\n", "piston.mas", "piston.mass"),
        (
            "[as_built.piston]\nmass = { value = '30 g', with = 'guess' }\n",
            "piston.mass",
            "no such instrument",
        ),
        ("[materials.petg]\nstrengh = '3 MPa'\n", "materials.petg.strengh", "not a property"),
        ("[materials.petg]\ndensity = '3 MPa'\n", "materials.petg.density", "kg/m^3"),
        ("[materials.petgg]\ndensity = '3 MPa'\n", "materials.petgg.density", "no known material"),
    ],
)
def test_one_wrong_thing_is_told_with_its_place_and_cure(say, small, more, path, says):
    error = refused(say, more) if more[0] == "[" else refused(say, base=more + small)
    problem = error.problems[0]
    assert problem.path.startswith(path)
    assert says in str(problem)
    assert problem.line > 0


def test_all_problems_are_told_at_once_in_the_order_of_the_file(say):
    error = refused(say, "[piston]\nmass = 3\nlenght = '30 mm'\n[rod]\nlength = '1 kg'\n")
    assert [p.path for p in error.problems] == ["piston.mass", "piston.lenght", "rod.length"]
    assert [p.line for p in error.problems] == [11, 12, 14]
    assert "3 problems" in str(error)


def test_what_must_be_said_is_asked_for(rows):
    with pytest.raises(EngineFileError) as why:
        understand('name = "x"', "x.toml", rows)
    assert {p.path for p in why.value.problems} == {
        "layout.kind", "cylinder.bore", "cylinder.stroke", "printing.material",
    }  # fmt: skip


def test_a_twin_with_one_cylinders_data_is_refused(rows):
    text = """
    [layout]
    kind = "parallel_twin"
    [printing]
    material = "petg"
    [cylinders.1.cylinder]
    bore = "44 mm"
    stroke = "40 mm"
    """
    with pytest.raises(EngineFileError) as why:
        understand(text, "x.toml", rows)
    first = why.value.problems[0]
    assert first.path == "cylinders.2.cylinder.bore"
    assert "cylinder 1 has it, cylinder 2 doesn't" in first.fault


@pytest.mark.parametrize(
    ("more", "path"),
    [
        ("[rod]\nlength = '19 mm'\n", "rod.length"),
        ("[valves.inlet]\nhead_diameter = '50 mm'\n", "valves.inlet.head_diameter"),
        ("[valves.inlet]\nthroat_diameter = '30 mm'\n", "valves.inlet.throat_diameter"),
        ("[valves.inlet]\nstem_diameter = '12 mm'\n", "valves.inlet.stem_diameter"),
        ("[valves.exhaust]\nworked = 'suction'\n", "valves.exhaust.worked"),
        ("[crank]\ncrankpin_diameter = '60 mm'\n", "crank.crankpin_diameter"),
        ("[pin]\ninside_diameter = '20 mm'\n", "pin.inside_diameter"),
        ("[pin]\nlength = '50 mm'\n", "pin.length"),
        ("[rings]\ngroove_width = '2 mm'\n", "rings.groove_width"),
        ("[rings]\ngroove_depth = '0.5 mm'\n", "rings.groove_depth"),
        ("[rings]\noring = '2.62x47.29'\n", "rings.oring"),
        ("[liner]\noutside_diameter = '44 mm'\n", "liner.outside_diameter"),
        ("[body]\noutside_diameter = '45 mm'\n", "body.outside_diameter"),
        ("[head.fasteners]\ncircle_diameter = '40 mm'\n", "head.fasteners.circle_diameter"),
        ("[gasket]\ninside_diameter = '40 mm'\n", "gasket.inside_diameter"),
        ("[piston.shield]\nthickness = '1 mm'\ndiameter = '44 mm'\n", "piston.shield.diameter"),
        ("[cam_drive]\nteeth_cam = 30\n", "cam_drive.teeth_cam"),
        ("[crank]\nthrough_rod_diameter = '14 mm'\n", "crank.through_rod_diameter"),
        ("[crank.joint]\nlength = '60 mm'\n", "crank.joint.length"),
        ("[intake]\nkind = 'y'\n", "intake.kind"),
        ("[piston]\ncompression_height = '8 mm'\n", "piston.compression_height"),
    ],
)
def test_what_cannot_be_built_is_refused(say, more, path):
    problems = refused(say, more).problems
    assert any(p.path == path for p in problems), [str(p) for p in problems]


@pytest.mark.parametrize(
    "tried", [{"cylinder.compression_ratio": 14.0}, {"piston.top_land": "12 mm"}]
)
def test_a_piston_left_to_us_is_tall_enough_for_its_rings_and_pin(tried):
    """A stronger pin, or a land one asked for, must not be refused for a height we chose."""
    wren = read(ENGINES / "wren.toml")
    values = with_values(wren, tried).values()
    above = values["piston.compression_height"] - values["piston.top_land"]
    grooves = 2 * values["rings.groove_width"] + 1.5e-3
    assert above >= grooves + values["pin.diameter"] / 2 - 1e-9
    assert wren.values()["piston.compression_height"] == pytest.approx(20e-3)


def test_two_ways_of_saying_one_thing_must_agree(say, small):
    ratio = small.replace(
        "[printing]", "compression_ratio = 7\nchamber_volume = '8 cm^3'\n[printing]"
    )
    assert refused(say, base=ratio).problems[0].path == "cylinder.compression_ratio"
    fits = small.replace(
        "[printing]", "compression_ratio = 7\nchamber_volume = '10.14 cm^3'\n[printing]"
    )
    assert say(base=fits).values()["cylinder.compression_ratio"] == 7
    squeezed = refused(say, "[rings]\nsqueeze = 0.1\ngroove_depth = '1.9 mm'\n")
    assert squeezed.problems[0].path == "rings.squeeze"


def test_no_file(tmp_path):
    with pytest.raises(EngineFileError, match=r"is not there\. `firstfire new"):
        read(tmp_path / "gone.toml")


def test_a_folder(tmp_path):
    with pytest.raises(EngineFileError, match="is a folder"):
        read(tmp_path)


def test_not_a_file(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(EngineFileError, match="not an ordinary file"):
        read(tmp_path / "pipe")


def test_binary(tmp_path):
    (tmp_path / "x.toml").write_bytes(b"\x89PNG\r\n\x1a\n\x00\xff")
    with pytest.raises(EngineFileError, match="not a text file"):
        read(tmp_path / "x.toml")


def test_not_toml_names_the_line(tmp_path):
    (tmp_path / "x.toml").write_text("name = 'x'\n[cylinder\nbore = 3\n")
    with pytest.raises(EngineFileError, match=r"line 2: this is not TOML") as why:
        read(tmp_path / "x.toml")
    assert why.value.problems[0].line == 2


def test_too_large_is_refused_before_it_is_parsed(tmp_path, monkeypatch):
    from firstfire.engine import read as module

    def parsed(_text, _where):
        pytest.fail("parsed")

    monkeypatch.setattr(module, "_parse", parsed)
    (tmp_path / "x.toml").write_text("# " + "x" * 1_000_001)
    with pytest.raises(EngineFileError, match=r"1\.0 MB"):
        read(tmp_path / "x.toml")


def test_unreadable_as_the_system_tells_it(tmp_path, monkeypatch):
    from pathlib import Path

    file = tmp_path / "x.toml"
    file.write_text("name = 'x'")

    def denied(_self):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", denied)
    with pytest.raises(EngineFileError, match="may not be read"):
        read(file)


def test_another_schema_is_refused(say, small):
    with pytest.raises(EngineFileError, match=r'Write schema = "firstfire.engine/1"'):
        say(base='schema = "firstfire.engine/9"\n' + small)
