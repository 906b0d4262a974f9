"""What an engine being started does as it turns: it draws fuel, sparks, and burns."""

from __future__ import annotations

import math

import numpy as np

from firstfire.cycle import layout
from firstfire.cycle.burn_plan import Charge
from firstfire.cycle.records import BurnSpec
from firstfire.runs.start.as_it_stands import Due
from firstfire.runs.start.asked import Missed, Sparked
from firstfire.runs.start.induction import air_in
from firstfire.runs.start.lighting import charge_now
from firstfire.runs.start.marks import (
    HOLE_SHUTS,
    INTAKE_BOTTOM,
    INTAKE_TOP,
    TOOTH_BEGINS,
    Mark,
)
from firstfire.runs.start.turning_over import TurningOver

_TURN, _CYCLE = 2 * math.pi, 4 * math.pi
_LOOKED_BACK = 12
"""Pieces of what was seen that hold the last intake."""


class Firing(TurningOver):
    """One that does at each mark what belongs to it."""

    def _meet(self, mark: Mark) -> None:
        """Do what belongs to an angle that was reached."""
        row = mark.cylinder
        self.passed.append((self.now, self.angle))
        if mark.kind == INTAKE_TOP:
            self.opened[row] = self.now
            self._feed(row)
        elif mark.kind == INTAKE_BOTTOM:
            self.intakes[row] = self.now - self.opened.get(row, 0.0)
            self._drew(row)
            if self.letting_off.shuts > 0.0:
                self.letting_off.turn(row, opens=True)
        elif mark.kind == HOLE_SHUTS:
            self.letting_off.turn(row, opens=False)
        else:
            self._edge(row, rising=mark.kind == TOOTH_BEGINS)

    def _feed(self, row: int) -> None:
        """A cylinder begins to draw: fuel comes to meet it."""
        if self.fuelling is None:
            return
        air = self.plain.surroundings.air_pressure
        seconds = _CYCLE / self.last_turn
        fed = self.fuelling.charge(row, self.now, seconds, self.drawn_at.get(row, air))
        self.fed.append(fed)
        state = self.induction.mixed(self.engines, self.state, row, fed.mixture)
        self.state = self.induction.narrowed(self.engines, state, row, fed.liquid)

    def _drew(self, row: int) -> None:
        """A cylinder is full: so much air it drew, at such a pressure in its port."""
        if self.fuelling is None or row not in self.opened:
            return
        self.fuelling.drew(row, air_in(self.state, row))
        rows = np.concatenate(self.seen[-_LOOKED_BACK:])
        drawing = rows[rows[:, 0] >= self.opened[row], 4 + self.induction.runner[row]]
        if drawing.size:
            self.drawn_at[row] = float(drawing.mean())

    def _edge(self, row: int, *, rising: bool) -> None:
        """A side of a cylinder's tooth passes: a spark may come of it."""
        wrong = self.asked.wrong
        awake = self.mishaps.awake(self.now)
        self.clocks[row], due = self.clocks[row].at_edge(self.now, rising, supplied=awake)
        if due is None or wrong.no_spark or self.now < self.asked.fires_from:
            return
        plug = (row + 1) % len(self.clocks) if wrong.swapped else row
        turns = self.state.values[layout.ROTOR if self.shaft.rotor > 0.0 else layout.SPEED]
        fed = self.supply.energy(due.energy, float(turns), on=self.let_go is None)
        energy = wrong.spark_share * fed
        self.waiting.append(Due(due.time, plug, due.asked, energy))

    def _stray(self) -> None:
        """A false edge: every sensor's level flips and is back at once."""
        for row in range(len(self.clocks)):
            for rising in (True, False):
                self._edge(row, rising=rising)
        self.mishaps.another_stray(self.now)

    def _come(self, due: Due) -> None:
        """A spark jumps, or a burn that it lit begins."""
        row = due.cylinder
        if due.length is not None:
            self._light(row, due.length)
            return
        place, event = self._place(row), self.state.cylinders[row]
        wasted = self.plain.spark.wasted and abs(place) > 1.5 * math.pi
        if wasted or event["burning"] or event["fired"]:
            return
        charge = charge_now(self.engines, self.state, row)
        why = self._burn(row, charge, place, due.energy) if event["closed"] else "open"
        self.sparks.append(
            Sparked(row, self.now, place, self.speed, -due.asked, due.energy,
                    charge.equivalence_ratio, charge.burned_fraction, why)
        )  # fmt: skip

    def _burn(self, row: int, charge: Charge, place: float, energy: float) -> Missed | None:
        """Light a charge, or say why it doesn't burn."""
        last = next((fed for fed in reversed(self.fed) if fed.cylinder == row), None)
        if last is not None and last.wet:
            return "wet"
        intake = self.intakes.get(row)
        if self.asked.flame == "by_law" or intake is None:
            return self._burn_by_law(row, charge, place)
        flame = self.lighting.travelling(row, charge, energy, intake)
        if isinstance(flame, str):
            return flame
        cylinders = self.state.cylinders.copy()
        flame.put_in(cylinders, row)
        cylinders["lit"][row] = 1
        self.state = self.state._replace(cylinders=cylinders)
        return None

    def _burn_by_law(self, row: int, charge: Charge, place: float) -> Missed | None:
        burn = self.lighting.by_law(row, charge, place, self.last_turn)
        if burn is None:
            return "quenched"
        self.waiting.append(Due(self.now + burn[0], row, -place, 0.0, burn[1]))
        return None

    def _place(self, row: int) -> float:
        """Where a cylinder is, rad after its firing top centre, -2π to 2π."""
        return (self.angle - self.phases[row] + _TURN) % _CYCLE - _TURN

    def _light(self, row: int, length: float) -> None:
        """Let a cylinder's charge burn from here, by Wiebe's law for so long, s."""
        record = self.engines[0]["cylinders"]
        law = BurnSpec(0.0, 0.0, seconds=length)
        record["burn_seconds"][row] = law.seconds
        record["wiebe_a"][row], record["wiebe_m"][row] = law.wiebe_a, law.wiebe_m
        cylinders = self.state.cylinders.copy()
        cylinders["lit"][row], cylinders["flame"][row] = 1, 0
        self.state = self.state._replace(cylinders=cylinders)
