"""The gauge's reading to expect, as a chapter of setting up."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.compression.readings import Compression
from firstfire.verdict.start.gauge_words import BRACED, crank_with_gauge, where_it_leaks
from firstfire.verdict.start.words import bar, rpm

TITLE = "Compression, by the gauge"


def compression_chapter(found: Compression) -> Chapter:
    """What the gauge climbs to, how fast it is turned for that, and what less of it tells."""
    tables = (_table(found),) if found.turned.over else ()
    return Chapter("compression", TITLE, tuple(_said(found)), (), tables, BRACED)


def _said(found: Compression) -> Iterator[str]:
    turned = found.turned
    if not turned.over:
        yield (
            "Its starter, as reckoned, does not bring it over its tops, so that there is no "
            "reading to expect: firstfire start FILE says what would."
        )
        return
    yield (
        f"{crank_with_gauge(turned)} in the mean, {rpm(turned.least_speed)} at least before a top: "
        f"it climbs to about {bar(turned.gauge)}, if it leaks as its file has it; an estimate."
    )
    yield where_it_leaks(turned)
    yield (
        f'What yours reads: firstfire leak FILE --gauge "{turned.gauge / 1e5:.2g} bar" --rpm '
        f"{_whole(turned.mean_speed)} -o learned.toml, with your numbers, makes a layer of it. How "
        "many engines like it start with such a reading: firstfire start FILE."
    )


def _whole(speed: float) -> str:
    """A speed as it is typed: no thin space, no unit."""
    return rpm(speed).split()[0]


def _table(found: Compression) -> Table:
    """Cylinder 1 dry and oiled, the others dry."""
    rows = [("1", bar(found.turned.gauge), bar(found.turned.gauge_oiled))]
    rows += [(str(n), bar(dry), "–") for n, dry in enumerate(found.dry[1:], 2)]
    head = ("cylinder", "dry", "with oil on its rings")
    return Table("A gauge with a check valve, above the air, after some seconds", head, tuple(rows))
