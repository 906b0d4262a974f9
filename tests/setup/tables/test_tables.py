"""Tables: what a pulse out of them does in the engine, and what is refused."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.errors import CannotWrite, EngineFileError, FirstfireError, Stopped
from firstfire.runs.breathed import breathed
from firstfire.setup.spark.advance_table import EARLIEST, AdvanceTable
from firstfire.setup.tables.advance import advance_of
from firstfire.setup.tables.grid import Grid
from firstfire.setup.tables.table import table
from firstfire.setup.tables.tables import TableSet, tables
from firstfire.setup.tables.written import header, write

ENGINES = Path(__file__).parents[3] / "engines"
V_TWIN = Path(__file__).parents[2] / "strangers" / "2_v_twin.toml"
RPM = math.pi / 30
WITHIN = 0.03


def straight(found: TableSet, row: int, rpm: float, permille: float) -> float:
    """A pulse as a controller finds it, µs: straight in speed, then in opening."""
    pulses = found.named("pulse_us").values[row]
    speeds, loads = (found.named(name).values for name in ("speed_rpm", "throttle_permille"))
    each = [float(np.interp(rpm, speeds, one)) for one in pulses]
    return float(np.interp(permille, loads, each))


def mixture_back(found: TableSet, rpm: float, permille: float) -> list[float]:
    """Mixture of each cylinder's trapped charge, run with the fuel that its pulse gives.

    By hand: 250 cm³/min of petrol of 745 kg/m³ told at 3 bar; 12.6 V is 1.21 ms late, straight
    between 1.3 at 12 and 1.0 at 14; the regulator stands against the open air.
    """
    plain = found.plain
    at = breathed(plain, rpm * RPM, permille / 1000)
    got = []
    for row, air in enumerate(at.air):
        over = 3e5 + 101_300.0 - at.intake[row]
        flow = 250e-6 / 60 * 745.0 * math.sqrt(over / 3e5)
        fuel = (1e-6 * straight(found, row, rpm, permille) - 1.21e-3) * flow
        # air with its steam; petrol of the gas side burns in 14.6 of dry air
        steam = 0.5 * 2339.0 / 101_300.0
        dry = 1.0 - steam * 18.015 / (steam * 18.015 + (1.0 - steam) * 28.966)
        phi = fuel / air * 14.6 / dry
        fed = plain.model_copy(
            update={"intake": plain.intake.model_copy(update={"equivalence_ratio": phi})}
        )
        again = breathed(fed, rpm * RPM, permille / 1000)
        # richer fuel leaves less room for air, and with the same fuel that is richer still
        phi *= air / again.air[row]
        got.append(again.point.fired.cycle.cylinders[row].trapped_phi * air / again.air[row])
    return got


@pytest.mark.parametrize(
    ("rpm", "permille"),
    [(1500, 30), (1090, 196), (2200, 65), (3325, 114), (4100, 410), (2000, 1000), (4800, 880),
     (1010, 550)],
)  # fmt: skip
def test_a_pulse_out_of_them_keeps_the_mixture(twin: TableSet, rpm: float, permille: float) -> None:
    asked = twin.plain.intake.equivalence_ratio
    for got in mixture_back(twin, rpm, permille):
        assert got == pytest.approx(asked, rel=WITHIN)


def test_it_says_how_far_between_places_is_off(twin: TableSet) -> None:
    assert twin.off is not None
    assert 0.001 < twin.off < WITHIN
    assert f"{100 * twin.off:.1f} %" in " ".join(twin.notes)


def test_the_places_are_this_engines_own(twin: TableSet) -> None:
    speeds = twin.named("speed_rpm").values
    assert speeds[0] < 1500 < speeds[-1]
    assert speeds[-1] >= 4000
    assert np.all(np.diff(speeds) > 0)
    loads = twin.named("throttle_permille").values
    assert loads[-1] == 1000
    assert np.all(np.diff(loads) > 0)


def test_the_header_says_units_scale_and_cautions(twin: TableSet) -> None:
    text = header(twin)
    for words in ("One step is 1 us", "times 1e-06", "0.1 degree", "Estimates and no permission",
                  "stop switch"):  # fmt: skip
        assert words in " ".join(text.split())
    assert text.isascii()
    assert text.count("/*") == text.count("*/")


def test_a_name_cannot_end_a_comment(twin: TableSet) -> None:
    from dataclasses import replace

    odd = replace(twin.engine, name="odd */ int x; /* ü")
    text = header(replace(twin, engine=odd))
    assert text.count("*/") == header(twin).count("*/")
    assert text.isascii()


def test_nothing_is_overwritten_unasked(twin: TableSet, tmp_path: Path) -> None:
    (tmp_path / "pulse_us_2.csv").write_text("mine")
    with pytest.raises(CannotWrite, match="pulse_us_2"):
        write(twin, tmp_path)
    assert [one.name for one in tmp_path.iterdir()] == ["pulse_us_2.csv"]
    write(twin, tmp_path, overwrite=True)
    assert (tmp_path / "tables.h").exists()


def test_an_injector_that_cannot_is_refused_with_the_nearest() -> None:
    engine = with_values(ff.read(V_TWIN), {"injector.flow": "900 cm^3/min"})
    with pytest.raises(EngineFileError, match=r"too large at idle.*nearest that works"):
        tables(engine)


def test_without_a_controller_there_is_nothing_to_table() -> None:
    with pytest.raises(FirstfireError, match="no controller"):
        tables(ff.read(ENGINES / "heron.toml"))


def test_it_stops_when_asked() -> None:
    with pytest.raises(Stopped):
        tables(ff.read(V_TWIN), stop=lambda: True)


def test_the_type_is_the_smallest_that_holds() -> None:
    kinds = [table("x", "", "", 1.0, values).kind for values in ([0, 255], [0, 256], [-1, 300])]
    assert kinds == ["uint8_t", "uint16_t", "int16_t"]
    with pytest.raises(FirstfireError, match="sixteen bits"):
        _ = table("x", "", "", 1.0, [-1, 40_000]).kind


def test_an_advance_that_was_found_is_laid_on_the_places() -> None:
    """10° plus 1° a hundred rad/s at full throttle, 5° more at a tenth of it; straight between."""
    known = np.radians([[11.0, 13.0, 15.0], [6.0, 8.0, 10.0]]) + math.radians(5.0)
    none = np.full((2, 3), math.nan)
    looked = AdvanceTable(
        np.array([100.0, 300.0, 500.0]), np.array([0.1, 1.0]), none, none, known, none, none,
        np.full(3, math.inf), (("torque",) * 3,) * 2, 0.1, (),
    )  # fmt: skip
    places = Grid(np.array([200.0, 600.0]), np.array([0.1, 0.55, 1.0]), ())
    assert advance_of(places, looked).values.tolist() == [[170, 200], [145, 175], [120, 150]]
    assert "bound" not in advance_of(places, looked).what
    met = np.array([[math.nan] * 3, [math.nan, math.nan, EARLIEST]])
    assert "a bound and no best" in advance_of(places, replace(looked, best=met)).what


def test_the_spark_is_this_engines_own(twin: TableSet) -> None:
    """Slow and full fires later than fast and throttled; a start later than either."""
    advance = twin.named("advance_tenth_degree").values
    assert advance[-1, 2] < advance[4, -3]
    assert advance.min() > 0
    assert advance.max() < 600
    start = next(value for name, value, _ in twin.constants if name == "START_TENTH_DEGREE")
    assert 10 <= start <= 50  # 1 to 5°, in tenths
