# SPDX-License-Identifier: LGPL-2.1-or-later

"""The curve wood ↔ layers as a small plot, from which the maker picks how the boards are piled."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import inf
from typing import Any

from freecad_stacklam.lamination.layers.sequence import SequencePoint
from freecad_stacklam.lamination.tolerances import SAVING
from freecad_stacklam.qt_binding import QtCore, QtGui, widgets
from freecad_stacklam.workbench.fields.fields import BOARD_FOOT, inches_are_shown

QtWidgets = widgets()
LITRE = 1e6
#: Room round the plot for its figures, dots; size of a point that can be picked, and of one that cannot.
LEFT, RIGHT, TOP, BOTTOM = 46, 14, 18, 32
BIG, SMALL = 4.5, 2.5
TIP = (
    "Each point is the least wood for a number of layers. Click a full one to pick it. An empty one is never the best, "
    "whatever a glue line is worth."
)


def worth_for(points: Sequence[SequencePoint], index: int) -> float | None:
    """What one more glue line must save, mm³, for this point to be the best; None where no worth makes it so.

    With w and n the wood and layers of a point, it is the best for every worth between the greatest saving per layer
    that more layers bring and the least that fewer layers lose.
    """
    me = points[index]
    low = max([0.0, *((me.wood - p.wood) / (p.layers - me.layers) for p in points if p.layers > me.layers)])
    high = min([inf, *((p.wood - me.wood) / (me.layers - p.layers) for p in points if p.layers < me.layers)])
    if low >= high:
        return None
    if low == 0.0:
        return 0.0
    return 1.5 * low if high == inf else (low + high) / 2


class ThicknessCurve(QtWidgets.QWidget):  # type: ignore[name-defined]
    """Shows points; `on_pick` is called with the number of the one that the maker clicks."""

    def __init__(self, on_pick: Callable[[int], None]) -> None:
        super().__init__()
        self.setObjectName("thicknessCurve")
        self.setMinimumHeight(170)
        self.setSizePolicy(QtWidgets.QSizePolicy.Expanding, QtWidgets.QSizePolicy.Fixed)
        self.setToolTip(TIP)
        self.points: tuple[SequencePoint, ...] = ()
        self.open: tuple[bool, ...] = ()
        self.picked = -1
        self._on_pick = on_pick

    def show_points(self, points: Sequence[SequencePoint], layers: int) -> None:
        """Show a curve, its point with so many layers as picked."""
        self.points = tuple(points)
        self.open = tuple(worth_for(points, i) is not None for i in range(len(points)))
        self.picked = next((i for i, p in enumerate(points) if p.layers == layers), -1)
        self.update()

    def clear(self) -> None:
        """Show nothing."""
        self.points, self.open, self.picked = (), (), -1
        self.update()

    def place(self, index: int) -> Any:
        """Where a point lies in the widget."""
        layers = [p.layers for p in self.points]
        woods = [p.wood for p in self.points]
        return QtCore.QPointF(
            _between(self.points[index].layers, min(layers), max(layers), LEFT + 8, self.width() - RIGHT - 8),
            _between(self.points[index].wood, min(woods), max(woods), self.height() - BOTTOM - 8, TOP + 8),
        )

    def pick_near(self, x: float, y: float) -> None:
        """Pick the point nearest to a place in the widget, of those that can be picked."""
        able = [i for i, can in enumerate(self.open) if can]
        if able:
            self._on_pick(min(able, key=lambda i: abs(self.place(i).x() - x) + 0.5 * abs(self.place(i).y() - y)))

    def mousePressEvent(self, event: Any) -> None:
        """Called by Qt when the maker clicks."""
        at = event.position() if hasattr(event, "position") else event.pos()
        self.pick_near(at.x(), at.y())

    def paintEvent(self, event: Any) -> None:
        """Called by Qt to draw."""
        painter = QtGui.QPainter(self)
        painter.setRenderHint(QtGui.QPainter.Antialiasing)
        try:
            self._paint(painter)
        finally:
            painter.end()

    def _paint(self, painter: Any) -> None:
        ink, faint = self.palette().color(QtGui.QPalette.WindowText), self.palette().color(QtGui.QPalette.Mid)
        painter.fillRect(self.rect(), self.palette().color(QtGui.QPalette.Base))
        painter.setPen(QtGui.QPen(ink, 1.0))
        bottom, right = self.height() - BOTTOM, self.width() - RIGHT
        painter.drawLine(LEFT, bottom, right, bottom)
        painter.drawLine(LEFT, TOP, LEFT, bottom)
        if not self.points:
            return
        font = painter.font()
        font.setPointSizeF(max(6.5, font.pointSizeF() * 0.8))
        painter.setFont(font)
        one, unit = (BOARD_FOOT, "board feet") if inches_are_shown() else (LITRE, "litres of wood")
        places = [self.place(i) for i in range(len(self.points))]
        woods = [p.wood for p in self.points]
        for i in {woods.index(min(woods)), woods.index(max(woods))}:
            y = places[i].y()
            painter.setPen(QtGui.QPen(faint, 0.8, QtCore.Qt.DotLine))
            painter.drawLine(QtCore.QPointF(LEFT, y), QtCore.QPointF(right, y))
            painter.setPen(ink)
            _write(painter, QtCore.QRectF(0, y - 9, LEFT - 5, 18), f"{woods[i] / one:.2f}", QtCore.Qt.AlignRight)
        painter.drawText(QtCore.QPointF(LEFT + 4, TOP - 5), unit)
        _write(painter, QtCore.QRectF(LEFT, bottom + 15, right - LEFT, 16), "layers", QtCore.Qt.AlignRight)
        last = -1e9
        for i, at in enumerate(places):
            if at.x() - last > 18 or i == self.picked:
                _write(painter, QtCore.QRectF(at.x() - 14, bottom + 2, 28, 15), str(self.points[i].layers),
                       QtCore.Qt.AlignHCenter)  # fmt: skip
                last = at.x()
        painter.setPen(QtGui.QPen(ink, 1.2))
        able = [at for at, can in zip(places, self.open) if can]
        for a, b in zip(able[:-1], able[1:]):
            painter.drawLine(a, b)
        for i, (at, can) in enumerate(zip(places, self.open)):
            painter.setBrush(ink if can else self.palette().color(QtGui.QPalette.Base))
            painter.setPen(QtGui.QPen(ink if can else faint, 1.2))
            size = BIG if can else SMALL
            painter.drawEllipse(at, size, size)
            if i == self.picked:
                painter.setBrush(QtCore.Qt.NoBrush)
                painter.setPen(QtGui.QPen(ink, 2.0))
                painter.drawEllipse(at, BIG + 4.5, BIG + 4.5)


def _write(painter: Any, box: Any, text: str, side: Any) -> None:
    option = QtGui.QTextOption(side | QtCore.Qt.AlignVCenter)
    option.setWrapMode(QtGui.QTextOption.NoWrap)
    painter.drawText(box, text, option)


def _between(value: float, low: float, high: float, first: float, last: float) -> float:
    """Where a value lies between two places; in their middle when there is but one value."""
    return (first + last) / 2 if high - low < SAVING else first + (last - first) * (value - low) / (high - low)
