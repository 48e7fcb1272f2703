# SPDX-License-Identifier: LGPL-2.1-or-later

"""Moisture in wood: what the air of a room keeps it at, and what a glue adds at its lines.

Moisture content is water over oven-dry wood by mass, in percent; a difference of two is in points.
"""

from __future__ import annotations

from math import isfinite

from freecad_stacklam.lamination.quantities import both_temperatures
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: Temperatures, °C, between which the handbook tabulates the equilibrium (Table 4-2: 30 to 270 °F).
COLDEST, HOTTEST = -1.2, 132.3
#: Days after which planing a joint leaves no hollow along it, in a room (extension literature on sunken joints of edge
#: glued panels: a week is generally enough; it moves with air, warmth and wood, so it is no more than a rule of thumb).
SETTLING = 7.0
#: Points of moisture below which a glue line needs no such wait: what a good moisture meter does not show. Common
#: practice, no source.
LITTLE = 0.05
_DAY = 86_400.0


def equilibrium_moisture(temperature: float, humidity: float) -> float:
    """Moisture content, %, that wood comes to in air of `temperature` °C and `humidity` % (Eq. 4-5 of the Wood
    Handbook, FPL-GTR-282 (2021), the same in FPL-GTR-190 (2010)). Raises Refusal outside what it tabulates."""
    if not isfinite(humidity) or not 0 <= humidity < 100:
        raise Refusal(
            say(
                "A relative humidity of {humidity:g} % cannot be: give 0 to 99 %, as a hygrometer shows it.",
                humidity=humidity,
            )
        )
    if not COLDEST <= temperature <= HOTTEST:
        raise Refusal(
            say(
                "At {temperature} nothing is known of wood's moisture: give a temperature of {coldest} to {hottest}.",
                temperature=both_temperatures(temperature),
                coldest=both_temperatures(COLDEST),
                hottest=both_temperatures(HOTTEST),
            )
        )
    t, h = temperature, humidity / 100
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    first = k * h / (1 - k * h)
    second = (k1 * k * h + 2 * k1 * k2 * (k * h) ** 2) / (1 + k1 * k * h + k1 * k2 * (k * h) ** 2)
    return 1800 / w * (first + second)


def water_added(spread: float, share: float, dry_density: float, thickness: float) -> float:
    """Points of moisture that one glue line adds to one thickness of wood, g · w / (ρ₀ · t): each of its two layers
    takes half, and a layer inside a stack has two lines.

    spread: wet glue on the line, g/m², both faces counted; share: the part of it that is water and goes into the wood;
    dry_density: oven-dry mass over volume, kg/m³; thickness: of the layer, mm. Derived from the mass of the water.
    Raises Refusal for wood without mass or thickness.
    """
    if not (dry_density > 0 and thickness > 0):
        raise Refusal(say("Water from glue needs wood with a density and a thickness above 0."))
    grams = spread * share
    dry = dry_density * thickness  # g/m²: kg/m³ × mm
    return 100 * grams / dry


def days_to_wait(points: float, cure: float) -> float:
    """Days from gluing until the lines are carved or planed: until the glue is cured (`cure` s), and where it adds
    water, `points` of moisture, until that has spread from the line, so that the swollen wood is not cut flush and
    sinks later."""
    return max(cure / _DAY, SETTLING if points > LITTLE else 0.0)
