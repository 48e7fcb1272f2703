# SPDX-License-Identifier: LGPL-2.1-or-later

"""A small list of planes that the maker has picked in the model, to make section templates at."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from freecad_stacklam.lamination.settings.carving import PickedPlane
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields.fields import side_by_side
from freecad_stacklam.workbench.fields.messages import says_no_plainly
from freecad_stacklam.workbench.fields.picking import picked_direction, picked_point
from freecad_stacklam.workbench.fields.words import translate

QtWidgets = widgets()


class PickedPlanes:
    """The list with its two buttons; `changed` is called when it changes."""

    def __init__(self, planes: Sequence[PickedPlane], changed: Callable[[], None]) -> None:
        self.planes = tuple(planes)
        self._changed = changed
        self.widget = QtWidgets.QWidget()
        self.names = QtWidgets.QListWidget()
        self.names.setObjectName("planes")
        self.names.setMaximumHeight(64)
        self.names.setToolTip(
            translate("StackLam", "Templates at planes of your own: pick a flat face, then press Add")
        )
        self.add = QtWidgets.QPushButton(translate("StackLam", "Add selected face"))
        self.add.setObjectName("addPlane")
        self.remove = QtWidgets.QPushButton(translate("StackLam", "Remove"))
        self.remove.setObjectName("removePlane")
        self.add.clicked.connect(self._add)
        self.remove.clicked.connect(self._remove)
        column = QtWidgets.QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.names)
        column.addWidget(side_by_side(self.add, self.remove))
        self._show()

    @says_no_plainly
    def _add(self, *_: Any) -> None:
        normal, source = picked_direction()[:2]
        point, _ = picked_point()
        taken = {p.name for p in self.planes}
        name, number = source, 2
        while name in taken:
            name, number = f"{source} {number}", number + 1
        self.planes = (*self.planes, PickedPlane(name, point, normal))
        self._show()
        self._changed()

    def _remove(self, *_: Any) -> None:
        at = self.names.currentRow()
        if at >= 0:
            self.planes = self.planes[:at] + self.planes[at + 1 :]
            self._show()
            self._changed()

    def _show(self) -> None:
        self.names.clear()
        self.names.addItems([plane.name for plane in self.planes])
