"""Laminar burning velocity against the published fits, each with its own constants.

Sources: M. Metghalchi, J. C. Keck, *Combustion and Flame* 48, 1982, 191-210 and 38, 1980,
143-154, constants as rounded in J. B. Heywood, *Internal Combustion Engine Fundamentals*, 1988,
Table 9.3 (from memory; form and range read in the abstract); D. B. Rhodes, J. C. Keck, SAE
850047, 1985, as Heywood Eq. 9.33, 9.34 (from memory); Ö. L. Gülder, SAE 841000, 1984 (iso-octane
and propane constants read in an open-source flow library, methanol from memory). Evaluations
apart from this code; tolerance 0.5 %, the arithmetic of constants printed to two or three
figures.
"""

import pytest

from firstfire.formulas import laminar_speed as ls

STATES = [
    (1.0, 300.0, 1e5),
    (0.8, 300.0, 1e5),
    (1.2, 300.0, 1e5),
    (1.0, 600.0, 10e5),
    (1.1, 700.0, 20e5),
]

METGHALCHI_KECK = {
    ls.METGHALCHI_KECK_ISO_OCTANE: [0.2529, 0.1739, 0.2628, 0.7928, 1.0442],
    ls.METGHALCHI_KECK_PROPANE: [0.3387, 0.2376, 0.3269, 1.0619, 1.3596],
    ls.METGHALCHI_KECK_METHANOL: [0.3579, 0.2383, 0.3630, 1.1221, 1.4688],
}

GULDER = {
    ls.GULDER_ISO_OCTANE: [0.4555, 0.3580, 0.8093],
    ls.GULDER_PROPANE: [0.4349, 0.2994, 0.9359],
    ls.GULDER_METHANOL: [0.4791, 0.3170, 1.0896],
}


@pytest.mark.parametrize("fuel", METGHALCHI_KECK)
def test_metghalchi_keck(fuel: ls.MetghalchiKeck) -> None:
    speeds = [ls.metghalchi_keck(*state, fuel) for state in STATES]
    assert speeds == pytest.approx(METGHALCHI_KECK[fuel], rel=5e-3)


def test_rhodes_keck_petrol() -> None:
    states = [(1.0, 300.0, 1e5), (1.0, 600.0, 10e5), (1.2, 500.0, 5e5)]
    speeds = [ls.rhodes_keck_petrol(*state) for state in states]
    assert speeds == pytest.approx([0.2856, 0.7581, 0.6629], rel=5e-3)


@pytest.mark.parametrize("fuel", GULDER)
def test_gulder(fuel: ls.Gulder) -> None:
    states = [(1.0, 300.0, 1e5), (0.8, 300.0, 1e5), (1.0, 600.0, 10e5)]
    speeds = [ls.gulder(*state, fuel) for state in states]
    assert speeds == pytest.approx(GULDER[fuel], rel=5e-3)


def test_burned_gas_slows_each_fit_by_its_own_law() -> None:
    fractions = [0.05, 0.10, 0.20, 0.30]
    rhodes = [ls.rhodes_keck_dilution(x) for x in fractions]
    assert rhodes == pytest.approx([0.7949, 0.6502, 0.4034, 0.1848], abs=1e-3)
    metghalchi = [ls.metghalchi_keck_dilution(x) for x in fractions]
    assert metghalchi == pytest.approx([0.895, 0.790, 0.580, 0.370], abs=1e-9)
    assert ls.gulder_dilution(0.1) == pytest.approx(0.77, abs=1e-9)


def test_no_flame_runs_backwards() -> None:
    # Rhodes and Keck's factor passes zero at 0.391.
    assert ls.rhodes_keck_dilution(0.390) > 0.0
    assert ls.rhodes_keck_dilution(0.392) == 0.0
    assert ls.metghalchi_keck(2.0, 300.0, 1e5, ls.METGHALCHI_KECK_PROPANE) == 0.0


def test_fits_disagree_near_room_conditions_as_known() -> None:
    # 0.253 against 0.456 m/s for iso-octane: a factor of 1.8.
    low = ls.metghalchi_keck(1.0, 300.0, 1e5, ls.METGHALCHI_KECK_ISO_OCTANE)
    high = ls.gulder(1.0, 300.0, 1e5, ls.GULDER_ISO_OCTANE)
    assert high / low == pytest.approx(1.8, abs=0.02)
