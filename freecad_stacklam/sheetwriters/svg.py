# SPDX-License-Identifier: LGPL-2.1-or-later

"""A sheet as SVG in millimetres, as plain XML: exact to 0.0001 mm, text stays text, and no Qt module is needed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import cos, radians, sin
from pathlib import Path
from xml.etree import ElementTree as ET

from freecad_stacklam.benchsheets.drawing.lettering import text_width
from freecad_stacklam.benchsheets.drawing.sheet import PENS, Arc, Circle, FilledRegion, Polyline, Sheet, Text
from freecad_stacklam.sheetwriters.aside import aside

#: Height of the capitals over the size of the type in common sans-serif fonts.
CAPITALS = 0.72
ANCHORS = {"left": "start", "centre": "middle", "right": "end"}


def _n(value: float) -> str:
    return f"{value:.4f}".rstrip("0").rstrip(".")


def _clean(text: str) -> str:
    """Without the control characters that XML does not allow."""
    return "".join(c for c in text if c >= " " and c not in "\ufffe\uffff" and not "\ud800" <= c <= "\udfff")


def _chain(points: Iterable[Sequence[float]], height: float, closed: bool) -> str:
    return "M" + "L".join(f"{_n(x)},{_n(height - y)}" for x, y in points) + ("Z" if closed else "")


def _arc(arc: Arc, height: float) -> str:
    ends = [
        (arc.centre[0] + arc.radius * cos(radians(a)), arc.centre[1] + arc.radius * sin(radians(a)))
        for a in (arc.start, arc.start + arc.sweep)
    ]
    (x0, y0), (x1, y1) = ends
    large, side = int(abs(arc.sweep) > 180), int(arc.sweep < 0)
    r = _n(arc.radius)
    return f"M{_n(x0)},{_n(height - y0)}A{r},{r} 0 {large} {side} {_n(x1)},{_n(height - y1)}"


def _text(parent: ET.Element, text: Text, height: float) -> None:
    x, y = _n(text.at[0]), _n(height - text.at[1])
    element = ET.SubElement(parent, "text", {"x": x, "y": y, "font-size": _n(text.height / CAPITALS)})
    if text.align != "left":
        element.set("text-anchor", ANCHORS[text.align])
    if text.bold:
        element.set("font-weight", "bold")
    if text.turn:
        element.set("transform", f"rotate({_n(-text.turn)} {x} {y})")
    if text.fit is not None and text_width(text.text, text.height, text.bold) > text.fit:
        element.set("textLength", _n(text.fit))
        element.set("lengthAdjust", "spacingAndGlyphs")
    element.text = _clean(text.text)


def svg_text(sheet: Sheet) -> str:
    """The sheet as the text of an SVG document."""
    width, height = sheet.paper
    root = ET.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "width": f"{_n(width)}mm",
            "height": f"{_n(height)}mm",
            "viewBox": f"0 0 {_n(width)} {_n(height)}",
        },
    )
    ET.SubElement(root, "title").text = _clean(sheet.title)
    paper = {"width": _n(width), "height": _n(height), "fill": "white"}
    ET.SubElement(root, "rect", paper)
    groups: dict[str, ET.Element] = {}
    ink = ET.SubElement(root, "g", {"fill": "black", "fill-rule": "evenodd", "stroke": "none"})
    letters = {"fill": "black", "font-family": "DejaVu Sans, Liberation Sans, Arial, sans-serif"}
    lettering = ET.Element("g", letters)
    for mark in sheet.marks:
        if isinstance(mark, Text):
            _text(lettering, mark, height)
        elif isinstance(mark, FilledRegion):
            ET.SubElement(ink, "path", {"d": "".join(_chain(loop, height, True) for loop in mark.loops)})
        else:
            if mark.pen not in groups:
                pen = PENS[mark.pen]
                look = {"id": mark.pen.replace(" ", "-"), "fill": "none", "stroke": "black"}
                look |= {"stroke-width": _n(pen.width), "stroke-linejoin": "round"}
                if pen.dashes:
                    look["stroke-dasharray"] = " ".join(_n(d) for d in pen.dashes)
                groups[mark.pen] = ET.SubElement(root, "g", look)
            group = groups[mark.pen]
            if isinstance(mark, Polyline):
                ET.SubElement(group, "path", {"d": _chain(mark.points, height, mark.closed)})
            elif isinstance(mark, Circle):
                centre = {"cx": _n(mark.centre[0]), "cy": _n(height - mark.centre[1]), "r": _n(mark.radius)}
                ET.SubElement(group, "circle", centre)
            else:
                ET.SubElement(group, "path", {"d": _arc(mark, height)})
    root.append(lettering)
    return ET.tostring(root, encoding="unicode")


def write_svg(sheet: Sheet, path: str | Path) -> None:
    """The sheet as an SVG file."""
    with aside(path) as temporary:
        temporary.write_text('<?xml version="1.0" encoding="UTF-8"?>\n' + svg_text(sheet) + "\n", encoding="utf-8")
