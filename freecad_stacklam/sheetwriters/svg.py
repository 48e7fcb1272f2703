# SPDX-License-Identifier: LGPL-2.1-or-later

"""A sheet as SVG in millimetres, as plain XML: exact to 0.0001 mm, text stays text, and no Qt module is needed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import cos, radians, sin
from pathlib import Path
from xml.etree import ElementTree as ET

from freecad_stacklam.benchsheets.drawing.backend import draw
from freecad_stacklam.benchsheets.drawing.lettering import text_width
from freecad_stacklam.benchsheets.drawing.sheet import PENS, Arc, Circle, FilledRegion, Polyline, Sheet, Text
from freecad_stacklam.sheetwriters.aside import aside

#: Height of the capitals over the size of the type in common sans-serif fonts.
CAPITALS = 0.72
#: What a file begins with, by which it is known as ours.
HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n<!-- Drawn by StackLam -->\n'
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


class _Groups:
    """The backend: patches, then a group for each pen, then the lettering, each in the order of its marks."""

    def __init__(self, root: ET.Element, height: float) -> None:
        self.root, self.height = root, height
        self.ink = ET.SubElement(root, "g", {"fill": "black", "fill-rule": "evenodd", "stroke": "none"})
        self.pens: dict[str, ET.Element] = {}
        look = {"fill": "black", "font-family": "DejaVu Sans, Liberation Sans, Arial, sans-serif"}
        self.lettering = ET.Element("g", look)

    def _group(self, name: str) -> ET.Element:
        if name not in self.pens:
            pen = PENS[name]
            look = {"id": name.replace(" ", "-"), "fill": "none", "stroke": "black"}
            look |= {"stroke-width": _n(pen.width), "stroke-linejoin": "round"}
            if pen.dashes:
                look["stroke-dasharray"] = " ".join(_n(d) for d in pen.dashes)
            self.pens[name] = ET.SubElement(self.root, "g", look)
        return self.pens[name]

    def polyline(self, mark: Polyline) -> None:
        ET.SubElement(self._group(mark.pen), "path", {"d": _chain(mark.points, self.height, mark.closed)})

    def circle(self, mark: Circle) -> None:
        centre = {"cx": _n(mark.centre[0]), "cy": _n(self.height - mark.centre[1]), "r": _n(mark.radius)}
        ET.SubElement(self._group(mark.pen), "circle", centre)

    def arc(self, mark: Arc) -> None:
        ET.SubElement(self._group(mark.pen), "path", {"d": _arc(mark, self.height)})

    def region(self, mark: FilledRegion) -> None:
        ET.SubElement(self.ink, "path", {"d": "".join(_chain(loop, self.height, True) for loop in mark.loops)})

    def text(self, mark: Text) -> None:
        x, y = _n(mark.at[0]), _n(self.height - mark.at[1])
        element = ET.SubElement(self.lettering, "text", {"x": x, "y": y, "font-size": _n(mark.height / CAPITALS)})
        if mark.align != "left":
            element.set("text-anchor", ANCHORS[mark.align])
        if mark.bold:
            element.set("font-weight", "bold")
        if mark.turn:
            element.set("transform", f"rotate({_n(-mark.turn)} {x} {y})")
        if mark.fit is not None and text_width(mark.text, mark.height, mark.bold) > mark.fit:
            element.set("textLength", _n(mark.fit))
            element.set("lengthAdjust", "spacingAndGlyphs")
        element.text = _clean(mark.text)


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
    groups = _Groups(root, height)
    draw(sheet.marks, groups)
    root.append(groups.lettering)
    return ET.tostring(root, encoding="unicode")


def write_svg(sheet: Sheet, path: str | Path) -> None:
    """The sheet as an SVG file."""
    with aside(path) as temporary:
        temporary.write_text(f"{HEAD}{svg_text(sheet)}\n", encoding="utf-8")
