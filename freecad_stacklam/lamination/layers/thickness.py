# SPDX-License-Identifier: LGPL-2.1-or-later

"""The heights of the glue lines, from the boards that are there."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import MOST_LAYERS, PLANE_SNAP
from freecad_stacklam.lamination.words import say


def layer_planes(height: float, stock: float, planed: Sequence[float] = ()) -> tuple[float, ...]:
    """Heights of all planes from 0 to the top of the last layer, mm.

    height: of the form along the axis. stock: thickness of the boards. planed: measured thicknesses of the lowest
    layers, which win over `stock`. The last layer keeps its full thickness and may overshoot the form. Raises Refusal
    when a thickness is impossible for this form.
    """
    for t in (stock, *planed):
        if not t > 0:
            raise Refusal(
                say(
                    "Stock of {t} cannot be laid: give the planed thickness of your boards, more than nothing.",
                    t=size(t),
                )
            )
    if not planed and stock > height + PLANE_SNAP:
        raise Refusal(
            say(
                "The stock is thicker ({stock}) than the form is high ({height} along the axis): plane it thinner, "
                "or stack along another axis.",
                stock=size(stock),
                height=size(height),
            )
        )
    refuse_too_many(height, stock, planed)
    planes = [0.0]
    for t in planed:
        if planes[-1] >= height - PLANE_SNAP:
            break
        planes.append(planes[-1] + t)
    base, count = planes[-1], 0
    while planes[-1] < height - PLANE_SNAP:
        count += 1
        # Multiplied, not summed: the last plane of many layers is then exact.
        planes.append(base + count * stock)
    return tuple(planes)


def refuse_too_many(height: float, stock: float, planed: Sequence[float] = ()) -> None:
    """Raise Refusal where so many layers would be needed that they are not planned. Arguments as in layer_planes."""
    if (height - PLANE_SNAP) / stock > MOST_LAYERS:
        raise Refusal(
            say(
                "Stock of {stock} would give {height:.0f} layers in a form {form} high; more than {most_layers} "
                "are not planned: use thicker stock, glue thin stock up into thicker boards first and give their "
                "thickness, or check the unit.",
                stock=size(stock),
                height=height / stock,
                form=size(height),
                most_layers=MOST_LAYERS,
            )
        )
    if len(planed) > MOST_LAYERS:
        raise Refusal(
            say(
                "{planed} thicknesses are given as planed; more than {most_layers} layers are not planned: glue thin "
                "stock up into thicker boards first and give their thicknesses, or check the list.",
                planed=len(planed),
                most_layers=MOST_LAYERS,
            )
        )
