"""Torque sheet: what each screw is tightened to, what pull it gets, what is left of it later."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from firstfire.catalog import Catalog
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas.tightening import torque_by_friction, torque_for_preload
from firstfire.parts import assumed, seats
from firstfire.parts.head_joint import HeadJoint, grip_once, head_joint, sizes
from firstfire.parts.softness import stress_left
from firstfire.setup.fits.hand_scatter import spread
from firstfire.setup.standing import FRESH, NIGHT, standing

WARMED = 60.0
"""Rise of the head that *warm* means on the sheet, K."""
SETTLED = 1 / 6
"""Hours after which rough faces have settled: ten minutes (common practice, no source)."""
STEPS = (1 / 3, 2 / 3, 1.0)
"""Shares of the torque, in rounds."""
WEEK = 7 * 24.0
_DRY, _OILED = 0.16, 0.10


class Again(NamedTuple):
    """One tightening again.

    Attributes
    ----------
    when
        In words.
    hours
        Since the first.
    left
        Pull that is left by then of the last tightening, N.
    regained
        What tightening to the same torque brings back, N.
    """

    when: str
    hours: float
    left: float
    regained: float


class Torque(NamedTuple):
    """The screws of one place.

    Attributes
    ----------
    id, what
        Fixed, and in words.
    thread, number
        Of its screws.
    torque
        N·m; None where the file has none.
    steps
        Torque of each round, N·m.
    order
        Numbers of its screws in the order of tightening, counted round from 1.
    pull, low, high
        Of one screw as tightened, N, and what hand and friction may make of it, 5-95 %.
    by_friction
        Torque that the same pull asks oiled and dry, by the friction of thread and head, N·m.
    holds
        What one screw, thread or insert stands once, N.
    settled, night, warm, cold
        Pull left once faces have settled, after a night, once warm, cold again after that, N.
    again
        When to tighten again and what that regains.
    why_not
        Why no pull is told; "" where it is.
    """

    id: str
    what: str
    thread: str
    number: int
    torque: float | None
    steps: tuple[float, ...] = ()
    order: tuple[int, ...] = ()
    pull: float | None = None
    low: float | None = None
    high: float | None = None
    by_friction: tuple[float, float] | None = None
    holds: float | None = None
    settled: float | None = None
    night: float | None = None
    warm: float | None = None
    cold: float | None = None
    again: tuple[Again, ...] = ()
    why_not: str = ""


def crosswise(count: int) -> tuple[int, ...]:
    """Order in which screws on a circle are tightened, each opposite to the last as near as can be.

    Examples
    --------
    >>> crosswise(4), crosswise(6)
    ((1, 3, 2, 4), (1, 4, 2, 5, 3, 6))
    >>> crosswise(5)
    (1, 3, 5, 2, 4)
    """
    if count % 2:
        step = count // 2
        return tuple(1 + (step * n) % count for n in range(count))
    half = count // 2
    return tuple(place for n in range(1, half + 1) for place in (n, n + half))


def torques(engine: Engine, plain: PlainEngine) -> tuple[Torque, ...]:
    """The head's screws of each cylinder that differs, clamps of the shaft's joints, the plug."""
    first = _head(engine, plain, 0)
    found = [first]
    for place in range(1, len(plain.cylinders)):
        other = _head(engine, plain, place)
        if other._replace(id=first.id) != first:
            found.append(other)
    return (*found, *_clamps(engine, plain), _plug(plain, engine.catalog))


def _head(engine: Engine, plain: PlainEngine, place: int) -> Torque:
    held = plain.cylinders[place].head.fasteners
    mark = "" if place == 0 else f"-{place + 1}"
    base = Torque(
        f"head{mark}", "head, each cylinder", held.thread, held.count, held.torque,
        tuple(share * held.torque for share in STEPS), crosswise(held.count),
    )  # fmt: skip
    try:
        fresh, rested, warm = _joints(plain, place)
        size = sizes(standing(plain, place))
        holds = grip_once(standing(plain, place)).holds
    except OutsideValidity as why:
        return base._replace(why_not=str(why))
    low, high = spread(engine, place, "head.fasteners.torque", "doubt.nut_factor")
    friction = [
        torque_by_friction(
            fresh.tightened, mean_diameter=size.diameter - 0.6495 * size.pitch, pitch=size.pitch,
            thread_friction=rubs, collar_diameter=1.25 * size.diameter, collar_friction=rubs,
        )
        for rubs in (_OILED, _DRY)
    ]  # fmt: skip
    return base._replace(
        pull=fresh.tightened, low=fresh.tightened * low, high=fresh.tightened * high,
        by_friction=(friction[0], friction[1]), holds=holds, settled=fresh.settled,
        night=rested.left, warm=warm.left, cold=min(warm.left, rested.left),
        again=tuple(_again(plain, place)),
    )  # fmt: skip


def _joints(plain: PlainEngine, place: int) -> tuple[HeadJoint, HeadJoint, HeadJoint]:
    """The joint at once, after a night, and after the same night evenly warm."""
    return (
        head_joint(standing(plain, place, hours=FRESH)),
        head_joint(standing(plain, place, hours=NIGHT)),
        head_joint(standing(plain, place, hours=NIGHT, rise=WARMED)),
    )


def _again(plain: PlainEngine, place: int) -> Iterator[Again]:
    """What is lost between one tightening and the next, by the law that judges the night.

    Faces settle once, in the first ten minutes. What creeps goes on over the logarithm of time
    from the first tightening, so that each later stretch of time loses less.
    """
    first = head_joint(standing(plain, place, hours=SETTLED))
    full = first.tightened
    yield Again("after ten minutes", SETTLED, first.left, full - first.left)
    before = first.left / first.settled
    for when, hours in (("after a night", NIGHT), ("after a week", WEEK)):
        joint = head_joint(standing(plain, place, hours=hours))
        kept = joint.left / joint.settled
        left = full * kept / before
        yield Again(when, hours, left, full - left)
        before = kept
    warm = head_joint(standing(plain, place, hours=NIGHT, rise=WARMED))
    cold = head_joint(standing(plain, place, hours=NIGHT))
    left = full * min(warm.left / cold.left, 1.0) if cold.left > 0 else 0.0
    yield Again("after the first warm run, cold again", NIGHT, left, full - left)


def _clamps(engine: Engine, plain: PlainEngine) -> Iterator[Torque]:
    """Screws of split hubs: the file has their pull; a night leaves what a hub's creep does.

    Seat and law are those that judge the joint.
    """
    moment = standing(plain, hours=NIGHT)
    for seat_of in (seats.crankpin, seats.journal, seats.flywheel, seats.cam_wheel):
        seat = seat_of(moment)
        path, pull = seat.prefix.removesuffix("."), seat.joint.clamp_screw_force
        if seat.joint.kind != "clamped" or pull <= 0:
            continue
        low, high = spread(engine, 0, f"{path}.clamp_screw_force")
        yield Torque(
            path.removesuffix(".joint").replace(".", "-"), f"clamp: {path}", "", 1, None,
            pull=pull, low=pull * low, high=pull * high,
            night=pull * stress_left(seat.hub.material, NIGHT, seat.temperature),
            why_not="the file has the pull but no thread of its screws: torque = "
            f"{assumed.NUT_FACTOR:g} x pull x thread diameter, M4: "
            f"{torque_for_preload(pull, 4e-3, assumed.NUT_FACTOR):.1f} N·m for one",
        )  # fmt: skip


def _plug(plain: PlainEngine, catalog: Catalog) -> Torque:
    thread = plain.cylinders[0].plug.thread
    across = catalog.row("thread", thread).si("diameter")
    return Torque(
        "plug", "spark plug", thread, 1, None,
        why_not="no torque in the file: by hand to the seat, then a quarter turn (flat gasket, "
        "new: a half); a plug maker's torque is for metal threads "
        f"({10 * (across / 10e-3) ** 2:.0f} N·m is usual for this thread, from memory)",
    )  # fmt: skip
