"""What stands at the heads of modules, in the units of the trade.

A turn is 2π, a cycle of a four-stroke two turns, a revolution a minute π/30 rad/s. The others are
said in words in the documents of `docs/` or beside them; a number by hand stands for each.
"""

from __future__ import annotations

import math
import pkgutil
from collections.abc import Iterator
from importlib import import_module

import pytest

import firstfire

RPM, DEG, ZERO = math.pi / 30, math.pi / 180, 273.15
SAME = {
    "CYCLE": (4 * math.pi,),
    "TURN": (2 * math.pi,),
    "RPM": (RPM, 1 / RPM),  # of either way round; which one, those say that use it
    "QUARTER": (math.pi / 2,),
}


def modules() -> Iterator[str]:
    """All of them but what is started by being imported."""
    for found in pkgutil.walk_packages(firstfire.__path__, "firstfire."):
        if not found.name.endswith(("__main__", ".worker")):
            yield found.name


def test_what_has_the_same_name_is_the_same_number():
    wrong, seen = [], 0
    for name in modules():
        module = import_module(name)
        for constant, values in SAME.items():
            for written in (constant, f"_{constant}"):
                value = getattr(module, written, None)
                if not isinstance(value, int | float):
                    continue
                seen += 1
                if not any(math.isclose(value, one, rel_tol=1e-12) for one in values):
                    wrong.append(f"{name}.{written} is {value}")
    assert not wrong
    assert seen > 60


@pytest.mark.parametrize(
    ("place", "value"),
    [
        ("runs.start.kick_back._EARLIEST", 70 * DEG),
        ("runs.start.kick_back._LATEST", -10 * DEG),
        ("runs.start.kick_back._COARSE", 5 * DEG),
        ("runs.start.kick_back._FINE", 0.25 * DEG),
        ("runs.start.kick_back._PAST", 40 * DEG),
        ("runs.start.best_advance._MARGIN", 5 * DEG),
        ("runs.start.best_advance._ADVANCES", [n * 5 * DEG for n in range(9)]),
        ("runs.start.best_advance._GROWS_AT", [500 * RPM, 1000 * RPM, 2000 * RPM, 4000 * RPM]),
        ("runs.start.strong_burn._STRONG_AT", [750 * RPM, 1400 * RPM, 2000 * RPM, 2800 * RPM]),
        ("runs.start.changes._ANOTHER_SPARK", 2 * DEG),
        ("runs.start.speed_limits.SLOW", 500 * RPM),
        ("runs.start.speed_limits.FAST", 12_000 * RPM),
        ("runs.start.fuelling._QUICKEST", 1.333333),
        ("runs.start.odds._OVER", 720 * DEG * 2),
        ("runs.start.cycles._SHORTLY", 90 * DEG),
        ("runs.free_rev.FASTEST", 8000 * RPM),
        ("runs.moved._FIT_BEGINS", 800 * RPM),
        ("runs.spun.PAST_TOP", 10 * DEG),
        ("runs.valve_gaps._HANGS", 90 * DEG),
        ("runs.bout._LONG_SHARE", 0.25),
        ("cycle.limit_cycle.FIRST_ANGLE", -360 * DEG),
        ("cycle.limit_cycle.SLOW", 100 * RPM),
        ("cycle.scatter.STRONG", 0.05),
        ("cycle.scatter.RARE", 0.001),
        ("cycle.burn_plan._LONGEST", 180 * DEG),
        ("cycle.fired._AGREED", 0.1 * DEG),
        ("loads.running._SLACK", 2 * DEG),
        ("parts.kick_back._LATEST", 2 * DEG),
        ("parts.assumed.TEST_SECONDS", 79_200.0),
        ("parts.assumed.STEM_WARMTH", 0.333333),
        ("heat.advance.HORIZON", 86_400.0),
        ("engine.injection.OVERLAP", 360 * DEG),
        ("engine.rules.leaks._DECADE", 3.16228),
        # 2 mm² of 50 x 45 mm at 400 rpm leave some half of the compression.
        ("engine.rules.supply._HALVES", 2e-6 / (88.36e-6 * 41.8879)),
        ("engine.unknowns.TABLE_TO_5_95", 1.644854 / 1.959964),
        ("verdict.start.words._WORTH", 0.05),
        ("verdict.start.loose_words.NIGHT", 43_200.0),
        ("runs.fate.STEP", 1.1486984),  # ten to the octave of four
        ("runs.gas_change.ANGLE", [(n - 360) * DEG for n in range(721)]),
        ("runs.start.going.SPEEDS", [
            n * RPM for n in (200, 300, 400, 550, 750, 1000, 1400, 2000, 2800, 4000, 5600)
        ]),
        ("parts.section._MIDDLES", [0.05, 0.15, 0.25, 0.35, 0.45, 0.55, 0.65, 0.75, 0.85, 0.95]),
        # TR-BDF2: the trapezoid's share 2 - √2 and what the second formula weighs.
        ("heat.march.GAMMA", 0.5857864),
        ("heat.march.IMPLICIT", 0.2928932),
        ("heat.march.EXPLICIT", 0.3535534),
        ("engine.rules.leaks.OTHER_SPAN.low", 0.3162278),
        ("engine.rules.leaks.OTHER_SPAN.high", 3.1622777),
        ("cycle.burn_plan._STEP", 1 * DEG),
        ("cycle.fired.FIRST_BURN.start", -10 * DEG),
        ("cycle.fired.FIRST_BURN.duration", 60 * DEG),
        ("cycle.flame_plan._ROUND", 4.8359759),  # a ball's face over the 2/3 power of its room
        ("cycle.mixture.TABLE_HOTTEST", 3600.0),
        ("cycle.mixture.PRESSURE_HIGHEST", 503.31648e5),
        ("cycle.one_cylinder.PRESSURE_AT", 3),  # behind the shaft's three values
        ("cycle.scatter.UNTIL_PEAKS", 540 * DEG),
        ("setup.cams.events.EARLIEST", 60 * DEG),
        ("setup.cams.events.LATEST", 120 * DEG),
        ("setup.cams.wanted._ALIKE", 0.5 * DEG),
        ("setup.cams.spring._WIRES", [
            0.5e-3, 0.6e-3, 0.7e-3, 0.8e-3, 0.9e-3, 1e-3, 1.1e-3, 1.2e-3, 1.4e-3, 1.6e-3, 1.8e-3,
            2e-3, 2.2e-3, 2.5e-3, 2.8e-3, 3e-3,
        ]),
        ("setup.cams.spring._COILS", [3, 3.5, 4, 4.5, 5, 5.5, 6, 6.5, 7, 7.5, 8, 8.5, 9, 9.5, 10]),
        ("setup.opened.fuel_meter_sheets._WHOLE", 1.1283792),  # across a round mm², mm
        ("setup.spark.advance_table._TRIED", [n * 10 * DEG for n in range(7)]),
        ("setup.spark.advance_table._AT_BOUND", 0.5 * DEG),
        ("setup.spark.edge_below._TRIED", [
            n * RPM for n in (200, 300, 400, 500, 600, 800, 1000, 1200, 1500, 2000, 2500)
        ]),
        ("setup.tables.grid._PERMILLE", 0.001),
        ("setup.timing.tooth._STEP", 2 * DEG),
        ("setup.fits.torques.SETTLED", 0.1666667),
        ("setup.fits.torques.STEPS", [0.333333, 0.666667, 1.0]),
        ("setup.fits.torques.WEEK", 168.0),
        ("setup.fits.sealant.SHORTER", [0.333333, 2.0, 12.0, 24.0, 48.0, 168.0]),
        ("setup.fuel.cold.COLD", [ZERO + n for n in (-10, 0, 10, 20, 30)]),
        ("setup.fuel.cold.WARMING", [ZERO + n for n in (-10, 0, 10, 20, 40, 60, 80)]),
        ("setup.fuel.cold.AIR", [ZERO + n for n in (-10, 0, 10, 20, 30, 40)]),
        ("setup.fuel.cold._QUICKEST", 1.333333),
        ("setup.spark.plug._POLYTROPIC", 0.2307692),
        ("setup.spark.edge_below.TOO_FAR", 3 * DEG),
        ("setup.spark.advance_table.KEPT_FROM_KNOCK", 3 * DEG),
        ("setup.spark.advance_table.KEPT_FROM_KICK", 5 * DEG),
        ("setup.spark.angles._EVEN", 0.5773503),
        ("setup.cams.numbers.STEEPEST", 30 * DEG),
        ("setup.cams.numbers.STEEPEST_ON_ARM", 35 * DEG),
        ("setup.cams.suction_inlet.LATEST", 60 * DEG),
        ("setup.misset.misset._MOST_LASH", 25 * DEG),
        ("setup.misset.facts.SURE", 3 * DEG),
        ("setup.tables.advance.TENTH", 0.1 * DEG),
        ("setup.timing.places._ON", 0.05 * DEG),
        ("setup.laid.RISE", [5.5556e-6, 2.7778e-6, 11.1111e-6]),  # 20 (10 to 40) mm an hour
        ("setup.standing.FRESH", 0.0166667),
    ],
)  # fmt: skip
def test_a_constant_by_hand(place, value):
    words = place.split(".")
    named = next(n for n, word in enumerate(words) if word.lstrip("_").isupper())
    found = import_module(f"firstfire.{'.'.join(words[:named])}")
    for word in words[named:]:
        found = getattr(found, word)
    assert found == pytest.approx(value, rel=1e-5)
