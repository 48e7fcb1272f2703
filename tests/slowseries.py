# SPDX-License-Identifier: LGPL-2.1-or-later

"""Diffusion into a slab and a long cylinder with a resistance at the surface, as series: how far the mean has come, 0
to 1, after a step of the air from 0 to 1. J. Crank, The Mathematics of Diffusion (2nd ed. 1975), Eq. 4.53 and 5.49,
from memory; both go to 1 and to the short-time law 2 S t · surface / volume.
"""

from __future__ import annotations

from math import cos, exp, pi, sin

TERMS = 400


def _root(value, low: float, high: float) -> float:
    """Where `value` passes through 0 between two places of unlike sign, by halving."""
    start = value(low) > 0
    for _ in range(80):
        middle = (low + high) / 2
        if (value(middle) > 0) == start:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def slab_mean(diffusivity: float, surface: float, half: float, time: float) -> float:
    """A slab of thickness 2 · half, open on both faces. β tan β = L, L = S · half / D."""
    number = surface * half / diffusivity
    total = 0.0
    for k in range(TERMS):
        b = _root(lambda b: b * sin(b) - number * cos(b), k * pi + 1e-12, k * pi + pi / 2)
        weight = 2 * number**2 / (b**2 * (b**2 + number**2 + number))
        total += weight * exp(-(b**2) * diffusivity * time / half**2)
    return 1 - total


def bessel(order: int, x: float) -> float:
    """J of whole order by its integral, (1/π) ∫ cos(n τ − x sin τ) dτ from 0 to π, trapezia: exact to rounding for x
    well under their number."""
    many = 800
    return sum(cos(order * t - x * sin(t)) for t in ((i + 0.5) * pi / many for i in range(many))) / many


def cylinder_mean(diffusivity: float, surface: float, radius: float, time: float, terms: int = 40) -> float:
    """A long cylinder. β J1(β) = L J0(β), L = S · radius / D."""
    number = surface * radius / diffusivity

    def value(b: float) -> float:
        return b * bessel(1, b) - number * bessel(0, b)

    total, found, at, step = 0.0, 0, 1e-9, 0.25
    while found < terms:
        if (value(at) > 0) != (value(at + step) > 0):
            b = _root(value, at, at + step)
            total += 4 * number**2 / (b**2 * (b**2 + number**2)) * exp(-(b**2) * diffusivity * time / radius**2)
            found += 1
        at += step
    return 1 - total
