# SPDX-License-Identifier: LGPL-2.1-or-later

"""A picture of a page that is as wide as its panel, and never makes the panel wider."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.qt_binding import QtCore, QtGui, widgets

QtWidgets = widgets()
#: Least width, and the most that a page is shown in, pixels.
LEAST, MOST = 120, (380, 420)


class PagePicture(QtWidgets.QLabel):  # type: ignore[name-defined]
    """Shows an image as large as there is room for."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self._page: Any = None
        self.setObjectName(name)
        self.setAlignment(QtCore.Qt.AlignCenter)
        self.setFrameShape(QtWidgets.QFrame.StyledPanel)
        self.setMinimumWidth(LEAST)

    def show_page(self, image: Any) -> None:
        """Show this image, in the room that there is now or later."""
        self._page = QtGui.QPixmap.fromImage(image)
        self._fit()

    def minimumSizeHint(self) -> Any:
        """Qt asks this. A page that is shown must not hold the panel as wide as it is."""
        return QtCore.QSize(LEAST, super().minimumSizeHint().height())

    def clear(self) -> None:
        """Show nothing."""
        self._page = None
        super().clear()

    def resizeEvent(self, event: Any) -> None:
        """Qt calls this when the panel gets another width."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        if self._page is None:
            return
        width = max(LEAST, min(MOST[0], self.contentsRect().width()))
        self.setPixmap(self._page.scaled(width, MOST[1], QtCore.Qt.KeepAspectRatio, QtCore.Qt.SmoothTransformation))
