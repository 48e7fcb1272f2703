# SPDX-License-Identifier: LGPL-2.1-or-later

"""A sheet through a QPainter: the one place that knows how marks become ink."""

from __future__ import annotations

from typing import Any

import numpy as np

from freecad_stacklam.benchsheets.drawing.backend import draw
from freecad_stacklam.benchsheets.drawing.sheet import PENS, PLAIN, Arc, Circle, FilledRegion, Polyline, Sheet, Text
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.qt_binding import QtCore, QtGui, gui_application
from freecad_stacklam.sheetwriters.signs import spelled

#: Families tried in this order. All have the letters of the Latin alphabets, × and quotation marks.
FAMILIES = ("DejaVu Sans", "Liberation Sans", "Noto Sans", "Arial", "Helvetica")
#: Height of the capitals over the size of the type, when the font itself does not say.
CAPITALS = 0.72


class _Page:
    """The backend: what a page has to be inked with, in device units; y grows downwards from `height`."""

    def __init__(self, dots: float, height: float) -> None:
        self.dots, self.height = dots, height
        self.paths: dict[str, Any] = {}  # by pen
        self.ink = QtGui.QPainterPath()
        self.ink.setFillRule(QtCore.Qt.OddEvenFill)
        self.texts: list[Text] = []

    def _path(self, pen: str) -> Any:
        path = self.paths.get(pen)
        if path is None:
            path = self.paths[pen] = QtGui.QPainterPath()
        return path

    def _points(self, points: Any) -> list[Any]:
        """Points in whole device units. Long chains come as arrays and are worked out at once."""
        k, point = self.dots, QtCore.QPointF
        if isinstance(points, np.ndarray):
            return [point(x, y) for x, y in np.rint(points * (k, -k) + (0.0, self.height)).tolist()]
        return [point(round(x * k), round(self.height - y * k)) for x, y in points]

    def polyline(self, mark: Polyline) -> None:
        path = self._path(mark.pen)
        path.addPolygon(QtGui.QPolygonF(self._points(mark.points)))
        if mark.closed:
            path.closeSubpath()

    def circle(self, mark: Circle) -> None:
        k = self.dots
        centre = QtCore.QPointF(mark.centre[0] * k, self.height - mark.centre[1] * k)
        self._path(mark.pen).addEllipse(centre, mark.radius * k, mark.radius * k)

    def arc(self, mark: Arc) -> None:
        k, r = self.dots, mark.radius * self.dots
        box = QtCore.QRectF(mark.centre[0] * k - r, self.height - mark.centre[1] * k - r, 2 * r, 2 * r)
        path = self._path(mark.pen)
        path.arcMoveTo(box, mark.start)
        path.arcTo(box, mark.start, mark.sweep)

    def region(self, mark: FilledRegion) -> None:
        for loop in mark.loops:
            self.ink.addPolygon(QtGui.QPolygonF(self._points(loop)))
            self.ink.closeSubpath()

    def text(self, mark: Text) -> None:
        self.texts.append(mark)


class SheetPainter:
    """Draws sheets at `dots` device units per mm. Pens and fonts are made once and kept from page to page."""

    def __init__(self, dots: float) -> None:
        gui_application()
        self.dots = dots
        self._pens: dict[str, Any] = {}
        self._fonts: dict[tuple[float, bool], tuple[Any, Any]] = {}
        self._widths: dict[tuple[str, float, bool], float] = {}
        self._family = self._find_family()
        self._known: dict[str, bool] = {}
        self._last: Any = None

    @staticmethod
    def _find_family() -> str:
        families = set(QtGui.QFontDatabase().families())
        if not families:
            raise Refusal(
                "No font was found for the lettering: install one, for instance the package fonts-dejavu-core."
            )
        return next((f for f in FAMILIES if f in families), sorted(families)[0])

    def pen(self, name: str) -> Any:
        """The Qt pen of a line kind. Qt counts dashes in widths of the pen."""
        if name not in self._pens:
            kind = PENS[name]
            pen = QtGui.QPen(QtGui.QColor(0, 0, 0))
            pen.setWidthF(kind.width * self.dots)
            pen.setJoinStyle(QtCore.Qt.RoundJoin)
            pen.setCapStyle(QtCore.Qt.FlatCap)
            if kind.dashes:
                pen.setDashPattern([d / kind.width for d in kind.dashes])
            self._pens[name] = pen
        return self._pens[name]

    def font(self, height: float, bold: bool, device: Any) -> tuple[Any, Any]:
        """The font whose capitals are `height` mm, and its measures on that device."""
        key = (height, bold)
        if key not in self._fonts:
            font = QtGui.QFont(self._family)
            font.setHintingPreference(QtGui.QFont.PreferFullHinting)
            font.setBold(bold)
            font.setLetterSpacing(QtGui.QFont.AbsoluteSpacing, 0.02)  # a hair, so that fi stays two letters to a search
            font.setPixelSize(1000)
            capitals = QtGui.QFontMetricsF(font, device).capHeight() / 1000
            if not 0.5 < capitals < 0.9:
                capitals = CAPITALS
            font.setPixelSize(max(1, round(height * self.dots / capitals)))
            self._fonts[key] = font, QtGui.QFontMetricsF(font, device)
        return self._fonts[key]

    def draw(self, painter: Any, sheet: Sheet, height: float) -> None:
        """Draw the whole sheet. `height` is that of the page in device units: y grows downwards from there."""
        sheet = spelled(sheet, lambda sign: self._has(sign, painter.device()))
        page = _Page(self.dots, height)
        draw(sheet.marks, page)
        painter.setBrush(QtCore.Qt.NoBrush)
        for name, path in page.paths.items():
            painter.setPen(self.pen(name))
            painter.drawPath(path)
        if not page.ink.isEmpty():
            painter.fillPath(page.ink, QtGui.QBrush(QtGui.QColor(0, 0, 0)))
        painter.setPen(QtGui.QColor(0, 0, 0))
        self._last = None
        for text in sorted(page.texts, key=lambda t: (t.height, t.bold)):  # a change of font costs more than the words
            self._text(painter, text, height)

    def _has(self, sign: str, device: Any) -> bool:
        """Whether any font on this computer has a sign, plain and bold; it would be printed as an empty box."""
        if sign not in self._known:
            fonts = (self.font(PLAIN, bold, device)[1] for bold in (False, True))
            self._known[sign] = all(measures.inFontUcs4(ord(sign)) for measures in fonts)
        return self._known[sign]

    def _text(self, painter: Any, text: Text, height: float) -> None:
        words = text.text
        if not words.isprintable():  # a newline in a title is a blank here
            words = "".join(c if c >= " " else " " for c in words)
        if not words:
            return
        k = self.dots
        font, measures = self.font(text.height, text.bold, painter.device())
        key = (words, text.height, text.bold)
        width = self._widths.get(key)
        if width is None:
            width = self._widths[key] = measures.horizontalAdvance(words)
        squeeze = 1.0 if text.fit is None or width <= text.fit * k else text.fit * k / width
        left = {"left": 0.0, "centre": -width / 2, "right": -width}[text.align]
        if font is not self._last:
            painter.setFont(font)
            self._last = font
        x, y = text.at[0] * k, height - text.at[1] * k
        if squeeze == 1.0 and text.turn == 0.0:
            painter.drawText(QtCore.QPointF(x + left, y), words)
            return
        painter.save()
        painter.translate(x, y)
        painter.rotate(-text.turn)
        painter.scale(squeeze, 1.0)
        painter.drawText(QtCore.QPointF(left, 0.0), words)
        painter.restore()
