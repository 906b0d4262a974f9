"""From readings of a cam's events to what is wrong with its drive: every fault is tried."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import EngineFileError, Problem
from firstfire.setup.misset.facts import SURE, Explained, MissetFacts
from firstfire.setup.misset.faults import Drive, Fault, drive_of, period, seen, wrapped
from firstfire.setup.misset.readings import TURN, Known, Reading, known_events, readings
from firstfire.setup.misset.words import fault_words
from firstfire.setup.timing.places import degrees

_MOST_LASH = math.radians(25.0)


@dataclass(frozen=True)
class Misset(MissetFacts):
    """What readings say of a cam drive; prints well, and gives JSON."""

    def __str__(self) -> str:
        from firstfire.setup.misset.text import misset_text

        return misset_text(self)

    def to_json(self) -> str:
        """As ``firstfire.misset/1``: SI, units in field names."""
        from firstfire.setup.misset.contract import misset_json

        return misset_json(self)


def misset(engine: Engine, measured: Sequence[str]) -> Misset:
    """What is wrong with the cam drive, by readings like *inlet opens=12 deg before top*.

    Raises
    ------
    EngineFileError
        For what is no reading, and for readings that no fault explains.
    """
    plain = resolve(engine)
    read = readings(plain, measured)
    valves = tuple(one for one in read if one.id.split("-")[0] in ("inlet", "exhaust"))
    drive = drive_of(plain)
    found, others = _told(drive, valves) if valves else (None, ())
    return Misset(
        engine=engine,
        plain=plain,
        readings=valves,
        found=found,
        others=others,
        next_event=_next(plain, drive, valves, found, others),
        which_top_known=any(one.period > TURN for one in valves),
        edges=tuple(
            (one, _late(drive, one, found)) for one in read if one not in valves
        ),
    )  # fmt: skip


def _late(drive: Drive, one: Reading, found: Explained | None) -> float:
    """By how much an edge is late where the cam, if it carries it, stands as found, rad."""
    fault = found.fault if found is not None and one.cam else Fault()
    at = seen(drive, replace(fault, lash=0.0), one.cylinder, one.drawn)
    return wrapped(one.own - at, TURN)


def _told(
    drive: Drive, read: tuple[Reading, ...]
) -> tuple[Explained, tuple[Explained, ...]]:  # fmt: skip
    tried = sorted(_tried(drive, read), key=_unlikely)
    fitting = _distinct([one for one in tried if one.fits])
    if not fitting:
        _refuse(read, min(tried, key=lambda one: one.rms))
    return fitting[0], tuple(fitting[1:])


def _distinct(fitting: list[Explained]) -> list[Explained]:
    """Without a finer fault where a plainer one of the same kind explains as much."""
    kept: list[Explained] = []
    for one in fitting:
        fault = one.fault
        plainer = (
            other.fault.mirrored == fault.mirrored and other.fault.swapped == fault.swapped
            and (fault.degrees_late != 0.0 or fault.lash != 0.0
                 or (other.fault.teeth != fault.teeth and other.rms + 0.5 * SURE < one.rms))
            for other in kept
        )  # fmt: skip
        if not any(plainer):
            kept.append(one)
    return kept


def _unlikely(one: Explained) -> float:
    """What is left over, as misreading, and what has to have gone wrong besides."""
    return 0.5 * sum((off / SURE) ** 2 for off in one.off) + _cost(one.fault)


def _cost(fault: Fault) -> float:
    """How much has to have gone wrong: what is simplest is told first."""
    return (
        min(abs(fault.teeth), 12) * 0.1 + 1.0 * (fault.teeth != 0)
        + 2.5 * (fault.degrees_late != 0.0) + 3.0 * (fault.lash != 0.0)
        + 2.0 * fault.mirrored + 4.0 * fault.swapped
    )  # fmt: skip


def _tried(drive: Drive, read: tuple[Reading, ...]) -> Iterator[Explained]:
    """Every fault: teeth first, then degrees between them, then lash besides."""
    which = any(one.period > TURN for one in read)
    for swapped in (False, True):
        count = drive.positions(swapped=swapped)
        # without a named top half a turn of the cam reads the same
        span = count if which or swapped else count // 2
        for mirrored in (False, True):
            for teeth in range(-(span // 2), span - span // 2):
                fault = Fault(teeth=teeth, mirrored=mirrored, swapped=swapped)
                plain = _held(drive, read, fault)
                yield plain
                yield from _between(drive, read, plain)
                if not swapped and not mirrored:
                    yield from _lashed(drive, read, plain)


def _held(drive: Drive, read: Sequence[Reading], fault: Fault) -> Explained:
    return Explained(
        fault,
        tuple(
            wrapped(one.own - seen(drive, fault, one.cylinder, one.drawn, one.sense),
                    period(fault, one.period))
            for one in read
        ),
    )  # fmt: skip


def _between(drive: Drive, read: Sequence[Reading], plain: Explained) -> Iterator[Explained]:
    """The same with so many degrees besides, up to half a tooth, as fit best."""
    sign = -1.0 if plain.fault.mirrored else 1.0
    more = sign * sum(plain.off) / len(plain.off)
    half = 0.5 * drive.tooth(swapped=plain.fault.swapped)
    if 0.8 * SURE < abs(more) <= half + 1e-9:
        yield _held(drive, read, replace(plain.fault, degrees_late=more))


def _lashed(drive: Drive, read: Sequence[Reading], plain: Explained) -> Iterator[Explained]:
    """The same with lash that makes valves open late and shut early, where both were read."""
    pairs = {(one.cylinder, one.id.split("-")[0], one.sense) for one in read}
    both = any((whose, which, -sense) in pairs for whose, which, sense in pairs if sense)
    moved = [one.sense * off for one, off in zip(read, plain.off, strict=True) if one.sense]
    if not both or not moved:
        return
    lash = sum(moved) / len(moved)
    if SURE < abs(lash) <= _MOST_LASH:
        yield _held(drive, read, replace(plain.fault, lash=lash))


def _refuse(read: Sequence[Reading], nearest: Explained) -> None:
    """Readings that no one fault explains: which lies farthest off, and where it would be."""
    off, worst = max(zip(nearest.off, read, strict=True), key=lambda pair: abs(pair[0]))
    problem = Problem(
        "",
        f"no one fault explains these readings. Nearest is: {fault_words(nearest.fault)}; then "
        f'"{worst.written}" is {degrees(abs(off))} off',
        "Read that again, from a top centre proved with a piston stop and with lash set, turning "
        "the crank the way it runs.",
    )
    raise EngineFileError("--measured:", [problem])


def _next(
    plain: PlainEngine,
    drive: Drive,
    read: Sequence[Reading],
    found: Explained | None,
    others: Sequence[Explained],
) -> tuple[Known, tuple[float, ...]] | None:
    """The event that lies farthest apart between the faults that are left."""
    if found is None or not others:
        return None
    faults = [found.fault, *(one.fault for one in others)]
    had = {(one.id, one.cylinder) for one in read}
    best: tuple[float, Known, tuple[float, ...]] | None = None
    for event in known_events(plain):
        if not event.id.startswith(("inlet", "exhaust")) or (event.id, event.cylinder) in had:
            continue
        at = tuple(seen(drive, f, event.cylinder, event.drawn, event.sense) for f in faults)
        # held against the likeliest: how far the nearest of the others is
        near = min(
            abs(wrapped(one - at[0], period(f, TURN)))
            for one, f in zip(at[1:], faults[1:], strict=True)
        )
        if best is None or near > best[0]:
            best = near, event, at
    return None if best is None or best[0] < 2.0 * SURE else (best[1], best[2])
