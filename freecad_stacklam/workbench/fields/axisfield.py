# SPDX-License-Identifier: LGPL-2.1-or-later

"""The fields for a direction: an axis by its letter, or one that was picked in the 3D view."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from freecad_stacklam.lamination.options.kinds import AXES
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields.fields import choice, figure
from freecad_stacklam.workbench.fields.messages import says_no_plainly
from freecad_stacklam.workbench.fields.picking import picked_direction
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate

QtWidgets = widgets()
PICKED = "picked"
CHOICES = (
    (QT_TRANSLATE_NOOP("StackLam", "z, upright"), "z"),
    ("x", "x"),
    ("y", "y"),
    (QT_TRANSLATE_NOOP("StackLam", "as picked"), PICKED),
)
Direction = tuple[float, float, float]


class AxisField:
    """A choice of axes, a button that takes the direction of what is selected, and a line that shows it.

    name: objectName of the choice; its button is called pickName and its line nameText. on_pick: called when a
    direction was taken.
    """

    def __init__(self, name: str, start: Direction, tip: str, on_pick: Callable[[], Any]) -> None:
        self._direction = start
        self._on_pick = on_pick
        known = next((letter for letter, axis in AXES.items() if axis == start), PICKED)
        self.choice = choice(name, list(CHOICES), known, tip)
        self.button = QtWidgets.QPushButton(translate("StackLam", "Use selected face or edge"))
        self.button.setObjectName("pick" + name[0].upper() + name[1:])
        self.button.setToolTip(
            translate("StackLam", "Pick a flat or round face, or a straight or circular edge, in the 3D view first")
        )
        self.button.clicked.connect(self._take)
        self.text = figure(f"{name}Text")
        self.choice.currentIndexChanged.connect(lambda *_: self._show(""))
        self._show("")

    def lines(self, caption: str) -> list[tuple[str, Any]]:
        """Caption and field of its rows, for `group`."""
        return [(caption, self.choice), ("", self.button), ("", self.text)]

    def direction(self) -> Direction:
        """The direction that is chosen, in the model."""
        chosen = self.choice.currentData()
        return self._direction if chosen == PICKED else AXES[chosen]

    @says_no_plainly
    def _take(self, *_: Any) -> None:
        self._direction, source = picked_direction()
        self.choice.setCurrentIndex(self.choice.findData(PICKED))
        self._show(source)
        self._on_pick()

    def _show(self, source: str) -> None:
        self.text.setVisible(self.choice.currentData() == PICKED)
        x, y, z = self._direction
        self.text.setText(
            (f"{source}: " if source else translate("StackLam", "Direction ")) + f"{x:.4g}, {y:.4g}, {z:.4g}"
        )
