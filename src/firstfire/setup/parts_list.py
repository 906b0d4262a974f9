"""All that one engine is made of: what to print, to buy, to make, and what is left open."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.setup.all_parts import AllParts
from firstfire.setup.buy_crank import crank_items
from firstfire.setup.buy_cylinder import cylinder_items
from firstfire.setup.buy_supply import left_open, supply_items
from firstfire.setup.buy_valves import valve_items
from firstfire.setup.item import GROUPS, together
from firstfire.setup.jobs_crank import crank_jobs
from firstfire.setup.jobs_cylinder import cylinder_jobs
from firstfire.setup.printed import printed_parts
from firstfire.setup.text import parts_text
from firstfire.verdict.facts.cautions import Caution, cautions


@dataclass(frozen=True)
class PartsList(AllParts):
    """What one engine is made of, which can be printed as it is."""

    def __str__(self) -> str:
        """The list as text of 80 columns."""
        return parts_text(self)


def parts_list(engine: Engine) -> PartsList:
    """What an engine is made of, from its resolved numbers and the catalog.

    Parameters
    ----------
    engine
        As written down.

    Raises
    ------
    CatalogError
        Where a row it names is gone.
    """
    plain = resolve(engine)
    numbers = range(1, len(plain.cylinders) + 1)
    items = [item for n in numbers for item in cylinder_items(engine, plain, n)]
    items += [*crank_items(engine, plain), *valve_items(engine, plain)]
    items += supply_items(engine, plain)
    jobs = [job for n in numbers for job in cylinder_jobs(engine, plain, n)]
    return PartsList(
        engine=engine,
        plain=plain,
        printed=printed_parts(engine, plain),
        bought=tuple(sorted(together(items), key=lambda item: GROUPS.index(item.group))),
        made=together([*jobs, *crank_jobs(plain)]),
        open=left_open(engine, plain),
        cautions=_of_materials(engine, plain),
    )


def _of_materials(engine: Engine, plain: PlainEngine) -> tuple[Caution, ...]:
    """Of all cautions those about a material: they bite at the bench already."""
    names = {material.name for material in plain.materials.values()}
    return tuple(c for c in cautions(engine, plain) if c.hazard in names)
