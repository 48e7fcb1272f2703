# SPDX-License-Identifier: LGPL-2.1-or-later

"""How much surface is sanded and finished, how much of it is end grain, and what that takes.

The surface is the carved form's mesh, layer by layer, because each layer has its own grain. Where one stack lies on
another both faces are counted, and the walls of mortises are not.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil

import numpy as np

from freecad_stacklam.lamination.findings.finishing import FinishFindings, Surface
from freecad_stacklam.lamination.form.frame import lying
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.moments import split_at
from freecad_stacklam.lamination.lengths import INCH, SQUARE_METRE, format_area
from freecad_stacklam.lamination.plan.bill import BillRow
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.tolerances import TINY_SQUARE, WHOLE
from freecad_stacklam.lamination.usage.finish import FinishSettings
from freecad_stacklam.lamination.words import figure, mark, say, say_many

#: Width of a band of angles, degrees, and how many there are.
BAND, BANDS = 10.0, 9
#: mm³ in a litre and in a fluid ounce (US: 231 in³ are 128 of them).
LITRE, FLUID_OUNCE = 1e6, 231 / 128 * INCH**3

RAGS = mark(
    "Rags, brushes and dust damp with this finish heat themselves as it cures and can catch fire: spread rags flat in "
    "the open until they are hard, or soak them in water in a closed metal can; never heap them or leave them in a bin."
)
_SHEET = mark("Follow the can's own sheet for air, gloves, mask and what children and food may touch.")
_DUST = mark("Sanding dust of many woods harms lungs and skin: extract it at the tool and wear a mask that fits.")


def surface_of(stack: StackPlan, mesh: Mesh, end_within: float = 30.0) -> Surface:
    """The surface of a carved stack, all its copies. mesh: of its form, in the model. end_within: degrees from the
    grain to the surface's square, within which it drinks as end grain."""
    corners = lying(mesh, stack.frame)[mesh.triangles]
    parts = split_at(corners, np.array([layer.bottom for layer in stack.layers[1:]]))
    bands = np.zeros(BANDS)
    total = end = 0.0
    for layer, part in zip(stack.layers, parts):
        square = np.cross(part[:, 1] - part[:, 0], part[:, 2] - part[:, 0])
        twice = np.linalg.norm(square, axis=1)
        turn = np.radians(layer.grain)
        grain = np.array([np.cos(turn), np.sin(turn), 0.0])
        along = np.abs(square @ grain) / np.maximum(twice, TINY_SQUARE)
        angle = np.degrees(np.arccos(np.minimum(along, 1.0)))
        bands += np.bincount(np.minimum(angle // BAND, BANDS - 1).astype(int), twice / 2, BANDS)
        total += float(twice.sum()) / 2
        end += float(twice[angle <= end_within].sum()) / 2
    times = stack.copies
    return Surface(stack.name, times * total, times * end, tuple(float(times * b) for b in bands))


def finish_findings(plan: Plan, meshes: Mapping[str, Mesh], finish: FinishSettings) -> FinishFindings:
    """What finishing all stacks of a plan takes, every copy counted. meshes: by the stacks' names, in the model."""
    surfaces = tuple(
        surface_of(stack, meshes[stack.name], finish.end_within)
        for stack in plan.stacks
        if stack.name in meshes and stack.layers
    )
    area, end = sum(s.area for s in surfaces), sum(s.end for s in surfaces)
    drinks = (area + (finish.end_grain - 1) * end) / SQUARE_METRE
    coats = 1 + finish.later_coats * (finish.coats - 1)
    litres = drinks / finish.coverage * coats * (1 + finish.finish_lost)
    sheets = ceil(area / SQUARE_METRE / finish.sheet_lasts - WHOLE)
    cautions = (*([RAGS] if finish.heats_itself else []), _SHEET, *([_DUST] if finish.grits else []))
    return FinishFindings(
        finish.finish, surfaces, finish.coats, litres, litres * (1 - finish.give_or_take),
        litres * (1 + finish.give_or_take), tuple((grit, sheets) for grit in finish.grits), cautions,
        finish.coverage, finish.end_grain, finish.end_within, finish.later_coats, finish.finish_lost,
        finish.sheet_lasts,
    )  # fmt: skip


def liquid(litres: float, units: str = "mm") -> str:
    """An amount of finish: "0.62 l", or "21 fl oz" (US) where lengths are read in inches."""
    if units == "in":
        return say("{ounces:.1f} fl oz", ounces=litres * LITRE / FLUID_OUNCE)
    return figure(f"{litres:.2f} l")


def coverage_text(coverage: float, units: str = "mm") -> str:
    """How far a finish goes, given in m² a litre: "12 m² per litre", or "122 sq ft per quart (489 per gallon)" (US,
    of 231 in³) where lengths are read in inches."""
    if units != "in":
        return say("{coverage:g} m² per litre", coverage=coverage)
    gallon = coverage * SQUARE_METRE / (12 * INCH) ** 2 * 128 * FLUID_OUNCE / LITRE
    return say("{quart:.0f} sq ft per quart ({gallon:.0f} per gallon)", quart=gallon / 4, gallon=gallon)


def finish_rows(found: FinishFindings, finish: FinishSettings, units: str = "mm") -> tuple[BillRow, ...]:
    """Rows of the bill: the finish, and the abrasives of each grit. None where there is no surface."""
    if not found.surfaces:
        return ()
    price = finish.litre_price
    share = 100 * found.end / found.area if found.area else 0.0
    how = say_many(
        "every copy; {count} coat on {area}, {share:.0f} % of it end grain, which drinks {end_grain:g} times as "
        "much; {litres}, between {least} and {most}, at {coverage}",
        "every copy; {count} coats on {area}, {share:.0f} % of it end grain, which drinks {end_grain:g} times as "
        "much; {litres}, between {least} and {most}, at {coverage}",
        found.coats,
        area=format_area(found.area, units),
        share=share,
        end_grain=finish.end_grain,
        litres=liquid(found.litres, units),
        least=liquid(found.least, units),
        most=liquid(found.most, units),
        coverage=coverage_text(finish.coverage, units),
    )
    if finish.heats_itself:
        how += "; " + say(
            "its damp rags can catch fire by themselves: spread them flat in the open, or soak them in water"
        )
    rows = [
        BillRow(
            "finish",
            found.finish,
            "",
            1,
            area=found.area,
            volume=found.litres * LITRE,
            how=how,
            cost=None if price is None else price * found.litres,
            per="" if price is None else say("{price:g} per litre × {litres:.3f} l", price=price, litres=found.litres),
        )
    ]
    return (*rows, *_abrasives(found.sheets, found.area, finish))


def _abrasives(sheets: Sequence[tuple[int, int]], area: float, finish: FinishSettings) -> list[BillRow]:
    how = say(
        "sheets or discs; the whole surface once with each grit, {sheet_lasts:g} m² a sheet",
        sheet_lasts=finish.sheet_lasts,
    )
    per = "" if finish.sheet_price is None else say("{sheet_price:g} per sheet", sheet_price=finish.sheet_price)
    return [
        BillRow(
            "abrasive", say("grit {grit}", grit=grit), "", count, area=area, how=how, cost=finish.sheet_price, per=per
        )
        for grit, count in sheets
    ]
