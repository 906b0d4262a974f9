"""How atoms divide among the molecules of burned gas: two balances, solved; compiled.

Everything follows from two unknowns: the root q of the partial pressure of oxygen, and the partial
pressure k that one mole of atoms to the kilogram stands for. With q and k known, carbon, hydrogen
and nitrogen each divide among their molecules in closed form; what is left is one balance of oxygen
and one of pressure, solved by Newton in ln q and ln k. The oxygen balance is that of *spare*
oxygen, counted after all carbon has become CO2 and all hydrogen H2O, so that nothing cancels at
exactly stoichiometric mixture and low temperature, where spare oxygen is 1e-20 of the whole.

References
----------
C. Olikara, G. L. Borman, A Computer Program for Calculating Properties of Equilibrium Combustion
Products, SAE 750468 (1975), for the choice of molecules, from memory. The reduction to two unknowns
is worked out here.
"""

from __future__ import annotations

import math

import numpy as np

from firstfire.cycle.compile import kernel
from firstfire.cycle.species import (
    AR,
    CO,
    CO2,
    H2,
    H2O,
    N2,
    NO,
    O2,
    OH,
    STANDARD_PRESSURE,
    H,
    N,
    O,
)
from firstfire.cycle.thermo_data import Coefficients

# Rows of the amounts: mol a kg of carbon, hydrogen, spare oxygen atoms, nitrogen atoms, argon.
CARBON, HYDROGEN, SPARE_OXYGEN, NITROGEN, ARGON = range(5)


@kernel
def _constants(state: Coefficients, k: Coefficients) -> None:
    """Fill `k` with the seven equilibrium constants, of pressures in bar.

    CO2 = k0 CO q, H2O = k1 H2 q, OH = k2 s q, H = k3 s, NO = k4 t q, N = k5 t and O = k6 q, where
    q, s and t are the roots of the pressures of O2, H2 and N2.
    """
    half_o2 = (state[1, O2] - state[2, O2]) / 2
    half_h2 = (state[1, H2] - state[2, H2]) / 2
    half_n2 = (state[1, N2] - state[2, N2]) / 2
    k[0] = state[1, CO] - state[2, CO] + half_o2 - state[1, CO2] + state[2, CO2]
    k[1] = 2 * half_h2 + half_o2 - state[1, H2O] + state[2, H2O]
    k[2] = half_h2 + half_o2 - state[1, OH] + state[2, OH]
    k[3] = half_h2 - state[1, H] + state[2, H]
    k[4] = half_n2 + half_o2 - state[1, NO] + state[2, NO]
    k[5] = half_n2 - state[1, N] + state[2, N]
    k[6] = half_o2 - state[1, O] + state[2, O]
    for row in range(7):
        k[row] = math.exp(k[row])


@kernel
def _root_of_hydrogen(k: Coefficients, q: float, hydrogen: float) -> tuple[float, float]:
    """Root s of the pressure of H2, and d(balance)/ds, where its atoms sum to `hydrogen`."""
    a = 2 * (1 + k[1] * q)
    b = k[2] * q + k[3]
    root = math.sqrt(b * b + 4 * a * hydrogen)
    return 2 * hydrogen / (b + root), root


@kernel
def _root_of_nitrogen(k: Coefficients, q: float, nitrogen: float) -> tuple[float, float]:
    """Root t of the pressure of N2, and d(balance)/dt, where its atoms sum to `nitrogen`."""
    b = k[4] * q + k[5]
    root = math.sqrt(b * b + 8 * nitrogen)
    return 2 * nitrogen / (b + root), root


@kernel
def _balances(
    k: Coefficients, amounts: Coefficients, pressure: float, log_q: float, log_kappa: float
) -> tuple[float, float, float, float, float, float]:
    """Logarithmic errors of the oxygen and pressure balances, and their four derivatives."""
    q, kappa = math.exp(log_q), math.exp(log_kappa)
    carbon, hydrogen, nitrogen = kappa * amounts[0], kappa * amounts[1], kappa * amounts[3]
    spare = kappa * amounts[2]
    s, s_slope = _root_of_hydrogen(k, q, hydrogen)
    t, t_slope = _root_of_nitrogen(k, q, nitrogen)
    unburned = 1 / (1 + k[0] * q)  # share of carbon that is CO
    s_q = -(2 * k[1] * s + k[2]) * q * s / s_slope
    s_k = hydrogen / s_slope
    t_q = -k[4] * q * t / t_slope
    t_k = nitrogen / t_slope
    free = 2 * q * q + k[6] * q + k[4] * t * q + k[2] * s * q / 2 + max(-spare, 0.0)
    free_q = 4 * q * q + k[6] * q + k[4] * q * (t + t_q) + k[2] * q * (s + s_q) / 2
    free_k = k[4] * q * t_k + k[2] * q * s_k / 2 + max(-spare, 0.0)
    lack = carbon * unburned + s * s + k[3] * s / 2 + max(spare, 0.0)
    lack_q = -carbon * unburned * (1 - unburned) + (2 * s + k[3] / 2) * s_q
    lack_k = carbon * unburned + (2 * s + k[3] / 2) * s_k + max(spare, 0.0)
    wet, dry = 1 + k[1] * q, k[2] * q + k[3]
    total = q * q + k[6] * q + kappa * (amounts[0] + amounts[4])
    total += s * (s * wet + dry) + t * (t + k[4] * q + k[5])
    total_q = 2 * q * q + k[6] * q + q * s * (k[1] * s + k[2]) + (2 * s * wet + dry) * s_q
    total_q += k[4] * q * t + (2 * t + k[4] * q + k[5]) * t_q
    total_k = kappa * (amounts[0] + amounts[4]) + (2 * s * wet + dry) * s_k
    total_k += (2 * t + k[4] * q + k[5]) * t_k
    return (
        math.log(free / lack),
        math.log(total / pressure),
        free_q / free - lack_q / lack,
        free_k / free - lack_k / lack,
        total_q / total,
        total_k / total,
    )


@kernel
def _first_guess(k: Coefficients, amounts: Coefficients, pressure: float) -> tuple[float, float]:
    """First ln q and ln k: complete products, with the oxygen that dissociation would free."""
    carbon, hydrogen, spare = amounts[CARBON], amounts[HYDROGEN], amounts[SPARE_OXYGEN]
    nitrogen, argon = amounts[NITROGEN], amounts[ARGON]
    kappa = pressure / (carbon + hydrogen / 2 + nitrogen / 2 + argon + max(spare, 0.0) / 2)
    freed = kappa * (carbon / k[0] + hydrogen / 2 / k[1]) / 2
    log_q = math.log(freed) / 3
    if spare > 0:
        log_q = max(log_q, math.log(kappa * spare / 2) / 2)
    if spare < 0:
        share = min(-spare / (carbon + hydrogen / 2), 0.999)
        log_q = min(log_q, math.log((1 - share) / share) - math.log(k[0] * k[1]) / 2)
    return log_q, math.log(kappa)


@kernel
def _solve_balances(k: Coefficients, amounts: Coefficients, pressure: float) -> tuple[float, float]:
    """The logarithms of q and k at equilibrium; NaN where Newton does not settle."""
    log_q, log_kappa = _first_guess(k, amounts, pressure)
    for _ in range(60):
        oxygen, excess, oxygen_q, oxygen_k, excess_q, excess_k = _balances(
            k, amounts, pressure, log_q, log_kappa
        )
        determinant = oxygen_q * excess_k - oxygen_k * excess_q
        step_q = (oxygen_k * excess - oxygen * excess_k) / determinant
        step_k = (oxygen * excess_q - oxygen_q * excess) / determinant
        short = min(1.0, 4.0 / (abs(step_q) + 1e-300), 1.0 / (abs(step_k) + 1e-300))
        log_q += short * step_q
        log_kappa += short * step_k
        if abs(step_q) + abs(step_k) < 1e-8:  # quadratic: the step just taken left about 1e-16
            return log_q, log_kappa
    return math.nan, math.nan


@kernel
def equilibrium_moles(
    state: Coefficients, amounts: Coefficients, pressure: float, fractions: Coefficients
) -> float:
    """Moles a kilogram; fills `fractions` with the mole fractions of the twelve molecules.

    Parameters
    ----------
    state
        From `standard_state` at the temperature.
    amounts
        mol/kg of carbon, hydrogen, spare oxygen atoms, nitrogen atoms and argon.
    pressure
        Pa.
    fractions
        Shape (12,); written.
    """
    bar = pressure / STANDARD_PRESSURE
    k = np.empty(7)
    _constants(state, k)
    log_q, log_kappa = _solve_balances(k, amounts, bar)
    q, kappa = math.exp(log_q), math.exp(log_kappa)
    s, _ = _root_of_hydrogen(k, q, kappa * amounts[HYDROGEN])
    t, _ = _root_of_nitrogen(k, q, kappa * amounts[NITROGEN])
    unburned = 1 / (1 + k[0] * q)
    fractions[O2] = q * q / bar
    fractions[N2] = t * t / bar
    fractions[AR] = kappa * amounts[ARGON] / bar
    fractions[CO2] = kappa * amounts[CARBON] * (k[0] * q * unburned) / bar
    fractions[H2O] = k[1] * q * s * s / bar
    fractions[CO] = kappa * amounts[CARBON] * unburned / bar
    fractions[H2] = s * s / bar
    fractions[OH] = k[2] * q * s / bar
    fractions[H] = k[3] * s / bar
    fractions[O] = k[6] * q / bar
    fractions[NO] = k[4] * q * t / bar
    fractions[N] = k[5] * t / bar
    moles: float = bar / kappa
    return moles
