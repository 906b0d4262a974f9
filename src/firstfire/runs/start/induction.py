"""What a start's fuel does to the gas: the mixture ahead of a cylinder, and liquid in its room."""

from __future__ import annotations

from firstfire.cycle import layout
from firstfire.cycle.build import masses_of, volumes_at
from firstfire.cycle.layout import Records, State
from firstfire.cycle.records import EngineSpec, VolumeSpec

_LEFT = 0.2
"""Share of a clearance that liquid leaves at least; a piston that meets more is said to be
stopped."""


class Induction:
    """Puts fuel into an engine's gas between two steps.

    Parameters
    ----------
    spec, engines
        The engine and its record; clearances are those without liquid.
    """

    def __init__(self, spec: EngineSpec, engines: Records) -> None:
        count = len(spec.cylinders)
        names = [volume.name for volume in spec.volumes]
        shared = [name for name in ("mouth", "plenum") if name in names]
        self.ahead = [
            [count + names.index(name) for name in (*shared, *own) if name in names]
            for own in ((f"runner {n}", f"plenum {n}") for n in range(1, count + 1))
        ]
        self.runner = [count + names.index(f"runner {n}") for n in range(1, count + 1)]
        self.clearances = engines[0]["cylinders"]["clearance_volume"].copy()

    def mixed(self, engines: Records, state: State, row: int, phi: float) -> State:
        """With all that stands ahead of a cylinder of one mixture, as warm and dense as it was.

        A cylinder that draws at the same time from a shared intake gets of it too.
        """
        values = state.values.copy()
        rooms = volumes_at(engines, float(values[layout.ANGLE]))
        for place in self.ahead[row]:
            at = layout.SHAFT_SIZE + place * layout.VOLUME_SIZE
            content = VolumeSpec(
                "", pressure=float(values[at + layout.PRESSURE]),
                temperature=float(values[at + layout.TEMPERATURE]), equivalence_ratio=phi,
            )  # fmt: skip
            held = masses_of(engines[0]["gas"], content, float(rooms[place]))
            values[at + layout.AIR : at + layout.AIR + 3] = held
        return state._replace(values=values)

    def narrowed(self, engines: Records, state: State, row: int, liquid: float) -> State:
        """With so much liquid in a cylinder, m³, which leaves its gas less room; changes `engines`.

        What gas there is no room for goes, as the valves stand open.
        """
        angle = float(state.values[layout.ANGLE])
        before = float(volumes_at(engines, angle)[row])
        whole = float(self.clearances[row])
        engines[0]["cylinders"]["clearance_volume"][row] = whole - min(liquid, (1 - _LEFT) * whole)
        left = float(volumes_at(engines, angle)[row]) / before
        values = state.values.copy()
        at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE + layout.AIR
        values[at : at + 3] *= left
        return state._replace(values=values)


def air_in(state: State, row: int) -> float:
    """Air in a cylinder, kg."""
    at = layout.SHAFT_SIZE + row * layout.VOLUME_SIZE
    return float(state.values[at + layout.AIR])
