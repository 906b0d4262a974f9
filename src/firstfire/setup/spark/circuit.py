"""The coil's circuit: what current it comes to, what it lifts its plug to, how warm it gets."""

from __future__ import annotations

import math
from dataclasses import dataclass

from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import ignition_coil

GIVES_LEAST, GIVES_MOST = 0.75, 1.2
"""5-95 % of the voltage that a coil lifts its plug to over what is reckoned: share passed on 0.4 to
0.75, capacity 70 to 150 pF. Common practice, no source."""
_HOLDS_HEAT = 420.0
"""Heat capacity of copper, iron and potting together, J/(kg K): copper 385, iron 450."""
_CLASS_B = 403.15
"""Windings of thermal class 130 (IEC 60085), K."""


@dataclass(frozen=True)
class Circuit:
    """A coil with what feeds and what switches it, SI.

    Attributes
    ----------
    voltage
        Of the battery at rest.
    winding, resistor, inductance
        Of the primary.
    drop, clamp
        What the driver keeps; what it limits the primary to, infinite for points.
    turns, capacitance, condenser
        Secondary over primary; of the secondary; across points, 0 for a transistor.
    passed_on
        Share of the energy that reaches the secondary.
    mass
        Of the coil.
    dwell
        How long a controller charges it; infinite for points.
    shut
        Crank angle that points are shut for; 0 for a controller.
    period
        Crank angle from spark to spark of one coil.
    """

    voltage: float
    winding: float
    resistor: float
    inductance: float
    drop: float
    clamp: float
    turns: float
    capacitance: float
    condenser: float
    passed_on: float
    mass: float
    dwell: float
    shut: float
    period: float

    @property
    def resistance(self) -> float:
        """Of all in series, ohm."""
        return self.winding + self.resistor

    @property
    def constant(self) -> float:
        """Time constant, s."""
        return self.inductance / self.resistance

    @property
    def full_current(self) -> float:
        """That flows if it is left on, A."""
        return self.driving(self.voltage) / self.resistance

    def driving(self, supply: float) -> float:
        """What is left for the coil of a supply, V."""
        return max(supply - self.drop, 0.0)

    def charging(self, speed: float) -> float:
        """How long it is charged for one spark at a speed, s."""
        if self.shut > 0.0:
            return self.shut / speed if speed > 0.0 else math.inf
        if speed <= 0.0:
            return self.dwell
        return min(self.dwell, self.period / speed)

    def current(self, charging: float, supply: float) -> float:
        """That is broken after so long, A."""
        return ignition_coil.rising_current(
            self.driving(supply), self.resistance, self.inductance, charging
        )

    def energy(self, charging: float, supply: float) -> float:
        """In the coil by then, J."""
        return ignition_coil.stored_energy(self.inductance, self.current(charging, supply))

    def unclamped(self, charging: float, supply: float) -> float:
        """What the secondary would be lifted to by that without a clamp, V."""
        return ignition_coil.secondary_voltage(
            self.passed_on * self.energy(charging, supply),
            self.capacitance, self.condenser, self.turns,
        )  # fmt: skip

    def gives(self, charging: float, supply: float) -> float:
        """What the secondary is lifted to before a spark, V."""
        return min(self.unclamped(charging, supply), self.clamp * self.turns)

    def heat(self, speed: float) -> float:
        """Mean heat of winding and resistor while it runs, W."""
        charging = self.charging(speed)
        once = ignition_coil.charging_heat(
            self.driving(self.voltage), self.resistance, self.inductance, charging
        )
        return once * speed / self.period

    @property
    def heat_left_on(self) -> float:
        """Of the winding alone if it is left on, W."""
        return self.full_current**2 * self.winding

    def seconds_left_on(self, air: float) -> float:
        """Until a winding that is left on is as hot as it may be, s; no heat given off.

        Parameters
        ----------
        air
            Its temperature before, K.
        """
        return self.mass * _HOLDS_HEAT * max(_CLASS_B - air, 0.0) / self.heat_left_on


def circuit(plain: PlainEngine) -> Circuit:
    """The coil of an engine."""
    spark, coil = plain.spark, plain.spark.coil
    points = spark.source == "points"
    return Circuit(
        voltage=coil.voltage,
        winding=coil.resistance,
        resistor=coil.resistor,
        inductance=coil.inductance,
        drop=coil.driver_drop,
        clamp=math.inf if coil.driver_clamp is None else coil.driver_clamp,
        turns=coil.turns_ratio,
        capacitance=coil.capacitance,
        condenser=spark.points.condenser if points else 0.0,
        passed_on=coil.passed_on,
        mass=coil.mass,
        dwell=math.inf if points else coil.dwell,
        shut=spark.points.shut_angle if points else 0.0,
        period=(2.0 if spark.wasted else 4.0) * math.pi,
    )
