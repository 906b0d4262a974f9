"""A closed cylinder at inlet closing, for the benchmarks of the gas side."""

import math

from firstfire.cycle.build import build_engine, start_state
from firstfire.cycle.layout import Records, State
from firstfire.cycle.records import (
    BurnSpec,
    CylinderSpec,
    EngineSpec,
    PassageSpec,
    SteppingSpec,
    VolumeSpec,
)


def closed(fired: bool) -> tuple[Records, State]:
    """A 44 x 40 mm cylinder at inlet closing, 3000 rpm, with a leak."""
    burn = BurnSpec(math.radians(-18.0), math.radians(60.0)) if fired else None
    cylinder = CylinderSpec("cylinder", 0.044, 0.020, 0.070, 1.01e-5, burn=burn)
    spec = EngineSpec(
        "iso-octane",
        1.0,
        (cylinder,),
        (VolumeSpec("case", fixed=True),),
        (PassageSpec("leak", "cylinder", "case", 0.2e-6),),
        stepping=SteppingSpec(),
    )
    engines = build_engine(spec)
    charge = VolumeSpec("", pressure=0.95e5, temperature=330.0, equivalence_ratio=1.0)
    return engines, start_state(spec, engines, math.radians(-140.0), 314.0, [charge])
