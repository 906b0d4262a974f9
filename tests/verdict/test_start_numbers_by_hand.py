"""A start's numbers as they are told, from stand-ins: no start is run.

π rad/s are 30 rpm, π/180 is a degree.
"""

from __future__ import annotations

import math
from types import SimpleNamespace as Some

import pytest

from firstfire.verdict.start import (
    aids_contract,
    bangs_contract,
    contract_cycles,
    contract_parts,
    more_told,
)

RPM, DEG = math.pi / 30, math.pi / 180


@pytest.fixture(autouse=True)
def untyped(monkeypatch):
    """What is told stands as it is given."""
    for room, names in {
        aids_contract: ("LetOffTold",), bangs_contract: ("BangTold", "KnockTold"),
        contract_cycles: ("CycleTold", "ChargeTold", "PrimingTold"),
        contract_parts: ("MomentTold", "SpeedTold"),
        more_told: ("OverRunTold", "SpeedLimitTold"),
    }.items():  # fmt: skip
        for name in names:
            monkeypatch.setattr(room, name, Some)


def test_how_it_is_turned_is_told_in_rpm():
    turned = Some(
        mean_speed=600 * RPM, least_speed=450 * RPM, gauge=6e5, gauge_oiled=7e5, over=True
    )
    told = contract_parts.cranking_told(turned)
    assert (told.mean_rpm, told.least_rpm) == pytest.approx((600.0, 450.0))
    assert (told.gauge_pa, told.gauge_pa_oiled) == (6e5, 7e5)


def test_sparks_that_throw_it_back_are_told_in_degrees():
    thrown = Some(torque=30.0, angle=-20 * DEG)
    kick = Some(
        strong=12 * DEG, mean=15 * DEG, asked=10 * DEG, true=11 * DEG, factor=1.4, thrown=thrown
    )
    found = Some(kick=kick, advance=Some(start=8 * DEG))
    told = contract_parts.kick_back_told(found)
    assert (told.earliest_safe_spark_deg, told.earliest_safe_spark_mean_deg) == pytest.approx(
        (12.0, 15.0)
    )
    assert (told.asked_deg, told.true_deg, told.recommended_start_deg) == pytest.approx(
        (10.0, 11.0, 8.0)
    )
    assert (told.torque_thrown_nm, told.angle_thrown_deg) == pytest.approx((30.0, -20.0))
    kick.thrown = None
    assert contract_parts.kick_back_told(found).angle_thrown_deg is None


def test_speeds_it_keeps_going_from_are_told_in_rpm():
    """At 900 rpm the gas gives 5 N·m, of which 2 are left: friction takes 3."""
    idling = Some(opening=0.1, speed=1200 * RPM, unsteady=0.02)
    held = Some(speed=900 * RPM, gas=5.0, net=2.0, burned=1.0)
    found = Some(
        least=300 * RPM, weak_least=400 * RPM, idling=idling, speeds=[held],
        advance=Some(grows=[(1500 * RPM, 25 * DEG)]),
    )  # fmt: skip
    told = contract_parts.keeps_going_told(found)
    assert (told.least_speed_rpm, told.weak_cycle_least_speed_rpm, told.idle_rpm) == pytest.approx(
        (300.0, 400.0, 1200.0)
    )
    (one,) = contract_parts.speeds_told(found)
    assert (one.speed_rpm, one.gas_nm, one.friction_nm) == pytest.approx((900.0, 5.0, 3.0))
    (one,) = contract_parts.advance_told(found)
    assert (one.speed_rpm, one.before_top_deg) == pytest.approx((1500.0, 25.0))


def test_a_story_and_its_mean_speeds_are_told_in_rpm(monkeypatch):
    moment = Some(seconds=1.0, speed=600 * RPM, what="it fires")
    monkeypatch.setattr(contract_parts, "story", lambda _: [moment])
    monkeypatch.setattr(contract_parts, "told_every", lambda _: [(2.0, 750 * RPM)])
    found = Some(lived="lived")
    assert contract_parts.story_told(found)[0].speed_rpm == pytest.approx(600.0)
    assert contract_parts.mean_speeds_told(found)[0].speed_rpm == pytest.approx(750.0)


def test_every_spark_and_charge_is_told_with_its_cylinder_from_one(monkeypatch):
    spark = Some(
        seconds=1.0, cylinder=1, speed=600 * RPM, before_top=7 * DEG, mixture=0.9, peak=2e6,
        missed="",
    )  # fmt: skip
    fed = Some(seconds=1.0, cylinder=0, mixture=0.8, liquid=1e-9, wet=False, stopped=False)
    monkeypatch.setattr(contract_cycles, "per_cycle", lambda _: [spark])
    found = Some(lived=Some(fed=[fed]))
    (one,) = contract_cycles.cycles_told(found)
    assert one.cylinder == 2
    assert (one.speed_rpm, one.before_top_deg) == pytest.approx((600.0, 7.0))
    assert contract_cycles.charges_told(found)[0].cylinder == 1


def test_bangs_and_knocks_are_told_with_their_speeds():
    bang = Some(
        kind="exhaust", why="late", cylinder=1, seconds=1.0, speed=450 * RPM, heat=3.0, rise=1e4
    )
    heard = Some(seconds=2.0, speed=1800 * RPM, left=0.2)
    knock = Some(why_not="", octane=95.0, burns=[1, 2], heard=[heard], most=1.2)
    (one,) = bangs_contract.bangs_told(Some(bangs=[bang]))
    assert one.cylinder == 2
    assert (one.speed_rpm, one.heat_j) == pytest.approx((450.0, 3.0))
    told = bangs_contract.knock_told(Some(knock=knock))
    assert (told.first_rpm, told.burns, told.knocking_burns) == (pytest.approx(1800.0), 2, 1)


def test_what_lets_compression_off_is_told_in_rpm_and_degrees():
    starter = Some(
        decompression="hole", decompression_diameter=2e-3, decompression_until=600 * RPM,
        decompression_shuts=40 * DEG,
    )  # fmt: skip
    found = Some(plain=Some(starter=starter), lived=Some(compressed_from=1.5))
    told = aids_contract.let_off_told(found)
    assert (told.until_rpm, told.shuts_before_top_deg) == pytest.approx((600.0, 40.0))
    assert (told.hole_diameter_m, told.shut_after_seconds) == (2e-3, 1.5)


def test_an_over_run_is_told_with_the_limits_it_passes(monkeypatch):
    """It comes to 6000 rpm: 5000 is passed, 7000 is not."""
    limits = [
        Some(id=name, part="rod", failure="tears", speed=rpm * RPM, hazard=True)
        for name, rpm in (("rod", 5000), ("wheel", 7000))
    ]
    away = Some(
        begins=1500 * RPM, reached=6000 * RPM, seconds=3.0, held="friction",
        limits=Some(passed=limits, already=(), unjudged=()),
    )  # fmt: skip
    monkeypatch.setattr(more_told, "limiter_of", lambda _: 4500 * RPM)
    told = more_told.over_run_told(Some(runs_away=away, plain="plain"))
    assert (told.from_rpm, told.reached_rpm, told.limiter_rpm) == pytest.approx(
        (1500.0, 6000.0, 4500.0)
    )
    assert [one.passed for one in told.limits] == [True, False]
    assert [one.speed_rpm for one in told.limits] == pytest.approx([5000.0, 7000.0])
