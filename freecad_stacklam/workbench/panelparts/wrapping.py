# SPDX-License-Identifier: LGPL-2.1-or-later

"""Rows of captions and fields that fit whatever width the window leaves them: captions go above their fields and into
several lines, and so do the words of buttons and ticks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from freecad_stacklam.qt_binding import QtCore, widgets

QtWidgets = widgets()
#: A button's words as they were given, kept beside those that are broken into lines.
WHOLE, BROKEN = "wholeText", "brokenText"
#: Least width of a row, pixels: as narrow as a word in a window that is dragged small.
LEAST = 60


def broken(words: str, metrics: Any, width: float) -> str:
    """Words in lines no wider than `width` pixels, where their spaces allow it."""
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and metrics.horizontalAdvance(longer) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return "\n".join(lines)


def wrap_button(button: Any, width: int) -> None:
    """Break the words of a button, a tick or a title into lines, so that it is no wider than `width` pixels."""
    text = str(button.text())
    if text != button.property(BROKEN):  # another text was set since
        button.setProperty(WHOLE, text)
    whole = str(button.property(WHOLE))
    if not whole or width <= LEAST:
        return
    metrics = button.fontMetrics()
    widest = max(metrics.horizontalAdvance(line) for line in text.split("\n"))
    air = button.sizeHint().width() - widest  # frame, arrow, or the box to tick
    wanted = whole if metrics.horizontalAdvance(whole) + air <= width else broken(whole, metrics, width - air)
    button.setProperty(BROKEN, wanted)
    if wanted != text:
        button.setText(wanted)


class Rows(QtWidgets.QWidget):  # type: ignore[name-defined]
    """A form layout, in `form`, that is never wider than what holds it."""

    def __init__(self, margins: Sequence[int]) -> None:
        super().__init__()
        self.form = QtWidgets.QFormLayout(self)
        self.form.setFieldGrowthPolicy(QtWidgets.QFormLayout.AllNonFixedFieldsGrow)
        self.form.setContentsMargins(*margins)
        self.form.setRowWrapPolicy(QtWidgets.QFormLayout.WrapLongRows)

    def resizeEvent(self, event: Any) -> None:
        """Called by Qt."""
        super().resizeEvent(event)
        self.fit()

    def fit(self) -> None:
        """Break what is wider than the rows are."""
        left, _, right, _ = self.form.getContentsMargins()
        width = self.width() - left - right
        policy = QtWidgets.QFormLayout.WrapAllRows if self._is_narrow(width) else QtWidgets.QFormLayout.WrapLongRows
        if self.form.rowWrapPolicy() != policy:
            self.form.setRowWrapPolicy(policy)
        for at in range(self.form.rowCount()):
            for role in (QtWidgets.QFormLayout.LabelRole, QtWidgets.QFormLayout.FieldRole):
                self._fit(self.form.itemAt(at, role), width)
            self._fit(self.form.itemAt(at, QtWidgets.QFormLayout.SpanningRole), width)

    def _is_narrow(self, width: int) -> bool:
        """Whether a caption has no room beside its field: all then stand above theirs. Figures go into lines."""
        gap = max(self.form.horizontalSpacing(), 0)
        for at in range(self.form.rowCount()):
            label = self.form.itemAt(at, QtWidgets.QFormLayout.LabelRole)
            field = self.form.itemAt(at, QtWidgets.QFormLayout.FieldRole)
            if label is None or field is None or isinstance(field.widget(), QtWidgets.QLabel):
                continue
            if label.widget().isHidden():
                continue
            caption = label.widget().fontMetrics().horizontalAdvance(label.widget().text())
            if caption + gap + field.minimumSize().width() > width:
                return True
        return False

    def _fit(self, item: Any, width: int) -> None:
        part = None if item is None else item.widget()
        if isinstance(part, QtWidgets.QAbstractButton):
            wrap_button(part, width)
        elif isinstance(part, QtWidgets.QLabel) and part.buddy() is not None:
            too_long = part.fontMetrics().horizontalAdvance(part.text()) + 2 > width
            if part.wordWrap() != too_long:
                part.setWordWrap(too_long)


class Beside(QtWidgets.QWidget):  # type: ignore[name-defined]
    """Widgets beside each other, the first with what room there is; one below the other where it is too narrow."""

    def __init__(self, parts: Sequence[Any], most: int) -> None:
        super().__init__()
        self._parts, self._most = tuple(parts), most
        self._row = QtWidgets.QBoxLayout(QtWidgets.QBoxLayout.LeftToRight, self)
        self._row.setContentsMargins(0, 0, 0, 0)
        for part in parts:
            self._row.addWidget(part)
        self._row.setStretchFactor(parts[0], 1)

    def _wants(self) -> int:
        """How wide they are beside each other, pixels."""
        gaps = max(self._row.spacing(), 0) * (len(self._parts) - 1)
        return sum(max(p.minimumSizeHint().width(), p.minimumWidth()) for p in self._parts if not p.isHidden()) + gaps

    def minimumSizeHint(self) -> Any:
        """See QWidget."""
        hint = super().minimumSizeHint()
        return QtCore.QSize(min(self._wants(), self._most), hint.height())

    def resizeEvent(self, event: Any) -> None:
        """Called by Qt."""
        super().resizeEvent(event)
        fits = self._wants() <= self.width()
        wanted = QtWidgets.QBoxLayout.LeftToRight if fits else QtWidgets.QBoxLayout.TopToBottom
        if self._row.direction() != wanted:
            self._row.setDirection(wanted)
            self.updateGeometry()


def caption_of(widget: Any) -> Any:
    """The caption of the row that a field stands in, alone or beside others; None without one."""
    at, above = widget, widget.parentWidget()
    while isinstance(above, Beside):
        at, above = above, above.parentWidget()
    return above.form.labelForField(at) if isinstance(above, Rows) else None
