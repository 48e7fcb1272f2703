# SPDX-License-Identifier: LGPL-2.1-or-later

"""The colours of a map on the form: light for little, dark for much, so that it reads in grey too.

Values are parts of one (0.25 is a quarter); they fall into bands of one width, each with its colour in the legend.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, log10

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.tolerances import WHOLE

Colour = tuple[float, float, float]

#: Cream, straw, ochre, brick, wine, near black: our own choice, every one darker than the one before.
STOPS: tuple[Colour, ...] = (
    (0.99, 0.97, 0.86),
    (0.97, 0.84, 0.53),
    (0.90, 0.60, 0.24),
    (0.76, 0.33, 0.20),
    (0.49, 0.13, 0.22),
    (0.18, 0.04, 0.14),
)
#: At most so many bands: more could not be told apart.
MOST = 6
#: Widths of a band, times a power of ten, that read well.
_ROUND = (1.0, 2.0, 2.5, 5.0, 10.0)


@dataclass(frozen=True)
class Bands:
    """`count` bands, each `step` wide, from 0; the first holds all that is less, the last all that is more."""

    step: float
    count: int

    @property
    def colours(self) -> tuple[Colour, ...]:
        """One for each band, light to dark."""
        return tuple(colour_at(n / max(self.count - 1, 1)) for n in range(self.count))

    def of(self, values: NDArray[np.float64]) -> NDArray[np.int64]:
        """The band of each value, from 0."""
        found = np.floor(np.asarray(values, dtype=np.float64) / self.step + WHOLE)
        return np.clip(found, 0, self.count - 1).astype(np.int64)

    def words(self) -> tuple[str, ...]:
        """What each band holds, in per cent."""
        return tuple(f"{_percent(n * self.step)} to {_percent((n + 1) * self.step)} %" for n in range(self.count))


def bands_for(greatest: float) -> Bands:
    """The bands for values up to the greatest; one band where nothing is above 0."""
    if not greatest > 0:
        return Bands(0.01, 1)
    least = greatest / MOST
    power = 10.0 ** floor(log10(least))
    step = next(r * power for r in _ROUND if r * power >= least * (1 - WHOLE))
    return Bands(step, min(MOST, max(1, ceil(greatest / step - WHOLE))))


def colour_at(part: float) -> Colour:
    """The colour at a part of the ramp, 0 to 1."""
    at = min(max(part, 0.0), 1.0) * (len(STOPS) - 1)
    low = min(int(at), len(STOPS) - 2)
    red, green, blue = (a + (at - low) * (b - a) for a, b in zip(STOPS[low], STOPS[low + 1]))
    return red, green, blue


def hex_of(colour: Colour) -> str:
    """A colour as pages and labels write it, #rrggbb."""
    return "#" + "".join(f"{round(255 * c):02x}" for c in colour)


def ink_on(colour: Colour) -> Colour:
    """Black or white, whichever reads better on a colour."""
    red, green, blue = colour
    light = 0.299 * red + 0.587 * green + 0.114 * blue  # luma of ITU-R BT.601
    return (0.0, 0.0, 0.0) if light > 0.5 else (1.0, 1.0, 1.0)


def _percent(part: float) -> str:
    return f"{100 * part:.4g}"
