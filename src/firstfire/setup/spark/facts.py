"""What is found out about an engine's spark, as one record."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.cranking import Cranked
from firstfire.runs.start.kick_back import KickBack
from firstfire.setup.spark.advance_table import AdvanceTable
from firstfire.setup.spark.angles import TrueAngle
from firstfire.setup.spark.circuit import Circuit
from firstfire.setup.spark.edge_below import EdgeBelow
from firstfire.setup.spark.faults import Fault
from firstfire.setup.spark.leads import Lead
from firstfire.setup.spark.plug import Jump
from firstfire.setup.spark.triggers import PointsSet, SensorSet
from firstfire.setup.spark.wasted import Wasted


@dataclass(frozen=True)
class SparkFacts:
    """What fires an engine, and when.

    Attributes
    ----------
    engine, plain
        The engine, and its plain numbers.
    trigger
        Its points or sensor.
    angles
        Asked and true, cranked and at speeds.
    edge_below
        Where a clock errs too far.
    circuit
        The coil.
    left
        Voltage that is left for it while cranked, V.
    jumps
        Whether the spark jumps, cranked and at speeds.
    wasted
        The wasted spark; None without.
    leads
        Rules for the leads.
    kick
        Which sparks throw it back.
    start
        What to ask for while starting, rad.
    cranked
        How its starter turns it.
    table
        Advance over speed and load; None where it wasn't asked for.
    faults
        What is wrong, with cures.
    notes
        What isn't judged.
    """

    engine: Engine
    plain: PlainEngine
    trigger: PointsSet | SensorSet
    angles: tuple[TrueAngle, ...]
    edge_below: EdgeBelow
    circuit: Circuit
    left: float
    jumps: tuple[Jump, ...]
    wasted: Wasted | None
    leads: tuple[Lead, ...]
    kick: KickBack
    start: float
    cranked: Cranked
    table: AdvanceTable | None
    faults: tuple[Fault, ...]
    notes: tuple[str, ...]
