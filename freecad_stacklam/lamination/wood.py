"""Species and what a maker must know of them. The table itself is data; this room knows what the figures mean."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Species:
    """One species at 12 % moisture content, from the table the source names.

    specific_gravity is oven-dry mass over volume at 12 % (None: unknown); shrink_radial and shrink_tangential are
    percent from green to oven-dry; strengths MPa, stiffness GPa (means of small clear specimens, not design values).
    """

    name: str
    specific_gravity: float | None
    green_gravity: float | None = None
    shrink_radial: float | None = None
    shrink_tangential: float | None = None
    shrink_volume: float | None = None
    bending: float | None = None
    stiffness: float | None = None
    shear: float | None = None
    tension_across: float | None = None
    compression_across: float | None = None
    hardness: float | None = None
    source: str = ""
