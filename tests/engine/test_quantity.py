"""Written quantities, read once."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from firstfire.engine.quantity import DIMENSIONS, NotAQuantity, read_quantity, write_quantity


@pytest.mark.parametrize(
    ("written", "dimension", "si"),
    [
        ("44 mm", "length", 0.044),
        ("1.73 in", "length", 1.73 * 0.0254),
        ("1/8 in", "length", 0.0254 / 8),
        ("1-1/2 in", "length", 1.5 * 0.0254),
        ("1 1/2 in", "length", 1.5 * 0.0254),
        ('1.5"', "length", 1.5 * 0.0254),
        ("12 N·m", "torque", 12.0),
        ("12 N*m", "torque", 12.0),
        ("12 Nm", "torque", 12.0),
        ("20 °C", "temperature", 293.15),
        ("20 degC", "temperature", 293.15),
        ("68 degF", "temperature", 293.15),
        ("68 °F", "temperature", 293.15),
        ("10 °C", "temperature_difference", 10.0),
        ("18 degF", "temperature_difference", 10.0),
        ("2500 rpm", "speed", 2500 * math.pi / 30),
        ("20°", "angle", math.radians(20)),
        ("0.3 mm²", "area", 3e-7),
        ("8 cm³", "volume", 8e-6),
        ("2.5 N/mm", "spring_rate", 2500.0),
        ("1.013 bar", "pressure", 101300.0),
        ("12 %", "ratio", 0.12),
        (0.12, "ratio", 0.12),
        ("−5 deg", "angle", math.radians(-5)),
    ],
)
def test_what_a_person_writes_is_read(written, dimension, si):
    assert read_quantity(written, dimension) == pytest.approx(si, rel=1e-12)


@pytest.mark.parametrize(
    ("written", "dimension", "says"),
    [
        (44, "length", '"44 mm"'),
        ("44", "length", '"44 mm"'),
        ("44 kg", "length", "not a length"),
        ("44 foo", "length", '"foo" is not a known unit'),
        ("2,62 mm", "length", '"2.62 mm"'),
        ("nan mm", "length", "not a number"),
        (float("nan"), "ratio", "not a number"),
        (float("inf"), "ratio", "not a number"),
        ("1e999 mm", "length", "too large"),
        ("1/0 in", "length", "divided by zero"),
        ("-300 °C", "temperature", "below absolute zero"),
        ("50 Hz", "speed", "not a speed"),
        ("3 mm/mm", "angle", "not an angle"),
        ("", "length", "not a number with a unit"),
        (True, "length", "not a length"),
        (["44 mm"], "length", "not a length"),
        ("5 (((", "length", "not a known unit"),
        ("5 mm**99999999", "length", "not a known unit"),
        ("__import__('os')", "length", "not a number with a unit"),
    ],
)
def test_what_cannot_be_meant_is_told(written, dimension, says):
    with pytest.raises(NotAQuantity) as why:
        read_quantity(written, dimension)
    assert says in str(why.value)


def test_a_comma_is_read_at_a_prompt_only():
    assert read_quantity("1,5 mm", "length", comma=True) == pytest.approx(1.5e-3)


@given(st.sampled_from(sorted(DIMENSIONS)), st.floats(1e-6, 1e6))
def test_written_and_read_back(dimension, value):
    text = write_quantity(value, dimension, digits=12)
    # Twelve digits are written; below freezing a temperature's offset takes some of them.
    assert read_quantity(text, dimension) == pytest.approx(value, rel=1e-9, abs=1e-8)


@given(st.text(max_size=40), st.sampled_from(sorted(DIMENSIONS)))
def test_any_text_is_a_number_or_a_complaint(text, dimension):
    try:
        value = read_quantity(text, dimension)
    except NotAQuantity as why:
        assert why.fault
        assert why.cure
    else:
        assert math.isfinite(value)
