"""Whatever stands in a file, the reader understands it or refuses it in words."""

import contextlib
import itertools
import math
import os

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from firstfire.cli.asking import set_values
from firstfire.engine.grammar import leaves, sections
from firstfire.engine.quantity import DIMENSIONS, NotAQuantity, read_quantity
from firstfire.engine.read import understand, with_values
from firstfire.engine.resolve import resolve
from firstfire.errors import FirstfireError
from firstfire.units import UnitError, read_in, registry

EXAMPLES = int(os.environ.get("FIRSTFIRE_FUZZ", "500"))

units = st.sampled_from(
    ["mm", "in", "g", "bar", "rpm", "deg", "N*m", "N", "°C", "%", "", "foo", "mm^2"]
)
numbers = st.one_of(
    st.floats(allow_nan=True, allow_infinity=True, width=32), st.integers(-10, 10_000),
    st.sampled_from([10**18, -(10**18), 10**19, 10**400, -(10**400), 1e308, 5e-324]),
)  # fmt: skip
quantities = st.builds(lambda n, u: f"{n} {u}".strip(), numbers, units)
words = st.sampled_from(
    ["single", "v_twin", "opposed_twin", "petg", "ABS+", "6202", "M5", "suction", "o_ring", "true"]
)
values = st.one_of(
    quantities, words, st.text(max_size=12), st.booleans(), numbers,
    st.lists(quantities, max_size=3), st.lists(st.lists(quantities, max_size=3), max_size=3),
    st.dictionaries(st.sampled_from(["value", "with", "kind", "x"]), quantities, max_size=3),
)  # fmt: skip
paths = st.one_of(
    st.sampled_from(sorted(leaves())),
    st.sampled_from(sorted(sections())),
    st.sampled_from(
        ["cylinders.2.rod.length", "cylinders.3.pin", "materials.petg.density", "x.y.z"]
    ),
    st.text(alphabet="abcdef._", min_size=1, max_size=10),
)


def toml(value):
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, float):
        return "nan" if math.isnan(value) else repr(value)
    if isinstance(value, int):
        return str(value)
    if isinstance(value, list):
        return "[" + ", ".join(map(toml, value)) + "]"
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{k} = {toml(v)}" for k, v in value.items()) + " }"
    escaped = "".join(
        c if c.isprintable() and c not in '"\\' else f"\\U{ord(c):08x}" for c in value
    )
    return f'"{escaped}"'


def attempt(text, rows):
    """Understood, or refused in words: nothing else may come out."""
    try:
        engine = understand(text, "fuzz.toml", rows)
    except FirstfireError as why:
        assert str(why).strip()
        assert "Traceback" not in str(why)
        return
    with contextlib.suppress(FirstfireError):
        resolve(engine)


@settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.dictionaries(paths, values, max_size=6))
def test_a_small_engine_with_anything_changed(rows, small, changes):
    keys = {".".join(f'"{part}"' for part in path.split(".")): v for path, v in changes.items()}
    attempt("\n".join(f"{k} = {toml(v)}" for k, v in keys.items()) + small, rows)


@settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.dictionaries(st.sampled_from(sorted(leaves())), quantities, max_size=8))
def test_an_engine_of_known_paths_and_any_quantity(rows, changes):
    base = {"layout.kind": "v_twin", "cylinder.bore": "44 mm", "cylinder.stroke": "40 mm",
            "printing.material": "petg"}  # fmt: skip
    merged = {**base, **changes}
    attempt("\n".join(f"{path} = {toml(v)}" for path, v in merged.items()), rows)


@settings(max_examples=EXAMPLES, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.text(max_size=200))
def test_any_text(rows, text):
    attempt(text, rows)


def test_every_unit_that_there_is_is_read_or_refused_in_words():
    """Decibels and their like have no even scale; some names can't be made a difference of."""
    kinds = itertools.cycle(DIMENSIONS)
    known = sorted(name for name in dir(registry()) if not name.startswith("_"))
    assert len(known) > 500
    for name in known:
        for kind in (next(kinds), next(kinds)):
            try:
                assert math.isfinite(read_quantity(f"2 {name}", kind))
            except NotAQuantity as why:
                assert why.cure
        with contextlib.suppress(UnitError):
            assert math.isfinite(read_in(f"2 {name}", "GPa"))


@pytest.mark.parametrize("unit", ["dB", "dBm", "Np", "decade", "octave"])
def test_a_scale_that_is_not_even_is_no_unit(unit):
    with pytest.raises(NotAQuantity, match="not"):
        read_quantity(f"2 {unit}", "ratio")


@pytest.mark.parametrize("digits", [30, 400, 5000])
@pytest.mark.parametrize("path", ["cylinder.bore", "head.fasteners.count", "piston.infill", "name"])
def test_whole_numbers_of_many_digits_in_a_file(rows, small, path, digits):
    for value in ("9" * digits, "0x" + "f" * digits, f'"{"9" * digits} mm"', f"[{'9' * digits}]"):
        attempt(f"{path} = {value}\n" + small, rows)


@pytest.mark.parametrize(
    "written", ["9" * 400, "9" * 5000, "+-5", "-" * 30, "[" + "9" * 5000 + "]"]
)
def test_whole_numbers_of_many_digits_after_set(say, written):
    for path in ("head.fasteners.count", "cylinder.bore", "use.full_throttle_speeds"):
        with pytest.raises(FirstfireError):
            with_values(say(), set_values([f"{path}={written}"]))


def test_every_quantity_has_limits():
    """What has none let engines of a kilometre through, and rows of one's own without torque."""
    for path, leaf in leaves().items():
        if leaf.form in ("quantity", "integer"):
            assert leaf.low is not None, path
            assert leaf.high is not None, path
        if leaf.form in ("list", "table"):
            assert len(leaf.limits) == len(leaf.columns), path


@pytest.mark.parametrize("value", ["nan MPa", "1e999 GPa", "-3 GPa", "0 GPa", "1e40 GPa", "3e9 km"])
def test_a_materials_own_number_is_plausible(say, value):
    with pytest.raises(FirstfireError, match="modulus"):
        with_values(say(), {"materials.petg.modulus_in_plane": value})
    with_values(say(), {"materials.petg.modulus_in_plane": "2.4 GPa"})
