"""Wires against conductors' standards: IEC 60228, IEC 60335-1, IEC 60949.

Sources: IEC 60228 class 5 (as cable makers reprint it, read); factors by temperature of the same
(read); IEC 60335-1 Table 11 (as a pump maker reprints it, read); IEC 60949's adiabatic equation
with its constants of copper, 234.5 K, 3.45e-3 J/(K mm³), 17.241e-6 ohm mm (from memory).
"""

from __future__ import annotations

import math

import pytest

from firstfire.formulas import wire


@pytest.mark.parametrize("section", wire.FLEXIBLE)
def test_resistance_is_that_of_copper_and_a_little_more(section: float) -> None:
    # Annealed copper of 17.241 nΩ m; a standard allows strand, lay and thinner wire besides.
    bare = 17.241 / section
    assert bare < wire.FLEXIBLE[section] < 1.16 * bare


@pytest.mark.parametrize(
    ("section", "per_kilometre"), [(0.5, 39.0), (1.0, 19.5), (2.5, 7.98), (6.0, 3.30), (16.0, 1.21)]
)
def test_read_rows(section: float, per_kilometre: float) -> None:
    assert wire.wire_resistance(section, 1000.0) == pytest.approx(per_kilometre)


@pytest.mark.parametrize(("celsius", "factor"), [(5, 1.064), (30, 0.962), (50, 0.893), (90, 0.781)])
def test_resistance_by_temperature(celsius: float, factor: float) -> None:
    # The standard's factor brings a measured resistance back to 20 °C; 234.5 K against 0.00393/K.
    warm = wire.wire_resistance(1.5, 1.0, 273.15 + celsius)
    assert warm * factor == pytest.approx(wire.wire_resistance(1.5, 1.0), rel=5e-3)


@pytest.mark.parametrize(
    ("amps", "section"),
    [(0.1, 0.5), (3.0, 0.5), (3.1, 0.75), (6.0, 0.75), (6.1, 1.0), (10.1, 1.5), (16.1, 2.5),
     (25.1, 4.0), (32.1, 6.0), (40.1, 10.0), (63.0, 10.0)],
)  # fmt: skip
def test_section_by_current(amps: float, section: float) -> None:
    # So short that nothing is lost: the table alone decides.
    assert wire.wire_section(amps, 0.01, 1.0) == section


def test_more_than_the_table_is_refused_for_good_and_allowed_for_seconds() -> None:
    assert wire.wire_section(100.0, 0.01, 1.0) is None
    # I√t/k: 100 A for 10 s want 2.75 mm².
    assert wire.wire_section(100.0, 0.01, 1.0, seconds=10.0) == 4.0


def test_drop_decides_where_the_way_is_long() -> None:
    # 5 A, 10 m there and back, 0.5 V: 0.01 ohm a metre: 2.5 mm² has 7.98 mΩ, 1.5 mm² 13.3.
    assert wire.wire_section(5.0, 10.0, 0.5) == 2.5
    assert 5.0 * wire.wire_resistance(2.5, 10.0) == pytest.approx(0.399)


def test_behind_a_fuse_it_carries_the_fuse() -> None:
    assert wire.wire_section(0.1, 0.01, 1.0, fuse=15.0) == 1.5
    assert wire.wire_section(0.1, 0.01, 1.0, fuse=80.0) is None


def test_the_adiabatic_constant() -> None:
    # k = √(Q (β + 20)/ρ ln((β + θ_f)/(β + θ_i))) from 70 to 160 °C, A √s/mm².
    beta, heat, rho = 234.5, 3.45e-3, 17.241e-6
    k = math.sqrt(heat * (beta + 20) / rho * math.log((beta + 160) / (beta + 70)))
    assert wire.adiabatic_section(100.0, 4.0) == pytest.approx(100.0 * 2.0 / k, rel=5e-3)
