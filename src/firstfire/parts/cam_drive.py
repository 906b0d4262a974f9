"""The drive from crank to cam: whether a belt jumps a tooth or tears."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.engine.records import Raise, Way
from firstfire.errors import OutsideValidity
from firstfire.formulas import belt
from firstfire.formulas.recorded import found
from firstfire.parts import joint_hold, rows, seats, warmth
from firstfire.parts.events import TURNING
from firstfire.parts.failure import Failure, judges, not_judged
from firstfire.parts.joint_parts import SHIGLEY
from firstfire.parts.once import once
from firstfire.parts.worked import cam_belts, pinned_joints, splined_joints
from firstfire.parts.written import mm, newton

JUMPS = Failure(
    id="cam_drive.belt.jump",
    part="cam belt",
    failure="jumps a tooth",
    unit="N",
    formula=(
        "2 × cam torque/(pulley diameter × belts), against 2 × static tension × mesh factor: "
        "there the slack side goes slack"
    ),
    source="common practice of belt makers (static tension at least half the effective pull); "
           "no test of jump torque was found",
    shared=True,
    during=TURNING,
    examples=(
        cam_belts.JUMPS,
    ),
    demand_is="pull on one belt",
    capacity_is="pull at which the slack side goes slack",
)  # fmt: skip

TEARS = Failure(
    id="cam_drive.belt.tear",
    part="cam belt",
    failure="strips its teeth or tears",
    unit="N",
    formula=(
        "2 × cam torque/(pulley diameter × belts), against working pull a width × width × mesh "
        "factor"
    ),
    source="belt makers' handbook D265, p. T-15, Table 3 (catalog row of the belt)",
    shared=True,
    during=TURNING,
    examples=(
        cam_belts.TEARS,
        cam_belts.TEARS_WITH_FEW_TEETH,
    ),
    demand_is="pull on one belt",
    capacity_is="pull that such a belt is rated for",
)

WHEEL_SLIPS = Failure(
    id="cam_drive.wheel.slip",
    part="cam pulleys",
    failure="work loose on the shaft or twist off its end",
    unit="N*m",
    formula="largest torque of the cams, against what its seat holds",
    source=SHIGLEY,
    shared=True,
    during=TURNING,
    examples=(
        pinned_joints.ACROSS_HUB_CRUSHES,
        pinned_joints.ACROSS_HUB_TEARS,
        pinned_joints.ACROSS_HOLE_TWISTS_OFF,
        splined_joints.ROOT_TWISTS_OFF,
    ),
    demand_is="largest torque of the cams",
    capacity_is="torque that the joint holds",
)  # fmt: skip

DRIVE_FAILS = Failure(
    id="cam_drive.gear.break",
    part="cam drive",
    failure="breaks",
    unit="N",
    formula="tooth or chain pull",
    source="none",
    shared=True,
    during=TURNING,
)

CAM_WEARS = Failure(
    id="cam.face.wear",
    part="cam",
    failure="is worn or pressed in",
    unit="Pa",
    formula="line contact of cam and follower",
    source="none",
    shared=True,
    during=TURNING,
)


class Pull(NamedTuple):
    """Pull on one belt, N, and what the belt's teeth in mesh leave of its rating."""

    each: float
    mesh: float


def by_belt(moment: Moment) -> bool:
    """Whether a belt drives the cam."""
    return moment.engine.cam_drive.kind == "belt"


@judges(JUMPS, where=by_belt)
def jumps(moment: Moment) -> Way:
    """Pull of the cams' largest torque against the tension that keeps the slack side taut."""
    drive, pull = moment.engine.cam_drive, _pull(moment)
    tighter = newton(1.5 * drive.tension)
    return JUMPS.way(
        moment,
        demand=pull.each,
        capacity=2 * drive.tension * pull.mesh,
        governs="tension",
        raise_by=(
            Raise(f"Tension the belt to {tighter} in each span", {"cam_drive.tension": tighter},
                  "more_belt_tension"),
            *_second_belt(drive.count),
            *_more_teeth(drive.teeth_crank),
        ),
    )  # fmt: skip


@judges(TEARS, where=by_belt)
def tears(moment: Moment) -> Way:
    """Pull of the cams' largest torque against what the belt is rated for."""
    drive, pull = moment.engine.cam_drive, _pull(moment)
    a_width = moment.given("belt_pull_a_width", rows.belt_pull(drive.belt, drive.pitch))
    rated = a_width * drive.width * pull.mesh
    wider = mm(1.5 * drive.width, 1.0)
    return TEARS.way(
        moment,
        demand=pull.each,
        capacity=rated,
        governs="belt",
        raise_by=(
            Raise(f"Fit a belt {wider} wide", {"cam_drive.width": wider}, "wider_belt"),
            *_coarser(drive.pitch),
            *_second_belt(drive.count),
        ),
    )  # fmt: skip


@judges(WHEEL_SLIPS)
def wheel_slips(moment: Moment) -> Way:
    """Largest torque of the cams against seat and shaft's end."""
    torque = _cam_torque(moment)
    held = joint_hold.hold(moment, seats.cam_wheel(moment), torque)
    return WHEEL_SLIPS.way(
        moment,
        demand=torque,
        capacity=held.torque,
        governs=held.governs,
        temperature=warmth.ambient(moment),
        raise_by=held.raise_by,
        formula=held.formula.replace("twist", "cams' torque", 1),
        source=held.source,
    )


drive_breaks = not_judged(
    DRIVE_FAILS,
    "strength of chains and gears is not modelled; the engine file says only that there are some",
    lambda moment: not by_belt(moment),
)
cam_wears = not_judged(CAM_WEARS, "the engine file does not say how wide and of what the cam is")


@once
def _pull(moment: Moment) -> Pull:
    drive, torque = moment.engine.cam_drive, _cam_torque(moment)
    teeth = moment.given("cam_drive.teeth_crank", drive.teeth_crank)
    small = found("pulley", belt.pulley_pitch_diameter(teeth, drive.pitch), "m",
                  "pitch diameter of the crank's pulley")  # fmt: skip
    large = belt.pulley_pitch_diameter(
        moment.given("cam_drive.teeth_cam", drive.teeth_cam), drive.pitch
    )
    large = found("large_pulley", large, "m", "pitch diameter of the cam's pulley")
    wrap = found("wrap", belt.wrap_on_small(small, large, drive.centre_distance), "",
                 "how far the belt goes round the small pulley (radians)")  # fmt: skip
    meshing = found("meshing", belt.teeth_in_mesh(teeth, wrap), "", "teeth in mesh")
    mesh = found("mesh_factor", belt.mesh_factor(meshing), "", "what so few teeth leave")
    pull = belt.effective_pull(torque, small) / moment.given("cam_drive.count", drive.count)
    return Pull(pull, mesh)


def _cam_torque(moment: Moment) -> float:
    """Largest torque of the cams, N·m: the far joint of the crank passes theirs alone."""
    torques = list(moment.loads.joint_torques.values())
    if not torques:
        raise OutsideValidity("The torque of the cams is not known: no crank joint is listed.")
    largest = max(float(torques[-1].max()), -float(torques[-1].min()))
    return moment.given("cam_torque_at_crank", largest)


def _second_belt(count: int) -> tuple[Raise, ...]:
    if count >= 2:
        return ()
    return (Raise("Fit a second belt beside the first", {"cam_drive.count": "2"}, "wider_belt"),)


def _more_teeth(teeth: int) -> tuple[Raise, ...]:
    more = round(1.33 * teeth)
    change = {"cam_drive.teeth_crank": str(more), "cam_drive.teeth_cam": str(2 * more)}
    return (Raise(f"Print pulleys of {more} and {2 * more} teeth", change, "reprint_pulleys"),)


def _coarser(pitch: float) -> tuple[Raise, ...]:
    if pitch < 2.9e-3:
        return (Raise("Fit a belt of 3 mm pitch", {"cam_drive.pitch": "3 mm"}, "coarser_belt"),)
    if pitch < 4.9e-3:
        return (Raise("Fit a belt of 5 mm pitch", {"cam_drive.pitch": "5 mm"}, "coarser_belt"),)
    return ()


JUDGEMENTS = (jumps, tears, wheel_slips, drive_breaks, cam_wears)
