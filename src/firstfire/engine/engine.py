"""An engine as it is written down: a name, and a stack of layers over a catalog."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, field, replace
from functools import cached_property

from firstfire.catalog import Catalog
from firstfire.engine.grammar import leaves
from firstfire.engine.layers import Layer, Stack
from firstfire.engine.values import Unsaid, Values

KINDS = {"single": 1, "parallel_twin": 2, "v_twin": 2, "opposed_twin": 2}


@dataclass(frozen=True)
class Engine:
    """A described engine. Nothing here is computed; `resolve` turns it into plain numbers.

    Attributes
    ----------
    name, story
        What it is called, and what its builder says of it.
    where
        The file it was read from, or who made it up.
    sha256
        Of that file's text.
    stack
        Its layers.
    catalog
        Rows its names refer to.
    faulty
        Paths whose value couldn't be read; empty for any engine a reader returns.
    before
        What held for each cylinder of another engine, of which this is a change: what is the same
        in both is had from there (`built` of that engine).
    """

    name: str
    story: str
    where: str
    sha256: str
    stack: Stack
    catalog: Catalog = field(repr=False)
    faulty: frozenset[str] = frozenset()
    before: tuple[Values, ...] = field(default=(), repr=False, compare=False)

    @property
    def cylinders(self) -> int:
        """How many cylinders its layout has; 1 where the layout isn't known."""
        try:
            return KINDS[str(Values(self.stack, self.catalog, 1, self.faulty)["layout.kind"])]
        except Unsaid:
            return 1

    def values(self, cylinder: int = 1, built: Values | None = None) -> Values:
        """What holds for one cylinder, counted from 1; `built` as `Values` takes it."""
        before = self.before[cylinder - 1] if cylinder <= len(self.before) else None
        return Values(self.stack, self.catalog, cylinder, self.faulty, built, before)

    @cached_property
    def built(self) -> tuple[Values, ...]:
        """What holds for each cylinder, all of it asked for already."""
        found = tuple(self.values(cylinder) for cylinder in range(1, self.cylinders + 1))
        for values in found:
            for path in leaves():
                with suppress(Unsaid):
                    values.spoken(path)
        return found

    def with_layer(self, layer: Layer) -> Engine:
        """This engine with one more layer."""
        return replace(self, stack=self.stack.with_layer(layer))
