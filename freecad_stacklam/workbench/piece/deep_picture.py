# SPDX-License-Identifier: LGPL-2.1-or-later

"""Chooses what of the deep check is drawn on the form, and shows the legend of it."""

from __future__ import annotations

from collections.abc import Mapping
from html import escape
from typing import Any

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.lamination.findings.deep import DeepFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.fields.messages import busy
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.scene import deepnodes
from freecad_stacklam.workbench.scene.deepmap import HURTS, NOTHING, PLACE, USE, Picture, choices_of, picture_of
from freecad_stacklam.workbench.scene.ramp import hex_of, ink_on

QtWidgets = widgets()
WORDS = {
    NOTHING: QT_TRANSLATE_NOOP("StackLam", "nothing"),
    PLACE: QT_TRANSLATE_NOOP("StackLam", "worst place"),
    HURTS: QT_TRANSLATE_NOOP("StackLam", "where the load hurts"),
    USE: QT_TRANSLATE_NOOP("StackLam", "use over the surface"),
}
#: Of the model that is not coloured.
UNASKED = QT_TRANSLATE_NOOP("StackLam", "See-through: nothing is told there.")


class DeepPicture(QtWidgets.QWidget):  # type: ignore[name-defined]
    """A choice, with or without tenon, and the legend; out of sight where there is no deep check."""

    def __init__(self, parent: Any = None) -> None:
        super().__init__(parent)
        self._document: Document | None = None
        self._findings: DeepFindings | None = None
        self._meshes: Mapping[str, Mesh] = {}
        self._units = "mm"
        self.choice = QtWidgets.QComboBox()
        self.choice.setObjectName("showOnForm")
        self.tenon = QtWidgets.QComboBox()
        self.tenon.setObjectName("showTenon")
        self.tenon.addItem(translate("StackLam", "with tenon"), False)
        self.tenon.addItem(translate("StackLam", "without tenon"), True)
        self.tenon.setAccessibleName(translate("StackLam", "With or without tenon"))
        self.tenon.setToolTip(translate("StackLam", "The worst place was looked for with the mortises empty, too"))
        label = QtWidgets.QLabel(translate("StackLam", "Show on the form:"))
        label.setBuddy(self.choice)
        self.legend = QtWidgets.QLabel()
        self.legend.setObjectName("showLegend")
        self.legend.setWordWrap(True)
        self.legend.setTextFormat(QtCore.Qt.RichText)
        self.legend.hide()
        row = QtWidgets.QHBoxLayout()
        for part in (label, self.choice, self.tenon):
            row.addWidget(part)
        row.addStretch(1)
        layout = QtWidgets.QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(row)
        layout.addWidget(self.legend)
        self.choice.currentIndexChanged.connect(self._draw)
        self.tenon.currentIndexChanged.connect(self._draw)

    def follow(
        self, document: Document, findings: DeepFindings | None, meshes: Mapping[str, Mesh], units: str = "mm"
    ) -> None:
        """Offer what these findings have; what was drawn of others goes. meshes: the forms in the model, by name."""
        self.clear()
        self._document, self._findings, self._meshes, self._units = document, findings, meshes, units
        self.choice.blockSignals(True)
        self.choice.clear()
        for name in choices_of(findings):
            self.choice.addItem(translate("StackLam", WORDS[name]), name)
        self.choice.blockSignals(False)
        self.setVisible(self.choice.count() > 0)
        self._draw()

    def clear(self) -> None:
        """Take away what is drawn."""
        deepnodes.clear()

    def _draw(self, *_: Any) -> None:
        chosen = self.choice.currentData() or NOTHING
        both = self._findings is not None and self._findings.without_tenon is not None
        self.tenon.setVisible(both and chosen == PLACE)
        picture = Picture()
        if self._findings is not None and chosen != NOTHING:
            picture = picture_of(self._findings, chosen, both and bool(self.tenon.currentData()), self._units)
        if self._document is None or (picture.spot is None and picture.map is None):
            self.clear()
        else:
            with busy():
                deepnodes.show(self._document, picture, self._meshes, self._units)
        self.legend.setText(legend_of(picture))
        self.legend.setVisible(bool(picture.says))


def legend_of(picture: Picture) -> str:
    """The legend as rich text: the sentences, and the figures on each colour, least first."""
    lines = [escape(one) for one in picture.says]
    if picture.bands is not None:
        swatches = [
            f'<span style="background-color:{hex_of(colour)}; color:{hex_of(ink_on(colour))}">&nbsp;'
            f"{escape(words).replace(' ', '&nbsp;')}&nbsp;</span>"
            for colour, words in zip(picture.bands.colours, picture.words)
        ]
        lines.insert(0, " ".join(swatches))
        lines.append(escape(translate("StackLam", UNASKED)))
    return "<br>".join(lines)
