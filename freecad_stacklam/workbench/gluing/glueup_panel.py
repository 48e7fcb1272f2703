# SPDX-License-Identifier: LGPL-2.1-or-later

"""The panel for the glue-up: clamps, glue and room in; the set-ups in their order, and the layers shown apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, replace
from typing import Any

from freecad_stacklam.data import glue_table
from freecad_stacklam.docobjects.base.family import glue_up_in, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.glueup import notes_of, rounds_text, verdict_of
from freecad_stacklam.docobjects.reading.glueups import asked_of
from freecad_stacklam.docobjects.reading.gluing import glue_of, glue_up_for, room_of
from freecad_stacklam.docobjects.reading.setupwords import condition_lines, left_out_of
from freecad_stacklam.docobjects.spreadsheets.clamps import clamps_in, presses_in
from freecad_stacklam.lamination.gluing.limits import LOAD
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import format_mass
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.quantities import format_grams, format_temperature, format_time
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.file import facts_of
from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.decimals import shown_decimals
from freecad_stacklam.workbench.fields.fields import choice, figure, group, units_shown
from freecad_stacklam.workbench.fields.messages import busy, one_undo_step
from freecad_stacklam.workbench.fields.panel import Panel
from freecad_stacklam.workbench.fields.picking import show_alone
from freecad_stacklam.workbench.fields.quantityfields import usual_text
from freecad_stacklam.workbench.fields.rowfields import RowFields
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.gluing.clamp_table import ClampTable, kept_clamps
from freecad_stacklam.workbench.gluing.set_up_list import SetUpList
from freecad_stacklam.workbench.panelparts.documentfiles import folder_of
from freecad_stacklam.workbench.panelparts.folding import Folding
from freecad_stacklam.workbench.recorded import options_of, run

QtWidgets = widgets()
NONE = QT_TRANSLATE_NOOP("StackLam", "none")
#: Options of the glue that are not as its kind has them: what is shown where they are left out.
OWN_WORDS = {
    "least_pressure": QT_TRANSLATE_NOOP("StackLam", "by the wood"),
    "most_pressure": QT_TRANSLATE_NOOP("StackLam", "by the wood"),
    "price": QT_TRANSLATE_NOOP("StackLam", "not known"),
}
#: The same of the room.
ROOM_WORDS = {
    "humidity": QT_TRANSLATE_NOOP("StackLam", "not known"),
    "reface": NONE,
    "planed": QT_TRANSLATE_NOOP("StackLam", "not known"),
}


BEFORE = QT_TRANSLATE_NOOP("StackLam", "Before you begin")
#: What the table's times are measured at, °C.
MEASURED_AT = 20.0


def times_text(temperature: float, times: Sequence[float], units: str) -> str:
    """How long a glue stays open, may wait for full pressure, is in clamps and cures, at a temperature, °C."""
    return translate("StackLam", "At {}: open {}, pressed within {}, in clamps {}, cured after {}").format(
        format_temperature(temperature, units), *(format_time(t) for t in times)
    )


def by_urgency(line: str) -> int:
    """Conditions that say no stand first, then those that say wait."""
    return ("no", "wait", "go").index(line.partition(":")[0])


class GlueUpPanel(Panel):
    """Plans the glue-up of a document, or changes the one that is there."""

    patience = 1000

    def __init__(self, document: Document) -> None:
        super().__init__(translate("StackLam", "Glue-up"), "StackLam_PlanGlueUp")
        self.document = document
        if not stacks_in(document):
            raise Refusal(translate("StackLam", "There is nothing to glue yet: slice a form into layers first."))
        with busy():
            self._asked, self._whole = asked_of(document)
        there = glue_up_in(document)
        new = GlueSettings(kind=preferences.glue())
        self._glue = new if there is None else glue_of(there)
        self._room = GluingRoom() if there is None else room_of(there)
        owned = presses_in(document) if clamps_in(document) is not None else kept_clamps()
        self.plan: GlueUpPlan | None = None
        self.clamps = ClampTable(owned, self._asked.units, folder_of(document), self._soon.start)
        self._build()
        self.finish()

    # --- the fields ------------------------------------------------------------------------------------------------
    def _build(self) -> None:
        self.figures = {name: figure(name) for name in ("verdict", "setUps", "glueMass", "conditions")}
        self.set_ups = SetUpList(self.document, self._whole.stacks)
        takes, _ = group(
            translate("StackLam", "What it takes"),
            [
                (translate("StackLam", "Verdict"), self.figures["verdict"]),
                (translate("StackLam", "Set-ups"), self.figures["setUps"]),
                (translate("StackLam", "Glue"), self.figures["glueMass"]),
                ("", self.set_ups.widget),
            ],
        )
        self.before = Folding(translate("StackLam", BEFORE), "foldConditions", self.figures["conditions"], False)
        for part in (
            takes,
            self.sentence,
            self.before,
            Folding(translate("StackLam", "Clamps"), "foldClamps", self.clamps.widget, True),
            self._glue_box(),
            Folding(translate("StackLam", "As your can says"), "foldGlue", self._own_glue(), False),
            self._room_box(),
        ):
            self.body.addWidget(part)
        self.watch(self.kind, *self.glue, *self.room)
        self.still(self.set_ups.slider)
        there = glue_up_in(self.document)
        if there is not None:
            self.edits(there, {"Glue": self.kind}, self.glue)
            self.edits(there, {}, self.room)

    def _glue_box(self) -> Any:
        table = glue_table()
        known = [name for name in table if name.lower() == self._glue.kind.lower()]
        kinds = [(shown(name), name) for name in table]
        if not known:  # of a table that is not this one: refused until another is chosen
            kinds.append((self._glue.kind, self._glue.kind))
        self.kind = choice(
            "glueKind",
            kinds,
            known[0] if known else self._glue.kind,
            translate("StackLam", "Its figures are common practice: what stands on your own can says more"),
        )
        self.times, self.now = figure("glueTimes"), figure("roomTimes")
        self.kind.currentIndexChanged.connect(lambda *_: self._show_kind())
        return group(
            translate("StackLam", "Glue"),
            [(translate("StackLam", "Kind"), self.kind), ("", self.times), ("", self.now)],
        )[0]

    def _own_glue(self) -> Any:
        usual = {f.name: OWN_WORDS.get(f.name, "") for f in fields(GlueSettings) if f.default is None}
        self.glue = RowFields(self._glue, "glue", without=("kind",), usual=usual)
        self._show_kind()
        return group("", self.glue.lines())[0]

    def _show_kind(self) -> None:
        """The times of the chosen kind, and its figures greyed where the maker gives none."""
        glue = glue_table().get(self.kind.currentData())
        if glue is None:
            self.times.setText("–")
            return
        times = glue.open_time, glue.assembly_time, glue.clamp_time, glue.cure_time
        self.times.setText(shown_decimals(times_text(MEASURED_AT, times, self._asked.units)))
        for name, row in self.glue.rows.items():
            value = getattr(glue, name, None)
            if row.first is None and value is not None:
                self.glue[name].setPlaceholderText(usual_text(row, value))
            elif row.first is None:
                left_out = OWN_WORDS.get(name, NONE)
                self.glue[name].setPlaceholderText(translate("StackLam", left_out))

    def _room_box(self) -> Any:
        usual = {name: translate("StackLam", words) for name, words in ROOM_WORDS.items()}
        usual["lift"] = shown_decimals(
            translate("StackLam", "{}, near the body").format(format_mass(LOAD, units_shown()))
        )
        self.room = RowFields(self._room, "room", usual=usual)
        holder = QtWidgets.QWidget()
        column = QtWidgets.QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(group(translate("StackLam", "Room"), self.room.of_group("Room"))[0])
        moves = group("", self.room.of_group("Moves"))[0]
        cauls = group("", self.room.of_group("Cauls"))[0]
        column.addWidget(Folding(translate("StackLam", "How long each move takes"), "foldMoves", moves, False))
        column.addWidget(Folding(translate("StackLam", "Cauls and refacing"), "foldCauls", cauls, False))
        return holder

    # --- what they say -----------------------------------------------------------------------------------------------
    def settings(self) -> Settings:
        """The job with glue, room and clamps as the panel has them. Raises Refusal when a value cannot be."""
        return replace(
            self._asked,
            glue=replace(self._glue, kind=self.kind.currentData(), **self.glue.values()),
            room=replace(self._room, **self.room.values()),
            presses=self.clamps.presses(),
        )

    def show_figures(self) -> None:
        """See Panel."""
        settings = self.settings()
        with busy():
            self.plan = plan = glue_up_for(self.document, self._whole, settings)
        count, broken = len(plan.set_ups), sum(not s.held for s in plan.set_ups)
        told = {
            "verdict": translate("StackLam", "ok: every set-up holds its limits")
            if verdict_of(plan) == "ok"
            else translate("StackLam", "stop: {} of {} set-ups break a limit").format(broken, count)
            if broken
            else translate("StackLam", "stop: not everything could be planned")
            if left_out_of(plan)
            else translate("StackLam", "stop: wait before glue is opened"),
            "setUps": translate("StackLam", "{}, with {}").format(count, rounds_text(plan)),
            "glueMass": format_grams(plan.glue, settings.units),
            "conditions": "\n".join(sorted(condition_lines(plan, settings.units), key=by_urgency)) or "–",
        }
        for name, text in told.items():
            self.figures[name].setText(shown_decimals(text))
        self.now.setText(shown_decimals(times_text(plan.temperature, plan.times, settings.units)))
        self.now.setVisible(plan.temperature != MEASURED_AT)
        waits = sum(c.verdict != "go" for c in plan.conditions)
        title = translate("StackLam", BEFORE)
        self.before.tell(translate("StackLam", "{}: {} to see to").format(title, waits) if waits else title)
        self.set_ups.show(plan, settings.units)

    def clear_figures(self) -> None:
        """See Panel."""
        self.plan = None
        self.set_ups.clear()
        self.now.hide()
        self.before.tell(translate("StackLam", BEFORE))
        for label in self.figures.values():
            label.setText("–")

    def remark(self) -> str:
        """See Panel."""
        return "" if self.plan is None else "\n".join(notes_of(self.plan, self._asked.units))

    # --- OK ----------------------------------------------------------------------------------------------------------
    def make(self) -> None:
        """Keep glue, room, clamps and set-ups in the document, in one undo step."""
        settings = self.settings()
        assert settings.glue is not None
        assert settings.room is not None
        self.set_ups.clear()
        with busy(), one_undo_step(self.document, translate("StackLam", "Glue-up")):
            glue_up = run(
                "glue_up", "plan_glue_up", self.document, glue=options_of(settings.glue),
                room=options_of(settings.room), clamp=[facts_of(one) for one in settings.presses],
            )  # fmt: skip
        preferences.remember(glue=settings.glue.kind)
        show_alone(glue_up)

    def close(self) -> None:
        """Layers and clamps go back to their places with the panel."""
        self.set_ups.clear()
        super().close()

    def _forget(self) -> None:
        """See Panel: the parts refer to fields too."""
        for name in ("clamps", "set_ups"):
            if name in self.__dict__:
                self.__dict__[name].__dict__.clear()
        super()._forget()
