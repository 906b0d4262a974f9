"""An engine's fuel as JSON, ``firstfire.fuel/1``: SI, units in names.

Null for what has no meaning. Within one major number fields are added, never renamed or given
another meaning.
"""

from __future__ import annotations

import json
from typing import Literal

from pydantic import Field

from firstfire.runs.start.asked import CHOKED
from firstfire.setup.fuel import words
from firstfire.setup.fuel.cold import ColdFacts, Times
from firstfire.setup.fuel.drawn import Drawn
from firstfire.setup.fuel.facts import FuelFacts
from firstfire.setup.fuel.injector import InjectorFacts, Pulse
from firstfire.setup.fuel.mixer import Drawing, MixerFacts
from firstfire.verdict.told.part import CautionTold, Finite, ProvenanceTold, Told, UnjudgedTold
from firstfire.version import VERSION


class FaultTold(Told):
    """What doesn't work, and the nearest that does."""

    path: str
    fault: str
    cure: str


class PointTold(Told):
    """A point that fuel is sized by. Estimates."""

    kind: Literal["full", "idle", "cranking"]
    name: str
    speed_rad_s: float
    throttle: float = Field(description="opening, 0 to 1")
    air_kg: list[float] = Field(description="a cylinder and cycle, with its steam")
    fuel_kg: list[float]
    intake_pa: list[float] = Field(description="mean, ahead of each inlet")


class PulseTold(Told):
    """An injector at a point."""

    point: PointTold
    pressure_over_pa: float
    flow_kg_s: float = Field(description="held open")
    dead_time_s: float
    pulse_s: list[float] = Field(description="switched on for each cylinder, dead time included")
    pulse_low_s: float = Field(description="of cylinder 1, 5 %")
    pulse_high_s: float
    fuel_low: float = Field(description="fuel of that pulse over what is wanted, 5 %")
    fuel_high: float
    duty: float = Field(description="share of the cycle that one injector is switched on")
    end_angle_rad: list[float] = Field(description="after cylinder 1's firing top, 0 to 4 pi")
    own_end_angle_rad: list[float] = Field(description="after each one's own firing top")
    share_timed: list[float] | None = Field(
        description="mixture of each cylinder over the mean, pulses timed for each; null where "
        "each has its own injector"
    )
    share_untimed: list[float] | None = Field(
        description="leanest and richest with two equal pulses a turn apart, not timed"
    )


class InjectorTold(Told):
    """What is asked of the injector."""

    count: int
    shared: bool
    flow_kg_s: float
    least_flow_kg_s: float = Field(description="for full power")
    most_flow_kg_s: float | None = Field(description="that still repeats at idle; null: no idle")
    pressure_low_pa: float | None = Field(description="regulator that suits power and idle")
    pressure_high_pa: float | None
    cranking_voltage_v: float
    on_open_valve: bool
    pulses: list[PulseTold]


class DrawingTold(Told):
    """A venturi at a point."""

    point: PointTold
    throat_m_s: float
    depression_pa: Finite
    pull: Finite = Field(description="air over what just draws fuel; null: nothing holds it back")
    jet_wanted_m: float | None
    mixture: float | None = Field(description="fuel over just enough with the jets told here")


class MixerTold(Told):
    """What is asked of the carburettor or gas mixer."""

    gas: bool
    count: int
    venturi_m: float
    venturi_narrowest_m: float
    venturi_widest_m: Finite
    jet_m: float | None = Field(description="main jet or orifice, as said, else as wanted")
    jet_low_m: float | None
    jet_high_m: float | None
    jet_wanted_m: float | None
    idle_jet_m: float | None
    idle_jet_wanted_m: float | None
    points: list[DrawingTold]


class TimesTold(Told):
    """Times a warm engine's fuel at a temperature."""

    temperature_k: float
    times: float | None = Field(description="null: four times as much don't make the mixture")


class PrimingTold(Told):
    """Pulses of fuel before the first turn."""

    enriched: float = Field(description="times the fuel that choke or start map give at most")
    pulses: int | None = Field(description="null: none of those tried lights it")
    too_many: int | None = Field(description="from here on it is over-primed")
    pulse_m3: float
    pulse_s: float | None = Field(description="of the injector while cranked; null without one")


class ColdTold(Told):
    """Fuel while it is cold. Estimates."""

    first_charge: list[TimesTold]
    warm_up: list[TimesTold]
    density: list[TimesTold] = Field(description="by the air's temperature, of a warm engine")
    per_kilopascal: float
    priming: list[PrimingTold]


class FeedTold(Told):
    """Throttle, air cleaner, tank, hose, pump."""

    most_m3_s: float
    idle_m3_s: float | None
    tank_full_s: float | None
    tank_idle_s: float | None
    throttle_m: float
    throttle_m_s: float
    throttle_narrowest_m: float
    throttle_widest_m: float
    air_cleaner_m2: float
    hose_loss_pa: float | None
    hose_bore_m: float | None
    head_m: float | None
    pump_m3_s: float | None
    pump_pa: float | None
    pump_w: float | None
    pump_a: float | None
    bottle_heat_w: float | None


class FuelTold(Told):
    """An engine's fuel."""

    schema_: Literal["firstfire.fuel/1"] = Field(
        default="firstfire.fuel/1", alias="schema", serialization_alias="schema"
    )
    name: str
    fuel: str
    metered_by: Literal["carburettor", "injector", "gas_mixer"]
    faults: list[FaultTold] = Field(description="what doesn't work, with the nearest that does")
    injector: InjectorTold | None
    mixer: MixerTold | None
    cold: ColdTold
    feed: FeedTold
    not_judged: list[UnjudgedTold]
    fuel_valve: str
    cautions: list[CautionTold]
    provenance: ProvenanceTold


def fuel_told(found: FuelFacts) -> FuelTold:
    """An engine's fuel as the contract has it."""
    whys = {"idle": found.points.why_no_idle, "priming": found.cold.why_no_priming}
    return FuelTold(
        name=found.engine.name,
        fuel=found.fuel.name,
        metered_by=found.plain.intake.mixture_by,
        faults=[FaultTold(path=one.path, fault=one.fault, cure=one.cure) for one in found.faults],
        injector=None if found.injector is None else _injector(found.injector),
        mixer=None if found.mixer is None else _mixer(found.mixer),
        cold=_cold(found.cold),
        feed=_feed(found),
        not_judged=[UnjudgedTold(subject=what, why=why) for what, why in whys.items() if why],
        fuel_valve=words.valve_words(found),
        cautions=CautionTold.each_of(words.sheet_cautions(found)),
        provenance=ProvenanceTold(
            version=VERSION,
            engine_file_sha256=found.engine.sha256,
            inputs_sha256=found.plain.sha256,
        ),
    )


def fuel_json(found: FuelFacts) -> str:
    """An engine's fuel as JSON text."""
    data = fuel_told(found).model_dump(by_alias=True)
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False)


def _point(one: Drawn) -> PointTold:
    at = one.at
    return PointTold(
        kind=one.kind, name=one.name, speed_rad_s=at.speed, throttle=at.throttle,
        air_kg=list(at.air), fuel_kg=list(at.fuel), intake_pa=list(at.intake),
    )  # fmt: skip


def _injector(facts: InjectorFacts) -> InjectorTold:
    low, high = facts.pressures or (None, None)
    return InjectorTold(
        count=facts.count, shared=facts.shared, flow_kg_s=facts.flow,
        least_flow_kg_s=facts.least_flow, most_flow_kg_s=facts.most_flow, pressure_low_pa=low,
        pressure_high_pa=high, cranking_voltage_v=facts.cranking_voltage,
        on_open_valve=facts.on_open, pulses=[_pulse(one) for one in facts.pulses],
    )  # fmt: skip


def _pulse(one: Pulse) -> PulseTold:
    feeding = one.feeding
    return PulseTold(
        point=_point(one.point), pressure_over_pa=one.over, flow_kg_s=one.flow,
        dead_time_s=one.dead_time, pulse_s=list(one.times), pulse_low_s=one.low,
        pulse_high_s=one.high, fuel_low=one.given[0], fuel_high=one.given[1], duty=one.duty,
        end_angle_rad=list(one.ends),
        own_end_angle_rad=list(one.own_ends),
        share_timed=list(feeding.timed) if feeding else None,
        share_untimed=list(feeding.alike) if feeding else None,
    )  # fmt: skip


def _mixer(facts: MixerFacts) -> MixerTold:
    return MixerTold(
        gas=facts.gas, count=facts.count, venturi_m=facts.venturi,
        venturi_narrowest_m=facts.narrowest, venturi_widest_m=facts.widest, jet_m=facts.jet,
        jet_low_m=facts.jet_low, jet_high_m=facts.jet_high, jet_wanted_m=facts.wanted,
        idle_jet_m=facts.idle_jet, idle_jet_wanted_m=facts.idle_wanted,
        points=[_drawing(one) for one in facts.drawings],
    )  # fmt: skip


def _drawing(one: Drawing) -> DrawingTold:
    return DrawingTold(
        point=_point(one.point), throat_m_s=one.speed, depression_pa=one.depression,
        pull=one.pull, jet_wanted_m=one.wanted, mixture=one.mixture,
    )  # fmt: skip


def _cold(cold: ColdFacts) -> ColdTold:
    primed = [
        PrimingTold(
            enriched=times, pulses=one.wanted, too_many=one.too_many, pulse_m3=cold.each,
            pulse_s=cold.on,
        )
        for times, one in ((1.0, cold.primed), (CHOKED, cold.primed_map))
        if one is not None and cold.each is not None
    ]  # fmt: skip
    return ColdTold(
        first_charge=[_times(one) for one in cold.start],
        warm_up=[_times(one) for one in cold.warm_up],
        density=[_times(Times(one.temperature, one.times)) for one in cold.density],
        per_kilopascal=cold.per_kilopascal,
        priming=primed,
    )


def _times(one: Times) -> TimesTold:
    return TimesTold(temperature_k=one.temperature, times=one.times)


def _feed(found: FuelFacts) -> FeedTold:
    feed = found.feed
    return FeedTold(
        most_m3_s=feed.most, idle_m3_s=feed.idle, tank_full_s=feed.tank_full,
        tank_idle_s=feed.tank_idle, throttle_m=feed.throttle, throttle_m_s=feed.throttle_speed,
        throttle_narrowest_m=feed.throttle_narrow, throttle_widest_m=feed.throttle_wide,
        air_cleaner_m2=feed.cleaner_area, hose_loss_pa=feed.hose_loss,
        hose_bore_m=feed.hose_bore, head_m=feed.head_wanted, pump_m3_s=feed.pump_flow,
        pump_pa=feed.pump_pressure, pump_w=feed.pump_power, pump_a=feed.pump_current,
        bottle_heat_w=feed.chill,
    )  # fmt: skip
