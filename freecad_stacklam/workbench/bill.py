# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bill of wood, in a spreadsheet of the document and, if the maker wants it, as a CSV file."""

from __future__ import annotations

from functools import partial

import FreeCAD
import FreeCADGui

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.units import job_in
from freecad_stacklam.docobjects.reading.whole import job_settings, plan_of
from freecad_stacklam.docobjects.spreadsheets.billsheet import write_bill
from freecad_stacklam.lamination.bill.csvtext import csv_text
from freecad_stacklam.languages import language_spoken, said_in
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.sheetwriters.aside import aside
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.messages import busy, one_undo_step
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.panelparts.documentfiles import file_stem, folder_of
from freecad_stacklam.workbench.working.beside import waited

QtWidgets = widgets()


def make_bill(document: Document) -> None:
    """Write the bill into the document, show it, and ask whether it should also be kept as CSV."""
    language = job_settings(document).language
    plan = waited(lambda: said_in(language, partial(plan_of, document)), translate("StackLam", "Planning"))
    with busy(), language_spoken(language):
        job = job_in(document)
        units = job.Units if job is not None else preferences.units()
        with one_undo_step(document, translate("StackLam", "Bill of wood")):
            sheet = write_bill(document, plan.bill, units)
            document.recompute()
    if sheet is not None:
        FreeCADGui.Selection.clearSelection()
        FreeCADGui.getDocument(document.Name).setEdit(sheet.Name)
    path = ask_for_csv(document)
    if path:
        write_csv(path, csv_text(plan.bill, units))


def ask_for_csv(document: Document) -> str:
    """Where the CSV should go; empty when it is not wanted."""
    answer = QtWidgets.QMessageBox.question(
        FreeCADGui.getMainWindow(),
        translate("StackLam", "Bill of wood"),
        translate("StackLam", "The bill is in the document. Do you want it as a CSV file too?"),
        QtWidgets.QMessageBox.Yes | QtWidgets.QMessageBox.No,
        QtWidgets.QMessageBox.No,
    )
    if answer != QtWidgets.QMessageBox.Yes:
        return ""
    start = str(folder_of(document) / f"{file_stem(document)} bill.csv")
    chosen, _ = QtWidgets.QFileDialog.getSaveFileName(
        FreeCADGui.getMainWindow(), translate("StackLam", "Bill of wood"), start, "CSV (*.csv)"
    )
    return chosen if not chosen or chosen.lower().endswith(".csv") else chosen + ".csv"


def write_csv(path: str, text: str) -> None:
    """Write the file whole or not at all. Raises Refusal when it cannot be written."""
    with aside(path) as part:
        part.write_text(text, encoding="utf-8", newline="")
    FreeCAD.Console.PrintMessage(f"StackLam: the bill was written to {path}\n")
