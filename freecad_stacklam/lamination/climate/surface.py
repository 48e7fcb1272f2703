# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the air of the room asks of bare wood, month by month and between."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.seasons import MONTHS
from freecad_stacklam.lamination.wood import moisture
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]

#: The wettest air that the handbook's equation is used for, %: at 100 % water condenses.
WETTEST = 99.0
YEAR = 365.0


def month_equilibrium(temperature: float, humidity: float) -> float:
    """Moisture, %, that wood comes to (Eq. 4-5); in frost as at the coldest that the handbook tabulates, in wet air as
    at the wettest."""
    held = min(max(temperature, moisture.COLDEST), moisture.HOTTEST)
    return moisture.equilibrium_moisture(held, min(humidity, WETTEST))


def month_equilibria(months: Sequence[tuple[float, float]]) -> tuple[float, ...]:
    """The same for each month, from temperature °C and humidity %."""
    return tuple(month_equilibrium(*month) for month in months)


def beyond_the_table(months: Sequence[tuple[float, float]]) -> tuple[str, ...]:
    """Sentences on months that the equation does not hold for."""
    cold = [say(name) for name, (t, _) in zip(MONTHS, months) if t < moisture.COLDEST]
    wet = [say(name) for name, (_, h) in zip(MONTHS, months) if h > WETTEST]
    found = []
    if cold:
        found.append(
            say(
                "In {months} it freezes: nothing is tabulated there, and the least cold is taken.",
                months=", ".join(cold),
            )
        )
    if wet:
        found.append(
            say(
                "In {months} the air is wet through: {wettest:g} % is taken, and wet wood rots.",
                months=", ".join(wet),
                wettest=WETTEST,
            )
        )
    return tuple(found)


def over_the_year(values: Sequence[float], steps: int) -> Floats:
    """The value at the end of each of `steps` equal steps of a year that begins with January: straight lines between
    the middles of the months, December's to January's too."""
    middles = (np.arange(-1, 13) + 0.5) / 12
    round_ = [values[-1], *values, values[0]]
    return np.interp((np.arange(steps) + 1) / steps, middles, round_)
