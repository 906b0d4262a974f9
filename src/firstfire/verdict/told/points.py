"""Operating points in their JSON contract."""

from __future__ import annotations

import math

from firstfire.cycle.figures import CylinderFigures
from firstfire.engine.records import Peaks
from firstfire.runs.point import OperatingPoint
from firstfire.verdict.facts.shaft_span import ShaftSpan
from firstfire.verdict.told.contract import CylinderPointTold, FrictionTold, PointTold

_CYCLE = 4 * math.pi


def told_point(point: OperatingPoint, span: ShaftSpan | None) -> PointTold:
    """One operating point as the contract has it, with the span of what it gives."""
    cycle = point.fired.cycle
    return PointTold(
        event=point.event,
        name=point.name,
        speed_rpm=point.speed * 30 / math.pi,
        spark_deg=None if point.spark is None else math.degrees(point.spark),
        throttle_opening=point.throttle,
        cylinders=[
            _cylinder(figures, peaks, burns=None if point.spark is None else spec.burns)
            for figures, peaks, spec in zip(
                cycle.cylinders, point.peaks, point.fired.spec.cylinders, strict=True
            )
        ],
        misfiring_cylinders=list(point.misfires),
        friction_mep_pa=point.friction_mep,
        friction=_friction(point),
        brake_torque_nm=point.brake_torque,
        brake_power_w=point.brake_power,
        brake_torque_low_nm=span.torque_low if span else None,
        brake_torque_high_nm=span.torque_high if span else None,
        brake_power_low_w=span.power_low if span else None,
        brake_power_high_w=span.power_high if span else None,
        walls_assumed=not point.walls_worked_out,
        energy_closure=cycle.health.energy_closure,
        mass_closure=cycle.health.mass_closure,
        cycle_change=cycle.health.cycle_change,
    )


def _cylinder(figures: CylinderFigures, peaks: Peaks, *, burns: float | None) -> CylinderPointTold:
    # A motored point has no fuel to compare with: null, whatever traces its start left behind.
    heat = None if burns is None else figures.heat_fraction
    return CylinderPointTold(
        peak_pressure_pa=peaks.mean,
        peak_pressure_strong_pa=peaks.strong,
        peak_pressure_rare_pa=peaks.rare,
        peak_pressure_angle_deg=math.degrees(peaks.angle),
        imep_gross_pa=figures.imep_gross,
        imep_net_pa=figures.imep_net,
        pmep_pa=figures.pmep,
        ca50_deg=None if figures.ca50 is None else math.degrees(figures.ca50),
        volumetric_efficiency=figures.volumetric_efficiency,
        filling_trapped=figures.filling_trapped,
        inlet_shut_deg=math.degrees(figures.inlet_shut),
        inlet_back_fraction=figures.spat_back,
        residual_fraction=figures.residual_fraction,
        trapped_equivalence_ratio=None if heat is None else figures.trapped_phi,
        unburned_fraction=None if burns is None else 1.0 - burns,
        peak_temperature_k=figures.peak_temperature,
        heat_to_walls_fraction=None if heat is None else math.fsum(heat),
        leak_fraction=figures.leaked_fraction,
    )


def _friction(point: OperatingPoint) -> FrictionTold:
    per_torque = _CYCLE / point.displacement
    by = {name: torque * per_torque for name, torque in point.friction.by_contact.items()}
    return FrictionTold(
        rings_pa=by["rings"],
        skirts_pa=by["skirts"],
        bearings_pa=by["bearings"],
        valve_gear_pa=by["valve gear"],
        cam_drive_pa=by["cam drive"],
    )
