# SPDX-License-Identifier: LGPL-2.1-or-later

"""The slow looks at the finished piece, with their progress and a button that stops them."""

from __future__ import annotations

import FreeCADGui

from freecad_stacklam.docobjects.base.family import piece_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.making.piece import refresh_piece
from freecad_stacklam.docobjects.reading.pieces import look_deeper
from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.fields.words import translate

QtWidgets = widgets()
STEPS = 1000


def look_with_progress(document: Document) -> bool:
    """Make the slow figures while their progress is shown; False where the maker stopped them. Raises Refusal."""
    dialog = QtWidgets.QProgressDialog(FreeCADGui.getMainWindow())
    dialog.setObjectName("StackLamLooking")
    dialog.setWindowTitle(translate("StackLam", "Looking deeper"))
    dialog.setCancelButtonText(translate("StackLam", "Stop"))
    dialog.setRange(0, STEPS)
    dialog.setMinimumDuration(0)
    dialog.setAutoReset(False)
    dialog.setWindowModality(QtCore.Qt.ApplicationModal)

    def tell(done: float, what: str) -> bool:
        dialog.setLabelText(f"{what[:1].upper()}{what[1:]}")
        dialog.setValue(int(STEPS * min(max(done, 0.0), 1.0)))
        QtWidgets.QApplication.processEvents()
        return not dialog.wasCanceled()

    try:
        finished = look_deeper(document, tell)
    finally:
        dialog.close()
        dialog.deleteLater()
    piece = piece_in(document)
    if finished and piece is not None:
        refresh_piece(piece)
    return finished
