"""What is asked of a start, and what happened in it, as records."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from firstfire.runs.fuelled import FuelState
from firstfire.runs.spun import PAST_TOP, Spun

Flame = Literal["travelling", "by_law"]

CHOKED = 4.0
"""Times the fuel of a warm engine that a choke, a primer or a start map gives at most. Common
practice, no source (maps of injected engines give 2 to 5 below freezing)."""


@dataclass(frozen=True)
class Wrong:
    """What goes wrong with a start, beside the values of the engine.

    Attributes
    ----------
    no_spark
        No plug ever sparks.
    spark_share
        Of the coil's energy that reaches the plugs.
    spark_shift
        By which every spark comes late, rad.
    swapped
        The leads of the plugs are, so that each cylinder's spark comes at another's time.
    stray
        False edges at every sensor, a second, by chance.
    resets_at
        Torque of the starter over its stall torque, as its current is, from which the controller's
        voltage is too low: it begins anew.
    backwards
        The starter turns the other way.
    drag
        Of a bearing, at the crank, N·m.
    slips_at
        Torque of the gas at which the crank slips in a joint towards the end that cam drive,
        spark and flywheel sit on, N·m.
    """

    no_spark: bool = False
    spark_share: float = 1.0
    spark_shift: float = 0.0
    swapped: bool = False
    stray: float = 0.0
    resets_at: float = math.inf
    backwards: bool = False
    drag: float = 0.0
    slips_at: float = math.inf


@dataclass(frozen=True)
class Asked:
    """How an engine is to be started.

    Attributes
    ----------
    seconds
        How long the starter is held on at most, s.
    after
        How long it is followed once let go, s.
    advance
        Spark before top centre until it is let go, rad; None: as the file has it.
    speed
        How fast it turns to begin with, rad/s.
    charged
        Whether its cylinders hold mixture from a try before; else only air.
    throttle
        Opening, 0 to 1; None: as the file has it.
    mixture
        Fuel over air against just enough; None: as the file has it.
    fires_from
        Before then no spark is given, s.
    begins
        Where it stands, rad after the firing top centre that comes first in a cycle: just past it
        the starter has the longest run-up.
    let_go_at
        Speed of a whole turn that it has to hold for 0.3 s to be let go, rad/s; None:
        never before `seconds` are over.
    flame
        Travelling, with a burn that comes of the flame; or by Wiebe's law and its published span.
    seed
        Of how its cycles differ; None: all are the mean one.
    wrong
        What goes wrong with it.
    strong
        In standard deviations, how much quicker than the mean every burn is, beside the seed.
    in_time
        Whether its liquid fuel has to evaporate, charge by charge; else each charge is as rich as
        air and fuel come to if they are left together.
    enriched
        Times the fuel of a warm engine that choke, primer or start map give at most; 1: there is
        none.
    evaporated
        Whether no charge is richer than its cold fuel evaporates to; else it is mixed as asked.
    prime
        Pulses of fuel in each port before the first turn, each what a full warm charge is metered.
    held_on
        Whether whoever turns it holds on where it stands, until its charge has leaked away.
    """

    seconds: float = 3.0
    after: float = 3.0
    advance: float | None = None
    throttle: float | None = None
    mixture: float | None = None
    fires_from: float = 0.0
    begins: float = PAST_TOP
    speed: float = 0.0
    charged: bool = False
    let_go_at: float | None = None
    flame: Flame = "travelling"
    seed: int | None = None
    strong: float = 0.0
    wrong: Wrong = Wrong()
    in_time: bool = False
    enriched: float = CHOKED
    prime: float = 0.0
    evaporated: bool = True
    held_on: bool = False


Missed = Literal["open", "lean", "rich", "thinned", "quenched", "weak", "wet"]
"""Why a spark lit nothing: a valve was open; too little or too much fuel; too much burned gas; the
flame is too slow for these walls; the spark was too weak; liquid fuel lay on the plug."""


class Fed(NamedTuple):
    """Fuel of one charge, as it begins to be drawn.

    Attributes
    ----------
    cylinder, seconds
        Counted from 0, and when, s.
    mixture
        Vapour over its air against just enough.
    liquid
        In the cylinder, m³.
    wet, stopped
        Whether that wets the plug, and whether it all but fills the clearance.
    """

    cylinder: int
    seconds: float
    mixture: float
    liquid: float
    wet: bool
    stopped: bool


@dataclass(frozen=True)
class Sparked:
    """A spark, and what came of it.

    Attributes
    ----------
    cylinder
        Counted from 0.
    seconds, angle, speed
        When, s; where it truly came, rad after the firing top centre; and how fast it turned then.
    asked
        Where it was asked for, rad after the firing top centre.
    energy
        Of the coil by then, J.
    mixture, burned
        Of the charge: fuel over air against just enough, and share of burned gas.
    missed
        Why it lit nothing; None: it burned.
    """

    cylinder: int
    seconds: float
    angle: float
    speed: float
    asked: float
    energy: float
    mixture: float
    burned: float
    missed: Missed | None = None


@dataclass(frozen=True)
class Lived:
    """How a start went.

    Attributes
    ----------
    asked
        What was asked.
    spun
        Every step.
    sparks
        In their order.
    let_go
        When the starter let go, s; None: it never did.
    reversed_at, reversal_angle
        When the shaft first turned backwards, s, and where, rad unwrapped; None: it never did.
    slipped
        By how much the end that times it has come later than its pistons, in a joint, rad.
    fed
        Fuel of each charge, where it was followed in time.
    left
        Fuel that each cylinder and its port are left with.
    compressed_from
        When its decompression was shut, s; None: it has none, or it never turned fast enough.
    """

    asked: Asked
    spun: Spun = field(repr=False)
    sparks: Sequence[Sparked]
    let_go: float | None
    reversed_at: float | None
    reversal_angle: float | None
    slipped: float = 0.0
    fed: Sequence[Fed] = ()
    left: Sequence[FuelState] = field(default=(), repr=False)
    compressed_from: float | None = None

    @property
    def locked(self) -> float | None:
        """When liquid fuel stopped a piston, s; None: it never did."""
        return next((one.seconds for one in self.fed if one.stopped), None)

    @property
    def kicked(self) -> bool:
        """Whether a combustion threw it back while its starter was on."""
        at = self.reversed_at
        return at is not None and (self.let_go is None or at <= self.let_go)

    @property
    def burns(self) -> list[Sparked]:
        """Sparks that lit."""
        return [spark for spark in self.sparks if spark.missed is None]

    def mean_speed(self, since: float, to: float = math.inf) -> float:
        """Mean in time between two moments, rad/s; 0 where there is nothing between."""
        time, angle = self.spun.time, self.spun.angle
        within = (time >= since) & (time <= to)
        if within.sum() < 2:
            return 0.0
        lasted = float(time[within][-1] - time[within][0])
        return float(angle[within][-1] - angle[within][0]) / lasted if lasted > 0.0 else 0.0
