# SPDX-License-Identifier: LGPL-2.1-or-later

"""The part of the slicing panel that says from which thicknesses, and by what worth, the glue lines are chosen."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from freecad_stacklam.lamination.layers.sequence import SequencePoint
from freecad_stacklam.lamination.lengths import INCH, parse_volume
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields.decimals import shown_decimals, typed_decimals
from freecad_stacklam.workbench.fields.fields import choice, group, inches_are_shown, read_lengths, typed_lengths
from freecad_stacklam.workbench.fields.thickness_curve import ThicknessCurve, worth_for
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate

QtWidgets = widgets()
PICKS = (
    (QT_TRANSLATE_NOOP("StackLam", "equal layers from the bottom"), ""),
    (QT_TRANSLATE_NOOP("StackLam", "where they save most wood"), "least wood"),
    (QT_TRANSLATE_NOOP("StackLam", "as few as can be"), "fewest layers"),
)


class GlueLineFields:
    """Other stock, how glue lines are chosen, what one must save, and the curve to pick a point from."""

    def __init__(self, start: StackSettings, on_pick: Callable[[int], None]) -> None:
        self.others = QtWidgets.QLineEdit(typed_lengths(start.stock[1:]))
        self.others.setObjectName("otherStock")
        self.others.setPlaceholderText(
            translate("StackLam", "1-1/16 in; 3/4 in; …")
            if inches_are_shown()
            else translate("StackLam", "27 mm; 19 mm; …")
        )
        self.others.setToolTip(
            translate("StackLam", "Other planed thicknesses at hand: layers are then laid where they need least wood")
        )
        self.pick = choice(
            "pick",
            [(translate("StackLam", text), pick) for text, pick in PICKS],
            start.pick,
            translate("StackLam", "With several thicknesses, equal layers are never the choice"),
        )
        self.worth = QtWidgets.QLineEdit(_volume(start.glue_line_worth) if start.glue_line_worth else "")
        self.worth.setObjectName("worth")
        self.worth.setPlaceholderText(
            translate("StackLam", "20 in3") if inches_are_shown() else shown_decimals("0.3 l")
        )
        self.worth.setToolTip(
            translate("StackLam", "Wood that one more glue line must save to be worth its work; empty: any saving is")
        )
        self.curve = ThicknessCurve(on_pick)
        self.box, _ = group(
            translate("StackLam", "Glue lines"),
            [
                (translate("StackLam", "Laid"), self.pick),
                (translate("StackLam", "A line must save"), self.worth),
                ("", self.curve),
            ],
        )
        self.others.textChanged.connect(self._leave_counting)
        self._leave_counting()
        self.inputs = (self.others, self.pick, self.worth)

    def _leave_counting(self, *_: Any) -> None:
        """Several thicknesses cannot just be counted off: the least wood is what is laid then."""
        if self.others.text().strip() and not self.pick.currentData():
            self.pick.setCurrentIndex(self.pick.findData("least wood"))

    def other_stock(self) -> tuple[float, ...]:
        """The other thicknesses, mm. Raises Refusal."""
        return read_lengths(self.others.text())

    def worth_of_line(self) -> float:
        """What one more glue line must save, mm³. Raises Refusal."""
        text = self.worth.text().strip()
        return parse_volume(typed_decimals(text)) if text else 0.0

    def show_curve(self, points: Sequence[SequencePoint], layers: int) -> None:
        """Show the curve, with the point of so many layers picked; hide it where there is nothing to choose."""
        self.curve.show_points(points, layers)
        self.curve.setVisible(len(points) > 1)

    def ask_for(self, points: Sequence[SequencePoint], index: int) -> None:
        """Let the fields ask for one point."""
        worth = worth_for(points, index)
        if worth is None:
            return
        first = index == 0 and len(points) > 1
        self.pick.setCurrentIndex(self.pick.findData("fewest layers" if first else "least wood"))
        self.worth.setText("" if first or worth == 0.0 else _volume(worth))


def _volume(cubic_millimetres: float) -> str:
    """A volume as it is typed."""
    if inches_are_shown():
        return shown_decimals(f"{cubic_millimetres / INCH**3:.5g} in3")
    return shown_decimals(f"{cubic_millimetres / 1e6:.5g} l")
