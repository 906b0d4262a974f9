"""The arrays of the kernel, declared once, by name.

An engine is a network: volumes (cylinders first, then ports, plenum, crankcase, exhaust stub,
the surroundings) joined by passages (valves, throttle, leaks, breather). Each is a row of an
array of records, so that one compilation serves every engine.

What changes with time is one vector: first the shaft, then every volume, then every cylinder,
then every suction valve; and behind these the sums, on which nothing depends (work, heat, what
went through each passage). What changes only at events is a row of records a cylinder.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle.mixture import PRESSURE_CELLS, TABLE_CELLS

Floats = NDArray[np.float64]
Records = NDArray[Any]

# The shaft: unwrapped crank angle, rad, and speed, rad/s; and the speed of a starter's rotor behind
# its one-way clutch, as the crank would have it, rad/s.
ANGLE, SPEED, ROTOR, SHAFT_SIZE = 0, 1, 2, 3

# A volume: pressure, Pa; temperature of its gas (in a burning cylinder, of the unburned zone),
# K; masses of air, fuel vapour, burned gas and liquid film, kg. The film stays zero: nothing
# wets or evaporates yet, the field keeps its place.
PRESSURE, TEMPERATURE, AIR, FUEL, BURNED, FILM, VOLUME_SIZE = 0, 1, 2, 3, 4, 5, 6

# A cylinder, beside being a volume: temperature and masses of its burned zone (zero masses:
# there is none), progress of the burn, and what stands unburned within a travelling flame, kg.
(
    ZONE_TEMPERATURE,
    ZONE_AIR,
    ZONE_FUEL,
    ZONE_BURNED,
    PROGRESS,
    WITHIN,
    CYLINDER_SIZE,
) = 0, 1, 2, 3, 4, 5, 6

# A suction-opened valve: lift, m, and its speed, m/s.
LIFT, LIFT_SPEED, SUCTION_SIZE = 0, 1, 2

# Sums of a cylinder: ∫p dV, J; heat to crown, head, valves and liner, J.
WORK, HEAT_CROWN, HEAT_HEAD, HEAT_VALVES, HEAT_LINER, CYLINDER_SUMS = 0, 1, 2, 3, 4, 5

# Sums of a passage, positive from its `start` to its `end`: all mass and fuel vapour and burned
# gas within it, kg; enthalpy, J; and the mass that went back, kg (positive).
(
    PASSED_MASS,
    PASSED_FUEL,
    PASSED_BURNED,
    PASSED_ENTHALPY,
    PASSED_BACK,
    PASSAGE_SUMS,
) = 0, 1, 2, 3, 4, 5

# Sums of a volume: heat to its wall, J (of a cylinder: see the sums of a cylinder).
VOLUME_HEAT, VOLUME_SUMS = 0, 1

# Kinds of volume.
FIXED, VESSEL, CYLINDER, CRANKCASE = 0, 1, 2, 3

# Kinds of passage.
ORIFICE, CAM_VALVE, SUCTION_VALVE, ONE_WAY = 0, 1, 2, 3

# Wall heat correlations.
NO_WALL_HEAT, WOSCHNI, HOHENBERG, ANNAND = 0, 1, 2, 3

# Kinds of ring.
NO_RINGS, O_RINGS, IRON_RINGS, PTFE_RINGS = 0, 1, 2, 3

# Factors of a cycle of a cylinder (last axis of the array of factors).
PHASE, DURATION, AMOUNT, FACTORS = 0, 1, 2, 3

VOLUME_RECORD = np.dtype(
    [
        ("kind", np.int64),
        ("volume", np.float64),  # m³; of a crankcase: with all pistons at top centre
        ("wall_area", np.float64),  # m²
        ("wall_temperature", np.float64),  # K
        ("wall_coefficient", np.float64),  # W/(m² K)
    ],
    align=True,
)

FRONT_HEIGHTS, FRONT_SHARES = 16, 49
"""Rows of the table of a flame's front: heights of the chamber, and shares of it burned."""

CYLINDER_RECORD = np.dtype(
    [
        ("bore", np.float64),
        ("piston_area", np.float64),
        ("throw", np.float64),
        ("rod", np.float64),
        ("offset", np.float64),
        ("stroke", np.float64),
        ("phase", np.float64),  # crank angle of this cylinder's firing top centre, rad
        ("turned_sine", np.float64),  # of what its crank is ahead of the shaft angle
        ("turned_cosine", np.float64),
        ("top_height", np.float64),  # of the pin at top centre, m
        ("clearance_volume", np.float64),
        ("displacement", np.float64),
        ("crankcase", np.int64),  # volume under the piston, or -1
        ("vented", np.int64),  # volume whose gas it is full of while a valve is open, or -1
        ("reciprocating_mass", np.float64),  # kg; of a free shaft only
        ("crown_area", np.float64),
        ("head_area", np.float64),
        ("valves_area", np.float64),
        ("crown_temperature", np.float64),
        ("head_temperature", np.float64),
        ("valves_temperature", np.float64),
        ("liner_temperature", np.float64),
        ("wall_law", np.int64),
        ("wall_doubt", np.float64),
        ("woschni_scale", np.float64),  # Woschni's coefficient at 1 Pa, 1 K and 1 m/s
        ("motored_exponent", np.float64),
        ("fire", np.int64),
        ("burn_start", np.float64),  # crank angle from firing top centre, rad
        ("burn_duration", np.float64),  # rad
        ("burn_seconds", np.float64),  # s, where it burns by the clock; else 0
        ("burn_heat", np.float64),  # J put into what has burned, beside what its fuel gives
        ("wiebe_a", np.float64),
        ("wiebe_m", np.float64),
        ("burns", np.float64),  # share of a charge that its flame reaches
        # A flame's front over the two-thirds powers of the chamber and of the share behind it
        # and the cube root of the share left, by height and share: 4.84 for a whole sphere, 3.84
        # for half of one. Shares lie by their cube root over the sum of both: close at both ends.
        ("front", np.float64, (FRONT_HEIGHTS, FRONT_SHARES)),
        ("front_least", np.float64),  # height of the first row, m
        ("front_step", np.float64),  # of the logarithm of height, a row
    ],
    align=True,
)

MOST_CYLINDERS, MOST_VOLUMES, MOST_PASSAGES, MOST_VALVES = 4, 24, 48, 16
"""Room in an engine's record. A bigger engine is refused when its record is built."""

LIFT_POINTS = 181
"""Points of a cam's lift table from closed to closed."""

COEFFICIENT_POINTS = 9
"""Points of a valve's discharge coefficient over lift/diameter from 0 to 0.4."""

PASSAGE_RECORD = np.dtype(
    [
        ("kind", np.int64),
        ("start", np.int64),  # volume
        ("end", np.int64),  # volume
        ("area", np.float64),  # m², effective: area times coefficient; of a valve: times doubt
        ("valve", np.int64),  # row of the valves, or -1
        ("way", np.int64),  # the way it is a part of
        ("share", np.float64),  # of that way's area; negative: from the way's end to its start
    ],
    align=True,
)

WAY_RECORD = np.dtype(
    [
        ("kind", np.int64),
        ("start", np.int64),
        ("end", np.int64),
        ("area", np.float64),  # m², as of a passage; of plain orifices side by side together
        ("valve", np.int64),
    ],
    align=True,
)
"""What flows as one: a valve, a one-way opening, or all plain orifices between two volumes."""

VALVE_RECORD = np.dtype(
    [
        ("cylinder", np.int64),
        ("opens", np.float64),  # shaft angle of a cycle, 0 to 4π
        ("duration", np.float64),  # crank angle from opening to closing, rad
        ("head_diameter", np.float64),
        ("throat_area", np.float64),  # less the stem
        ("seat_cosine", np.float64),
        ("max_lift", np.float64),
        ("cam_arm", np.float64),  # friction at the crank for each newton at a cam's valve, m
        ("lift", np.float64, (LIFT_POINTS,)),
        ("coefficient", np.float64, (COEFFICIENT_POINTS,)),
        # suction-opened valves only
        ("suction", np.int64),  # number among the suction valves, or -1
        ("mass", np.float64),
        ("spring_rate", np.float64),
        ("preload", np.float64),
        ("restitution", np.float64),
        ("damping", np.float64),
    ],
    align=True,
)

STEP_RECORD = np.dtype(
    [
        ("relative", np.float64),  # error a step, of pressures, temperatures, masses
        ("largest_angle", np.float64),  # rad
        ("largest_time", np.float64),  # s
        ("smallest_time", np.float64),  # s; a step shorter than this is a failure
        ("flow_band", np.float64),  # smooth band of the nozzle law, relative pressure drop
        ("angular_acceleration", np.float64),  # of the shaft, rad/s²
    ],
    align=True,
)

RUBBING_RECORD = np.dtype(
    [
        ("ring_kind", np.int64),
        ("ring_count", np.int64),
        ("line_level", np.float64),  # O-rings: N/m of rubbing length, from the squeeze
        ("ring_length", np.float64),  # m, circumference
        ("ring_area", np.float64),  # m², projected groove (O-rings) or rubbing face
        ("ring_spring", np.float64),  # Pa, other rings: pressure of their own spring
        ("ring_doubt", np.float64),  # lubrication and doubt multiplier in one
        ("skirt", np.float64),  # coefficient
        ("crankpin", np.float64),  # coefficient times radius, m
        ("piston_pin", np.float64),  # coefficient times radius, m
        ("reciprocating_mass", np.float64),  # kg
    ],
    align=True,
)

SHAFT_RUBBING_RECORD = np.dtype(
    [
        ("bearings", np.float64),  # how many share the load
        ("bearing_diameter", np.float64),  # m, mean
        ("bearing_rating", np.float64),  # N, C0
        ("bearing_drag", np.float64),  # N m (s/rad)^(2/3), all bearings' lubricant
        ("bearing_doubt", np.float64),
        ("constant", np.float64),  # N m: seals
        ("drive", np.float64),  # N m: belt, chain or gear
    ],
    align=True,
)

SHAFT_RECORD = np.dtype(
    [
        ("free", np.int64),  # 1: moved by the torques below; 0: held to its acceleration
        ("inertia", np.float64),  # kg·m², of all that turns
        ("starter_stall", np.float64),  # N·m at the crank, at a stand
        ("starter_free", np.float64),  # rad/s at the crank, where the starter gives none
        ("starter_one_way", np.int64),  # 1: it never brakes
        ("rotor", np.float64),  # kg·m² at the crank, of its rotor that the clutch leaves behind
        ("friction", np.float64),  # N·m, against the way it turns, and holding it at a stand
        ("friction_per_speed", np.float64),  # N·m s
        ("load_square", np.float64),  # N·m s², of a fan or propeller
        ("still_air", np.float64),  # Pa, under a piston without crankcase
        ("rubs", np.int64),  # 1: what rubs, contact by contact, beside the friction above
    ],
    align=True,
)

CYLINDER_EVENT = np.dtype(
    [
        ("burning", np.int64),  # 1 while there are two zones
        ("closed", np.int64),  # 1 while all its valves are shut
        ("fired", np.int64),  # 1 from burn start to the opening of a valve
        ("cycle", np.int64),  # burns begun or skipped since the start
        ("next_burn", np.float64),  # unwrapped crank angle, rad
        ("rate", np.float64),  # of progress of the burn under way, 1/s
        ("amount", np.float64),  # share of the charge that will burn
        ("burns_left", np.int64),  # that may yet begin
        ("lit", np.int64),  # 1: to burn from this moment, wherever the shaft is
        ("flame", np.int64),  # 1: by a flame that travels; 0: by Wiebe's law
        # Of a flame that travels: the power law of its laminar speed
        ("flame_speed", np.float64),  # m/s, at room conditions
        ("flame_temperature_power", np.float64),
        ("flame_pressure_power", np.float64),
        # and the turbulence that it met at its spark
        ("flame_intensity", np.float64),  # m/s
        ("flame_length", np.float64),  # of its large eddies, m
        ("flame_density", np.float64),  # of the charge then, kg/m³
        ("reference_pressure", np.float64),  # state when the last valve shut
        ("reference_temperature", np.float64),
        ("reference_volume", np.float64),
        ("reference_angle", np.float64),  # unwrapped crank angle then, rad
        ("reference_mass", np.float64),  # kg, all gas
        ("reference_fuel", np.float64),
        ("reference_burned", np.float64),
    ],
    align=True,
)


GAS_RECORD = np.dtype(
    [
        # The fields of firstfire.cycle.mixture.GasTables, by the same names.
        ("fresh", np.float64, (TABLE_CELLS, 8)),
        ("burned", np.float64, (TABLE_CELLS * PRESSURE_CELLS, 32)),
        ("gas_constant_air", np.float64),
        ("gas_constant_fuel", np.float64),
        ("equivalence_ratio", np.float64),
        ("stoichiometric_air_fuel_ratio", np.float64),
        ("lower_heating_value", np.float64),
        ("fuel_molar_mass", np.float64),
        ("frozen_from", np.float64),
    ],
    align=True,
)

ENGINE_RECORD = np.dtype(
    [
        ("volume_count", np.int64),
        ("cylinder_count", np.int64),
        ("moving_count", np.int64),  # of volumes that are not fixed
        ("passage_count", np.int64),
        ("way_count", np.int64),
        ("valve_count", np.int64),
        ("suction_count", np.int64),
        ("event_count", np.int64),
        # Where the blocks begin in the vector of values; `moving` ends what is not a sum.
        ("cylinders_at", np.int64),
        ("suctions_at", np.int64),
        ("moving", np.int64),
        ("cylinder_sums_at", np.int64),
        ("passage_sums_at", np.int64),
        ("volume_sums_at", np.int64),
        ("size", np.int64),
        ("volumes", VOLUME_RECORD, (MOST_VOLUMES,)),
        ("moving_volumes", np.int64, (MOST_VOLUMES,)),  # rows of those that are not fixed
        ("cylinders", CYLINDER_RECORD, (MOST_CYLINDERS,)),
        ("passages", PASSAGE_RECORD, (MOST_PASSAGES,)),
        ("ways", WAY_RECORD, (MOST_PASSAGES,)),
        ("valves", VALVE_RECORD, (MOST_VALVES,)),
        # Angles in a cycle, 0 to 4π, where a cam valve leaves or meets its seat; sorted.
        ("events", np.float64, (2 * MOST_VALVES,)),
        ("step", STEP_RECORD),
        ("shaft", SHAFT_RECORD),
        ("rubbing", RUBBING_RECORD, (MOST_CYLINDERS,)),
        ("shaft_rubbing", SHAFT_RUBBING_RECORD),
        ("gas", GAS_RECORD),
    ],
    align=True,
)
"""All the kernel reads about an engine and never changes, in one record of one type.

Its first volumes are the cylinders, in the same order. One type, whatever the engine: the
kernel is compiled once.
"""


class State(NamedTuple):
    """Where an engine is: all that a run needs to go on, and nothing hidden.

    Attributes
    ----------
    time
        Array of one: seconds since the start.
    step
        Array of one: length of the next step to try, s.
    values
        All that changes with time, in the order of this file.
    cylinders
        What changes only at events, one record a cylinder.
    """

    time: Floats
    step: Floats
    values: Floats
    cylinders: Records


def place_values(engine: Any) -> None:
    """Fill in where the blocks of values begin, from the counts in an engine's record."""
    engine["cylinders_at"] = SHAFT_SIZE + engine["volume_count"] * VOLUME_SIZE
    engine["suctions_at"] = engine["cylinders_at"] + engine["cylinder_count"] * CYLINDER_SIZE
    engine["moving"] = engine["suctions_at"] + engine["suction_count"] * SUCTION_SIZE
    engine["cylinder_sums_at"] = engine["moving"]
    engine["passage_sums_at"] = engine["moving"] + engine["cylinder_count"] * CYLINDER_SUMS
    engine["volume_sums_at"] = engine["passage_sums_at"] + engine["passage_count"] * PASSAGE_SUMS
    engine["size"] = engine["volume_sums_at"] + engine["volume_count"] * VOLUME_SUMS
