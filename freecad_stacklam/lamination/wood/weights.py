# SPDX-License-Identifier: LGPL-2.1-or-later

"""What wood weighs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from freecad_stacklam.lamination.lengths import CUBIC_METRE
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.wood.species import Species, density, find_species


def weight_of(table: Mapping[str, Species], species: str, moisture: float = 12.0) -> float | None:
    """Density at `moisture` %, kg/mm³; None when the table does not know the species or its gravity, or the moisture
    cannot be."""
    try:
        return density(find_species(table, species), moisture) / CUBIC_METRE
    except Refusal:
        return None


def mass_of(table: Mapping[str, Species], parts: Sequence[tuple[str, float]]) -> float | None:
    """Mass, kg, of (species, mm³) parts; None as soon as one species has no known density."""
    total = 0.0
    for species, volume in parts:
        weight = weight_of(table, species)
        if weight is None:
            return None
        total += weight * volume
    return total
