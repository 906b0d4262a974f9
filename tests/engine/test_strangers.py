"""Engines nobody here built: understood, or refused with every reason."""

from pathlib import Path

import pytest

from firstfire.engine.geometry import geometry
from firstfire.engine.read import read
from firstfire.engine.resolve import resolve
from firstfire.errors import EngineFileError

HERE = Path(__file__).resolve().parents[1] / "strangers"
DEMOS = Path(__file__).resolve().parents[2] / "engines"


def understood(file):
    return geometry(resolve(read(file)))


def degrees(angles):
    import math

    return [round(math.degrees(a), 6) for a in angles]


# Displacements: pi/4 * bore^2 * stroke * cylinders by hand; intervals as the trade states them
# (90° V on a common pin 270/450, pins offset by the V angle: even; common practice).
@pytest.mark.parametrize(
    ("file", "cubic_centimetres", "intervals"),
    [
        (DEMOS / "wren.toml", 45.24, [720]),
        (DEMOS / "heron.toml", 126.3, [360, 360]),
        (DEMOS / "plover.toml", 58.11, [360, 360]),
        (HERE / "1_resin_methanol.toml", 19.79, [720]),
        (HERE / "2_v_twin.toml", 399.5, [450, 270]),
        (HERE / "3_inches.toml", 39.82, [720]),
        (HERE / "4_even_v.toml", 121.6, [360, 360]),
        (HERE / "5_metal_wren.toml", 45.24, [720]),
    ],
    ids=lambda x: x.stem if isinstance(x, Path) else "",
)
def test_understood(file, cubic_centimetres, intervals):
    shape = understood(file)
    assert shape.displacement * 1e6 == pytest.approx(cubic_centimetres, rel=5e-4)
    assert degrees(shape.firing_intervals) == intervals
    for cylinder in shape.cylinders:
        assert cylinder.valve_to_wall > 0
        assert cylinder.valve_to_valve > 0
        assert cylinder.rod_to_skirt > 0


def test_inches_are_inches():
    plain = resolve(read(HERE / "3_inches.toml"))
    parts = plain.cylinders[0]
    assert (parts.cylinder.bore, parts.cylinder.stroke) == pytest.approx((0.0381, 0.034925))
    assert (plain.crank.crankpin_diameter, parts.rod.length) == pytest.approx((0.0127, 0.0635))
    assert plain.surroundings.air_temperature == pytest.approx(293.15)


def test_what_cannot_be_built_is_refused_with_all_its_reasons():
    with pytest.raises(EngineFileError) as why:
        read(HERE / "6_refused.toml")
    assert {p.path for p in why.value.problems} == {
        "valves.inlet.head_diameter", "rod.length", "rings.groove_depth", "printing.material",
    }  # fmt: skip
    assert all(p.line and p.fault and p.cure for p in why.value.problems)
    assert "ABS" in next(p.cure for p in why.value.problems if p.path == "printing.material")


def test_a_groove_three_millimetres_wide_is_refused_too(tmp_path):
    text = (HERE / "6_refused.toml").read_text().replace("groove_depth", "groove_width")
    (tmp_path / "x.toml").write_text(text)
    with pytest.raises(EngineFileError) as why:
        read(tmp_path / "x.toml")
    assert "rings.groove_width" in {p.path for p in why.value.problems}


def test_demos_differ_as_their_story_says():
    wren, heron, plover = (resolve(read(DEMOS / f"{n}.toml")) for n in ("wren", "heron", "plover"))
    assert wren.cylinders[0].piston.shield.thickness == pytest.approx(1e-3)
    assert [c.runner.length for c in heron.cylinders] == pytest.approx([0.06, 0.14])
    assert heron.flywheel.inertia == 0
    assert heron.load.inertia > 0
    assert plover.cylinders[0].valves.inlet.worked == "suction"
    assert plover.cylinders[0].valves.inlet.spring_rate == pytest.approx(150)
