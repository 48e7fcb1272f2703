# SPDX-License-Identifier: LGPL-2.1-or-later

"""The panel for the layer drawings: paper, units and kinds of sheets in, pages to leaf through, one PDF out; on request
other files, paper, and pages that can be edited."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

import FreeCAD

from freecad_stacklam.benchsheets.book.whole import KINDS
from freecad_stacklam.benchsheets.drawing.lettering import FRACTIONS, Units
from freecad_stacklam.benchsheets.drawing.paper import ANSI_Y14_1, ISO_216, paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.docobjects.base.family import stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.units import job_in
from freecad_stacklam.docobjects.making.project import make_job
from freecad_stacklam.docobjects.reading.whole import job_settings, plan_of
from freecad_stacklam.keptbook import book_for
from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import SHEET_LANGUAGES, Settings
from freecad_stacklam.lamination.words import say
from freecad_stacklam.languages import LANGUAGES, language_spoken, said_in
from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.sheetwriters.png import sheet_image
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.fields import choice, figure, group, side_by_side
from freecad_stacklam.workbench.fields.messages import one_undo_step, sentence_of, tell, told
from freecad_stacklam.workbench.fields.page_picture import PagePicture
from freecad_stacklam.workbench.fields.panel import Panel
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.panelparts.documentfiles import file_stem, folder_of
from freecad_stacklam.workbench.panels import drawing_outputs
from freecad_stacklam.workbench.panels.drawing_outputs import TO_READ, button, kinds_in
from freecad_stacklam.workbench.working.beside import Answers, waited

QtWidgets = widgets()
PAPERS = [*ISO_216, *ANSI_Y14_1]
#: Templates are tiled over the paper of the other sheets.
SAME = QT_TRANSLATE_NOOP("StackLam", "same paper")
ROLLS = ["roll 610mm", "roll 914mm", "roll 24in", "roll 36in"]
#: Kinds of sheets that the maker ticked or unticked, kept until FreeCAD ends.
_ticked: dict[str, bool] = {}
#: Dots per inch of a page in the panel, and the most dots along its longer side.
GLANCE, MOST_DOTS = 80.0, 1600


class DrawingsPanel(Panel):
    """Leaf through the drawings of a document and write them."""

    patience = 600  # a book takes longer than a figure

    def __init__(self, document: Document) -> None:
        super().__init__(translate("StackLam", "Layer drawings"), "StackLam_LayerDrawings")
        if not stacks_in(document):
            raise Refusal(translate("StackLam", "There is nothing to draw yet: slice a form into layers first."))
        self.document = document
        self._start = self._first_settings()
        self._plan_in(self._start.language)
        self._answers: Answers[tuple[Sheet, ...]] = Answers(self.refresh, self.form)
        self.sheets: tuple[Sheet, ...] = ()
        self.at = 0
        self.opened = False
        self._build()
        self.finish()

    def _plan_in(self, language: str) -> None:
        """The plan whose sentences are in the language of the sheets."""
        asked = partial(said_in, language, partial(plan_of, self.document))
        self.plan = waited(asked, translate("StackLam", "Planning"))

    def _first_settings(self) -> Settings:
        settings = job_settings(self.document)
        if job_in(self.document) is None:
            settings = replace(settings, paper=preferences.paper(), units=preferences.units())
        return settings

    def _build(self) -> None:
        self._make_words()
        self._make_kinds()
        self._make_outputs()
        box, _ = group(
            translate("StackLam", "Sheets"),
            [
                (translate("StackLam", "Title"), self.title),
                (translate("StackLam", "Drawn by"), self.author),
                (translate("StackLam", "Paper"), self.paper),
                (translate("StackLam", "Templates on"), self.full),
                (translate("StackLam", "Language"), self.language),
                (translate("StackLam", "Lengths in"), side_by_side(self.units, self.fraction)),
                ("", self.both),
                ("", self.kinds),
                (translate("StackLam", "PDF file"), side_by_side(self.path, self.browse)),
                ("", self.view),
                ("", side_by_side(self.write, self.printing)),
                ("", side_by_side(self.files, self.pages)),
                *([("", self.bench)] if "glue-up" in kinds_in(self.plan) else []),
            ],
        )
        self.body.addWidget(box)
        self._make_picture()
        self.language.currentIndexChanged.connect(lambda *_: self._plan_in(self.language.currentData()))
        self.watch(self.language, self.title, self.author, self.paper, self.full, self.units, self.fraction, self.both)

    def _make_words(self) -> None:
        """What stands on every sheet, on which paper, in which units."""
        start = self._start
        self.title = QtWidgets.QLineEdit(start.title)
        self.title.setObjectName("title")
        self.author = QtWidgets.QLineEdit(start.author)
        self.author.setObjectName("author")
        names = [(name if name != "B" else translate("StackLam", "B, tabloid"), name) for name in PAPERS]
        self.paper = choice(
            "paper", names, paper_named(start.paper).name, translate("StackLam", "Paper for the lists and overviews")
        )
        self.full = QtWidgets.QComboBox()
        self.full.setObjectName("paperFull")
        self.full.setToolTip(
            translate(
                "StackLam", "Paper for the full-size templates: the same, a larger one, or a roll such as “roll 610mm”"
            )
        )
        self.full.addItems([translate("StackLam", SAME), *PAPERS, *ROLLS])
        self.full.setEditable(True)
        if start.paper_full:
            self.full.setEditText(start.paper_full)
        self.units = choice(
            "units",
            [(translate("StackLam", "millimetres"), "mm"), (translate("StackLam", "inches and fractions"), "in")],
            start.units,
            translate("StackLam", "How lengths are written; the templates are full size either way"),
        )
        self.fraction = choice(
            "fraction",
            [(translate("StackLam", "to 1/{} in").format(n), n) for n in FRACTIONS],
            preferences.fraction(),
            translate("StackLam", "Inches are written to the nearest of these"),
        )
        self.language = choice(
            "language",
            [
                (translate("StackLam", "as FreeCAD"), SHEET_LANGUAGES[0]),
                *((name, code) for code, name in LANGUAGES.items()),
            ],
            start.language,
            translate("StackLam", "What drawings, bill and cautions are written in"),
        )
        self.both = QtWidgets.QCheckBox(translate("StackLam", "Other unit in brackets"))
        self.both.setObjectName("bothUnits")
        self.both.setChecked(preferences.both_units())
        for change in (self.units.currentIndexChanged, self.both.toggled):
            change.connect(self._enable_fraction)
        self._enable_fraction()

    def _enable_fraction(self, *_: Any) -> None:
        """Fractions of an inch are chosen only where inches are written."""
        self.fraction.setEnabled(self.units.currentData() == "in" or self.both.isChecked())

    def _make_kinds(self) -> None:
        """The kinds of sheets, each with a tick."""
        self.kinds = QtWidgets.QListWidget()
        self.kinds.setObjectName("kinds")
        self.kinds.setToolTip(
            translate("StackLam", "The kinds of sheets that the book holds; contents and cautions are always there")
        )
        for kind in kinds_in(self.plan):
            item = QtWidgets.QListWidgetItem(say(KINDS[kind]))
            item.setData(QtCore.Qt.UserRole, kind)
            ticked = _ticked.get(kind, kind not in TO_READ)
            item.setCheckState(QtCore.Qt.Checked if ticked else QtCore.Qt.Unchecked)
            self.kinds.addItem(item)
        self.kinds.setMaximumHeight(18 * self.kinds.count() + 8)
        self.kinds.itemChanged.connect(self._tick)

    def _tick(self, item: Any) -> None:
        _ticked[item.data(QtCore.Qt.UserRole)] = item.checkState() == QtCore.Qt.Checked
        self._soon.start()

    def _make_outputs(self) -> None:
        """Where the sheets go."""
        self.path = QtWidgets.QLineEdit(str(folder_of(self.document) / f"{file_stem(self.document)} drawings.pdf"))
        self.path.setObjectName("path")
        self.browse = QtWidgets.QPushButton("…")
        self.browse.setObjectName("browse")
        self.browse.setFixedWidth(32)
        self.browse.clicked.connect(self._browse)
        self.write = QtWidgets.QPushButton(translate("StackLam", "Write PDF"))
        self.write.setObjectName("writePdf")
        self.write.clicked.connect(self.write_file)
        self.view = QtWidgets.QCheckBox(translate("StackLam", "Open it in the viewer"))
        self.view.setObjectName("openViewer")
        self.view.setChecked(True)
        self.files = button(
            "writeFiles",
            translate("StackLam", "SVG and DXF…"),
            translate("StackLam", "Every sheet as SVG, layers and templates as DXF"),
        )
        self.printing = button(
            "printSheets",
            translate("StackLam", "Print…"),
            translate("StackLam", "Print true size, or open the PDF to print it"),
        )
        self.pages = button(
            "techDraw",
            translate("StackLam", "Pages to edit"),
            translate("StackLam", "A TechDraw page for each layer, to dimension as you like"),
        )
        self.bench = button(
            "writeBench",
            translate("StackLam", "Bench page…"),
            translate("StackLam", "The glue-up with its clocks, in one file for a phone or tablet without a network"),
        )
        self.bench.clicked.connect(self.write_bench)
        self.files.clicked.connect(self.write_files)
        self.printing.clicked.connect(self.print_sheets)
        self.pages.clicked.connect(self.make_pages)

    def _make_picture(self) -> None:
        """A look at one page after the other."""
        self.caption = figure("page")
        self.picture = PagePicture("picture")
        self.back = QtWidgets.QPushButton(translate("StackLam", "Previous"))
        self.on = QtWidgets.QPushButton(translate("StackLam", "Next"))
        self.back.setObjectName("previousPage")
        self.on.setObjectName("nextPage")
        self.back.clicked.connect(lambda *_: self.turn_to(self.at - 1))
        self.on.clicked.connect(lambda *_: self.turn_to(self.at + 1))
        row = QtWidgets.QHBoxLayout()
        row.addWidget(self.back)
        row.addWidget(self.on)
        self.body.addWidget(self.caption)
        self.body.addLayout(row)
        self.body.addWidget(self.picture)

    def _browse(self, *_: Any) -> None:
        chosen, _ = QtWidgets.QFileDialog.getSaveFileName(
            self.form, translate("StackLam", "Layer drawings"), self.path.text(), "PDF (*.pdf)"
        )
        if chosen:
            ending = "" if chosen.lower().endswith(".pdf") else ".pdf"
            self.path.setText(chosen + ending)

    def settings(self) -> Settings:
        """The job as the panel has it."""
        full = self.full.currentText().strip()
        return replace(
            self._start,
            title=self.title.text().strip() or self.document.Label,
            author=self.author.text().strip(),
            paper=self.paper.currentData(),
            paper_full="" if full == translate("StackLam", SAME) else full,
            units=self.units.currentData(),
            language=self.language.currentData(),
        )

    def written_units(self) -> Units:
        """How lengths are written on the sheets."""
        return Units(self.units.currentData(), self.fraction.currentData(), self.both.isChecked())

    def left_out(self) -> list[str]:
        """The kinds of sheets that are not ticked."""
        items = [self.kinds.item(i) for i in range(self.kinds.count())]
        return [item.data(QtCore.Qt.UserRole) for item in items if item.checkState() != QtCore.Qt.Checked]

    # --- what they show --------------------------------------------------------------------------------------------
    def show_figures(self) -> None:
        """Show a page of the book for the values as they stand; the last one stays, greyed, until it is there."""
        plan, asked = self.plan, (self.settings(), self.written_units(), tuple(self.left_out()))
        drawn = partial(book_for, plan, *asked, date.today().isoformat())
        sheets = self._answers.ask(asked, partial(said_in, asked[0].language, drawn))
        self._grey(sheets is None)
        if sheets is not None:
            self.sheets = sheets
            self.write.setText(translate("StackLam", "Write PDF ({} pages)").format(len(sheets)))
            self.turn_to(self.at)
            self._enable(True)

    def _grey(self, grey: bool) -> None:
        for one in (self.caption, self.picture, self.back, self.on):
            one.setEnabled(not grey)
        if grey:
            self.write.setText(translate("StackLam", "Write PDF"))

    def clear_figures(self) -> None:
        """See Panel."""
        self.sheets = ()
        self._grey(True)
        self.caption.setText("–")
        self.picture.clear()
        self._enable(False)

    def _enable(self, well: bool) -> None:
        for one in (self.write, self.files, self.printing, self.pages, self.bench):
            one.setEnabled(well)

    def remark(self) -> str:
        """See Panel."""
        if self._answers.at_work:
            return translate("StackLam", "Drawing the pages…")
        return translate("StackLam", "Print at 100 %, “actual size”, and measure the check scales before you cut.")

    def is_drawn(self) -> bool:
        """Whether there is a book for the values as they stand, once it is drawn; False, with a sentence, when there
        cannot be one, and when the maker would not wait."""
        if not self.refresh():
            return False
        try:
            self._answers.settle(translate("StackLam", "Drawing the pages"))
        except Refusal as refusal:
            self.sentence.setText(sentence_of(refusal))
            return False
        return self._well

    def close(self) -> None:
        """See Panel."""
        self._answers.forget()
        super().close()

    def turn_to(self, page: int) -> None:
        """Show the page with this place in the book, from 0."""
        if not self.sheets:
            return
        self.at = max(0, min(page, len(self.sheets) - 1))
        sheet = self.sheets[self.at]
        image = sheet_image(sheet, min(GLANCE, MOST_DOTS * INCH / max(sheet.paper)))
        self.picture.show_page(image)
        self.caption.setText(
            translate("StackLam", "Page {} of {}: {}").format(self.at + 1, len(self.sheets), sheet.title)
        )
        self.back.setEnabled(self.at > 0)
        self.on.setEnabled(self.at + 1 < len(self.sheets))

    # --- writing -----------------------------------------------------------------------------------------------------
    def write_file(self, *_: Any) -> bool:
        """Write the PDF where the panel says; False when it could not be."""
        if not self.is_drawn():
            return False
        try:
            if not self.path.text().strip():
                raise Refusal(translate("StackLam", "Say where the PDF should go: give a file name."))
            path = Path(self.path.text().strip()).expanduser()
            path = path if path.suffix.lower() == ".pdf" else path.with_name(path.name + ".pdf")
            with language_spoken(self.settings().language):
                drawing_outputs.write_book(self.sheets, path, self.settings().title)
            self._keep()
        except Refusal as refusal:
            tell(sentence_of(refusal))
            return False
        FreeCAD.Console.PrintMessage(f"StackLam: {len(self.sheets)} pages written to {path}\n")
        self.tell_result(
            translate("StackLam", "{} pages were written to {}. {}").format(len(self.sheets), path, self.remark()), path
        )
        self.opened = self.view.isChecked() and drawing_outputs.open_in_viewer(path)
        return True

    def print_sheets(self, *_: Any) -> None:
        """Print, where this FreeCAD can; else open the PDF where it can be printed."""
        if not drawing_outputs.can_print():
            shown = self.view.isChecked()
            self.view.setChecked(True)
            if self.write_file():
                says = (
                    translate(
                        "StackLam", "The PDF is open in your viewer: print it from there at “actual size”, 100 %. {}"
                    )
                    if self.opened
                    else translate(
                        "StackLam", "The PDF is written: open it yourself and print it at “actual size”, 100 %. {}"
                    )
                )
                tell(says.format(self.remark()))
            self.view.setChecked(shown)
        elif self.is_drawn():
            with told():
                if drawing_outputs.print_book(self.sheets, self.settings().title):
                    self.tell_result(
                        translate("StackLam", "{} pages went to the printer. {}").format(
                            len(self.sheets), self.remark()
                        )
                    )

    def write_files(self, *_: Any) -> None:
        """Write SVG and DXF into a folder that the maker chooses."""
        if not self.is_drawn():
            return
        folder = drawing_outputs.ask_folder(str(Path(self.path.text()).expanduser().parent))
        if folder:
            with told(), language_spoken(self.settings().language):
                drawn, cut, old = drawing_outputs.write_files(self.plan, self.sheets, folder, self.written_units())
                said = translate("StackLam", "{} sheets as SVG and {} outlines as DXF were written to {}.")
                more = translate("StackLam", " {} drawings from before lie there too: see whether they still hold.")
                self.tell_result(said.format(drawn, cut, folder) + (more.format(old) if old else ""), folder)

    def write_bench(self, *_: Any) -> None:
        """Write the bench page of the glue-up where the maker says."""
        if self.is_drawn():
            first = Path(self.path.text()).expanduser().parent / f"{file_stem(self.document)} bench.html"
            plan = replace(self.plan, title=self.settings().title)
            with told(), language_spoken(self.settings().language):
                said, path = drawing_outputs.write_bench(plan, self.sheets, first, self.written_units())
                if said:
                    self.tell_result(said, path)

    def make_pages(self, *_: Any) -> None:
        """Make TechDraw pages of the layers."""
        if self.is_drawn():
            with told(), language_spoken(self.settings().language):
                settings = self.settings()
                plan = replace(self.plan, title=settings.title, author=settings.author)
                count = len(drawing_outputs.make_pages(self.document, plan, self.written_units()))
                self.tell_result(
                    translate(
                        "StackLam", "{} pages were added to the tree: double-click one to edit and dimension it."
                    ).format(count)
                    if count
                    else translate("StackLam", "Every layer has its page already: you find them in the tree.")
                )

    def _keep(self) -> None:
        """Remember title, paper and units in the document and for the next one."""
        settings = self.settings()
        preferences.remember(
            paper=settings.paper, units=settings.units, fraction=self.fraction.currentData(),
            both_units=self.both.isChecked(),
        )  # fmt: skip
        if job_in(self.document) is None or settings != self._start:
            with one_undo_step(self.document, translate("StackLam", "Title and paper of the drawings")):
                make_job(self.document, settings)
                self.document.recompute()
            self._start = settings

    def getStandardButtons(self) -> Any:
        """Close only: the PDF is written by a button of its own."""
        return QtWidgets.QDialogButtonBox.Close
