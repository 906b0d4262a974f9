"""Layers: who spoke last, and where each value came from."""

import pytest

from firstfire.engine.layers import ORDER, Entry, Layer
from firstfire.engine.read import read_layer, with_values
from firstfire.engine.resolve import resolve
from firstfire.engine.unknowns import unknowns
from firstfire.errors import EngineFileError

PATH = "piston.skirt_clearance"


def test_every_layer_outranks_those_below_and_its_origin_survives_to_the_top(say):
    """Each layer in turn says the value; the stack keeps every earlier saying beside it."""
    engine = say()
    below = engine.values()[PATH]
    assert engine.values().spoken(PATH).layer == "defaults"
    assert engine.values().spoken(PATH).source == "common practice, no source"
    for rank, name in enumerate(ORDER[1:], start=1):
        said = Entry(PATH, rank * 1e-4, f"{rank}e-4 m", name, "given", source=f"{name} source",
                     note=f"{name} note", line=rank)  # fmt: skip
        engine = engine.with_layer(Layer(name, f"{name} origin", {PATH: said}))
        spoken = engine.values().spoken(PATH)
        assert spoken == said
        assert resolve(engine).cylinders[0].piston.skirt_clearance == rank * 1e-4 != below
    everything = engine.stack.all(PATH)
    assert [e.layer for e in everything] == list(ORDER[1:])
    assert [e.source for e in everything] == [f"{name} source" for name in ORDER[1:]]


def test_a_lower_layer_laid_on_later_does_not_win(say):
    engine = say("[piston]\nskirt_clearance = '0.3 mm'\n")
    low = Entry(PATH, 1e-3, "1 mm", "catalog", "catalog")
    engine = engine.with_layer(Layer("catalog", "a row", {PATH: low}))
    assert engine.values()[PATH] == pytest.approx(0.3e-3)


def test_as_designed_and_as_built_stand_side_by_side(say):
    engine = say(
        "[as_built.cylinder]\nbore = { value = '44.06 mm', with = 'caliper', note = 'top' }\n"
    )
    designed, built = engine.stack.all("cylinder.bore")
    assert (designed.value, built.value) == pytest.approx((0.044, 0.04406))
    assert (designed.kind, built.kind) == ("given", "measured")
    assert built.error == pytest.approx(engine.catalog.row("instrument", "caliper").si("error"))
    assert "top" in built.note
    assert built.line == 11
    assert resolve(engine).cylinders[0].cylinder.bore == pytest.approx(0.04406)


def test_a_measured_value_brings_its_instrument_to_the_unknowns(say):
    engine = say("[as_built.cylinder]\nbore = { value = '44.06 mm', with = 'caliper' }\n")
    bore = next(u for u in unknowns(engine) if u.path == "cylinder.bore")
    error = engine.catalog.row("instrument", "caliper").si("error")
    assert (bore.centre, bore.high - bore.centre) == pytest.approx((0.04406, error))


def test_an_overlay_file_speaks_as_its_layer(say, tmp_path):
    file = tmp_path / "printer.toml"
    file.write_text(
        'schema = "firstfire.layer/1"\nlayer = "printer"\norigin = "my printer, black PETG"\n'
        '[set]\n"printing.hole_error" = { value = "-0.31 mm", with = "caliper" }\n'
        'materials.petg.strength_across = "21 MPa"\n'
    )
    engine = read_layer(file, say())
    spoken = engine.values().spoken("printing.hole_error")
    assert (spoken.layer, spoken.kind, spoken.value) == ("printer", "measured", -0.31e-3)
    printer = next(layer for layer in engine.stack.layers if layer.name == "printer")
    assert printer.origin == "my printer, black PETG"
    assert resolve(engine).materials["petg"]["strength_across"] == 21e6
    assert resolve(engine).materials["petg"].yours


def test_a_trial_sits_on_top_and_leaves_the_engine_itself_alone(say):
    engine = say()
    tried = with_values(engine, {"cylinder.bore": "45 mm", "cylinder.compression_ratio": "7"})
    assert tried.values().spoken("cylinder.bore").layer == "trial"
    assert (engine.values()["cylinder.bore"], tried.values()["cylinder.bore"]) == (0.044, 0.045)


def test_a_trial_that_cannot_be_is_refused(say):
    with pytest.raises(EngineFileError, match=r"larger than the bore"):
        with_values(say(), {"valves.inlet.head_diameter": "50 mm"})


def test_one_cylinder_can_differ(say, twin):
    engine = say("[cylinders.2.runner]\nlength = '140 mm'\n[runner]\nlength = '60 mm'\n", twin)
    plain = resolve(engine)
    assert [c.runner.length for c in plain.cylinders] == [0.06, 0.14]


def test_a_sample_changes_what_is_resolved_and_its_digest(say):
    engine = say()
    centre, sampled = resolve(engine), resolve(engine, {"doubt.wall_heat": 1.3})
    assert sampled.doubt.wall_heat == 1.3
    assert sampled.sha256 != centre.sha256
    assert resolve(engine).sha256 == centre.sha256


def test_unknowns_span_their_centre(say):
    found = unknowns(say())
    assert all(u.low < u.high and u.low <= u.centre <= u.high for u in found)
    paths = {u.path for u in found}
    assert {"doubt.wall_heat", "doubt.friction.ring", "leak.ring", "materials.petg.strength_across",
            "intake.equivalence_ratio", "cylinder.bore"} <= paths  # fmt: skip
    ring = next(u for u in found if u.path == "leak.ring")
    assert (ring.distribution, ring.high / ring.low) == ("loguniform", pytest.approx(100.0))
    burn = next(u for u in found if u.path == "doubt.burn_duration")
    assert burn.extrapolated
    assert (burn.low, burn.high) == (0.5, 2.0)
