"""What rubs in an engine, written into its record, so that a free shaft feels it at each step."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from firstfire.cycle.layout import Records
from firstfire.cycle.rubbing import Rubbing, ShaftRubbing, cam_rubbing, rubbing, shaft_rubbing
from firstfire.engine.resolve import PlainEngine


def let_rub(engines: Records, plain: PlainEngine) -> None:
    """Let an engine's contacts rub, and its pistons weigh, at every step of a free shaft.

    Parameters
    ----------
    engines
        Record of the engine's network, as `firstfire.cycle.build.build_engine` makes it; changed.
    plain
        Plain numbers of the same engine.
    """
    engine = engines[0]
    engine["shaft"]["rubs"] = 1
    for row in range(len(plain.cylinders)):
        rubs = rubbing(plain, row)
        _fill(engine["rubbing"][row], rubs)
        engine["cylinders"][row]["reciprocating_mass"] = rubs.reciprocating_mass
    _fill(engine["shaft_rubbing"], shaft_rubbing(plain))
    each = [one for parts in plain.cylinders for one in (parts.valves.inlet, parts.valves.exhaust)]
    for row, valve in enumerate(each):
        if valve.worked == "cam":
            record = engine["valves"][row]
            record["cam_arm"] = cam_rubbing(plain, valve)
            record["preload"], record["spring_rate"] = valve.spring_preload, valve.spring_rate


def _fill(record: Any, rubs: Rubbing | ShaftRubbing) -> None:
    for name, value in asdict(rubs).items():
        record[name] = value
