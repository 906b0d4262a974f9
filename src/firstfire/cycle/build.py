"""From an engine in the trade's terms to the kernel's records, and its state to start from."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.cycle.cam import polynomial_lift
from firstfire.cycle.compile import kernel_entry
from firstfire.cycle.gas_table import gas_tables
from firstfire.cycle.layout import State, place_values
from firstfire.cycle.mechanism import volumes_now
from firstfire.cycle.mixture import GasTables, mixture_state
from firstfire.cycle.records import (
    CylinderSpec,
    EngineSpec,
    PassageSpec,
    ShaftSpec,
    SteppingSpec,
    ValveSpec,
    VolumeSpec,
)
from firstfire.cycle.ways import lay_ways
from firstfire.cycle.work import lay_out, new_work
from firstfire.errors import OutsideValidity
from firstfire.formulas import slider_crank, wall_heat

CYCLE = 4.0 * math.pi

WALL_LAWS: dict[str | None, int] = {
    None: layout.NO_WALL_HEAT,
    "woschni": layout.WOSCHNI,
    "hohenberg": layout.HOHENBERG,
    "annand": layout.ANNAND,
}

_ALWAYS = 2**62
"""Burns that may yet begin, where nothing limits them."""

COMPRESSED = 500.0
"""Temperature at which the exponent of the motored pressure is taken, K: about midway up."""


def build_engine(spec: EngineSpec, gas: GasTables | None = None) -> layout.Records:
    """The kernel's record of an engine: an array of one.

    Parameters
    ----------
    spec
        The engine.
    gas
        Of its charge; None: of its fuel and mixture.

    Raises
    ------
    OutsideValidity
        A name twice or unknown, or a mechanism that cannot turn.
    """
    names = volume_names(spec)
    _check_room(spec)
    engines = np.zeros(1, layout.ENGINE_RECORD)
    engine = engines[0]
    put_gas(engines, gas or gas_tables(spec.fuel, spec.equivalence_ratio, spec.water))
    engine["cylinder_count"], engine["volume_count"] = len(spec.cylinders), len(names)
    engine["valve_count"] = len(spec.valves)
    engine["passage_count"] = len(spec.valves) + len(spec.passages)
    for row, cylinder in enumerate(spec.cylinders):
        engine["volumes"]["kind"][row] = layout.CYLINDER
        _fill_cylinder(engine["cylinders"], row, cylinder, names, motored_exponent(engine["gas"]))
    below = {cylinder.crankcase for cylinder in spec.cylinders}
    for row, volume in enumerate(spec.volumes, start=len(spec.cylinders)):
        _fill_volume(engine["volumes"], row, volume, volume.name in below)
    for row, valve in enumerate(spec.valves):
        suction = int(engine["suction_count"]) if valve.opens is None else -1
        engine["suction_count"] += valve.opens is None
        _fill_valve(engine["valves"], engine["passages"], row, valve, names, suction)
    for row, passage in enumerate(spec.passages, start=len(spec.valves)):
        _fill_passage(engine["passages"], row, passage, names)
    lay_ways(engine)
    moving = np.flatnonzero(engine["volumes"]["kind"][: len(names)] != layout.FIXED)
    engine["moving_count"] = len(moving)
    engine["moving_volumes"][: len(moving)] = moving
    events = _valve_events(spec.valves)
    engine["event_count"] = len(events)
    engine["events"][: len(events)] = events
    _fill_stepping(engine["step"], spec.stepping)
    if spec.shaft is not None:
        _fill_shaft(engine["shaft"], spec.shaft)
    engine["shaft"]["still_air"] = spec.ambient_pressure
    place_values(engine)
    return engines


def put_gas(engines: layout.Records, gas: GasTables) -> None:
    """Put the tables of a gas into an engine's record."""
    for name in layout.GAS_RECORD.names or ():
        engines[0]["gas"][name] = getattr(gas, name)


def _check_room(spec: EngineSpec) -> None:
    """Refuse an engine that the kernel's record has no room for."""
    for what, count, most in (
        ("cylinders", len(spec.cylinders), layout.MOST_CYLINDERS),
        ("volumes", len(spec.cylinders) + len(spec.volumes), layout.MOST_VOLUMES),
        ("passages", len(spec.valves) + len(spec.passages), layout.MOST_PASSAGES),
        ("valves", len(spec.valves), layout.MOST_VALVES),
    ):
        if count > most:
            raise OutsideValidity(f"{count} {what}: the gas side takes {most} at most.")


def volume_names(spec: EngineSpec) -> dict[str, int]:
    """Row of every volume by name, cylinders first.

    Raises
    ------
    OutsideValidity
        A name given twice.
    """
    listed = [cylinder.name for cylinder in spec.cylinders]
    listed += [volume.name for volume in spec.volumes]
    names = {name: row for row, name in enumerate(listed)}
    if len(names) < len(listed):
        twice = next(name for name in listed if listed.count(name) > 1)
        raise OutsideValidity(f'Two volumes are called "{twice}": each needs its own name.')
    return names


def motored_exponent(gas: np.void) -> float:
    """Exponent of the motored pressure in Woschni's law: the fresh charge's gamma at 500 K."""
    fuel = float(gas["equivalence_ratio"]) / float(gas["stoichiometric_air_fuel_ratio"])
    _, h_t, _, constant, _, _ = mixture_state(gas, 1.0, fuel, 0.0, COMPRESSED, 1e6)
    return float(h_t / (h_t - constant))


def _row(names: dict[str, int], name: str, where: str) -> int:
    if name not in names:
        raise OutsideValidity(
            f'{where} names a volume "{name}", which is not there; there are: '
            + ", ".join(names)
            + "."
        )
    return names[name]


def _fill_cylinder(
    rows: layout.Records,
    row: int,
    spec: CylinderSpec,
    names: dict[str, int],
    exponent: float,
) -> None:
    slider_crank.slider_crank_range(spec.throw, spec.rod, spec.offset)
    record = rows[row]
    area = math.pi / 4.0 * spec.bore**2
    for name in ("bore", "throw", "rod", "offset", "phase", "clearance_volume", "valves_area"):
        record[name] = getattr(spec, name)
    record["piston_area"] = area
    record["stroke"] = slider_crank.stroke(spec.throw, spec.rod, spec.offset)
    # Its crank is counted from the in-line position, the shaft from a firing top centre.
    ahead = slider_crank.top_centre_angle(spec.throw, spec.rod, spec.offset) - spec.phase
    record["turned_sine"], record["turned_cosine"] = math.sin(ahead), math.cos(ahead)
    record["top_height"] = slider_crank.top_height(spec.throw, spec.rod, spec.offset)
    record["displacement"] = area * record["stroke"]
    record["crankcase"] = record["vented"] = -1
    if spec.vented is not None:
        record["vented"] = _row(names, spec.vented, spec.name)
    record["reciprocating_mass"] = spec.reciprocating_mass
    if spec.crankcase is not None:
        record["crankcase"] = _row(names, spec.crankcase, spec.name)
    record["crown_area"] = area if spec.crown_area is None else spec.crown_area
    record["head_area"] = area if spec.head_area is None else spec.head_area
    walls = spec.walls
    for surface in ("crown", "head", "valves", "liner"):
        record[f"{surface}_temperature"] = getattr(walls, surface)
    if walls.correlation not in WALL_LAWS:
        known = ", ".join(str(name) for name in WALL_LAWS)
        raise OutsideValidity(
            f'wall_heat is "{walls.correlation}": no such correlation. There are: {known}.'
        )
    record["wall_law"] = WALL_LAWS[walls.correlation]
    record["wall_doubt"] = walls.scale
    record["woschni_scale"] = wall_heat.woschni(spec.bore, 1.0, 1.0, 1.0)
    record["motored_exponent"] = exponent
    record["burns"] = spec.burns
    if spec.burn is not None:
        record["fire"] = 1
        record["burn_start"] = spec.burn.start
        record["burn_duration"] = spec.burn.duration
        record["burn_seconds"], record["burn_heat"] = spec.burn.seconds, spec.burn.heat
        record["wiebe_a"] = spec.burn.wiebe_a
        record["wiebe_m"] = spec.burn.wiebe_m


def _fill_volume(rows: layout.Records, row: int, spec: VolumeSpec, below: bool) -> None:
    record = rows[row]
    record["kind"] = layout.VESSEL
    if spec.fixed:
        record["kind"] = layout.FIXED
    elif below:
        record["kind"] = layout.CRANKCASE
    for name in ("volume", "wall_area", "wall_temperature", "wall_coefficient"):
        record[name] = getattr(spec, name)


def _fill_passage(rows: layout.Records, row: int, spec: PassageSpec, names: dict[str, int]) -> None:
    record = rows[row]
    record["kind"] = layout.ONE_WAY if spec.one_way else layout.ORIFICE
    record["start"] = _row(names, spec.start, spec.name)
    record["end"] = _row(names, spec.end, spec.name)
    record["area"] = spec.area * spec.coefficient
    record["valve"] = -1


def _fill_valve(
    valves: layout.Records,
    passages: layout.Records,
    row: int,
    spec: ValveSpec,
    names: dict[str, int],
    suction: int,
) -> None:
    passage, record = passages[row], valves[row]
    passage["kind"] = layout.SUCTION_VALVE if suction >= 0 else layout.CAM_VALVE
    passage["start"] = _row(names, spec.port, spec.name)
    passage["end"] = _row(names, spec.cylinder, spec.name)
    passage["area"] = spec.scale
    passage["valve"] = row
    record["cylinder"] = passage["end"]
    if spec.opens is not None and spec.closes is not None:
        if not 0.0 < spec.closes - spec.opens < CYCLE:
            raise OutsideValidity(f"{spec.name} must close after it opens, within one cycle.")
        record["opens"] = spec.opens % CYCLE
        record["duration"] = spec.closes - spec.opens
        law = polynomial_lift() if spec.lift_law is None else spec.lift_law
        even = np.linspace(0.0, 1.0, layout.LIFT_POINTS)
        record["lift"] = spec.max_lift * np.interp(even, np.linspace(0.0, 1.0, len(law)), law)
    record["head_diameter"] = spec.head_diameter
    record["throat_area"] = math.pi / 4.0 * (spec.throat_diameter**2 - spec.stem_diameter**2)
    record["seat_cosine"] = math.cos(spec.seat_angle)
    record["coefficient"] = spec.coefficients
    record["suction"] = suction
    for name in ("max_lift", "mass", "spring_rate", "preload", "restitution", "damping"):
        record[name] = getattr(spec, name)


def _valve_events(valves: Sequence[ValveSpec]) -> NDArray[np.float64]:
    """Angles of a cycle where a cam valve leaves or meets its seat, sorted."""
    angles = {
        angle % CYCLE
        for valve in valves
        if valve.opens is not None and valve.closes is not None
        for angle in (valve.opens, valve.closes)
    }
    return np.array(sorted(angles), dtype=np.float64)


def _fill_stepping(record: layout.Records, spec: SteppingSpec) -> None:
    record["relative"] = spec.relative_error
    record["largest_angle"] = spec.largest_angle
    record["largest_time"] = spec.largest_time
    record["smallest_time"] = 1e-12
    record["flow_band"] = spec.flow_band


def _fill_shaft(record: layout.Records, spec: ShaftSpec) -> None:
    record["free"] = 1
    for name in (
        "inertia", "starter_stall", "starter_free", "starter_one_way", "rotor", "friction",
        "friction_per_speed", "load_square",
    ):  # fmt: skip
        record[name] = getattr(spec, name)


def start_state(
    spec: EngineSpec,
    engines: layout.Records,
    angle: float,
    speed: float,
    cylinder_gas: Sequence[VolumeSpec] | None = None,
) -> State:
    """A state to start from: every volume at its given pressure, temperature and mixture.

    Parameters
    ----------
    spec, engines
        The engine, and its record.
    angle, speed
        Of the shaft, rad and rad/s.
    cylinder_gas
        What the cylinders hold, of each its pressure, temperature and mixture; None: fresh
        mixture at 1 atm and 330 K.
    """
    engine = engines[0]
    values = np.zeros(engine["size"])
    values[layout.ANGLE], values[layout.SPEED] = angle, speed
    values[layout.ROTOR] = speed
    if cylinder_gas is None:
        fresh = VolumeSpec("", temperature=330.0, equivalence_ratio=spec.equivalence_ratio)
        cylinder_gas = [fresh] * len(spec.cylinders)
    events = np.zeros(len(spec.cylinders), layout.CYLINDER_EVENT)
    room = volumes_at(engines, angle)
    gas = engine["gas"]
    for row, content in enumerate([*cylinder_gas, *spec.volumes]):
        at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE
        values[at + layout.PRESSURE] = content.pressure
        values[at + layout.TEMPERATURE] = content.temperature
        values[at + layout.AIR : at + layout.AIR + 3] = masses_of(gas, content, room[row])
    for row, content in enumerate(cylinder_gas):
        event = events[row]
        event["reference_pressure"] = content.pressure
        event["reference_temperature"] = content.temperature
        event["reference_volume"] = room[row]
        cylinder = engine["cylinders"][row]
        first = cylinder["phase"] + cylinder["burn_start"]
        event["cycle"] = math.ceil((angle - first) / CYCLE - 1e-9)
        event["next_burn"] = first + CYCLE * event["cycle"]
        event["closed"] = 1
        event["amount"] = 1.0
        event["burns_left"] = _ALWAYS
        values[engine["cylinders_at"] + row * layout.CYLINDER_SIZE] = content.temperature
    return State(np.zeros(1), np.full(1, 1e-5), values, events)


def volumes_at(engines: layout.Records, angle: float) -> NDArray[np.float64]:
    """Every volume at a shaft angle, m³."""
    works = new_work()
    _place_volumes(engines, works, angle)
    volumes: NDArray[np.float64] = works[0]["volume"][: engines[0]["volume_count"]].copy()
    return volumes


@kernel_entry
def _place_volumes(engines: layout.Records, works: layout.Records, angle: float) -> None:
    lay_out(engines[0], works[0])
    volumes_now(engines[0], works[0], angle, 0.0)


def widening_along(
    engines: layout.Records, angles: NDArray[np.float64], cylinder: int = 0
) -> NDArray[np.float64]:
    """How fast a cylinder's volume grows by the shaft's angle, m³/rad, at each of some angles."""
    found = np.empty(len(angles))
    _widen(engines, new_work(), np.ascontiguousarray(angles), cylinder, found)
    return found


@kernel_entry
def _widen(
    engines: layout.Records,
    works: layout.Records,
    angles: NDArray[np.float64],
    cylinder: int,
    found: NDArray[np.float64],
) -> None:
    lay_out(engines[0], works[0])
    for row in range(len(angles)):
        volumes_now(engines[0], works[0], angles[row], 0.0)
        found[row] = works[0].widening[cylinder]


def masses_of(gas: np.void, content: VolumeSpec, volume: float) -> NDArray[np.float64]:
    """Masses of air, fuel vapour and burned gas that fill a volume, kg."""
    fresh = 1.0 - content.burned_fraction
    ratio = content.equivalence_ratio / float(gas["stoichiometric_air_fuel_ratio"])
    air, fuel, burned = fresh / (1.0 + ratio), fresh * ratio / (1.0 + ratio), 1.0 - fresh
    state = mixture_state(gas, air, fuel, burned, content.temperature, content.pressure)
    mass = content.pressure * volume / (state[3] * content.temperature)
    return np.array([air * mass, fuel * mass, burned * mass])
