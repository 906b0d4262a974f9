"""The rest of the fits' JSON: rings, clearances, belt, torques, sealant."""

from __future__ import annotations

from pydantic import Field

from firstfire.setup.fits.belt import BeltSet
from firstfire.setup.fits.clearances import Clearance
from firstfire.setup.fits.facts import CylinderFits
from firstfire.setup.fits.sealant import Sealant, Worth
from firstfire.setup.fits.torques import Torque
from firstfire.verdict.told.part import Told


class RingTold(Told):
    """The file's rings in the bore."""

    kind: str
    count: int
    stretch: float | None
    squeeze_wide: float | None = Field(description="where the bore is widest")
    squeeze_narrow: float | None
    fill: float | None
    gap_narrow_m: float | None = Field(description="cold, of a split ring")
    gap_wide_m: float | None
    ends_meet_at_rise_k: float | None
    side_clearance_m: float
    works: bool


class SuitsTold(Told):
    """An O-ring that is sold, and its groove."""

    key: str
    inside_m: float
    section_m: float
    groove_diameter_m: float
    groove_depth_m: float
    groove_width_m: float
    stretch: float
    squeeze: float
    fill: float
    squeeze_as_drawn: float | None


class CylinderTold(Told):
    """Bore and rings of one cylinder."""

    cylinder: int
    bore_readings_m: dict[str, float] = Field(description="by place; empty where not measured")
    bore_mean_m: float | None
    bore_oval_m: float | None
    bore_taper_m: float | None = Field(description="bottom less top")
    rings: RingTold | None
    orings_that_suit: list[SuitsTold]


class ClearanceTold(Told):
    """A clearance set by hand."""

    id: str
    what: str
    path: str
    as_filed_m: float | None
    least_m: float
    most_m: float
    how: str


class BeltSetTold(Told):
    """How tight the cam belt is set."""

    tension_n: float = Field(description="in each span of each belt, still")
    belts: int
    wheel_pull_n: float = Field(description="on the loose wheel, all belts")
    span_m: float
    press_n: float = Field(description="across the middle of a span")
    gives_m: float
    pitch_hz: float
    pitch_low_hz: float
    pitch_high_hz: float
    note: str
    note_hz: float
    cents_above_note: float
    pitch_trusted: bool


class AgainTold(Told):
    """One tightening again."""

    when: str
    hours: float
    left_n: float
    regained_n: float


class TorqueTold(Told):
    """The screws of one place."""

    id: str
    what: str
    thread: str
    count: int
    torque_nm: float | None
    steps_nm: list[float]
    order: list[int]
    pull_n: float | None
    pull_low_n: float | None = Field(description="5 %")
    pull_high_n: float | None = Field(description="95 %")
    torque_oiled_nm: float | None = Field(description="for the same pull, friction 0.10")
    torque_dry_nm: float | None = Field(description="for the same pull, friction 0.16")
    holds_n: float | None
    settled_n: float | None
    after_night_n: float | None
    warm_n: float | None
    again: list[AgainTold]
    why_not: str


class WorthTold(Told):
    """What a cure is worth."""

    seconds: float
    holds_pa: float = Field(description="over the air, cold")
    share: float


class SealantTold(Told):
    """The bead under a head."""

    material: str
    thickness_m: float
    width_m: float
    temperature_k: float
    close_within_s: float | None
    in_time: bool
    cure_s: float
    full_cure_s: float | None
    full_cure_at: list[tuple[float, float]] = Field(description="K and s")
    now: WorthTold | None
    worth: list[WorthTold]
    why_not: str


def cylinder_told(one: CylinderFits) -> CylinderTold:
    """Bore and rings."""
    ring, bore = one.ring, one.bore
    squeeze = (None, None) if ring is None or ring.squeeze is None else ring.squeeze
    gap = (None, None) if ring is None or ring.gap is None else ring.gap
    return CylinderTold(
        cylinder=one.number,
        bore_readings_m=dict(bore.readings) if bore else {},
        bore_mean_m=bore.mean if bore else None,
        bore_oval_m=bore.oval if bore else None,
        bore_taper_m=bore.taper if bore else None,
        rings=None if ring is None else RingTold(
            kind=ring.kind, count=ring.number, stretch=ring.stretch, squeeze_wide=squeeze[0],
            squeeze_narrow=squeeze[1], fill=ring.fill, gap_narrow_m=gap[0], gap_wide_m=gap[1],
            ends_meet_at_rise_k=ring.butts_at, side_clearance_m=ring.side, works=ring.works,
        ),
        orings_that_suit=[
            SuitsTold(
                key=s.key, inside_m=s.inside, section_m=s.section, groove_diameter_m=s.groove,
                groove_depth_m=s.depth, groove_width_m=s.width, stretch=s.stretch,
                squeeze=s.squeeze, fill=s.fill, squeeze_as_drawn=s.as_drawn,
            )
            for s in one.suits
        ],
    )  # fmt: skip


def clearance_told(one: Clearance) -> ClearanceTold:
    """A clearance."""
    return ClearanceTold(
        id=one.id, what=one.what, path=one.path, as_filed_m=one.as_filed, least_m=one.least,
        most_m=one.most, how=one.how,
    )  # fmt: skip


def belt_told(belt: BeltSet) -> BeltSetTold:
    """The belt."""
    return BeltSetTold(
        tension_n=belt.tension, belts=belt.belts, wheel_pull_n=belt.wheel_pull, span_m=belt.span,
        press_n=belt.press, gives_m=belt.gives, pitch_hz=belt.pitch, pitch_low_hz=belt.low,
        pitch_high_hz=belt.high, note=belt.note.name, note_hz=belt.note.frequency,
        cents_above_note=belt.note.cents, pitch_trusted=belt.trusted,
    )  # fmt: skip


def torque_told(one: Torque) -> TorqueTold:
    """A place's screws."""
    friction = (None, None) if one.by_friction is None else one.by_friction
    return TorqueTold(
        id=one.id, what=one.what, thread=one.thread, count=one.number, torque_nm=one.torque,
        steps_nm=list(one.steps), order=list(one.order), pull_n=one.pull, pull_low_n=one.low,
        pull_high_n=one.high, torque_oiled_nm=friction[0], torque_dry_nm=friction[1],
        holds_n=one.holds, settled_n=one.settled, after_night_n=one.night, warm_n=one.warm,
        again=[
            AgainTold(when=a.when, hours=a.hours, left_n=a.left, regained_n=a.regained)
            for a in one.again
        ],
        why_not=one.why_not,
    )  # fmt: skip


def sealant_told(bead: Sealant) -> SealantTold:
    """The bead."""
    return SealantTold(
        material=bead.material, thickness_m=bead.thickness, width_m=bead.width,
        temperature_k=bead.temperature, close_within_s=bead.close_within, in_time=bead.in_time,
        cure_s=bead.cure_time, full_cure_s=bead.full, full_cure_at=list(bead.full_at),
        now=None if bead.now is None else _worth(bead.now),
        worth=[_worth(one) for one in bead.worth], why_not=bead.why_not,
    )  # fmt: skip


def _worth(one: Worth) -> WorthTold:
    return WorthTold(seconds=one.seconds, holds_pa=one.holds, share=one.share)
