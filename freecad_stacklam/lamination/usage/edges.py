# SPDX-License-Identifier: LGPL-2.1-or-later

"""How far out on a top a load inside its edge can stand. Standing, sections and the deep check take the same places."""

from __future__ import annotations

import shapely
from shapely.geometry.base import BaseGeometry

#: Where a top is narrower than twice the inset, a load stands this part of its greatest half width inside the edge: it
#: can stand anywhere along a narrow bench, not in its middle alone. A guess.
NARROW = 0.8
#: How near the greatest half width is found, mm, and to what the outline is thinned for it.
_NEAR, _THINNED = 0.5, 0.3


def inside_edge(outline: BaseGeometry, inset: float) -> BaseGeometry:
    """What of an outline lies `inset` mm or more inside its edge; of one too narrow for that, what lies NARROW of its
    greatest half width inside. Empty only for an empty outline."""
    inner: BaseGeometry = shapely.buffer(outline, -inset, join_style="mitre")
    if not inner.is_empty or outline.is_empty:
        return inner
    thin = shapely.simplify(outline, _THINNED)
    half = float(shapely.maximum_inscribed_circle(outline if thin.is_empty else thin, tolerance=_NEAR).length)
    inner = shapely.buffer(outline, -min(inset, NARROW * half), join_style="mitre")
    return outline if inner.is_empty else inner
