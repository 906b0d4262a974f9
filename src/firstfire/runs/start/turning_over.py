"""The shaft of an engine being started: step by step, until whoever turns it lets it go."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from firstfire.cycle import layout
from firstfire.cycle.advance import advance
from firstfire.cycle.kernel import FAILED, REACHED
from firstfire.cycle.layout import Records
from firstfire.cycle.records import ShaftSpec
from firstfire.errors import FirstfireError
from firstfire.runs.decompression import whole_turn
from firstfire.runs.sparked import spark_timing
from firstfire.runs.start.as_it_stands import AsItStands

Floats = NDArray[np.float64]

_ROWS = 1000
_HEARD = 0.3
"""For how long a person hears an engine run before the starter is let go, s. Common practice, no
source."""
_BACK_LONGEST, _BACK_PAST = 2e-3, 1e-5
"""Going backwards: between two looks, s, and how far past a mark it is met, rad."""


class TurningOver(AsItStands):
    """One whose shaft turns."""

    def _go(self, until: float, until_angle: float) -> None:
        """On to a time or an angle, whichever comes first."""
        end = -1
        while end != REACHED:
            rows = np.empty((_ROWS, 1 + self.state.values.size))
            events = np.empty((_ROWS, len(self.plain.cylinders)), layout.CYLINDER_EVENT)
            self.state, filled, end = advance(
                self.state, self.engines, self.factors, until, until_angle, rows, events, _ROWS
            )
            self._keep(rows[:filled], events[:filled])
            if end == FAILED:
                raise FirstfireError(
                    f"The engine could not be followed beyond {self.now:.3g} s of its start: no "
                    "step was small enough. Look for a volume, passage or inertia of absurd size."
                )

    def _keep(self, rows: Floats, _events: Records) -> None:
        """Keep of some steps what is told of them."""
        self.seen.append(rows[:, self.kept])

    def _back_to(self, angle: float) -> float:
        """How long a shaft that goes backwards may be left alone before it comes to a mark, s."""
        if self.speed >= 0.0:
            return _BACK_LONGEST
        return min((self.angle - angle + _BACK_PAST) / -self.speed, _BACK_LONGEST)

    def _suffer(self, rows: Floats) -> None:
        """What the last steps do to what is wrong: a controller's voltage, a joint that slips."""
        wrong = self.asked.wrong
        if math.isinf(wrong.resets_at) and math.isinf(wrong.slips_at):
            return
        if self.let_go is None:
            self.mishaps.feel_starter(rows)
        if self.mishaps.feel_joint(rows):
            later = wrong.spark_shift + self.mishaps.slipped
            self.sparked_at = [phase + later for phase in self.phases]

    def _watch(self) -> None:
        """See whether it was thrown back, its rings are loose, and hole and starter are let go."""
        self.stood.feel(self.angle)
        if self.letting_off.acts:
            turn = whole_turn(self.passed, self.now, self.angle)
            self.letting_off.feel(turn, self.now)
        if self.reversed is None and self.way > 0:
            for rows in self.seen[-1:]:
                back = np.flatnonzero(rows[:, 2] < -1e-3)
                if back.size and self.sparks:
                    self.reversed = float(rows[back[0], 0]), float(rows[back[0], 1])
        if self.let_go is not None:
            return
        wanted = self.asked.let_go_at
        if wanted is None or not self.lights or self.last_turn < wanted:
            self.fast_since = math.inf
        else:
            self.fast_since = min(self.fast_since, self.now)
        heard = self.now >= self.fast_since + _HEARD
        if self.now >= self.asked.seconds or heard or self._pulled_out() or self._stands():
            self.let_go, self.timing = self.now, spark_timing(self.plain)
            self.clocks = [replace(clock, timing=self.timing) for clock in self.clocks]
            self._turn_by(replace(self.shaft, starter_stall=0.0, inertia=self._bare(), rotor=0.0))

    def _stands(self) -> bool:
        """Whether it stood before anything has burned, and whoever turns it lets go."""
        return self.stalled.stood and not self.lights and not self.asked.held_on

    def _pulled_out(self) -> bool:
        """Whether a rope has come to its end."""
        starter = self.plain.starter
        if starter.pull_length is None or starter.drum_diameter is None:
            return False
        turned = self.way * (self.angle - self.passed[0][1]) / starter.ratio
        return turned >= 2.0 * starter.pull_length / starter.drum_diameter

    def _bare(self) -> float:
        """Inertia of what turns without the starter, kg·m²."""
        if self.shaft.rotor > 0.0:
            return self.shaft.inertia
        starter = self.plain.starter
        return max(self.shaft.inertia - starter.inertia / starter.ratio**2, 1e-9)

    def _turn_by(self, shaft: ShaftSpec) -> None:
        record = self.engines[0]["shaft"]
        record["starter_stall"], record["inertia"] = shaft.starter_stall, shaft.inertia
        record["rotor"] = shaft.rotor
