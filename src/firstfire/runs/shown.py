"""What a compression gauge would have shown, stroke by stroke, while an engine was cranked."""

from __future__ import annotations

from firstfire.engine.geometry import swept_volume
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.compression_gauge import Gauge, filling_time, gauge_trace
from firstfire.formulas.hermite import Floats
from firstfire.runs.spun import Spun

_FILLING_TEMPERATURE = 350.0
"""Of compressed gas as it comes through a hose's valve, K: common practice, no source."""


def gauge_shown(
    plain: PlainEngine,
    spun: Spun,
    *,
    hose_volume: float,
    valve_area: float,
    cylinder: int = 0,
    opens: float = 0.0,
    leak_down: float = 0.0,
) -> Floats:
    """What a gauge shows above the air around at every step, Pa, (steps,).

    The cylinder was cranked without it: its pressure is taken from the record, and what the hose
    takes from it by the law of :func:`firstfire.formulas.compression_gauge.gauge_trace`.

    Parameters
    ----------
    plain
        Plain numbers.
    spun
        How it was cranked.
    hose_volume, valve_area
        Of hose and gauge behind the check valve, m³, and that valve's effective area, m².
    cylinder
        Counted from 0.
    opens, leak_down
        As :class:`firstfire.formulas.compression_gauge.Gauge` has them.
    """
    parts = plain.cylinders[cylinder]
    filling = filling_time(hose_volume, valve_area, _FILLING_TEMPERATURE)
    return gauge_trace(
        spun.time,
        spun.pressure[:, cylinder],
        Gauge(hose_volume, filling, opens, leak_down),
        chamber_volume=swept_volume(parts) / (parts.cylinder.compression_ratio - 1.0),
        air_pressure=plain.surroundings.air_pressure,
    )
