"""The reader of shipped tables is as strict as that of own files."""

import pytest

from firstfire.catalog import Catalog
from firstfire.catalog.properties import TABLES
from firstfire.catalog.shipped import FILES, read_table

COLUMN = {"unit": "mm", "source": "iso", "sure": "read here"}


def table(column, inside):
    return {
        "sources": {"iso": "ISO 3601-1"},
        "columns": {"inside": column, "section": COLUMN},
        "oring": {"x": {"inside": inside, "section": 2}},
    }


def faults(column, inside):
    return [problem.fault for problem in read_table("oring", table(column, inside))[1]]


def test_a_bare_number_takes_unit_source_and_sureness_from_its_column():
    parts, problems = read_table("oring", table(COLUMN, 30))
    datum = parts["x"].data["inside"]
    assert problems == []
    assert (datum.low, datum.value, datum.high, datum.unit) == (30, 30, 30, "mm")
    assert (datum.source, datum.sure, datum.si) == ("ISO 3601-1", "read here", 0.03)


def test_three_numbers_are_low_value_high():
    datum = read_table("oring", table(COLUMN, [29.7, 30, 30.4]))[0]["x"].data["inside"]
    assert (datum.low, datum.value, datum.high) == (29.7, 30, 30.4)


def test_what_a_row_says_itself_outranks_its_column():
    inside = {"value": 30, "low": 30, "high": 30, "sure": "from memory"}
    assert read_table("oring", table(COLUMN, inside))[0]["x"].data["inside"].sure == "from memory"


@pytest.mark.parametrize(
    ("missing", "fault"),
    [("unit", "has no unit"), ("source", "has no source"), ("sure", "has no sureness")],
)
def test_a_column_without_it_refuses_each_bare_number(missing, fault):
    column = {k: v for k, v in COLUMN.items() if k != missing}
    assert faults(column, 30) == [fault]


@pytest.mark.parametrize(
    ("inside", "fault"),
    [
        ([30, 29, 31], "has low 30 above value 29"),
        ([29, 31, 30], "has value 31 above high 30"),
        ([30, 31], "has a list of other than three numbers"),
        ([30, "a", 31], "has value 'a'"),
        ("30", "is '30'"),
        (True, "is True"),
        (float("nan"), "has value nan"),
    ],
)
def test_a_bad_number_is_refused(inside, fault):
    assert faults(COLUMN, inside) == [fault]


def test_every_table_is_read_by_some_kind():
    """A table that no kind names would ship unread."""
    named = {file for files in FILES.values() for file in files}
    named |= {"properties.toml", "materials-temperature.toml"}
    assert {path.name for path in TABLES.glob("*.toml")} == named


@pytest.mark.parametrize("key", ["pa6_cf", "bolt_10_9"])
def test_curves_are_joined_to_their_material(key):
    row = Catalog().row("material", key)
    assert row.curve("strength")[0].source.startswith(("Rule for semi", "EN 1993-1-2"))
