"""All rules of thumb, gathered from the parts that they are of."""

from __future__ import annotations

from functools import cache

from firstfire.engine.rules import (
    crank,
    cylinder,
    fuelling,
    joint,
    leaks,
    piston,
    prints,
    spark,
    supply,
    valves,
)
from firstfire.engine.rules.rule import Rule

_EACH: tuple[tuple[Rule, ...], ...] = (
    prints.RULES, cylinder.RULES, piston.RULES, crank.RULES, joint.RULES, valves.RULES,
    spark.RULES, supply.RULES, fuelling.RULES, leaks.RULES,
)  # fmt: skip


@cache
def rules() -> dict[str, Rule]:
    """Every rule by its path."""
    return {rule.path: rule for of_part in _EACH for rule in of_part}
