"""Workings: every judged number can be followed with a calculator from what is put in."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

import pytest
from tests.parts.moments import COLD, FILES, engine, moment, numbers

from firstfire.catalog import Catalog
from firstfire.engine.arithmetic import names_in, worked_out
from firstfire.engine.grammar import leaves
from firstfire.engine.moment import Moment
from firstfire.engine.quantity import DIMENSIONS
from firstfire.engine.read import with_values
from firstfire.engine.records import Way
from firstfire.engine.working import recorded
from firstfire.parts import ways
from firstfire.parts.events import GOING_ON
from firstfire.parts.inputs import FOUND, SAID


def judged(file: str, event: str, cylinder: int = 0) -> list[Way]:
    rises = COLD if event in ("first_fire", "cranking", "night", "overtighten") else None
    found = ways(recorded(moment(file, event=event, cylinder=cylinder, rises=rises)))
    return [way for way in found if way.judged]


@pytest.mark.parametrize("file", FILES)
@pytest.mark.parametrize("event", GOING_ON)
def test_a_working_comes_to_the_same_demand_and_capacity(file: str, event: str) -> None:
    for way in judged(file, event):
        values = numbers(way)
        assert values["demand"] == pytest.approx(way.demand, rel=1e-6, abs=1e-12), way.id
        assert max(values["capacity"], 0.0) == pytest.approx(way.capacity, rel=1e-6), way.id
        for name, value in way.inputs.items():
            assert values[name] == pytest.approx(value, rel=1e-6, abs=1e-12), (way.id, name)


@pytest.mark.parametrize("file", FILES)
def test_lines_end_in_demand_and_capacity_and_use_what_stands_before(file: str) -> None:
    for way in judged(file, "full_throttle"):
        assert {line.name for line in way.working} >= {"demand", "capacity"}, way.id
        known = set(way.inputs)
        for line in way.working:
            assert known >= set(names_in(line.expression)), (way.id, line.name)
            known.add(line.name)
            assert line.words, (way.id, line.name)


JOINTS = ("solid", "plain_press", "bonded", "clamped", "keyed", "pinned", "polygon", "splined")
OTHERWISE: dict[str, dict[str, object]] = {
    **{f"a {kind} joint": {"crank.joint.kind": kind} for kind in JOINTS if kind != "bonded"},
    "a bonded joint": {"crank.joint.kind": "bonded", "crank.joint.bond": "epoxy"},
    "a rod through the crankpin": {
        "crank.crankpin_material": "petg", "crank.through_rod_diameter": "6 mm",
    },
    "a thin rod through the crankpin": {
        "crank.crankpin_material": "petg", "crank.through_rod_diameter": "2 mm",
    },
    "screws": {"head.fasteners.kind": "screws"},
    "inserts": {"head.fasteners.kind": "inserts", "head.fasteners.insert": "M5"},
    "studs": {"head.fasteners.kind": "studs"},
    "through-bolts": {"head.fasteners.kind": "through_bolts"},
    "a sealant": {"gasket.kind": "cured_sealant", "gasket.material": "silicone_sealant"},
    "a plate in the chamber": {
        "head.chamber_plate": "aluminium_6061_t6", "head.chamber_plate_thickness": "3 mm",
    },
    "a shield": {"piston.shield.thickness": "1 mm"},
    "a metal ring": {"rings.kind": "metal", "rings.material": "cast_iron"},
    "doubt": {"doubt.strength_bias": 0.9, "doubt.strength_scatter": 1.1},
    "wet prints": {"printing.moisture": "wet"},
    "a wheel without a hole": {"flywheel.bore": "0 mm"},
    "a slender rod": {"rod.shank_thickness": "2 mm", "rod.shank_width": "6 mm"},
    "a loose liner": {"liner.fit_interference": "-0.05 mm"},
}  # fmt: skip


@pytest.mark.parametrize("changed", OTHERWISE)
@pytest.mark.parametrize("event", ["full_throttle", "first_fire", "overtighten"])
def test_so_does_every_way_of_making_a_part(changed: str, event: str) -> None:
    made = with_values(engine(FILES[0]), OTHERWISE[changed])
    for way in ways(recorded(moment(made, event=event))):
        if way.judged:
            values = numbers(way)
            assert values["demand"] == pytest.approx(way.demand, rel=1e-6, abs=1e-12), way.id
            assert max(values["capacity"], 0.0) == pytest.approx(way.capacity, rel=1e-6), way.id


def moments() -> Iterator[Moment]:
    for file in FILES:
        for event in ("full_throttle", "first_fire", "night", "overtighten"):
            yield recorded(moment(file, event=event))
    for change in OTHERWISE.values():
        yield recorded(moment(with_values(engine(FILES[0]), change)))


# A number of more figures than a law has, which is no fraction of pi: it has lost its making.
LOST = re.compile(r"(?<![\w.])(?=[\d.]*\d[\d.]{8})\d+\.\d+(?:e-?\d+)?")


def test_no_line_holds_a_number_that_has_lost_its_making() -> None:
    for here in moments():
        for way in ways(here):
            for line in way.working:
                assert not LOST.search(line.expression), (way.id, line)


def test_no_number_goes_in_without_words_and_a_unit() -> None:
    """Every input is known by name: short words, a dimension, and where it is from."""
    put_in: set[str] = set()
    for here in moments():
        for way in ways(here):
            put_in |= set(way.inputs) - {line.name for line in way.working}
    known = leaves()
    for name in sorted(put_in):
        if name in known:
            assert name in SAID, name
        else:
            assert FOUND[name].by, name
    assert not set(FOUND) & set(known)
    for one in FOUND.values():
        assert one.dimension in DIMENSIONS, one
        assert len(one.words) <= 50, one
    assert set(SAID) <= set(known)


def test_a_number_looked_up_names_properties_that_rows_have() -> None:
    rows = Catalog().rows("material")
    have = {prop for row in rows for prop in row.data}
    for name, one in FOUND.items():
        assert set(one.props) <= have, name


# Exponents of metre, kilogram, second and kelvin.
POWERS = {
    "": (0, 0, 0, 0), "m": (1, 0, 0, 0), "m^2": (2, 0, 0, 0), "m^3": (3, 0, 0, 0),
    "m^4": (4, 0, 0, 0), "kg": (0, 1, 0, 0), "s": (0, 0, 1, 0), "K": (0, 0, 0, 1),
    "m/s": (1, 0, -1, 0), "rad": (0, 0, 0, 0), "radian": (0, 0, 0, 0), "rad/s": (0, 0, -1, 0),
    "radian/s": (0, 0, -1, 0), "N": (1, 1, -2, 0), "N*m": (2, 1, -2, 0), "N/m": (0, 1, -2, 0),
    "Pa": (-1, 1, -2, 0), "m/Pa": (2, -1, 2, 0), "1/Pa": (1, -1, 2, 0), "1/K": (0, 0, 0, -1),
    "kg/m^3": (-3, 1, 0, 0), "Pa*m^0.5": (-0.5, 1, -2, 0), "1/m^2": (-2, 0, 0, 0),
    "Pa/(N*m)": (-3, 0, 0, 0), "J": (2, 1, -2, 0), "kg*m^2": (2, 1, 0, 0),
}  # fmt: skip
SIZES = (1.7, 0.6, 2.3, 1.4)


def scale(unit: str) -> float:
    """What one SI unit comes to where every base unit has another size."""
    return math.prod(size**power for size, power in zip(SIZES, POWERS[unit], strict=True))


def unit_of_input(name: str) -> str:
    leaf = leaves().get(name)
    dimension = leaf.dimension if leaf else FOUND[name].dimension
    return DIMENSIONS[dimension].si if dimension else ""


def test_units_of_every_line_follow_from_what_goes_in() -> None:
    """Dimensional analysis: with base units of other sizes each line still says the same.

    So that no line's unit is a slip that a last factor hides.
    """
    seen = set()
    for here in moments():
        for way in ways(here):
            found = {line.name for line in way.working}
            plain = {name: value for name, value in way.inputs.items() if name not in found}
            values = {name: value * scale(unit_of_input(name)) for name, value in plain.items()}
            for line in way.working:
                values[line.name] = worked_out(line.expression, values)
                plain[line.name] = worked_out(line.expression, plain)
                wanted = plain[line.name] * scale(line.unit)
                assert values[line.name] == pytest.approx(wanted, rel=1e-9, abs=1e-12), (
                    way.id, line.name,
                )  # fmt: skip
                seen.add((way.id, line.name))
            if way.judged:
                last = {line.name: line.unit for line in way.working}
                assert scale(last["demand"]) == pytest.approx(scale(way.unit)), way.id
                assert scale(last["capacity"]) == pytest.approx(scale(way.unit)), way.id
    assert len(seen) > 200
