# SPDX-License-Identifier: LGPL-2.1-or-later

"""Strength by sections: the use against height beside each stack, the worst places, the joints, the wood's figures."""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot, log10

import shapely

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import in_inches, number, unit_name
from freecad_stacklam.benchsheets.drawing.paper import SCALES
from freecad_stacklam.benchsheets.drawing.sheet import (
    LARGE,
    NOTE,
    PLAIN,
    Circle,
    FilledRegion,
    Mark,
    Polyline,
    Sheet,
    Text,
)
from freecad_stacklam.benchsheets.pages.blocks import Block, Column, flow, notes
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.tablepages import table_pages
from freecad_stacklam.benchsheets.pages.titleblock import block_of, title_block
from freecad_stacklam.lamination.findings.strength import Curve, SectionFinding, StrengthFindings
from freecad_stacklam.lamination.lengths import rounded_up
from freecad_stacklam.lamination.plan.layers import SideView, StackPlan
from freecad_stacklam.lamination.quantities import PSI, format_force
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.tolerances import ROUNDING

KIND = "strength"
#: A quarter of the mean, as the checks take it, and the mean itself.
LIMIT, BREAKS = 0.25, 1.0
#: Uses from this up are drawn, on a scale of tenfold steps.
LEAST, MOST = 0.01, 10.0
#: Room for the heading, between the views, for axes and words, mm.
HEADING, GAP, AXIS, WORDS = 13.0, 8.0, 14.0, 6.0
#: Places that are listed, the worst first.
MARKED = 8
#: The plots stand in the upper part of the page.
SHARE = 0.4

ESTIMATE = (
    "An estimate by sections, in means of small clear specimens, never a compliance test: sections see no peaks at "
    "edges and holes, and no knots. Use is stress over the mean that breaks half of such wood; a quarter is usual.",
    "Full line: with the joints as they are. Dashed: as if there were no joint. Dots: the tenon in the section.",
    "No strength across the grain has a known variation, so nothing here is ever better than a caution.",
)


def strength_sheets(book: Book, findings: StrengthFindings) -> list[Sheet]:
    """The plots on one page with as much of the tables as it holds, the rest on further pages. Not yet numbered."""
    page = book.desk.portrait()
    space = drawing_space(page)
    title = "Strength by sections"
    top = space.y + space.height - HEADING
    head = Text((space.x + 1.0, space.y + space.height - LARGE), title, LARGE, bold=True, fit=space.width - 2.0)
    stacks = [s for s in book.plan.stacks if any(c.stack == s.name for c in findings.curves) and s.in_model]
    height = 0.0
    if stacks:
        # As high as the views come out at their scale, so that the tables follow close below.
        _, low, _, high = _bounds(stacks)
        n = _scale(stacks, 0.5 * (space.width - 2.0), SHARE * space.height - AXIS - WORDS)
        height = (high - low) / n + AXIS + WORDS
    plots = _plots(book, findings, stacks, (space.x + 1.0, top - height, space.width - 2.0, height)) if stacks else []
    column = Column(space.x + 1.0, top - height - 2.0, space.width - 2.0, top - height - space.y - 4.0)
    tables, left = flow(_blocks(book, findings, column.width), [column])
    block = block_of(book, "Strength", "", f"Strength by sections, tenon {findings.tenon}", note="an estimate")
    marks = (head, *plots, *tables, *title_block(page, block))
    sheets = [Sheet(KIND, title, (page.width, page.height), tuple(marks), paper_name=page.name)]
    if left:
        sheets += table_pages(KIND, f"{title}, continued", page, block, left, column.width)
    return sheets


def _plots(
    book: Book, findings: StrengthFindings, stacks: Sequence[StackPlan], box: tuple[float, float, float, float]
) -> list[Mark]:
    """All stacks in the model from the front to the left, and use against the same heights to the right."""
    x, y, width, height = box
    views = [stack.in_model[0] for stack in stacks]
    left, low, right, high = _bounds(stacks)
    n = _scale(stacks, 0.5 * width, height - AXIS - WORDS)
    foot = y + AXIS
    up = (high - low) / n
    drawn = (right - left) / n
    start = x + (0.5 * width - drawn) / 2

    def place(across: float, z: float) -> tuple[float, float]:
        return start + (across - left) / n, foot + (z - low) / n

    marks: list[Mark] = [Text((x + 0.25 * width, foot + up + 3.0), f"from the front, scale 1:{n}", PLAIN, "centre")]
    for view in views:
        marks += _silhouette(view, place)
    for names, at in _apart([place(one.place[0], one.place[2]) for one in _marked(findings)]):
        marks.append(Circle(at, 1.4, "thin"))
        marks.append(Text((at[0] + 2.0, at[1] + 0.6), names, PLAIN, bold=True))
    plot = x + 0.5 * width + GAP, foot, 0.5 * width - GAP - 4.0, up
    marks += _axes(plot)
    for curve in findings.curves:
        marks += _curve(curve, plot, low, n)
    return marks


def _bounds(stacks: Sequence[StackPlan]) -> tuple[float, float, float, float]:
    """All stacks as seen from the front: left, low, right, high in the model, mm."""
    bounds = [stack.in_model[0].silhouette.bounds for stack in stacks]
    low = [min(b[i] for b in bounds) for i in (0, 1)]
    high = [max(b[i] for b in bounds) for i in (2, 3)]
    return low[0], low[1], high[0], high[1]


def _scale(stacks: Sequence[StackPlan], width: float, height: float) -> int:
    """The largest scale at which they fit, 1 to so many."""
    left, low, right, high = _bounds(stacks)
    room = height + ROUNDING
    return next((s for s in SCALES if (high - low) / s <= room and (right - left) / s <= width), SCALES[-1])


def _apart(places: Sequence[tuple[float, float]]) -> list[tuple[str, tuple[float, float]]]:
    """The numbers of the places on the page, those too near to each other to be told apart as one."""
    found: list[tuple[str, tuple[float, float]]] = []
    for i, at in enumerate(places, 1):
        near = next((k for k, (_, other) in enumerate(found) if hypot(at[0] - other[0], at[1] - other[1]) < 4.0), None)
        if near is None:
            found.append((str(i), at))
        else:
            found[near] = f"{found[near][0]}, {i}", found[near][1]
    return found


def _silhouette(view: SideView, place) -> list[Mark]:  # type: ignore[no-untyped-def]
    rings = [
        ring
        for part in shapely.get_parts(view.silhouette).tolist()
        for ring in (part.exterior, *part.interiors)
    ]  # fmt: skip
    return [Polyline(tuple(place(px, pz) for px, pz in ring.coords), "finished") for ring in rings]


def _marked(findings: StrengthFindings) -> Sequence[SectionFinding]:
    """The sections that the table lists."""
    return findings.sections[:MARKED]


def _across(use: float, width: float) -> float:
    """Where a use lies on a plot `width` mm wide: equal steps for tenfold uses."""
    kept = min(max(use, LEAST), MOST)
    return width * (log10(kept) - log10(LEAST)) / (log10(MOST) - log10(LEAST))


def _axes(plot: tuple[float, float, float, float]) -> list[Mark]:
    x, y, width, height = plot
    marks: list[Mark] = [
        Polyline(((x, y), (x + width, y), (x + width, y + height), (x, y + height)), "fine", closed=True),
        Text((x + width / 2, y - 8.6), "use of the mean strength", PLAIN, "centre", fit=width),
    ]
    for use, words, pen in (
        (0.01, "1 %", ""), (0.1, "10 %", "trim"), (LIMIT, "25 %", "hidden"), (BREAKS, "100 %", "cut"),
        (10.0, "×10", ""),
    ):  # fmt: skip
        at = x + _across(use, width)
        if pen:
            marks.append(Polyline(((at, y), (at, y + height)), pen))
        marks.append(Text((at, y - 3.4), words, NOTE, "centre"))
    marks.append(Text((x + _across(BREAKS, width), y + height + 1.2), "half of all break", NOTE, "centre"))
    return marks


def _curve(curve: Curve, plot: tuple[float, float, float, float], low: float, n: int) -> list[Mark]:
    x, y, width, _ = plot

    def line(uses: Sequence[float]) -> tuple[tuple[float, float], ...]:
        return tuple((x + _across(u, width), y + (z - low) / n) for z, u in zip(curve.heights, uses, strict=True))

    marks: list[Mark] = []
    if curve.whole != curve.use:
        marks.append(Polyline(line(curve.whole), "hidden"))
    marks.append(Polyline(line(curve.use), "mortise"))
    for z, use in zip(curve.heights, curve.tenon_use, strict=True):
        if use > LEAST:
            at = x + _across(use, width), y + (z - low) / n
            marks.append(FilledRegion((_dot(*at),)))
    return marks


def _dot(x: float, y: float, half: float = 0.45) -> tuple[tuple[float, float], ...]:
    return (x - half, y), (x, y - half), (x + half, y), (x, y + half)


def _pressure(book: Book, pressure: float) -> str:
    return f"{pressure / PSI:.0f}" if in_inches(book.units) else f"{pressure:.2f}"


def _blocks(book: Book, findings: StrengthFindings, width: float) -> list[Block]:
    unit = unit_name(book.units)
    stress = "psi" if in_inches(book.units) else "MPa"
    rows = []
    for i, s in enumerate(_marked(findings), 1):
        do = number(rounded_up(s.do, book.units.first), book.units) if s.do else "–"
        rows.append(
            (
                str(i), s.kind, f"{s.stack} {s.layer}", number(s.height, book.units), s.load,
                _pressure(book, s.bending + s.axial), _pressure(book, s.shear), _pressure(book, s.strength),
                "–" if s.cov is None else f"{s.cov:.0%}", f"{s.use:.0%}",
                f"{s.tenon_use:.0%}" if s.tenon_use else "–", do,
            )
        )  # fmt: skip
    blocks = [
        Block(
            f"The worst places (heights in the model and sizes in {unit}, stresses in {stress})",
            ("", "kind", "layer", "height", "load", "stress", "shear", "mean", "vary", "use", "tenon", "would do"),
            (3, 9, 13, 8, 25, 7.5, 7, 7.5, 6, 6.5, 7, 10),
            (True, True, True, False, True, *(False,) * 7),
            tuple(rows),
        )
    ]
    if findings.joints:
        joints = tuple(
            (
                j.name, j.load, f"{_pressure(book, j.bending)} of {_pressure(book, j.strength)}",
                f"{_pressure(book, j.bearing)} of {_pressure(book, j.crush)}",
                f"{_pressure(book, j.rolling)} of {_pressure(book, j.rolling_strength)}" if j.way == "glued" else "dry",
                f"{_force(book, j.pull)} of {_force(book, j.holds)}" if j.way == "glued" and j.lever > 0 else "–",
                "–" if j.design is None else _force(book, j.design), f"{j.use:.0%}",
            )
            for j in findings.joints
        )  # fmt: skip
        joint_heads = (
            "joint",
            "load",
            "tenon bent",
            "walls pressed",
            "walls sheared",
            "held at shoulder",
            "pull",
            "use",
        )
        shares = (19, 20, 14, 13, 13, 18, 10, 6)
        left = (True, True, *(False,) * 6)
        blocks.append(Block(f"Joints: alone, and with the shoulder ({stress})", joint_heads, shares, left, joints))
    wood = tuple(
        (
            f.species, f.what, _pressure(book, f.mean), "–" if f.cov is None else f"{f.cov:.0%}",
            "–" if f.allowable is None else _pressure(book, f.allowable), f.source,
        )
        for f in findings.wood
    )  # fmt: skip
    if wood:
        heads = ("wood", "strength", "mean", "vary", "allow.", "source")
        blocks.append(
            Block(
                f"Means, how they vary, and the allowable of ASTM D245 from memory ({stress})",
                heads, (13, 24, 7, 6, 7, 75), (True, True, False, False, False, True), wood,
            )
        )  # fmt: skip
    sentences = (*ESTIMATE, *findings.notes, *(told(one.says, book.units.first) for one in findings.left_out))
    return [*blocks, notes("How to read it", sentences, width)]


def _force(book: Book, force: float) -> str:
    return format_force(force, book.units.first)
