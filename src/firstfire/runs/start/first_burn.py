"""An engine that is turned with mixture and without spark, then lit once in each cylinder."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from firstfire.cycle import layout
from firstfire.cycle.burn_plan import Charge, burn_plan
from firstfire.cycle.flame_plan import flame_of
from firstfire.cycle.layout import Records
from firstfire.cycle.records import ShaftSpec
from firstfire.cycle.run import Trace
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.stalled import Stalled
from firstfire.runs.start.as_it_stands import Due
from firstfire.runs.start.asked import Asked, Missed
from firstfire.runs.start.life import Life
from firstfire.runs.start.turning_over import Floats

_CYCLE = 4 * math.pi
_NEAR = 1e-6
"""An angle that is so near is reached, rad."""
_PATIENCE = 4.0
"""What takes so many times longer than its speed would take doesn't come there."""
_STAYS = 0.6
"""What hasn't come from its spark to its top by then stays before it, s."""


class FirstBurn(Life):
    """One engine turned past a cycle without spark, and lit in the next.

    What can burn is lit, however weak its spark: what has to hold is not spared by that.

    Parameters
    ----------
    plain
        Plain numbers.
    asked
        How.
    shaft
        What turns it.
    first
        Cylinder that is lit before all others, counted from 0.

    Attributes
    ----------
    lit_from
        Angle that a spark has to have passed, rad: half way from the firing before that cylinder's.
    """

    def __init__(self, plain: PlainEngine, asked: Asked, shaft: ShaftSpec, first: int) -> None:
        self.traced: list[tuple[Floats, Records]] = []
        super().__init__(plain, asked, shaft)
        # Its spark comes as much later as a burn may; the law must not add that again.
        doubt = plain.doubt.model_copy(update={"burn_phase": 0.0})
        self.lighting.plain = plain.model_copy(update={"doubt": doubt})
        before = half_way(self.phases, first)
        cycles = math.ceil((self.angle + _CYCLE - before) / _CYCLE)
        self.lit_from = before + cycles * _CYCLE

    def turned(self, stop: Callable[[], bool] | None = None) -> FirstBurn:
        """On to where the cycle begins that is lit."""
        self._on_to(self.lit_from, stop)
        self._trace_anew()
        return self

    def burned(self, strong: float, stop: Callable[[], bool] | None = None) -> FirstBurn:
        """Another one, one cycle on from here, each burn so many deviations quicker."""
        other = self._another(strong)
        other._on_to(self.lit_from + _CYCLE, stop)
        return other

    def sparked(self, strong: float, stop: Callable[[], bool] | None = None) -> FirstBurn:
        """Another one, at its first spark that lights, or a cycle on; traced from there."""
        other = self._another(strong)
        ends, latest = self.lit_from + _CYCLE, other._latest(self.lit_from + _CYCLE)
        while not other.lights and other.angle < ends - _NEAR and other.now < latest:
            other.step(ends)
            other.checked(stop)
        other._trace_anew()
        return other

    def with_energy(self, share: float) -> FirstBurn:
        """Another one here whose crank, and starter's rotor, have such a share of their energy."""
        other = self._another(self.asked.strong)
        values = other.state.values.copy()
        values[[layout.SPEED, layout.ROTOR]] *= math.sqrt(share)
        other.state = other.state._replace(values=values)
        other.stalled = Stalled()
        other._trace_anew()
        return other

    def climbed(self, top: float, stop: Callable[[], bool] | None = None) -> FirstBurn:
        """Another one, on from here to a top, rad, or to where it stands or is thrown back."""
        other = self._another(self.asked.strong)
        latest = other.now + _STAYS
        while other.angle < top - _NEAR and not other.stalled.stood and other.now < latest:
            other.step(top)
            other.checked(stop)
        return other

    def by_law(self) -> FirstBurn:
        """Another one here that burns by the published law of its span, not by a flame."""
        other = self._another(self.asked.strong)
        other.asked = replace(other.asked, flame="by_law")
        other.lighting.asked = other.asked
        return other

    def _another(self, strong: float) -> FirstBurn:
        other = self.again()
        assert isinstance(other, FirstBurn)
        other.traced = [*self.traced]
        other.asked = replace(self.asked, strong=strong)
        other.lighting.asked = other.asked
        return other

    def _trace_anew(self) -> None:
        """Trace from here on."""
        here = np.concatenate([self.state.time, self.state.values])[None, :]
        self.traced = [(here, self.state.cylinders[None, :].copy())]

    @property
    def stands(self) -> bool:
        """Whether it never came to where the cycle begins that is lit."""
        return self.angle < self.lit_from - _NEAR

    @property
    def trace(self) -> Trace:
        """Every step since where the cycle begins that is lit."""
        rows = np.concatenate([rows for rows, _ in self.traced])
        events = np.concatenate([events for _, events in self.traced])
        # A look that falls on a step's end, but for rounding, leaves a step without length.
        goes_on = np.diff(rows[:, 1 + layout.ANGLE], prepend=math.nan) != 0.0
        rows, events = rows[goes_on], events[goes_on]
        return Trace(rows[:, 0].copy(), np.ascontiguousarray(rows[:, 1:]), events)

    def _on_to(self, angle: float, stop: Callable[[], bool] | None) -> None:
        latest = self._latest(angle)
        while self.angle < angle - _NEAR and self.now < latest and not self._over():
            self.step(angle)
            self.checked(stop)

    def _latest(self, angle: float) -> float:
        """When it would have come to an angle, s."""
        return self.now + _PATIENCE * (angle - self.angle) / max(self.asked.speed, 1.0)

    def _keep(self, rows: Floats, events: Records) -> None:
        super()._keep(rows, events)
        self.traced.append((rows.copy(), events.copy()))

    def _come(self, due: Due) -> None:
        if self.angle >= self.lit_from:
            super()._come(due)

    def _burn(self, row: int, charge: Charge, place: float, _energy: float) -> Missed | None:
        parts = self.plain.cylinders[row]
        if burn_plan(self.plain, parts, self.last_turn, place, charge) is None:
            return "quenched"
        if self.asked.flame == "by_law":
            return self._burn_by_law(row, charge, place)
        delay, _ = self.lighting.quicker()
        flame = flame_of(self.plain, parts, charge, self.intakes[row], 1.0 / delay)
        cylinders = self.state.cylinders.copy()
        flame.put_in(cylinders, row)
        cylinders["lit"][row] = 1
        self.state = self.state._replace(cylinders=cylinders)
        return None


def half_way(phases: Sequence[float], first: int) -> float:
    """Shaft angle half way from the firing before a cylinder's to its own, rad.

    Examples
    --------
    Of a single half a cycle before its firing; of two a turn apart half a turn before either.

    >>> [round(half_way((0.0, 2 * math.pi)[:count], 0) / math.pi, 3) for count in (1, 2)]
    [-2.0, -1.0]
    """
    own = phases[first]
    gap = min((own - other) % _CYCLE or _CYCLE for other in phases)
    return own - gap / 2
