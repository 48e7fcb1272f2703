# SPDX-License-Identifier: LGPL-2.1-or-later

"""The colour of a layer in the 3D view: that of its wood, light and dark by turns, so that neighbours show apart.

The colours are those of planed heartwood as makers know it; no source gives them as numbers.
"""

from __future__ import annotations

Colour = tuple[float, float, float]

#: Light tint of a wood, by a word of its name; the first word that fits counts.
WOODS: dict[str, Colour] = {
    "walnut": (0.58, 0.43, 0.32),
    "cherry": (0.84, 0.59, 0.42),
    "mahogany": (0.76, 0.48, 0.36),
    "teak": (0.78, 0.60, 0.36),
    "red oak": (0.91, 0.74, 0.60),
    "maple": (0.97, 0.90, 0.78),
    "birch": (0.95, 0.85, 0.68),
    "beech": (0.92, 0.76, 0.60),
    "ash": (0.94, 0.88, 0.76),
    "poplar": (0.86, 0.86, 0.66),
    "basswood": (0.96, 0.91, 0.80),
    "pine": (0.97, 0.86, 0.62),
    "fir": (0.91, 0.70, 0.48),
}
#: White oak, and every wood that is not known here.
PLAIN: Colour = (0.93, 0.83, 0.66)
#: What turns a light tint into its dark one.
_DARK = (0.71, 0.59, 0.45)


def tints_of(species: str) -> tuple[Colour, Colour]:
    """The light and the dark tint of a wood."""
    name = species.lower().replace("-", " ")
    light = next((colour for word, colour in WOODS.items() if f" {word}" in f" {name}" or name.endswith(word)), PLAIN)
    red, green, blue = (round(c * d, 2) for c, d in zip(light, _DARK))
    return light, (red, green, blue)


#: Every tint that a layer is given; another colour is the maker's own choice and stays.
ALL = frozenset(tint for word in (*WOODS, "") for tint in tints_of(word))
