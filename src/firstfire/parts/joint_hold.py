"""What torque a crank joint holds, whatever its kind."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from firstfire.engine.moment import Moment
from firstfire.parts import joint_form, joint_friction
from firstfire.parts.joint_parts import Hold


def hold(moment: Moment) -> Hold:
    """What the joint of this engine holds.

    Raises
    ------
    OutsideValidity
        Where the law of its kind does not hold.
    """
    return _KINDS[moment.engine.crank.joint.kind](moment)


_KINDS: Mapping[str, Callable[[Moment], Hold]] = {
    "solid": joint_form.solid,
    "plain_press": joint_friction.press,
    "bonded": joint_friction.bonded,
    "clamped": joint_friction.clamped,
    "keyed": joint_form.keyed,
    "pinned": joint_form.pinned,
    "polygon": joint_form.polygon,
    "splined": joint_form.splined,
}
