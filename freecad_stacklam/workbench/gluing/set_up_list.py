# SPDX-License-Identifier: LGPL-2.1-or-later

"""The set-ups as a list, and a slider that steps through them with the layers shown apart in the 3D view.

At a step the layers that are glued by then are together, and the pads of the clamps of the last set-up are drawn.
Nothing in the document moves.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import FreeCAD
import FreeCADGui
import numpy as np
import Part

from freecad_stacklam.docobjects.base.family import joints_in, name_of_stack, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.reading.exploded import Exploded, exploded
from freecad_stacklam.docobjects.reading.joints import shown_joint
from freecad_stacklam.docobjects.reading.setupwords import clamp_lines, pressure_lines, run_text, time_text
from freecad_stacklam.lamination.form.frame import to_model
from freecad_stacklam.lamination.plan.gluing import EDGES, GlueUpPlan, SetUp
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.qt_binding import QtCore, QtGui, widgets
from freecad_stacklam.workbench.fields.decimals import shown_decimals
from freecad_stacklam.workbench.fields.fields import figure
from freecad_stacklam.workbench.fields.messages import busy
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.scene import apart, ghost
from freecad_stacklam.workbench.scene.setups import drawn_around

QtWidgets = widgets()
_OWNER = "glue-up panel"
#: Height of the list, and least width, pixels: three set-ups are in sight.
HIGH, LEAST = 150, 120
#: Thickness of a drawn pad, mm.
PAD = 10.0


class SetUpList:
    """The list, what is said of the chosen set-up, and the slider."""

    def __init__(self, document: Document, stacks: Sequence[StackPlan]) -> None:
        self.document, self.stacks = document, stacks
        self.plan: GlueUpPlan | None = None
        self.units = "mm"
        self._seen_apart = False
        self.widget = QtWidgets.QWidget()
        self.list = QtWidgets.QListWidget()
        self.list.setObjectName("setUpList")
        self.list.setWordWrap(True)
        self.list.setMinimumWidth(LEAST)
        self.list.setFixedHeight(HIGH)
        self.list.setAlternatingRowColors(True)
        # Row by row, the end of a row that is higher than the list would never be seen.
        self.list.setVerticalScrollMode(QtWidgets.QAbstractItemView.ScrollPerPixel)
        self.list.setHorizontalScrollBarPolicy(QtCore.Qt.ScrollBarAlwaysOff)
        self.said = figure("setUpSaid")
        self.step = figure("glueStep")
        self.slider = QtWidgets.QSlider(QtCore.Qt.Horizontal)
        self.slider.setObjectName("glueSlider")
        self.slider.setPageStep(1)
        self.slider.setTickPosition(QtWidgets.QSlider.TicksBelow)
        self.slider.setToolTip(
            translate("StackLam", "Step through the glue-up: what is not glued yet stands apart. Nothing is moved")
        )
        column = QtWidgets.QVBoxLayout(self.widget)
        column.setContentsMargins(0, 0, 0, 0)
        for part in (self.list, self.slider, self.step, self.said):
            column.addWidget(part)
        self.list.currentRowChanged.connect(self._chosen)
        self.slider.valueChanged.connect(self._stepped)
        self.clear()

    def show(self, plan: GlueUpPlan, units: str) -> None:
        """Show this plan; the step stays where it was where the plan still has it."""
        shown, step = self.plan is not None and self._apart, self.slider.value()
        self.plan, self.units = plan, units
        self._quietly(lambda: self._fill(plan, units))
        if shown and step <= len(plan.set_ups):
            self.slider.setValue(step)
            self._go(step)
        else:
            apart.clear(_OWNER)
            ghost.clear()

    def _fill(self, plan: GlueUpPlan, units: str) -> None:
        self.list.clear()
        for one in plan.set_ups:
            item = QtWidgets.QListWidgetItem(
                f"{one.number}. {run_text(one)}\n{shown_decimals(verdict_text(one, units))}"
            )
            if not one.held:
                item.setForeground(QtGui.QColor.fromRgbF(*ghost.VERDICTS["stop"]))
            self.list.addItem(item)
        self.slider.setEnabled(bool(plan.set_ups))
        self._offer(bool(plan.set_ups))
        self.slider.setRange(0, len(plan.set_ups))
        self.slider.setValue(len(plan.set_ups))
        self.step.setText(translate("StackLam", "Slide to see the layers come together"))
        self.said.setText("")
        self._apart = False

    def clear(self) -> None:
        """No plan: nothing is listed, and everything in the 3D view is where it belongs."""
        self.plan, self._apart = None, False
        self._quietly(self._empty)
        apart.clear(_OWNER)
        ghost.clear()

    def _empty(self) -> None:
        self.list.clear()
        self.slider.setRange(0, 0)
        self.slider.setEnabled(False)
        self.step.setText("")
        self.said.setText("")
        self._offer(False)

    def _offer(self, wanted: bool) -> None:
        """Show what there is to choose from; an empty list would only take room."""
        for part in (self.list, self.slider, self.step, self.said):
            part.setVisible(wanted)

    def _quietly(self, action: Any) -> None:
        for part in (self.list, self.slider):
            part.blockSignals(True)
        try:
            action()
        finally:
            for part in (self.list, self.slider):
                part.blockSignals(False)

    def _chosen(self, row: int) -> None:
        if row >= 0:
            self._go(row + 1)

    def _stepped(self, step: int) -> None:
        self._go(step)

    def _go(self, step: int) -> None:
        """Show one step: list, words and 3D view."""
        plan = self.plan
        if plan is None:
            return
        self._apart = True

        def follow() -> None:
            self.slider.setValue(step)
            self.list.setCurrentRow(step - 1)

        self._quietly(follow)
        one = plan.set_ups[step - 1] if step else None
        count = len(plan.set_ups)
        if one is None:
            self.step.setText(translate("StackLam", "Nothing is glued yet"))
            self.said.setText("")
        else:
            self.step.setText(translate("StackLam", "Set-up {} of {}, wait {}").format(step, count, one.round))
            self.said.setText("\n".join(said_of(one, self.units)))
        with busy():
            self._show_apart(plan, step, one)

    def _show_apart(self, plan: GlueUpPlan, step: int, one: SetUp | None) -> None:
        joints = {j.Label: j for j in joints_in(self.document) if not j.Suppressed}
        places = exploded(self.stacks, [shown_joint(j) for j in joints.values()], plan, step)
        moved: dict[str, apart.Triple | None] = dict.fromkeys(drawn_around(self.document))
        for stack in stacks_in(self.document):
            for layer in stack.Layers:
                moved[layer.Name] = _triple(places.layers.get((name_of_stack(stack), layer.Number), np.zeros(3)))
        moved |= {joint.Name: _triple(places.tenons.get(name, np.zeros(3))) for name, joint in joints.items()}
        apart.show(self.document, moved, _OWNER)
        ghost.show(self.document, [] if one is None else self._marked(one, places))
        if not self._seen_apart:  # apart they are higher than the view; after that the view is the maker's
            self._seen_apart = True
            FreeCADGui.SendMsgToActiveView("ViewFit")

    def _marked(self, one: SetUp, places: Exploded) -> list[ghost.Part3D]:
        """What is marked of a set-up: the pads of its clamps on the layers that they press, or the blank whose staves
        are glued edge to edge."""
        stack = next((s for s in self.stacks if s.name == one.stack), None)
        if one.kind == EDGES:
            blanks = [n for s in stacks_in(self.document) if name_of_stack(s) == one.stack for n in s.Layers]
            return [_moved(n.Shape, places.layers[one.stack, n.Number]) for n in blanks if n.Number == one.first]
        if stack is None or not one.places:
            return []
        up = FreeCAD.Vector(*np.array(stack.frame).reshape(4, 4)[:3, 2].tolist())
        discs = []
        for place in one.places:
            for height, side in ((place.foot, -1.0), (place.head, 1.0)):
                (at,) = to_model(stack.frame, np.array([(*place.at, height)]))
                # A pad lies on the layer that ends there; over a joint on another stack, which is closed by now.
                layer = _nearest(stack, height - side)
                at = at + places.layers[stack.name, layer.number]
                discs.append(Part.makeCylinder(place.pad / 2, PAD, FreeCAD.Vector(*at.tolist()), up * side))
        return [ghost.Part3D(Part.Compound(discs), ghost.TAKEN)]


def verdict_text(one: SetUp, units: str) -> str:
    """The verdict on a set-up in one line, and the first limit that it breaks."""
    if one.held:
        return translate("StackLam", "ok: {}").format(time_text(one))
    return translate("StackLam", "stop: {}").format(told(one.limits[0].says, units))


def said_of(one: SetUp, units: str) -> list[str]:
    """All that is to be said of a set-up, a line each."""
    lines = [
        *(limit.says for limit in one.limits[1:]),
        *([one.why] if one.why else []),
        *one.before,
        *([", ".join(clamp_lines(one))] if one.places else []),
        *pressure_lines(one, units),
        *one.helps,
        *one.cautions,
    ]
    return [shown_decimals(told(line, units)) for line in lines]


def _nearest(stack: StackPlan, height: float) -> LayerPlan:
    """The layer that a height lies in, or is nearest to."""
    return min(stack.layers, key=lambda layer: max(layer.bottom - height, height - layer.top))


def _moved(shape: Any, vector: Any) -> ghost.Part3D:
    """A shape so far from its place, marked."""
    copy = shape.copy()
    copy.translate(FreeCAD.Vector(*vector.tolist()))
    return ghost.Part3D(copy, ghost.TAKEN)


def _triple(vector: Any) -> apart.Triple:
    x, y, z = (float(v) for v in vector)
    return x, y, z
