# SPDX-License-Identifier: LGPL-2.1-or-later

"""The panel that hollows a stack: the wall in, the voids, the wood they save and the glue area they leave at once."""

from __future__ import annotations

from freecad_stacklam.docobjects.base.protocols import HollowObject, StackObject
from freecad_stacklam.docobjects.base.woods import woods_in
from freecad_stacklam.docobjects.forms.shapes import hollow_shape, placement_of
from freecad_stacklam.docobjects.hollow import COVER_CHECK, glue_lines_met, thinnest_place
from freecad_stacklam.docobjects.making.insides import try_hollow, wall_that_works
from freecad_stacklam.docobjects.reading.insides import settings_of_hollow
from freecad_stacklam.lamination.inside.checks import hollow_checks
from freecad_stacklam.lamination.plan.checks import is_of
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.verdicts import worst_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.fields import figure, group, shown_length, shown_volume, units_shown
from freecad_stacklam.workbench.fields.messages import busy
from freecad_stacklam.workbench.fields.rowfields import RowFields
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.panels.inside_panel import InsidePanel
from freecad_stacklam.workbench.scene import ghost
from freecad_stacklam.workbench.scene.marks import words_for

QtWidgets = widgets()


class HollowPanel(InsidePanel):
    """Hollows a stack, or changes `hollow` when it is given."""

    noun = "Hollow"

    def __init__(self, stack: StackObject, hollow: HollowObject | None = None) -> None:
        super().__init__(translate("StackLam", "Hollow"), "StackLam_HollowLayers", stack, hollow)

    def _build(self) -> None:
        start = self._begin() if self.obj is None else settings_of_hollow(self.obj)
        self.fields = RowFields(start)
        voids, _ = group(
            translate("StackLam", "Voids"),
            self.fields.lines(
                "wall", "caps", "margin", "web", "vent", "turn", "least", "way_in", "way_in_bit", "cut_worth"
            ),
        )
        self.count, self.saved, self.left = figure("voids"), figure("woodSaved"), figure("leastWall")
        self.glue, self.air = figure("glueArea"), figure("vents")
        gives, _ = group(
            translate("StackLam", "What it gives"),
            [
                (translate("StackLam", "Voids"), self.count),
                (translate("StackLam", "Wood saved"), self.saved),
                (translate("StackLam", "Least wall"), self.left),
                (translate("StackLam", "Glue area left"), self.glue),
                (translate("StackLam", "Air"), self.air),
            ],
        )
        for box in (gives, self.sentence, voids):
            self.body.addWidget(box)
        self.watch(*self.fields)
        if self.obj is not None:
            self.edits(self.obj, {}, self.fields)

    def _begin(self) -> HollowSettings:
        """The wall used last, or the thickest that leaves a void where that is too thick for this form."""
        with busy():
            return HollowSettings(wall=wall_that_works(self.stack, preferences.wall()))

    def asked(self) -> HollowSettings:
        """See InsidePanel."""
        return HollowSettings(**self.fields.values())

    def trial(self, asked: HollowSettings) -> StackPlan:
        """See InsidePanel."""
        return try_hollow(self.stack, asked)

    def tell_figures(self, plan: StackPlan) -> None:
        """See InsidePanel."""
        assert plan.hollow is not None
        rooms = ", ".join(
            f"{v.layers[0]}"
            if len(v.layers) == 1
            else translate("StackLam", "{} to {}").format(v.layers[0], v.layers[-1])
            for v in plan.hollow.voids
        )
        only = len({n for v in plan.hollow.voids for n in v.layers}) == 1
        where = translate("StackLam", "{}, in layer {}") if only else translate("StackLam", "{}, in layers {}")
        self.count.setText(where.format(len(plan.hollow.voids), rooms))
        wood = sum(layer.blank_volume for layer in plan.layers)
        share = translate("StackLam", "{:.0f} % of the blanks").format(100 * plan.hollow.volume / wood)
        self.saved.setText(f"{shown_volume(plan.hollow.volume)}, {share}")
        self.left.setText(translate("StackLam", "at least {}").format(shown_length(plan.hollow.least_wall)))
        met = glue_lines_met(plan.hollow)
        if met:
            line = min(met, key=lambda g: g.left / g.whole)
            self.glue.setText(
                translate("StackLam", "{:.0f} % or more; least between layers {} and {}").format(
                    100 * line.left / line.whole, line.interface, line.interface + 1
                )
            )
        else:
            self.glue.setText(translate("StackLam", "all of it"))
        closed = sum(not (v.vent and v.vent_place) for v in plan.hollow.voids)
        self.air.setText(
            translate("StackLam", "{} closed").format(closed)
            if closed
            else translate("StackLam", "vented to the underside")
        )
        shape = hollow_shape(plan)
        shape.Placement = placement_of(plan.frame)
        verdict = worst_of(
            c for c in hollow_checks(plan, woods_in(self.stack.Document), units=units_shown()) if is_of(c, COVER_CHECK)
        )
        mark = ghost.Spot(thinnest_place(plan), words_for(plan.hollow.least_wall), verdict)
        ghost.show(self.stack.Document, [ghost.Part3D(shape, ghost.TAKEN)], [mark])

    def clear_figures(self) -> None:
        """See Panel."""
        super().clear_figures()
        for label in (self.count, self.saved, self.left, self.glue, self.air):
            label.setText("–")

    def remark(self) -> str:
        """See Panel."""
        assert self._found is not None
        return "\n".join(
            c.says
            for c in hollow_checks(self._found, woods_in(self.stack.Document), units=units_shown())
            if c.verdict != "ok"
        )

    def work(self) -> tuple[str, str]:
        """See InsidePanel."""
        return "hollow_layers", "change_hollow"

    def make(self) -> None:
        """See InsidePanel."""
        asked = self.asked()
        super().make()
        preferences.remember(wall=asked.wall)


def edit(hollow: HollowObject) -> HollowPanel:
    """The panel for a hollow that is there."""
    if hollow.Stack is None:
        raise Refusal(
            translate("StackLam", "“{}” has no stack: give it one in its properties, or delete it.").format(
                hollow.Label
            )
        )
    return HollowPanel(hollow.Stack, hollow)
