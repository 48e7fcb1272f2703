# SPDX-License-Identifier: LGPL-2.1-or-later

"""The panel that slices a form: boards and axis in, layers and wood at once, OK makes the stack."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from freecad_stacklam.docobjects.base.breathing import heard_between_steps
from freecad_stacklam.docobjects.base.family import name_of_stack
from freecad_stacklam.docobjects.base.protocols import StackObject
from freecad_stacklam.docobjects.base.woods import wood_names_in
from freecad_stacklam.docobjects.forms.form import solids_of
from freecad_stacklam.docobjects.forms.plancache import Found, form_to_find, plan_for
from freecad_stacklam.docobjects.making.naming import free_name
from freecad_stacklam.docobjects.reading.stacks import settings_to_change, tab_from, tab_text
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.layers.sequence import SequencePoint
from freecad_stacklam.lamination.layers.stack import StackPreview, candidates, preview, sequenced
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings, TabSettings
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.beginning import begin_document
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.axisfield import FollowingAxis
from freecad_stacklam.workbench.fields.decimals import shown_decimals
from freecad_stacklam.workbench.fields.fields import (
    choice,
    figure,
    group,
    inches_are_shown,
    later,
    length_field,
    read_lengths,
    shown_length,
    shown_volume,
    typed_lengths,
    value_of,
)
from freecad_stacklam.workbench.fields.messages import busy, one_undo_step, tell
from freecad_stacklam.workbench.fields.panel import Panel
from freecad_stacklam.workbench.fields.picking import show_alone, stack_of
from freecad_stacklam.workbench.fields.rowfields import RowFields
from freecad_stacklam.workbench.fields.thickness_fields import GlueLineFields
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.panelparts.folding import Folding
from freecad_stacklam.workbench.recorded import options_of, run
from freecad_stacklam.workbench.scene import layerghost
from freecad_stacklam.workbench.working.beside import Answers, waited
from freecad_stacklam.workbench.working.steps import undone_by_escape

QtWidgets = widgets()
#: Options that the panel asks in a way of its own.
BY_HAND = ("axis", "species", "glue_line_worth")
#: Milliseconds after which a line that is not left counts as typed to its end.
LEFT_ALONE = 1500
#: A waste tab as it is read: not to be translated.
TAB_EXAMPLES = {
    "mm": "layers 3-5; direction 45deg; width 60 mm; out 50 mm",
    "in": "layers 3-5; direction 45deg; width 2-3/8 in; out 2 in",
}


@dataclass(frozen=True, eq=False)
class Figures:
    """What is worked out beside the window for the values of the panel: the form, its layers and wood, and the curve
    wood ↔ layers where glue lines are chosen."""

    settings: StackSettings
    form: Found
    found: StackPreview
    curve: tuple[SequencePoint, ...]


def work_out(find: Callable[[], Found], settings: StackSettings) -> Figures:
    """Done in a thread: no document and no widget. Raises Refusal."""
    form = find()
    curve: tuple[SequencePoint, ...] = ()
    if sequenced(settings):
        # Without the values that do not change it, so that the curve is kept while the maker picks from it.
        curve = candidates(
            form.mesh, replace(settings, pick="least wood", glue_line_worth=0.0), datum=form.datum
        ).points
    return Figures(settings, form, preview(form.mesh, settings, datum=form.datum), curve)


class SlicePanel(Panel):
    """Makes a stack from `source`, or edits `stack` when one is given."""

    def __init__(self, source: Any, path: str = "", stack: StackObject | None = None) -> None:
        super().__init__(
            translate("StackLam", "Slice {}").format(source.Label)
            if stack is None
            else translate("StackLam", "Layers of {}").format(source.Label),
            "StackLam_SliceForm",
        )
        self.source = source
        self.path = path
        self.stack = stack
        with busy():
            self._solids = dict(solids_of(source, path))
        self._answers: Answers[Figures] = Answers(self.refresh, self.form)
        self._shown: Figures | None = None
        self._start = self._first_settings()
        self._build()
        self.finish()

    def _first_settings(self) -> StackSettings:
        if self.stack is not None:
            return settings_to_change(self.stack)
        return StackSettings(
            stock=(preferences.stock(),), allowance=preferences.allowance(), species=preferences.species()
        )

    # --- the fields ------------------------------------------------------------------------------------------------
    def _build(self) -> None:
        self.fields = RowFields(self._start, without=BY_HAND)
        self.lines = GlueLineFields(self._start, self._pick_point)
        for box in (self._boards_box(), self.lines.box, self._takes_box(), self._piling_box(), self._tabs_fold()):
            self.body.addWidget(box)
        self.watch(self.planed, self.solid, self.stock, self.species, *self.fields)
        self.watch(self.axis.choice, self.turned, self.tabs, self.piece, self.lines.pick, self.lines.worth)
        # The curve of a thickness that is half typed may take long, and nobody wants it.
        self.lines.others.textChanged.connect(lambda *_: self._grey(True))
        self.lines.others.editingFinished.connect(self._soon.start)
        self._idle = later(self.form, self.refresh, LEFT_ALONE)
        self.lines.others.textChanged.connect(self._idle.start)
        if self.stack is not None:
            self.edits(self.stack, self._by_property(), self.fields)

    def _by_property(self) -> dict[str, Any]:
        """The fields of the stack's properties that are asked in a way of their own."""
        return {
            "Stock": self.stock, "MoreStock": self.lines.others, "Pick": self.lines.pick, "Solid": self.solid,
            "GlueLineWorth": self.lines.worth, "PlanedThicknesses": self.planed, "Species": self.species,
            "Axis": (self.axis.choice, self.axis.button, self.turned), "WasteTabs": self.tabs, "Piece": self.piece,
        }  # fmt: skip

    def _boards_box(self) -> Any:
        start, labels = self._start, list(self._solids)
        self.solid = choice(
            "solid", [(label, label) for label in labels], start.form, translate("StackLam", "The solid to slice")
        )
        self.piece = QtWidgets.QLineEdit("" if self.stack is None else name_of_stack(self.stack))
        self.piece.setObjectName("piece")
        self.piece.setPlaceholderText(labels[0])
        self.piece.setToolTip(
            translate("StackLam", "What stands on its drawings and in the bill; left out: the label of the form")
        )
        self.stock = length_field(
            "stock", start.stock[0], translate("StackLam", "Thickness of the boards as they leave the planer")
        )
        self.planed = QtWidgets.QLineEdit(typed_lengths(start.thicknesses))
        self.planed.setObjectName("planed")
        examples = "1.756 in; 1.78 in; …" if inches_are_shown() else "44.6 mm; 45.2 mm; …"
        self.planed.setPlaceholderText(shown_decimals(examples))
        self.planed.setToolTip(
            translate(
                "StackLam",
                "Thicknesses measured on your own boards, from layer 1 up: they win over the stock thickness for as "
                "many layers as you list",
            )
        )
        names = sorted({*wood_names_in(self.source.Document), start.species})
        self.species = choice(
            "species",
            [(shown(name), name) for name in names],
            start.species,
            translate("StackLam", "The wood of this stack"),
        )
        return group(
            translate("StackLam", "Boards"),
            [
                *([(translate("StackLam", "Form"), self.solid)] if len(labels) > 1 else []),
                (translate("StackLam", "Name of the piece"), self.piece),
                (translate("StackLam", "Stock thickness"), self.stock),
                (translate("StackLam", "Others at hand"), self.lines.others),
                (translate("StackLam", "As planed, from layer 1"), self.planed),
                *self.fields.lines("allowance"),
                (translate("StackLam", "Wood"), self.species),
                *self.fields.lines("copies"),
            ],
        )[0]

    def _piling_box(self) -> Any:
        tip = "The direction in which the boards are piled"
        form = self.source, self.path
        self.axis = FollowingAxis(self._start.axis, tip, self.refresh, form, self.stack)
        self.turned = QtWidgets.QCheckBox(translate("StackLam", "Layer 1 at the other end"))
        self.turned.setObjectName("turned")
        rest = [name for name in self.fields.rows if name not in ("allowance", "copies")]
        return group(
            translate("StackLam", "Lay-up"),
            [*self.axis.lines(translate("StackLam", "Stacking axis")), ("", self.turned), *self.fields.lines(*rest)],
        )[0]

    def _tabs_fold(self) -> Any:
        start = [tab_text(tab) for tab in self._start.tabs]
        self.tabs = QtWidgets.QPlainTextEdit("\n".join(start))
        self.tabs.setObjectName("wasteTabs")
        self.tabs.setPlaceholderText(TAB_EXAMPLES["in" if inches_are_shown() else "mm"])
        self.tabs.setMaximumHeight(4 * self.tabs.fontMetrics().lineSpacing())
        self.tabs.setTabChangesFocus(True)
        self.tabs.setToolTip(
            translate(
                "StackLam",
                "One waste tab in each line, left on the blanks of its layers for the pads of clamps and sawn off "
                "after gluing. direction: where it points, from RIGHT, to the left seen from above; out: how far "
                "beyond the widest of its blanks; further, where needed: aside 10 mm; fillet 16 mm",
            )
        )
        return Folding(translate("StackLam", "Waste tabs for clamps"), "foldTabs", self.tabs, bool(start))

    def _takes_box(self) -> Any:
        self.layers, self.height = figure("layers"), figure("height")
        self.wood, self.form_volume, self.carved = figure("wood"), figure("formVolume"), figure("carved")
        return group(
            translate("StackLam", "What it takes"),
            [
                (translate("StackLam", "Layers"), self.layers),
                (translate("StackLam", "Stack height"), self.height),
                (translate("StackLam", "Wood in the blanks"), self.wood),
                (translate("StackLam", "Finished form"), self.form_volume),
                (translate("StackLam", "To carve away"), self.carved),
            ],
        )[0]

    # --- what they say ---------------------------------------------------------------------------------------------
    def settings(self) -> StackSettings:
        """The values as they stand. Raises Refusal when one of them cannot be."""
        axis = self.axis.direction()
        if self.turned.isChecked():
            axis = (-axis[0] + 0.0, -axis[1] + 0.0, -axis[2] + 0.0)
        return replace(
            self._start,
            form=self.solid.currentData(),
            stock=(value_of(self.stock), *self.lines.other_stock()),
            pick=self.lines.pick.currentData(),
            glue_line_worth=self.lines.worth_of_line(),
            thicknesses=self._thicknesses(),
            species=self.species.currentData(),
            axis=axis,
            tabs=self._tabs(),
            **self.fields.values(),
        )

    def _thicknesses(self) -> tuple[float, ...]:
        return read_lengths(self.planed.text())

    def _tabs(self) -> tuple[TabSettings, ...]:
        return tuple(tab_from(line) for line in self.tabs.toPlainText().splitlines() if line.strip())

    def _piece(self) -> str:
        """The name that the maker gave the piece, or "". Raises Refusal where another piece has it."""
        name = " ".join(self.piece.text().split())
        own = "" if self.stack is None else self.stack.Name
        if name and free_name(self.source.Document, name, own) != name:
            raise Refusal(
                translate("StackLam", "Another piece is called “{}”: give this one a name of its own.").format(name)
            )
        return name

    def _form_to_find(self, settings: StackSettings) -> tuple[Any, Callable[[], Found]]:
        return form_to_find(self.source, self.path, settings.form)

    def figures(self) -> Figures | None:
        """Layers and wood for the values as they stand; None while they are worked out. Raises Refusal."""
        settings = self.settings()
        self._piece()
        key, find = self._form_to_find(settings)
        return self._answers.ask((key, settings), lambda: work_out(find, settings))

    def _pick_point(self, index: int) -> None:
        """The maker picked a point of the curve: let the settings ask for it."""
        if self._shown is not None:
            self.lines.ask_for(self._shown.curve, index)
            self.refresh()

    def show_figures(self) -> None:
        """See Panel; the last figures stay, greyed, until the newest are there."""
        figures = self.figures()
        self._grey(figures is None)
        if figures is not None:
            self._shown = figures
            self._show(figures)
            self.show_ghost(figures.found, figures.settings, figures.form)

    def _grey(self, grey: bool) -> None:
        for one in (self.layers, self.height, self.wood, self.form_volume, self.carved, self.lines.curve):
            one.setEnabled(not grey)

    def _show(self, figures: Figures) -> None:
        found, curve = figures.found, figures.curve
        over = found.stack_height - found.height
        listed = min(len(self._thicknesses()), found.layers)
        text = translate("StackLam", "{} of {}").format(found.layers, shown_length(value_of(self.stock)))
        point = next((p for p in curve if p.layers == found.layers), None)
        if point is not None and len(set(point.planed_from)) > 1:
            boards = Counter(point.planed_from)
            of = translate("StackLam", "{} of {}")
            text = f"{found.layers}: " + ", ".join(of.format(boards[t], shown_length(t)) for t in sorted(boards))
        self.layers.setText(
            text if not listed else translate("StackLam", "{}, the lowest {} as planed").format(found.layers, listed)
        )
        self.lines.show_curve(curve, found.layers)
        self.height.setText(
            f"{shown_length(found.stack_height)}, "
            + (
                translate("StackLam", "{} above the form").format(shown_length(over))
                if over > 0.01
                else translate("StackLam", "as high as the form")
            )
        )
        self.wood.setText(shown_volume(found.wood_volume))
        self.form_volume.setText(shown_volume(found.form_volume))
        share = 100 * found.carved_volume / found.wood_volume if found.wood_volume else 0.0
        self.carved.setText(
            translate("StackLam", "{}, {:.0f} % of the wood").format(shown_volume(found.carved_volume), share)
        )

    def clear_figures(self) -> None:
        """See Panel."""
        for label in (self.layers, self.height, self.wood, self.form_volume, self.carved):
            label.setText("–")
        self.lines.show_curve((), 0)
        self._shown = None
        self._grey(False)
        self.clear_ghost()

    def remark(self) -> str:
        """See Panel."""
        if self._answers.at_work:
            return translate("StackLam", "Working it out…")
        notes = [] if self._shown is None else list(self._shown.form.mesh.notes)
        other = stack_of(self.source) if self.stack is None else None
        if other is not None:
            notes.append(
                translate("StackLam", "{} already has a stack, {}: OK makes one more.").format(
                    self.source.Label, other.Label
                )
            )
        return "\n".join(notes)

    # --- a ghost of the layers ---------------------------------------------------------------------------------------
    def show_ghost(self, found: StackPreview, settings: StackSettings, form: Found) -> None:
        """Called with the newest figures, in the window's thread."""
        layerghost.show(self.source, form.mesh, found, self.stack)

    def clear_ghost(self) -> None:
        """Called when there are none, and when the panel closes."""
        layerghost.clear()

    def close(self) -> None:
        """See Panel."""
        self._answers.forget()
        self.clear_ghost()
        super().close()

    # --- OK ----------------------------------------------------------------------------------------------------------
    def accept(self) -> bool:
        """See Panel; it waits for the figures first, for they may be refused."""
        if self.refresh():
            try:
                self._answers.settle()
            except Refusal:  # the maker would not wait
                return False
        return super().accept()

    def make(self) -> None:
        """Make or change the stack with its layers, in one undo step."""
        settings = self.settings()
        document = self.source.Document
        find, name = self._form_to_find(settings)[1], self._piece() or self.source.Label
        what = translate("StackLam", "Slicing {}").format(self.source.Label)
        planned = waited(lambda: plan_for(find(), settings, name), what)  # beside the window; kept for what follows
        if self.stack is None:
            step = translate("StackLam", "Slice {}").format(self.source.Label)
            with undone_by_escape(document, step, len(planned.layers) + 1) as on, heard_between_steps(on):
                begin_document(document)
                given = {"path": self.path, "piece": self._piece()}
                where = {key: text for key, text in given.items() if text}
                made = run("stack", "slice_form", self.source, **where, **options_of(settings))
                self.axis.follow(made)
            self.stack = made
        else:
            step = translate("StackLam", "Change layers of {}").format(self.source.Label)
            with busy(), one_undo_step(document, step):
                if self._piece() and self._piece() != name_of_stack(self.stack):
                    run("stack", "name_piece", self.stack, self._piece())
                run("stack", "change_layers", self.stack, **options_of(settings))
                self.axis.follow(self.stack)
        show_alone(self.stack)
        if self.stack.Verdict == "stop":
            tell(
                translate(
                    "StackLam",
                    "The form is not proven to lie inside the blanks of {}: do not cut. Check the stacks tells where "
                    "it stands out.",
                ).format(self.stack.Label)
            )
        preferences.remember(stock=settings.stock[0], allowance=settings.allowance, species=settings.species)


def edit(stack: StackObject) -> SlicePanel:
    """The panel for a stack that is there."""
    if stack.Form is None:
        raise Refusal(
            translate(
                "StackLam", "The form of “{}” is gone: delete the stack, or give it a form in its properties."
            ).format(stack.Label)
        )
    return SlicePanel(stack.Form, stack.FormPath, stack)
