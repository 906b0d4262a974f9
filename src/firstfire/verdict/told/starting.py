"""What the starter makes of an engine, put into its JSON contract."""

from __future__ import annotations

import math

from firstfire.verdict.facts.found import Found
from firstfire.verdict.facts.starting import helps
from firstfire.verdict.numbers import spoken
from firstfire.verdict.told.contract import BeginsTold, HelpTold, StartingTold


def told_starting(found: Found) -> StartingTold | None:
    """What the starter makes of it, in the contract's terms."""
    over = found.starting
    if over is None:
        return None
    rpm = 30 / math.pi
    return StartingTold(
        comes_over_top=over.over,
        from_rest=over.from_rest,
        peak_torque_nm=over.peak_torque,
        mean_torque_nm=over.mean_torque,
        stall_torque_nm=over.stall_torque,
        torque_lacking_nm=over.lacking_torque,
        inertia_kg_m2=over.inertia,
        compression_energy_j=over.compression_energy,
        stored_energy_j=over.stored_energy,
        speed_reached_rpm=over.speed * rpm if over.over else None,
        crank_mean_rpm=over.crank_speed * rpm if over.over else None,
        gauge_pa=list(over.gauge),
        slowest_rpm=over.slowest * rpm if over.over else None,
        at_top_rpm=over.at_top * rpm if over.over else None,
        compressions_a_pull=over.pulls,
        would_help=[HelpTold(text=spoken(c.text), set=dict(c.set)) for c in helps(found)],
    )


def told_begins(found: Found) -> BeginsTold | None:
    """Its start in brief, in the contract's terms."""
    begins, kick = found.begins, found.kick
    if begins is None:
        return None
    return BeginsTold(
        earliest_safe_spark_deg=math.degrees(begins.safe),
        kick_factor=math.inf if kick is None or kick.factor is None else kick.factor,
        keeps_going_from_rpm=begins.least * 30 / math.pi,
    )
