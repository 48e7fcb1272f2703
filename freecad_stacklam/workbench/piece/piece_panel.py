# SPDX-License-Identifier: LGPL-2.1-or-later

"""The panel of the finished piece: how it is used, the room it stands in, its finish, rates, the budget of the
allowance; and what is found with them at once."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from freecad_stacklam.docobjects.base.family import piece_in, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.woods import woods_of
from freecad_stacklam.docobjects.reading.piece import RECORDS, piece_for, record_of, slow_standing
from freecad_stacklam.docobjects.reading.pieces import asked_piece
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.job.piececheck import piece_checks
from freecad_stacklam.lamination.lengths import format_mass
from freecad_stacklam.lamination.options.rows import Record
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.decimals import shown_decimals
from freecad_stacklam.workbench.fields.fields import figure, group
from freecad_stacklam.workbench.fields.messages import busy, one_undo_step, sentence_of
from freecad_stacklam.workbench.fields.panel import Panel
from freecad_stacklam.workbench.fields.rowfields import RowFields
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.panelparts.folding import Folding
from freecad_stacklam.workbench.piece.load_table import LoadTable
from freecad_stacklam.workbench.piece.month_table import MonthTable
from freecad_stacklam.workbench.piece.section import Section
from freecad_stacklam.workbench.recorded import options_of, run

#: What is asked, in the words of its check box.
ASKS = {
    "use": QT_TRANSLATE_NOOP("StackLam", "Does it stand and hold?"),
    "climate": QT_TRANSLATE_NOOP("StackLam", "What does a year do?"),
    "finish": QT_TRANSLATE_NOOP("StackLam", "Finish and abrasives"),
    "rates": QT_TRANSLATE_NOOP("StackLam", "Make a quote"),
    "budget": QT_TRANSLATE_NOOP("StackLam", "Is the allowance enough?"),
}
TITLES = {
    "use": QT_TRANSLATE_NOOP("StackLam", "Use and loads"),
    "climate": QT_TRANSLATE_NOOP("StackLam", "Room and wood"),
    "finish": QT_TRANSLATE_NOOP("StackLam", "Finish and sanding"),
    "rates": QT_TRANSLATE_NOOP("StackLam", "Your rates"),
    "budget": QT_TRANSLATE_NOOP("StackLam", "What the work takes of the allowance"),
}
MIND = QT_TRANSLATE_NOOP("StackLam", "What to mind")
#: Sentences shown, at most: the rest is in the checks.
SHOWN = 3


def _first(name: str, record: type[Record]) -> Record:
    """What a new piece starts with."""
    return preferences.rates() if name == "rates" else record()


class PiecePanel(Panel):
    """Says what is asked of the finished piece of a document, or changes it."""

    patience = 1000

    def __init__(self, document: Document) -> None:
        super().__init__(translate("StackLam", "Finished piece"), "StackLam_FinishedPiece")
        self.document = document
        if not stacks_in(document):
            raise Refusal(translate("StackLam", "There is no piece yet: slice a form into layers first."))
        with busy():
            self._asked, self._plan, self._meshes = asked_piece(document)
        piece = piece_in(document)
        self._start: dict[str, Any] = {
            name: _first(name, record) if piece is None else record_of(piece, name)
            for name, (record, _) in RECORDS.items()
        }
        wanted = {name: name == "use" if piece is None else getattr(piece, w) for name, (_, w) in RECORDS.items()}
        self.found: PieceFindings | None = None
        units = self._asked.units
        self.loads = LoadTable(self._start["use"].loads, units, self._soon.start)
        self.months = MonthTable(self._start["climate"].months, units, self._soon.start)
        self._build(wanted)
        self.finish()

    # --- the fields ------------------------------------------------------------------------------------------------
    def _build(self, wanted: dict[str, bool]) -> None:
        self.figures = {name: figure(name) for name in ("pieceWeighs", "pieceDeeper", "pieceSays")}
        new = piece_in(self.document) is None  # what it is for is asked first
        self.minded = Folding(translate("StackLam", MIND), "foldSays", self.figures["pieceSays"], not new)
        found, _ = group(
            translate("StackLam", "What is found"),
            [
                (translate("StackLam", "It weighs"), self.figures["pieceWeighs"]),
                ("", self.figures["pieceDeeper"]),
                ("", self.minded),
            ],
        )
        self.body.addWidget(found)
        self.body.addWidget(self.sentence)
        self.sections: dict[str, Section] = {}
        self.fields: dict[str, RowFields] = {}
        for name in RECORDS:
            self.fields[name] = RowFields(self._start[name], name)
            lines = self.fields[name].lines()
            if name == "use":
                lines.append(("", self.loads.widget))
            if name == "climate":
                lines[:0] = [(translate("StackLam", "Climate"), self.months.choice), ("", self.months.table)]
            asks, inside = translate("StackLam", ASKS[name]), translate("StackLam", TITLES[name])
            section = Section(asks, inside, name, group("", lines)[0], wanted[name])
            self.sections[name] = section
            self.body.addWidget(section)
            self.watch(section.box, *self.fields[name])
            if not new:
                self.edits(piece_in(self.document), {RECORDS[name][1]: section.box}, self.fields[name])
        if new:
            self.sections["use"].unfold()
        self.still(self.months.choice)

    # --- what they say -----------------------------------------------------------------------------------------------
    def settings(self) -> Settings:
        """The job with what is asked of the piece as the panel has it. Raises Refusal when a value cannot be."""
        told: dict[str, Any] = {}
        refused: Refusal | None = None
        for name, section in self.sections.items():
            section.say("")
            try:
                told[name] = self._record(name) if section.box.isChecked() else None
            except Refusal as refusal:
                section.say(shown_decimals(sentence_of(refusal)))
                refused = refused or refusal
        if refused is not None:
            raise refused
        whole: Settings = replace(self._asked, **told)
        return whole

    def _record(self, name: str) -> Record:
        values = self.fields[name].values()
        if name == "use":
            values["loads"] = self.loads.loads()
        if name == "climate":
            values["months"] = self.months.months()
        made: Record = replace(self._start[name], **values)
        return made

    def show_figures(self) -> None:
        """See Panel."""
        settings = self.settings()
        with busy():
            found = piece_for(self._plan, self._meshes, settings, woods_of(settings.species))
        self.found = found
        minded = [check for check in piece_checks(found, settings.units) if check.verdict != "ok"]
        minded.sort(key=lambda check: check.verdict != "stop")
        says = [check.says for check in minded[:SHOWN]]
        if len(minded) > SHOWN:
            says.append(translate("StackLam", "{} more stand in the checks.").format(len(minded) - SHOWN))
        mass = found.mass
        self.figures["pieceWeighs"].setText("–" if mass is None else shown_decimals(format_mass(mass, settings.units)))
        self.figures["pieceSays"].setText(shown_decimals("\n".join(f"• {text}" for text in says)) or "–")
        mind = translate("StackLam", MIND)
        self.minded.tell(f"{mind}: {len(minded)}" if minded else translate("StackLam", "All is well"))
        self.figures["pieceDeeper"].setText(self._deeper(settings))

    def _deeper(self, settings: Settings) -> str:
        """What was looked at deeper, and for which plan."""
        piece = piece_in(self.document)
        stands = slow_standing(self._plan, settings, "" if piece is None else piece.Looked)
        return "\n".join(f"{what[:1].upper()}{what[1:]}: {how}" for what, how in stands.items())

    def clear_figures(self) -> None:
        """See Panel."""
        self.found = None
        for label in self.figures.values():
            label.setText("–")
        self.minded.tell(translate("StackLam", MIND))

    # --- OK ----------------------------------------------------------------------------------------------------------
    def make(self) -> None:
        """Keep what is asked in the document, in one undo step."""
        settings = self.settings()
        with busy(), one_undo_step(self.document, translate("StackLam", "Finished piece")):
            asked = {name: getattr(settings, name) for name in RECORDS}
            tables = {name: options_of(record) for name, record in asked.items() if record is not None}
            run("piece", "finished_piece", self.document, **tables)
        if settings.rates is not None:
            preferences.remember(hour_price=settings.rates.hour_price or 0.0)

    def _forget(self) -> None:
        """See Panel: the tables refer to fields too."""
        for name in ("loads", "months"):
            if name in self.__dict__:
                self.__dict__[name].__dict__.clear()
        super()._forget()
