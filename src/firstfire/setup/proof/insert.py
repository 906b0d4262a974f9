"""The head's insert or thread in a block of the body's plastic, pulled out by a lever."""

from __future__ import annotations

from firstfire.engine.engine import Engine
from firstfire.engine.moment import Moment
from firstfire.engine.pieces import Block, Hole, Piece, oblong
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.parts.head_joint import grip_once, hole_in_body, sizes
from firstfire.parts.softness import is_metal
from firstfire.setup.fits.drawing_for import hole_for
from firstfire.setup.proof.coupon import Coupon, Expected, NoCoupon, named, proportional
from firstfire.setup.proof.known import span_of
from firstfire.setup.proof.readings import GRAVITY
from firstfire.setup.proof.values import value_at
from firstfire.setup.standing import FRESH, standing
from firstfire.setup.words import bare_mm, mm

LEVER = 10.0
"""Of the lever: 500 mm from its pivot to the scale, 50 mm to the screw."""
_BLOCK, _BELOW = 30e-3, 3e-3
_SCATTER, _TOOLS = 0.2, 0.1


def pulled_at(plain: PlainEngine) -> float:
    """Pull that draws it out, N, by the law that the head is judged with."""
    return pulled_when(standing(plain, hours=FRESH))


def pulled_when(moment: Moment) -> float:
    """The same of a moment; recorded where that is."""
    return grip_once(moment).anchored


def insert_coupon(engine: Engine, plain: PlainEngine) -> Coupon | NoCoupon:
    """The block, or why there is none."""
    parts = plain.cylinders[0]
    held, body = parts.head.fasteners, parts.body
    if held.through:
        return NoCoupon("insert", "the head's screws have nuts below: no thread sits in a print")
    if is_metal(plain.materials[body.material]):
        return NoCoupon("insert", "the head's screws end in metal")
    across = body.made == "printed" and body.layers_stacked == "along_bore"
    prop = "strength_across" if across else "strength_in_plane"
    path = f"materials.{body.material}.{prop}"
    try:
        pull = pulled_at(plain)
    except OutsideValidity as why:
        return NoCoupon("insert", str(why))
    low, high = span_of(engine, path)
    now, name = value_at(engine, path), named(engine, body.material)
    what = f"{held.thread} {'insert' if held.kind == 'inserts' else 'thread'}"
    return Coupon(
        id="insert",
        title=f"{what} in {name}",
        kind="force",
        path=path,
        now=now,
        expected=Expected(pull, pull * low, pull * high),
        piece=_piece(plain, what, name),
        steps=(
            f"Print three as the body is printed, {'standing' if across else 'lying'}; set the "
            "insert or tap the thread as in the engine.",
            "Hold the block down by its edges over a hole in a plate, screw in, and pull the "
            "screw by a lever: pivot, 50 mm to the screw, 500 mm to a luggage scale (ten to one).",
            "Pull a tenth of what is expected more every five seconds until it comes out; eyes "
            "covered, out of the line of the screw and of the lever.",
        ),
        reads=(
            f'Say what the scale read: --reading "insert={pull / GRAVITY / LEVER:.2g} kg" (the '
            "lever's ten to one is reckoned in), or the pull itself in N. It teaches the "
            "strength by which the law of inserts gives just that pull; say a bar or an "
            "insert of one plastic, not both."
        ),
        bears_on=("head.lift", "head.fasteners.strip"),
        learned=proportional(now, pull),
        scatter=_SCATTER,
        tells=_TOOLS,
        lever=LEVER,
    )


def _piece(plain: PlainEngine, what: str, name: str) -> Piece:
    moment = standing(plain, hours=FRESH)
    outside, long = hole_in_body(moment)
    held = plain.cylinders[0].head.fasteners
    melted = held.kind == "inserts"
    # an insert is melted into a hole narrower than its knurl, a thread is tapped into its core
    wanted = 0.9 * outside if melted else outside - sizes(moment).pitch
    half = _BLOCK / 2
    return Piece(
        "coupon-insert", f"Block for a {what}",
        (
            Block(
                oblong(-half, -half, half, half), long + _BELOW,
                (Hole((0.0, 0.0), hole_for(plain, wanted), bare_mm(wanted)),),
                name,
            ),
        ),
        (
            f"{mm(_BLOCK)} square, {mm(long + _BELOW)} high, of {name}. The hole is drawn for "
            f"your printer so that it comes out {mm(wanted)}; your insert maker's own hole is "
            "better where you know it.",
        ),
    )  # fmt: skip
