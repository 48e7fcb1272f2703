# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where two layers meet on a glue line. mm, mm²."""

from __future__ import annotations

import shapely

from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.plan.gluing import Interface
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.pressing.faces import lower_face, upper_face

#: Wood that meets on less than this holds nothing, mm².
LEAST_CONTACT = 1.0


def interfaces_of(stack: StackPlan) -> tuple[Interface, ...]:
    """Every glue line of a stack, from the bottom. A line where nothing meets has no area and its middle at 0, 0."""
    return tuple(interface_of(below, above) for below, above in zip(stack.layers, stack.layers[1:]))


def interface_of(below: LayerPlan, above: LayerPlan) -> Interface:
    """Where two neighbouring layers meet: the lower one's upper face and the upper one's lower face, each less what is
    cut out of it there."""
    contact = areas_of(shapely.intersection(upper_face(below), lower_face(above)))
    middle = shapely.centroid(contact)
    at = (0.0, 0.0) if contact.is_empty else (float(middle.x), float(middle.y))
    return Interface(below.number, below.top, contact, float(contact.area), at)
