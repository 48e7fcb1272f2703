# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bundled examples, each as a document of the maker's own: the bundled file is read and never written."""

from __future__ import annotations

from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.data import example_form
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.working.progress import Progress


def open_example(name: str, label: str) -> Any:
    """A new, unsaved document with the forms of an example, of those in `data.EXAMPLES`. label: what it is called."""
    path = example_form(name)
    if not path.is_file():
        raise Refusal(translate("StackLam", "The example {} is missing: install the workbench again.").format(path))
    document = FreeCAD.newDocument("".join(word.capitalize() for word in name.split("-")))
    try:
        with Progress(translate("StackLam", "Opening the example")) as progress:
            progress.on()
            document.Label = label
            document.mergeProject(str(path))
            for obj in document.TopologicalSortedObjects[::-1]:  # what the others are made of comes first
                progress.on()
                obj.recompute()
            progress.on()
            document.recompute()
            FreeCAD.setActiveDocument(document.Name)
            view = FreeCADGui.getDocument(document.Name).activeView()
            if view is not None:
                view.viewIsometric()
                FreeCADGui.SendMsgToActiveView("ViewFit")
    except Refusal:
        FreeCAD.closeDocument(document.Name)
        raise
    return document
