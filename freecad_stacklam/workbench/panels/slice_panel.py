# SPDX-License-Identifier: LGPL-2.1-or-later

"""The panel that slices a form: boards and axis in, layers and wood at once, OK makes the stack."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import Any

from freecad_stacklam.docobjects.base.family import name_of_stack
from freecad_stacklam.docobjects.base.protocols import StackObject
from freecad_stacklam.docobjects.base.woods import wood_names_in
from freecad_stacklam.docobjects.forms.form import solids_of
from freecad_stacklam.docobjects.forms.plancache import Found, find_form
from freecad_stacklam.docobjects.making.naming import free_name
from freecad_stacklam.docobjects.reading.stacks import settings_to_change, tab_from, tab_text
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.layers.sequence import SequencePoint
from freecad_stacklam.lamination.layers.stack import StackPreview, candidates, preview, sequenced
from freecad_stacklam.lamination.lengths import parse_lengths
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings, TabSettings
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.beginning import begin_document
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.axisfield import FollowingAxis
from freecad_stacklam.workbench.fields.fields import (
    choice,
    figure,
    group,
    inches_are_shown,
    length_field,
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
from freecad_stacklam.workbench.gluing.folding import Folding
from freecad_stacklam.workbench.recorded import options_of, run
from freecad_stacklam.workbench.scene import layerghost

QtWidgets = widgets()
#: Options that the panel asks in a way of its own.
BY_HAND = ("axis", "species", "glue_line_worth")
#: A waste tab as it is read: not to be translated.
TAB_EXAMPLE = "layers 3-5; direction 45deg; width 60 mm; out 50 mm"


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
        self._found: dict[str, Found] = {}
        self._curve_of: tuple[Any, tuple[SequencePoint, ...]] = None, ()
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
        self.watch(self.axis.choice, self.turned, self.tabs, self.piece, *self.lines.inputs)

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
        self.planed.setPlaceholderText("1.756 in; 1.78 in; …" if inches_are_shown() else "44.6 mm; 45.2 mm; …")
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
        self.tabs.setPlaceholderText(TAB_EXAMPLE)
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
        unit = "in" if inches_are_shown() else "mm"
        return parse_lengths(self.planed.text(), unit)

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

    def _form(self, label: str) -> Found:
        if label not in self._found:
            with busy():
                self._found[label] = find_form(self.source, self.path, label)
        return self._found[label]

    def figures(self) -> StackPreview:
        """Layers and wood for the values as they stand."""
        settings = self.settings()
        self._piece()
        form = self._form(settings.form)
        return preview(form.mesh, settings, datum=form.datum)

    def _curve(self) -> tuple[SequencePoint, ...]:
        """The curve wood ↔ layers, where glue lines are chosen; it does not depend on which point is."""
        settings = self.settings()
        if not sequenced(settings):
            return ()
        form = self._form(settings.form)
        key = form.key, replace(settings, pick="", glue_line_worth=0.0, species="", grain=0.0, copies=1)
        if self._curve_of[0] != key:
            with busy():
                asked = replace(settings, pick="least wood", glue_line_worth=0.0)
                self._curve_of = key, candidates(form.mesh, asked, datum=form.datum).points
        return self._curve_of[1]

    def _pick_point(self, index: int) -> None:
        """The maker picked a point of the curve: let the settings ask for it."""
        self.lines.ask_for(self._curve(), index)
        self.refresh()

    def show_figures(self) -> None:
        """See Panel."""
        found = self.figures()
        over = found.stack_height - found.height
        listed = min(len(self._thicknesses()), found.layers)
        text = f"{found.layers} of {shown_length(value_of(self.stock))}"
        point = next((p for p in self._curve() if p.layers == found.layers), None)
        if point is not None and len(set(point.planed_from)) > 1:
            boards = Counter(point.planed_from)
            text = f"{found.layers}: " + ", ".join(f"{boards[t]} of {shown_length(t)}" for t in sorted(boards))
        self.layers.setText(
            text if not listed else translate("StackLam", "{}, the lowest {} as planed").format(found.layers, listed)
        )
        self.lines.show_curve(self._curve(), found.layers)
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
        self.show_ghost(found, self.settings(), self._form(self.solid.currentData()))

    def clear_figures(self) -> None:
        """See Panel."""
        self.clear_ghost()
        for label in (self.layers, self.height, self.wood, self.form_volume, self.carved):
            label.setText("–")
        self.lines.show_curve((), 0)

    def remark(self) -> str:
        """See Panel."""
        notes = list(self._form(self.solid.currentData()).mesh.notes)
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
        self.clear_ghost()
        super().close()

    # --- OK ----------------------------------------------------------------------------------------------------------
    def make(self) -> None:
        """Make or change the stack with its layers, in one undo step."""
        settings = self.settings()
        document = self.source.Document
        with busy():
            if self.stack is None:
                with one_undo_step(document, translate("StackLam", "Slice {}").format(self.source.Label)):
                    begin_document(document)
                    given = {"path": self.path, "piece": self._piece()}
                    where = {key: text for key, text in given.items() if text}
                    self.stack = run("stack", "slice_form", self.source, **where, **options_of(settings))
                    self.axis.follow(self.stack)
            else:
                with one_undo_step(document, translate("StackLam", "Change layers of {}").format(self.source.Label)):
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
