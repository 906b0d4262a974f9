"""A scrap crank joint, twisted with a lever and a luggage scale until it gives."""

from __future__ import annotations

from firstfire.engine.engine import Engine
from firstfire.engine.moment import Moment
from firstfire.engine.pieces import Block, Hole, Piece, circle, oblong
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import FirstfireError, OutsideValidity
from firstfire.parts import joint_hold, seats
from firstfire.parts.joint_parts import Seat
from firstfire.parts.softness import is_metal
from firstfire.setup.fits.drawing_for import hole_for, shaft_for
from firstfire.setup.fits.shaft_seats import tight_of
from firstfire.setup.joints import joints
from firstfire.setup.proof.coupon import Coupon, Expected, NoCoupon, proportional
from firstfire.setup.proof.known import span_of
from firstfire.setup.proof.readings import GRAVITY
from firstfire.setup.proof.values import value_at, with_value
from firstfire.setup.standing import NIGHT, standing
from firstfire.setup.words import bare_mm, mm

LEVER = 0.5
"""Of the bar, m."""
_TRIED, _FOLLOWS = 1.02, 0.6
"""A value raised by so much, and the share of that which the torque must follow."""
_SCATTER, _TOOLS = 0.2, 0.05


def twisted_at(plain: PlainEngine) -> float:
    """Torque that the crankpin's joint holds the morning after it was put together, N·m."""
    return twisted_when(standing(plain, hours=NIGHT))


def twisted_when(moment: Moment) -> float:
    """The same of a moment; recorded where that is."""
    return joint_hold.hold(moment, seats.crankpin(moment), 0.0).torque


def joint_coupon(engine: Engine, plain: PlainEngine) -> Coupon | NoCoupon:
    """The scrap joint, or why there is none."""
    if plain.crank.joint.kind == "solid":
        return NoCoupon("joint", "the crankpin is one piece with its cheeks")
    try:
        torque = twisted_at(plain)
    except OutsideValidity as why:
        return NoCoupon("joint", str(why))
    seat = seats.crankpin(standing(plain))
    path = _teaches(engine, plain, seat, torque)
    if path is None:
        return NoCoupon(
            "joint", "what gives way in it is steel, which a certificate tells better; twist it "
            "as a proof instead",
        )  # fmt: skip
    low, high = span_of(engine, path)
    now = value_at(engine, path)
    return Coupon(
        id="joint",
        title="Scrap crank joint",
        kind="torque",
        path=path,
        now=now,
        expected=Expected(torque, torque * low, torque * high),
        piece=_piece(plain, seat),
        steps=(
            "Make one joint as the engine's: same hole, same pin stock, same fit, glue or pins. "
            f"Leave it for {NIGHT:.0f} hours: a press fit fades in the first night.",
            "Hold the hub in a vice between soft jaws, grip the pin with a bar clamped on it, and "
            f"pull the bar {mm(LEVER)} from the pin with a luggage scale, square to it.",
            "A tenth of what is expected more every five seconds, until it slips or cracks; stand "
            "where neither bar nor splinters go, eyes covered.",
        ),
        reads=(
            f'Say what the scale read: --reading "joint={torque / GRAVITY / LEVER:.2g} kg" (half a '
            f'metre of bar is reckoned in), or the torque: --reading "joint={torque:.2g} N*m".'
        ),
        bears_on=("crank.joint.slip",),
        learned=proportional(now, torque),
        scatter=_SCATTER,
        tells=_TOOLS,
        lever=LEVER,
    )


def _teaches(engine: Engine, plain: PlainEngine, seat: Seat, torque: float) -> str | None:
    """The number that the torque follows: found by trying each that it may."""
    del plain
    for path in _candidates(seat):
        try:
            tried = with_value(engine, path, _TRIED * value_at(engine, path))
            moved = twisted_at(resolve(tried)) / torque - 1
        except (FirstfireError, KeyError):
            continue
        if moved > _FOLLOWS * (_TRIED - 1):
            return path
    return None


def _candidates(seat: Seat) -> tuple[str, ...]:
    joint = seat.joint
    if joint.kind in ("plain_press", "clamped"):
        return ("doubt.press_friction",)
    sticks = "shear_strength" if seat.metal else "shear_strength_on_plastic"
    found = [f"materials.{joint.bond}.{sticks}"] if joint.is_bonded else []
    for material in (seat.hub.material, seat.pin):
        if not is_metal(material):
            found += [f"materials.{material.key}.{prop}"
                      for prop in ("strength_in_plane", "strength_across")]  # fmt: skip
    return tuple(dict.fromkeys(found))


def _piece(plain: PlainEngine, seat: Seat) -> Piece:
    joint = seat.joint
    place = next(one for one in joints(plain) if one.path == "crank.joint")
    tight = tight_of(place)
    wanted = joint.diameter - (tight or 0.0)
    printed = seat.hub.printed
    half = seat.hub.outside / 2
    drawn = hole_for(plain, wanted) if printed else wanted
    hub = Block(
        oblong(-half, -half, half, half), seat.hub.length,
        (Hole((0.0, 0.0), drawn, bare_mm(wanted)),), "hub",
    )  # fmt: skip
    blocks = [hub]
    if not is_metal(seat.pin) and plain.crank.made == "printed":
        across = shaft_for(plain, joint.diameter)
        at = (half + joint.diameter + 5e-3, 0.0)
        blocks.append(Block(circle(at, across), seat.hub.length + 40e-3, (), "pin"))
    shaped = joint.kind in ("splined", "polygon")
    form = " Flats and teeth are filed on as in the engine: they are not drawn." if shaped else ""
    own = "" if printed else " The hub is of metal: cut it from the plate's stock."
    return Piece(
        "coupon-joint", "Scrap joint of crankpin and cheek", tuple(blocks),
        (
            f"A square of {mm(2 * half)}, {mm(seat.hub.length)} thick: the cheek's wall round the "
            f"pin of {mm(joint.diameter)}.{form}{own}",
        ),
    )  # fmt: skip
