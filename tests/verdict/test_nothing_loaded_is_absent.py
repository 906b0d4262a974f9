"""An engine walked from flame to load, and from flame to mount: nothing on the way is left out.

Every table of an engine file that is a part is read by a way to fail, every wall that heat passes
is asked how warm it is, and every link of the two chains by which force goes has its way: judged,
or named with the reason why not.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

import pytest
from tests.parts.moments import FILES, moment

from firstfire.engine.grammar import leaves
from firstfire.engine.moment import Moment
from firstfire.engine.records import PartTemperature, Temperatures
from firstfire.heat.answers import temperatures_at
from firstfire.heat.cylinder import network
from firstfire.heat.history import cold
from firstfire.parts import ways
from firstfire.parts.events import GOING_ON
from firstfire.runs.reads import reads

#: What is no part that could give way: settings, surroundings, what is not known.
NO_PARTS = {
    "layout": "how cylinders stand, read through the loads",
    "intake": "its wall has its own ways; the rest is what it breathes",
    "runner": "a pipe without pressure; its burst is a way of the intake",
    "stub": "a pipe without pressure; its burst is a way of the exhaust",
    "spark": "when it fires",
    "surroundings": "where it stands",
    "printing": "how all prints are made; read through each part",
    "use": "what it is asked to do",
    "leak": "how much gets by",
    "doubt": "how sure laws are",
    "doubt.friction": "how sure laws are",
    "body.fins": "part of the body's wall, which is read; they carry no force",
    "head.fins": "part of the head's wall, which is read; they carry no force",
    "cylinder": "sizes of the bore; its wall is the liner",
    "valves": "where they stand",
    "spark.coil": "current and volts; `firstfire spark` says whether it jumps",
    "spark.points": "bounce and dwell; `firstfire spark` holds them against speed",
    "spark.sensor": "edges, no force",
    "wiring": "currents; `firstfire wiring` holds each wire against its own",
    "injector": "fuel; `firstfire fuel` holds it against need",
    "carburettor": "fuel; `firstfire fuel` holds it against need",
    "gas_mixer": "fuel; `firstfire fuel` holds it against need",
    "tank": "its head of fuel; it hangs on no part that is described",
}  # fmt: skip

#: The ways by which force goes, link by link: how ids begin of which one must be there.
FLAME_TO_LOAD = (
    "piston.crown.", "piston.land.", "ring.", "piston.boss.", "pin.", "rod.small_end.", "rod.tear",
    "rod.buckle", "rod.big_end.", "crank.pin.", "crank.cheek.", "crank.journal.",
    ("flywheel.", "load."), "crank.starter_end.", "crank.bearing.",
)  # fmt: skip
FLAME_TO_MOUNT = (
    "head.break", "plug.blow", "head.lift", "head.washer.", "head.bolt.tire", "gasket.",
    "liner.", "body.", "case.bearing_seat.", "case.tear", "case.flange.", "case.joint.",
    "case.mount.",
)  # fmt: skip
TO_THE_VALVES = ("cam_drive.", "cam.face.", "cam.shaft.", "valves.exhaust.retainer",
                 "valves.exhaust.spring.", "valves.exhaust.float", "head.seat.")  # fmt: skip


def _moments(file: str) -> Iterator[Moment]:
    for event in GOING_ON:
        yield moment(file, event=event)


def _tables() -> set[str]:
    return {path.rpartition(".")[0] for path in leaves()}


def _unread(tables: Iterable[str], paths: Iterable[str]) -> set[str]:
    """Tables of which no value is read."""
    read = {path.rpartition(".")[0] for path in paths}
    return {table for table in tables if table not in read and table not in NO_PARTS}


@pytest.fixture(scope="module")
def read_by_any() -> set[str]:
    """Paths that a way to fail of one of the engines reads in one of the events."""
    return {
        path
        for file in FILES
        for at in _moments(file)
        for paths in reads(at).values()
        for path in paths
    }


def test_every_part_of_the_file_is_read_by_a_way_to_fail(read_by_any: set[str]) -> None:
    assert _unread(_tables(), read_by_any) == set()


def test_a_part_that_nothing_reads_is_found(read_by_any: set[str]) -> None:
    assert _unread([*_tables(), "balance_shaft"], read_by_any) == {"balance_shaft"}


@pytest.mark.parametrize("file", FILES)
def test_every_link_from_the_flame_has_its_way(file: str) -> None:
    known = {way.id for at in _moments(file) for way in ways(at) if way.judged or way.why_not}
    for link in (*FLAME_TO_LOAD, *FLAME_TO_MOUNT, *TO_THE_VALVES):
        assert any(way.startswith(link) for way in known), link  # of several, any


def _warmed(part: PartTemperature) -> PartTemperature:
    return replace(part, surface=part.surface + 60, peak=part.peak + 60, profile=part.profile + 60)


class _Asked(Mapping[str, PartTemperature]):
    """Temperatures, all raised, that note which parts are asked for."""

    def __init__(self, parts: Mapping[str, PartTemperature]) -> None:
        self._parts, self.names = parts, set[str]()

    def __getitem__(self, name: str) -> PartTemperature:
        self.names.add(name)
        return _warmed(self._parts[name])

    def __iter__(self) -> Iterator[str]:
        return iter(self._parts)

    def __len__(self) -> int:
        return len(self._parts)


#: Walls that no way asks after, since it asks a hotter neighbour on the same path.
NEIGHBOUR_ASKED = {
    "foot": "the body above it, by whose outer face the foot is judged",
    "land": "the groove, nearer the fire",
    "liner_low": "the hot top band", "body_low": "the hot top band",
    "joint": "head and liner, on both sides of it",
    "port_joint": "the port's wall and the head, on both sides of it",
}  # fmt: skip


@pytest.fixture(scope="module")
def walls() -> tuple[set[str], set[str]]:
    """Walls of all engines' heat, and those that some way asks how warm they are."""
    there, asked_for = set[str](), set[str]()
    for file in FILES:
        at = moment(file)
        history = cold(network(at.engine, 0), at.engine.surroundings.air_temperature)
        asked = _Asked(temperatures_at(history, 0.0).parts)
        for event in GOING_ON:
            ways(replace(at, event=event, temperatures=Temperatures(0.0, asked)))
        there |= set(asked)
        asked_for |= asked.names
    return there, asked_for


def test_every_wall_that_heat_passes_is_asked_how_warm_it_is(
    walls: tuple[set[str], set[str]],
) -> None:
    there, asked_for = walls
    assert there - asked_for == set(NEIGHBOUR_ASKED)


WARM = {"webs": 90.0, "crankpin": 120.0, "crankcase": 60.0, "case": 60.0}


@pytest.mark.parametrize(
    ("way", "hot"),
    [("crank.joint.slip", "crankpin"), ("crank.cheek.break", "crankcase"),
     ("crank.journal.break", "crankcase"), ("case.bearing_seat.crush", "case")],
)  # fmt: skip
def test_a_warm_crankcase_takes_strength_from_the_printed_crank(way: str, hot: str) -> None:
    """They stood at the workshop's temperature while the pin beside them was at 190 °C."""
    plastic = moment("engines/heron.toml")
    cold_parts = dict(plastic.temperatures.parts)
    beside = replace(
        cold_parts["boss"], profile=cold_parts["boss"].profile * 0 + 273.15 + WARM[hot]
    )
    warm = replace(plastic, temperatures=Temperatures(10.0, {**cold_parts, hot: beside}))
    before, after = ({w.id: w for w in ways(at)}[way] for at in (plastic, warm))
    assert after.factor < 0.95 * before.factor
    assert after.temperature == pytest.approx(273.15 + WARM[hot])
