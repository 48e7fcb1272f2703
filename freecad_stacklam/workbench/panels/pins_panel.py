# SPDX-License-Identifier: LGPL-2.1-or-later

"""The panel that sets registration pins: their size in, their places, cover and misfit at once."""

from __future__ import annotations

from freecad_stacklam.docobjects.base.protocols import PinsObject, StackObject
from freecad_stacklam.docobjects.forms.shapes import pin_shape, placement_of
from freecad_stacklam.docobjects.making.insides import try_pins
from freecad_stacklam.docobjects.pins import COVER_CHECK, misfit_lines, pin_place, without_waste
from freecad_stacklam.docobjects.reading.insides import pin_places, pin_texts, settings_of_pins
from freecad_stacklam.lamination.inside.checks import pin_checks
from freecad_stacklam.lamination.job.checks import left_out_checks
from freecad_stacklam.lamination.plan.checks import is_of
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.verdicts import worst_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.decimals import shown_decimals, typed_decimals
from freecad_stacklam.workbench.fields.fields import figure, group, inches_are_shown, shown_length, units_shown
from freecad_stacklam.workbench.fields.rowfields import RowFields
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.panels.inside_panel import InsidePanel
from freecad_stacklam.workbench.scene import ghost
from freecad_stacklam.workbench.scene.marks import words_for

QtWidgets = widgets()


class PinsPanel(InsidePanel):
    """Sets the pins of a stack, or changes `pins` when they are given."""

    noun = "Pin"

    def __init__(self, stack: StackObject, pins: PinsObject | None = None) -> None:
        super().__init__(translate("StackLam", "Pins"), "StackLam_SetPins", stack, pins)

    def _build(self) -> None:
        if self.obj is not None:
            start = settings_of_pins(self.obj)
        else:
            start = PinSettings(preferences.pin_diameter(), preferences.pin_depth(), preferences.pin_margin())
        self.fields = RowFields(start, "pin")
        self.at = QtWidgets.QPlainTextEdit(shown_decimals("\n".join(pin_texts(start.at))))
        self.at.setObjectName("pinAt")
        self.at.setPlaceholderText("1; 1-5/8 in; -1/2 in" if inches_are_shown() else "1; 40 mm; -12 mm")
        self.at.setToolTip(
            translate(
                "StackLam",
                "Pins set by hand, a line each: glue line (the number of the layer below it); x; y from the axis. A "
                "glue line with any gets no others.",
            )
        )
        self.at.setMaximumHeight(4 * self.at.fontMetrics().lineSpacing())
        pins, _ = group(
            translate("StackLam", "Pins"), [*self.fields.lines(), (translate("StackLam", "Set by hand"), self.at)]
        )
        self.number, self.cover, self.misfit = figure("pins"), figure("pinCover"), figure("pinMisfit")
        gives, _ = group(
            translate("StackLam", "What it gives"),
            [
                (translate("StackLam", "Pins"), self.number),
                (translate("StackLam", "Least wood left"), self.cover),
                (translate("StackLam", "Laid wrongly"), self.misfit),
            ],
        )
        self.lines = figure("pinLines")
        each, _ = group(translate("StackLam", "By glue line"), [("", self.lines)])
        for box in (gives, self.sentence, pins, each):
            self.body.addWidget(box)
        self.watch(*self.fields, self.at)
        if self.obj is not None:
            self.edits(self.obj, {"At": self.at}, self.fields)

    def asked(self) -> PinSettings:
        """See InsidePanel."""
        return PinSettings(**self.fields.values(), at=pin_places(typed_decimals(self.at.toPlainText()).splitlines()))

    def trial(self, asked: PinSettings) -> StackPlan:
        """See InsidePanel."""
        return try_pins(self.stack, asked)

    def tell_figures(self, plan: StackPlan) -> None:
        """See InsidePanel."""
        inner = [p for p in plan.pins if not p.waste]
        waste = len(plan.pins) - len(inner)
        self.number.setText(
            f"{len(inner)}" + (translate("StackLam", " and {} in waste wood").format(waste) if waste else "")
        )
        checks = pin_checks(plan, units=units_shown())
        marks = []
        if inner:
            least = min(inner, key=lambda p: p.least_cover)
            self.cover.setText(
                translate("StackLam", "{}, between layers {} and {}").format(
                    shown_length(least.least_cover), least.interface, least.interface + 1
                )
            )
            verdict = worst_of(c for c in checks if is_of(c, COVER_CHECK))
            marks.append(ghost.Spot(pin_place(self.stack, plan, least), words_for(least.least_cover), verdict))
        else:
            self.cover.setText("–")
        judged = [m for m in plan.misfits if m.distance is not None]
        if judged:
            worst = min(judged, key=lambda m: m.distance or 0.0)
            self.misfit.setText(
                translate("StackLam", "at least {} off; layer {}, {}").format(
                    shown_length(worst.distance or 0.0), worst.interface + 1, worst.way
                )
            )
        else:
            self.misfit.setText(translate("StackLam", "every outline shows it") if plan.misfits else "–")
        self.lines.setText("\n".join(misfit_lines(plan, units_shown())) or "–")
        shape = pin_shape(plan)
        if not shape.isNull():
            shape.Placement = placement_of(plan.frame)
        ghost.show(self.stack.Document, [ghost.Part3D(shape)], marks)

    def clear_figures(self) -> None:
        """See Panel."""
        super().clear_figures()
        for label in (self.number, self.cover, self.misfit, self.lines):
            label.setText("–")

    def remark(self) -> str:
        """See Panel."""
        assert self._found is not None
        units = units_shown()
        found = [*left_out_checks([self._found], units=units), *pin_checks(self._found, units=units)]
        says = [c.says for c in found if c.verdict != "ok"]
        return "\n".join([*says, *without_waste(self._found, self.fields["waste"].isChecked())])

    def work(self) -> tuple[str, str]:
        """See InsidePanel."""
        return "set_pins", "change_pins"

    def make(self) -> None:
        """See InsidePanel."""
        asked = self.asked()
        super().make()
        preferences.remember(pin_diameter=asked.diameter, pin_depth=asked.depth, pin_margin=asked.margin)


def edit(pins: PinsObject) -> PinsPanel:
    """The panel for pins that are there."""
    if pins.Stack is None:
        raise Refusal(
            translate("StackLam", "“{}” has no stack: give it one in its properties, or delete it.").format(pins.Label)
        )
    return PinsPanel(pins.Stack, pins)
