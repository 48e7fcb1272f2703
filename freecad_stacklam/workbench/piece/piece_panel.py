# SPDX-License-Identifier: LGPL-2.1-or-later

"""The panel of the finished piece: how it is used, the room it stands in, its finish, rates, the budget of the
allowance; and what is found with them at once."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from freecad_stacklam.data import climate_table
from freecad_stacklam.docobjects.base.family import piece_in, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.base.woods import woods_of
from freecad_stacklam.docobjects.making.piece import put_piece
from freecad_stacklam.docobjects.reading.piece import RECORDS, piece_for, record_of
from freecad_stacklam.docobjects.reading.pieces import asked_piece
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.job.piececheck import piece_checks
from freecad_stacklam.lamination.lengths import format_mass
from freecad_stacklam.lamination.options.recordlines import record_from, record_line
from freecad_stacklam.lamination.options.rows import Record
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.usage.use import LoadSettings
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields.fields import choice, figure, group
from freecad_stacklam.workbench.fields.messages import busy, one_undo_step
from freecad_stacklam.workbench.fields.panel import Panel
from freecad_stacklam.workbench.fields.rowfields import RowFields
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.gluing.folding import Folding

QtWidgets = widgets()
#: What is asked, in the words of its check box.
ASKS = {
    "use": QT_TRANSLATE_NOOP("StackLam", "Does it stand and hold?"),
    "climate": QT_TRANSLATE_NOOP("StackLam", "What does a year do to it?"),
    "finish": QT_TRANSLATE_NOOP("StackLam", "Count finish and abrasives"),
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
OWN_MONTHS = QT_TRANSLATE_NOOP("StackLam", "your own twelve months")
LOAD_EXAMPLE = '{name = "two children", down = "500 N"}'
#: Sentences shown, at most: the rest is in the checks.
SHOWN = 6


class PiecePanel(Panel):
    """Says what is asked of the finished piece of a document, or changes it."""

    patience = 1000

    def __init__(self, document: Document) -> None:
        super().__init__(translate("StackLam", "Finished piece"), "StackLam_CheckStack")
        self.document = document
        if not stacks_in(document):
            raise Refusal(translate("StackLam", "There is no piece yet: slice a form into layers first."))
        with busy():
            self._asked, self._plan, self._meshes = asked_piece(document)
        piece = piece_in(document)
        self._start: dict[str, Any] = {
            name: record() if piece is None else record_of(piece, name) for name, (record, _) in RECORDS.items()
        }
        wanted = {name: name == "use" if piece is None else getattr(piece, w) for name, (_, w) in RECORDS.items()}
        self.found: PieceFindings | None = None
        self._build(wanted)
        self.finish()

    # --- the fields ------------------------------------------------------------------------------------------------
    def _build(self, wanted: dict[str, bool]) -> None:
        self.figures = {name: figure(name) for name in ("pieceWeighs", "pieceSays")}
        found, _ = group(
            translate("StackLam", "What is found"),
            [(translate("StackLam", "It weighs"), self.figures["pieceWeighs"]), ("", self.figures["pieceSays"])],
        )
        self.body.addWidget(found)
        self.body.addWidget(self.sentence)
        self.wanted: dict[str, Any] = {}
        self.fields: dict[str, RowFields] = {}
        for name in RECORDS:
            box = QtWidgets.QCheckBox(translate("StackLam", ASKS[name]))
            box.setObjectName(f"{name}Wanted")
            box.setChecked(wanted[name])
            self.wanted[name] = box
            self.fields[name] = RowFields(self._start[name], name)
            lines = self.fields[name].lines()
            if name == "use":
                lines.append(("", self._load_field()))
            if name == "climate":
                lines.insert(0, (translate("StackLam", "Climate"), self._climate_field()))
            inside = group("", lines)[0]
            folding = Folding(translate("StackLam", TITLES[name]), f"fold{name.capitalize()}", inside, name == "use")
            self.body.addWidget(box)
            self.body.addWidget(folding)
            self.watch(box, *self.fields[name])
        self.watch(self.climate, self.loads)

    def _climate_field(self) -> Any:
        names = [(name, name) for name in climate_table()]
        months = self._start["climate"].months
        own = not isinstance(months, str)
        if own:
            names.append((translate("StackLam", OWN_MONTHS), ""))
        tip = translate("StackLam", "Bundled climates are invented; months of your own: the property Months")
        self.climate = choice("climateMonths", names, "" if own else months, tip)
        return self.climate

    def _load_field(self) -> Any:
        self.loads = QtWidgets.QPlainTextEdit("\n".join(record_line(one) for one in self._start["use"].loads))
        self.loads.setObjectName("useLoads")
        self.loads.setPlaceholderText(
            translate("StackLam", "Loads of your own, one a line, as in {}").format(LOAD_EXAMPLE)
        )
        self.loads.setMaximumHeight(70)
        return self.loads

    # --- what they say -----------------------------------------------------------------------------------------------
    def settings(self) -> Settings:
        """The job with what is asked of the piece as the panel has it. Raises Refusal when a value cannot be."""
        told: dict[str, Any] = {}
        for name, box in self.wanted.items():
            told[name] = self._record(name) if box.isChecked() else None
        whole: Settings = replace(self._asked, **told)
        return whole

    def _record(self, name: str) -> Record:
        values = self.fields[name].values()
        if name == "use":
            lines = [line for line in self.loads.toPlainText().splitlines() if line.strip()]
            values["loads"] = tuple(record_from(line, LoadSettings) for line in lines)
        if name == "climate" and self.climate.currentData():
            values["months"] = self.climate.currentData()
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
        self.figures["pieceWeighs"].setText("–" if mass is None else format_mass(mass, settings.units))
        self.figures["pieceSays"].setText("\n".join(f"• {text}" for text in says) or translate("StackLam", "all well"))

    def clear_figures(self) -> None:
        """See Panel."""
        self.found = None
        for label in self.figures.values():
            label.setText("–")

    # --- OK ----------------------------------------------------------------------------------------------------------
    def make(self) -> None:
        """Keep what is asked in the document, in one undo step."""
        settings = self.settings()
        with busy(), one_undo_step(self.document, translate("StackLam", "Finished piece")):
            put_piece(self.document, settings)
            self.document.recompute()
