"""All that one engine is made of, as a record that the lists are written from."""

from __future__ import annotations

from dataclasses import dataclass, field

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.item import Item, Job, Open
from firstfire.setup.laid import Span
from firstfire.setup.printed import Printed, total_mass, total_time
from firstfire.verdict.facts.cautions import Caution


@dataclass(frozen=True)
class AllParts:
    """What one engine is made of.

    Attributes
    ----------
    engine, plain
        As written down, and resolved.
    printed, bought, made
        Each kind of thing with its number.
    open
        What the engine needs and its file doesn't size.
    cautions
        Hazards of the materials that are printed, sawn and sanded.
    """

    engine: Engine = field(repr=False)
    plain: PlainEngine = field(repr=False)
    printed: tuple[Printed, ...]
    bought: tuple[Item, ...]
    made: tuple[Job, ...]
    open: tuple[Open, ...]
    cautions: tuple[Caution, ...]

    @property
    def printed_mass(self) -> float:
        """Of all printed parts, kg."""
        return total_mass(self.printed)

    @property
    def print_time(self) -> Span:
        """Of all printed parts one after another, s."""
        return total_time(self.printed)

    @property
    def tools(self) -> tuple[str, ...]:
        """Keys of the instruments that its checks ask for, each once."""
        return tuple(dict.fromkeys(c.tool for item in self.bought for c in item.checks))
