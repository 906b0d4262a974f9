"""Whatever stands in a file, the reader understands it or refuses it in words."""

import contextlib
import math
import os

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from firstfire.engine.grammar import leaves, sections
from firstfire.engine.read import understand
from firstfire.engine.resolve import resolve
from firstfire.errors import FirstfireError

EXAMPLES = int(os.environ.get("FIRSTFIRE_FUZZ", "500"))

units = st.sampled_from(
    ["mm", "in", "g", "bar", "rpm", "deg", "N*m", "N", "°C", "%", "", "foo", "mm^2"]
)
numbers = st.one_of(
    st.floats(allow_nan=True, allow_infinity=True, width=32), st.integers(-10, 10_000)
)
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
