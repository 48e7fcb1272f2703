# SPDX-License-Identifier: LGPL-2.1-or-later

"""The panel that joins stacks: axis, tenon and depths in; length and least cover at once; OK makes the joint."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import inf
from typing import Any

import numpy as np

from freecad_stacklam.docobjects.base.protocols import JointObject, StackObject
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.base.woods import wood_names_in, woods_in
from freecad_stacklam.docobjects.forms.shapes import tenon_shape
from freecad_stacklam.docobjects.reading.joints import settings_of_joint
from freecad_stacklam.docobjects.reading.stacks import shown_plan
from freecad_stacklam.lamination.form.volumes import volume_middle
from freecad_stacklam.lamination.joints.joint import place_joint
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.joint import SECTIONS, JointSettings
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.axisfield import AxisField
from freecad_stacklam.workbench.fields.fields import (
    choice,
    figure,
    group,
    length_field,
    on_change,
    set_value,
    show_row,
    side_by_side,
    units_shown,
    value_of,
)
from freecad_stacklam.workbench.fields.messages import busy, one_undo_step, says_no_plainly
from freecad_stacklam.workbench.fields.panel import Panel
from freecad_stacklam.workbench.fields.picking import picked_point, show_alone
from freecad_stacklam.workbench.fields.rowfields import RowFields
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.panels.bench_box import BENCH, BenchBox
from freecad_stacklam.workbench.panels.joint_words import figures_of, sentence_of, verdict_of
from freecad_stacklam.workbench.recorded import options_of, run
from freecad_stacklam.workbench.scene import ghost
from freecad_stacklam.workbench.scene.marks import words_for

QtWidgets = widgets()
#: Options that the panel asks in a way of its own, and what is shown for the words of another.
BY_HAND = ("axis", "species")
WORDS = {"ends": {"wedged": QT_TRANSLATE_NOOP("StackLam", "proud and wedged")}}


class JointPanel(Panel):
    """Makes a joint between stacks, or edits `joint` when one is given."""

    patience = 300

    def __init__(self, stacks: Sequence[StackObject], joint: JointObject | None = None) -> None:
        super().__init__(translate("StackLam", "Mortise and tenon"), "StackLam_AddJoint")
        self.stacks = tuple(stacks)
        self.joint = joint
        with busy():
            shown = [shown_plan(stack) for stack in self.stacks]
        self._plans = {plan.name: plan for plan, _ in shown}
        self._meshes = {form.name: form.mesh for _, form in shown}
        self._middles = {name: volume_middle(mesh) for name, mesh in self._meshes.items()}
        if len(self._plans) != len(self.stacks):
            raise Refusal(
                translate("StackLam", "Two of the stacks have the same name: give each a label of its own first.")
            )
        self._start = settings_of_joint(joint) if joint is not None else self._first_settings()
        # What the axis goes through and follows, and where that was; typing another point lets go of it.
        self._anchor: tuple[Any, str] | None = None
        self._anchored_at = self._start.through
        if joint is not None and joint.Anchor is not None:
            self._anchor = (joint.Anchor[0], joint.Anchor[1][0] if joint.Anchor[1] else "")
        self._build()
        self.finish()

    def _first_settings(self) -> JointSettings:
        """The axis of the first form, where most wood is left around it, and depths that the common rules of thumb
        would give (common practice). Of more than two stacks, those that lie between the others are gone through."""
        frame = next(iter(self._plans.values())).frame
        axis = (frame[2], frame[6], frame[10])
        order = self._along(axis) if len(self._plans) > 2 else list(self._plans)
        side = preferences.tenon_side()
        first = JointSettings(
            name=" to ".join(order),
            through=(frame[3], frame[7], frame[11]),
            axis=axis,
            size=(side,),
            embed=tuple((name, None if name in order[1:-1] else self._depth(name, side)) for name in self._plans),
        )
        tried = [first, *(replace(first, through=(float(x), float(y), float(z))) for x, y, z in self._middles.values())]
        return max(tried, key=self._wood_around)

    def _along(self, axis: tuple[float, float, float]) -> list[str]:
        """The names of the stacks in their order along an axis."""
        return sorted(self._plans, key=lambda name: float(self._middles[name] @ np.array(axis)))

    def _wood_around(self, settings: JointSettings) -> float:
        """Least cover of a joint, mm; less than any where it cannot be placed."""
        try:
            return round(place_joint(settings, self._plans, self._meshes).least_cover, 3)
        except Refusal:
            return -inf

    def _depth(self, name: str, side: float) -> float:
        """One and a half times the side, but no more than half of the form's height, in whole mm or
        eighths of an inch."""
        step = INCH / 8 if units_shown() == "in" else 1.0
        return round(min(1.5 * side, self._plans[name].form.height / 2) / step) * step

    # --- the fields ------------------------------------------------------------------------------------------------
    def _build(self) -> None:
        self.fields = RowFields(self._start, without=BY_HAND, words=WORDS)
        self.section, self.ends = self.fields["section"], self.fields["ends"]
        axis, tenon = self._axis_box(), self._tenon_box()
        self.bench = BenchBox(self.stacks[0].Document, self.fields)
        # Figures and sentence first: the fields below may be more than the window is high.
        for box in (self._gives_box(), self.sentence, axis, tenon, self.bench.box):
            self.body.addWidget(box)
        for widget in (self.section, self.ends, self.own_relief, *self.through.values()):
            on_change(widget, self._show_rows)
        self._show_rows()
        self.watch(self.name, *self.point, self.axis.choice, self.side, self.width, *self.fields)
        self.watch(*self.depths.values(), *self.through.values(), self.own_relief, self.relief, self.species)
        self.watch(self.bench.bits, self.bench.stroke)
        if self.joint is not None:
            self.edits(self.joint, self._by_property(), self.fields)

    def _by_property(self) -> dict[str, Any]:
        """The fields of the joint's properties that are asked in a way of their own."""
        return {
            **{f"Through.{c}": field for c, field in zip("xyz", self.point)},
            "Axis": (self.axis.choice, self.axis.button),
            "Size": self.side,
            "Width": self.width,
            "Embed": (*self.depths.values(), *self.through.values()),
            "OwnRelief": self.own_relief,
            "Relief": self.relief,
            "Species": self.species,
        }

    def _axis_box(self) -> Any:
        start = self._start
        self.name = QtWidgets.QLineEdit(start.name)
        self.name.setObjectName("jointName")
        self.point = [
            length_field(f"point{c.upper()}", v, translate("StackLam", "{} of the point").format(c))
            for c, v in zip("xyz", start.through)
        ]
        self.pick_point = QtWidgets.QPushButton(translate("StackLam", "Use selected vertex, circle or face"))
        self.pick_point.setObjectName("pickPoint")
        self.pick_point.clicked.connect(self._take_point)
        self.axis = AxisField(
            "jointAxis", start.axis, translate("StackLam", "The direction in which the tenon runs"), self.refresh
        )
        return group(
            translate("StackLam", "Where it runs"),
            [
                (translate("StackLam", "Name"), self.name),
                (translate("StackLam", "Through x"), self.point[0]),
                ("y", self.point[1]),
                ("z", self.point[2]),
                ("", self.pick_point),
                *self.axis.lines(translate("StackLam", "Axis")),
            ],
        )[0]

    def _tenon_box(self) -> Any:
        start = self._start
        self.side = length_field(
            "tenonSide", start.size[0], translate("StackLam", "Side of the mortise, or its diameter")
        )
        self.width = length_field("tenonWidth", start.size[-1], translate("StackLam", "Second side of the mortise"))
        self.own_relief = QtWidgets.QCheckBox(translate("StackLam", "Relief of my own"))
        self.own_relief.setObjectName("ownRelief")
        self.own_relief.setChecked(start.relief is not None)
        self.own_relief.setToolTip(
            translate("StackLam", "Otherwise each end-grain wall is cut back as far as the movement calls for")
        )
        self.relief = length_field(
            "relief", start.relief or 0.0, translate("StackLam", "Cut back from each end-grain wall of the mortise")
        )
        woods = sorted({*wood_names_in(self.stacks[0].Document), *filter(None, [start.species])})
        self.species = choice(
            "tenonWood",
            [(translate("StackLam", "as the first piece"), ""), *((shown(name), name) for name in woods)],
            start.species,
            translate("StackLam", "The wood of the tenon; its grain runs along its length"),
        )
        box, self._rows = group(
            translate("StackLam", "Mortise and tenon"),
            [
                *self.fields.lines("section"),
                (translate("StackLam", "Side or diameter"), self.side),
                (translate("StackLam", "Second side"), self.width),
                *self.fields.lines("turn"),
                *self._depth_lines(),
                *self.fields.lines(*(name for name in self.fields.rows if name not in ("section", "turn", *BENCH))),
                (translate("StackLam", "Wood of the tenon"), self.species),
                ("", self.own_relief),
                (translate("StackLam", "Relief"), self.relief),
            ],
        )
        return box

    def _depth_lines(self) -> list[tuple[str, Any]]:
        """A depth in each stack, with a tick for through."""
        self.depths: dict[str, Any] = {}
        self.through: dict[str, Any] = {}
        start, lines = self._start, []
        for number, name in enumerate(self._plans, 1):
            given = start.depth_in(name) if name in start.stacks else None
            depth = self._depth(name, start.size[0]) if given is None else given
            field = length_field(f"depth{number}", depth, translate("StackLam", "Tenon held by {}").format(name))
            check = QtWidgets.QCheckBox(translate("StackLam", "through"))
            check.setObjectName(f"through{number}")
            check.setChecked(given is None)
            self.depths[name], self.through[name] = field, check
            lines.append((translate("StackLam", "Depth in {}").format(name), side_by_side(field, check)))
        return lines

    def _gives_box(self) -> Any:
        captions = {
            "tenon": translate("StackLam", "Tenon"),
            "cover": translate("StackLam", "Least wood left"),
            "coverPlace": translate("StackLam", "Nearest at"),
            "walls": translate("StackLam", "Relief"),
            "wedges": translate("StackLam", "Wedges"),
            "boring": translate("StackLam", "Boring"),
        }
        self.labels = {name: figure(name) for name in captions}
        box, self._figures = group(
            translate("StackLam", "What it gives"), [(captions[name], label) for name, label in self.labels.items()]
        )
        return box

    @says_no_plainly
    def _take_point(self, *_: Any) -> None:
        self._anchored_at, self._anchor = picked_point()
        for field, value in zip(self.point, self._anchored_at):
            set_value(field, value)
        self.refresh()

    def _show_rows(self) -> None:
        """Show the fields that mean something for this joint."""
        section = self.section.currentData()
        order = self._along(self._start.axis)
        through = any(self.through[name].isChecked() for name in (order[0], order[-1]))
        for name, field in self.depths.items():
            field.setEnabled(not self.through[name].isChecked())
        show_row(self._rows, self.width, section == "rectangle")
        show_row(self._rows, self.fields["turn"], section != "round")
        show_row(self._rows, self.ends, through)
        show_row(self._rows, self.fields["proud"], through and self.ends.currentData() != "flush")
        show_row(self._rows, self.relief, self.own_relief.isChecked())

    # --- what they say ---------------------------------------------------------------------------------------------
    def settings(self) -> JointSettings:
        """The values as they stand. Raises Refusal when one of them cannot be."""
        name = self.name.text().strip()
        if not name:
            raise Refusal(translate("StackLam", "The joint has no name: give it one, it is printed on the drawings."))
        section = self.section.currentData()
        x, y, z = (value_of(field) for field in self.point)
        return replace(
            self._start,
            name=name,
            through=(x, y, z),
            axis=self.axis.direction(),
            size=(value_of(self.side), value_of(self.width))[: SECTIONS[section]],
            embed=tuple(
                (stack, None if self.through[stack].isChecked() else value_of(field))
                for stack, field in self.depths.items()
            ),
            relief=value_of(self.relief) if self.own_relief.isChecked() else None,
            species=self.species.currentData(),
            **self.fields.values() | ({"turn": 0.0} if section == "round" else {}),
        )

    def figures(self) -> JointPlan:
        """The joint for the values as they stand."""
        document = self.stacks[0].Document
        shop, units = self.bench.shop(), units_in(document)  # OK bores with the same bits
        return place_joint(
            self.settings(), self._plans, self._meshes, woods_in(document), shop.bits, units, shop.drill_stroke
        )

    def show_figures(self) -> None:
        """See Panel."""
        found = self.figures()
        for name, text in figures_of(found).items():
            self.labels[name].setText(text)
        show_row(self._figures, self.labels["wedges"], any(m.wedge is not None for m in found.members))
        self._found = found
        self._preview(found)

    def _preview(self, found: JointPlan) -> None:
        """The tenon in its place, and a mark where least wood is left."""
        shape, placement = tenon_shape(found)
        shape.Placement = placement
        mark = ghost.Spot(found.cover_place, words_for(found.least_cover), verdict_of(found))
        ghost.show(self.stacks[0].Document, [ghost.Part3D(shape)], [mark])

    def clear_figures(self) -> None:
        """See Panel."""
        for label in self.labels.values():
            label.setText("–")
        ghost.clear()

    def remark(self) -> str:
        """See Panel."""
        return sentence_of(self._found)

    # --- OK ----------------------------------------------------------------------------------------------------------
    def make(self) -> None:
        """Make or change the joint, in one undo step."""
        settings = self.settings()
        document = self.stacks[0].Document
        ghost.clear()
        with busy():
            if self.joint is None:
                with one_undo_step(document, translate("StackLam", "Add joint {}").format(settings.name)):
                    self.bench.keep()
                    self.joint = run("joint", "add_joint", self.stacks, **options_of(settings))
                    self._follow()
            else:
                with one_undo_step(document, translate("StackLam", "Change joint {}").format(settings.name)):
                    self.bench.keep()
                    run("joint", "change_joint", self.joint, **options_of(settings))
                    self._follow()
        show_alone(self.joint)
        preferences.remember(tenon_side=settings.size[0])

    def close(self) -> None:
        """The preview goes with the panel."""
        ghost.clear()
        super().close()

    def _follow(self) -> None:
        """Tie the axis to what was picked for it, or let go of that when another point was typed."""
        assert self.joint is not None
        typed = tuple(value_of(field) for field in self.point)
        anchor = self._anchor if typed == self._anchored_at else None
        old = self.joint.Anchor
        if anchor is not None and (old is None or (old[0].Name, *old[1]) != (anchor[0].Name, anchor[1])):
            run("joint", "follow", self.joint, anchor[0], anchor[1])
        elif anchor is None and old is not None:
            run("joint", "follow", self.joint)


def edit(joint: JointObject) -> JointPanel:
    """The panel for a joint that is there."""
    if len(joint.Stacks) < 2 or None in joint.Stacks:
        raise Refusal(
            translate("StackLam", "“{}” has lost one of its stacks: delete it, and join the stacks again.").format(
                joint.Label
            )
        )
    return JointPanel(joint.Stacks, joint)
