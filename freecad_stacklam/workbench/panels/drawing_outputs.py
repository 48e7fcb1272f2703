# SPDX-License-Identifier: LGPL-2.1-or-later

"""What becomes of the drawings besides a PDF: files for other programs, a printer, pages to edit in FreeCAD, a page for
the bench."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import FreeCADGui

from freecad_stacklam.benchsheets.book.whole import KINDS
from freecad_stacklam.benchsheets.drawing.lettering import AnyUnits
from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.benchsheets.findings.piecesheets import piece_pages
from freecad_stacklam.docobjects.base.family import name_of_stack, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.making.gluelines import axis_cross, finished_outline
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.marks import is_ours
from freecad_stacklam.outfolder import drawings_aside, refuse_unless_replaceable
from freecad_stacklam.packages.missing import PackagesMissing
from freecad_stacklam.qt_binding import QtCore, QtGui, print_support, widgets
from freecad_stacklam.sheetwriters.benchpage import write_bench_page
from freecad_stacklam.sheetwriters.pdf import write_pdf
from freecad_stacklam.sheetwriters.printing import print_sheets
from freecad_stacklam.sheetwriters.sheetfolder import made_folder, write_dxfs, write_svgs
from freecad_stacklam.sheetwriters.techdrawpages import STEPS, layer_pages
from freecad_stacklam.workbench.fields.messages import busy
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.working.progress import Progress
from freecad_stacklam.workbench.working.steps import undone_by_escape

QtWidgets = widgets()
#: Kinds of sheets that are ticked only when asked for: tables and reports to be read, and not to work by.
TO_READ = ("offsets", "standing", "strength", "deep check", "weight", "budget", "seasons")


def kinds_in(plan: Plan) -> list[str]:
    """The kinds of sheets that the book of a plan may hold."""
    bored = plan.carving is not None and any(m.holes for m in plan.carving.depth_maps)
    there = {
        "boards": plan.boards is not None,
        "joint": bool(plan.joints),
        "glue-up": plan.glue_up is not None and bool(plan.glue_up.set_ups),
        "depth holes": bored,
        **dict.fromkeys(("carving", "offsets", "section"), plan.carving is not None),
        **{kind: found is not None for kind, found, _ in piece_pages(plan.piece)},
    }
    return [kind for kind in KINDS if there.get(kind, True)]


def button(name: str, text: str, tip: str) -> Any:
    """A button with its name and its tip."""
    made = QtWidgets.QPushButton(text)
    made.setObjectName(name)
    made.setToolTip(tip)
    return made


def ask_bench_page(first: Path) -> str:
    """Where the bench page goes; empty for nowhere."""
    main, title = FreeCADGui.getMainWindow(), translate("StackLam", "Bench page")
    chosen = str(QtWidgets.QFileDialog.getSaveFileName(main, title, str(first), "HTML (*.html)")[0])
    return chosen if not chosen or chosen.lower().endswith(".html") else chosen + ".html"


def write_bench(plan: Plan, sheets: Sequence[Sheet], first: Path, units: AnyUnits) -> tuple[str, str]:
    """The bench page of a plan with a glue-up, where the maker says; what was done, and the file, both "" for nothing.
    Raises Refusal."""
    path = ask_bench_page(first)
    if not path:
        return "", ""
    refuse_unless_replaceable(Path(path))
    with busy():
        write_bench_page(plan, sheets, path, units)
    said = translate("StackLam", "The bench page was written to {}: open it in a browser, on a phone too.")
    return said.format(path), path


def ask_folder(first: str) -> str:
    """The folder that the maker chooses; empty when none."""
    main = FreeCADGui.getMainWindow()
    return str(QtWidgets.QFileDialog.getExistingDirectory(main, translate("StackLam", "Folder for SVG and DXF"), first))


def write_files(plan: Plan, sheets: Sequence[Sheet], folder: str | Path, units: AnyUnits) -> tuple[int, int, int]:
    """Every sheet as SVG, layers and section templates as DXF, all or none; how many of each, and how many drawings of
    ours from before lie there besides. Raises Refusal, where something that is not ours has the place of one too.

    Where a package is missing for DXF the SVG files are written all the same, before PackagesMissing is raised.
    """
    target = made_folder(folder)
    lacking = None
    drawn: tuple[Path, ...] = ()
    with busy(), drawings_aside(target) as part:
        try:
            drawn = write_dxfs(plan, part, units)
        except PackagesMissing as missing:
            lacking = missing
        shown = write_svgs(sheets, part)
    if lacking is not None:
        written = translate("StackLam", "{} sheets were written to {} as SVG.").format(len(shown), target)
        raise PackagesMissing(lacking.sentence, lacking.needs, written)
    names = {path.name for path in (*drawn, *shown)}
    before = [p for p in target.iterdir() if p.suffix in (".dxf", ".svg") and p.name not in names and is_ours(p)]
    return len(shown), len(drawn), len(before)


def make_pages(document: Document, plan: Plan, units: AnyUnits) -> list[Any]:
    """TechDraw pages of the layers that have none yet, in one undo step, taken back by
    Esc. Raises Refusal."""
    stacks = {name_of_stack(s): s for s in stacks_in(document)}
    layers = sum(len(stack.layers) for stack in plan.stacks)
    with undone_by_escape(document, translate("StackLam", "Pages of the layers"), STEPS * layers) as on:
        pages = layer_pages(
            document,
            plan,
            lambda stack: stacks[stack.name].Layers,
            lambda stack, number: finished_outline(stacks[stack.name], number),
            lambda stack: axis_cross(stacks[stack.name]),
            units,
            on,
        )
        if pages:
            document.recompute()
    return pages


def write_book(sheets: Sequence[Sheet], path: Path, title: str) -> None:
    """Write the sheets as one PDF under FreeCAD's progress bar; Esc leaves what was there. Raises Refusal."""
    refuse_unless_replaceable(path)
    with Progress(translate("StackLam", "Writing the drawings"), len(sheets)) as progress:
        write_pdf(sheets, path, title, progress.on)


def open_in_viewer(path: str | Path) -> bool:
    """Show a finished file in the system's own viewer, if it has one that opens it."""
    return bool(QtGui.QDesktopServices.openUrl(QtCore.QUrl.fromLocalFile(str(path))))


def can_print() -> bool:
    """Whether this FreeCAD can talk to printers itself."""
    return print_support() is not None


def print_book(sheets: Sequence[Sheet], title: str) -> bool:
    """Ask for a printer and print true size; False when the maker thought better of it. Raises Refusal."""
    support = print_support()
    printer = support.QPrinter(support.QPrinter.HighResolution)
    printer.setDocName(title)
    dialog = support.QPrintDialog(printer, FreeCADGui.getMainWindow())
    if not dialog.exec_() if hasattr(dialog, "exec_") else not dialog.exec():
        return False
    chosen = list(sheets)
    if printer.fromPage() > 0:
        chosen = chosen[printer.fromPage() - 1 : max(printer.toPage(), printer.fromPage())]
    with busy():
        print_sheets(chosen, printer)
    return True
