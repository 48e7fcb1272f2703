"""The panel that joins two stacks: axis, tenon and depths in; length and least cover at once; OK makes the joint."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from freecad_stacklam.docobjects.joint import change_joint, make_joint, settings_of_joint
from freecad_stacklam.docobjects.stack import shown_plan
from freecad_stacklam.lamination.joint import place_joint
from freecad_stacklam.lamination.plan import JointPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings import AXES, JointSettings
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench import preferences
from freecad_stacklam.workbench.fields import choice, figure, group, length_field, set_value, shown_length, value_of
from freecad_stacklam.workbench.messages import busy, one_undo_step, says_no_plainly
from freecad_stacklam.workbench.panel import Panel
from freecad_stacklam.workbench.picking import picked_direction, picked_point, show_alone

QtWidgets = widgets()
PICKED = "picked"


class JointPanel(Panel):
    """Makes a joint between two stacks, or edits `joint` when one is given."""

    patience = 300

    def __init__(self, first: Any, second: Any, joint: Any = None) -> None:
        super().__init__("Mortise and tenon", "StackLam_AddJoint")
        self.stacks = (first, second)
        self.joint = joint
        with busy():
            shown = [shown_plan(stack) for stack in self.stacks]
        self._plans = {plan.name: plan for plan, _ in shown}
        self._meshes = {form.name: form.mesh for _, form in shown}
        if len(self._plans) != 2:
            raise Refusal("Both stacks have the same name: give each a label of its own first.")
        self._start = settings_of_joint(joint) if joint is not None else self._first_settings()
        self._direction = self._start.axis
        self._build()
        self.finish()

    def _first_settings(self) -> JointSettings:
        """The axis of the first form, and depths that the common rules of thumb would give (common practice)."""
        lower, _ = self._plans
        frame = self._plans[lower].frame
        side = preferences.tenon_side()
        return JointSettings(
            name=" to ".join(self._plans),
            through=(frame[3], frame[7], frame[11]),
            axis=(frame[2], frame[6], frame[10]),
            size=(side,),
            embed={name: self._depth(name, side) for name in self._plans},
        )

    def _depth(self, name: str, side: float) -> float:
        """One and a half times the side, but no more than half of the form's height."""
        return round(min(1.5 * side, self._plans[name].form.height / 2))

    # --- the fields ------------------------------------------------------------------------------------------------
    def _build(self) -> None:
        start = self._start
        self.name = QtWidgets.QLineEdit(start.name)
        self.name.setObjectName("jointName")
        self.point = [length_field(f"point{c.upper()}", v, f"{c} of the point") for c, v in zip("xyz", start.through)]
        self.pick_point = QtWidgets.QPushButton("Use selected vertex, circle or face")
        self.pick_point.setObjectName("pickPoint")
        self.pick_point.clicked.connect(self._take_point)
        known = next((n for n, a in AXES.items() if a == start.axis), PICKED)
        self.axis = choice(
            "jointAxis",
            [("z, upright", "z"), ("x", "x"), ("y", "y"), ("as picked", PICKED)],
            known,
            "The direction in which the tenon runs",
        )
        self.pick_axis = QtWidgets.QPushButton("Use selected face or edge")
        self.pick_axis.setObjectName("pickJointAxis")
        self.pick_axis.clicked.connect(self._take_direction)
        self.axis_text = figure("jointAxisText")
        axis, _ = group(
            "Where it runs",
            [
                ("Name", self.name),
                ("Through x", self.point[0]),
                ("y", self.point[1]),
                ("z", self.point[2]),
                ("", self.pick_point),
                ("Axis", self.axis),
                ("", self.pick_axis),
                ("", self.axis_text),
            ],
        )
        self.side = length_field("tenonSide", start.size[0], "Side of the square mortise")
        self.clearance = length_field("clearance", start.clearance, "Room for glue on each face of the tenon")
        self.end_room = length_field("endRoom", start.end_room, "Room for glue beyond the end of a stopped tenon")
        rows: list[tuple[str, Any]] = [("Mortise side", self.side)]
        self.depths: dict[str, Any] = {}
        self.through: dict[str, Any] = {}
        for number, name in enumerate(self._plans, 1):
            depth = start.embed.get(name)
            field = length_field(
                f"depth{number}", self._depth(name, start.size[0]) if depth is None else depth, f"Tenon held by {name}"
            )
            check = QtWidgets.QCheckBox("right through")
            check.setObjectName(f"through{number}")
            check.setChecked(depth is None)
            check.toggled.connect(lambda *_: self._grey_out())
            self.depths[name], self.through[name] = field, check
            rows += [(f"Depth in {name}", field), ("", check)]
        rows += [("Clearance per face", self.clearance), ("Room at the end", self.end_room)]
        tenon, _ = group("Tenon", rows)
        self.tenon = figure("tenon")
        self.cover = figure("cover")
        self.place = figure("coverPlace")
        gives, _ = group(
            "What it gives",
            [("Tenon", self.tenon), ("Least cover", self.cover), ("nearest at", self.place)],
        )
        for box in (axis, tenon, gives):
            self.body.addWidget(box)
        self._show_axis("")
        self._grey_out()
        self.watch(self.name, *self.point, self.axis, self.side, self.clearance, self.end_room)
        self.watch(*self.depths.values(), *self.through.values())
        self.axis.currentIndexChanged.connect(lambda *_: self._show_axis(""))

    @says_no_plainly
    def _take_point(self, *_: Any) -> None:
        point, _ = picked_point()
        for field, value in zip(self.point, point):
            set_value(field, value)
        self.refresh()

    @says_no_plainly
    def _take_direction(self, *_: Any) -> None:
        self._direction, source = picked_direction()
        self.axis.setCurrentIndex(self.axis.findData(PICKED))
        self._show_axis(source)
        self.refresh()

    def _grey_out(self) -> None:
        for name, field in self.depths.items():
            field.setEnabled(not self.through[name].isChecked())

    def _show_axis(self, source: str) -> None:
        self.axis_text.setVisible(self.axis.currentData() == PICKED)
        x, y, z = self._direction
        self.axis_text.setText((f"{source}: " if source else "Direction ") + f"{x:.4g}, {y:.4g}, {z:.4g}")

    # --- what they say ---------------------------------------------------------------------------------------------
    def settings(self) -> JointSettings:
        """The values as they stand. Raises Refusal when one of them cannot be."""
        name = self.name.text().strip()
        if not name:
            raise Refusal("The joint has no name: give it one, it is printed on the drawings.")
        chosen = self.axis.currentData()
        x, y, z = (value_of(field) for field in self.point)
        return replace(
            self._start,
            name=name,
            through=(x, y, z),
            axis=self._direction if chosen == PICKED else AXES[chosen],
            size=(value_of(self.side), *self._start.size[1:]),
            embed={
                stack: None if self.through[stack].isChecked() else value_of(field)
                for stack, field in self.depths.items()
            },
            clearance=value_of(self.clearance),
            end_room=value_of(self.end_room),
        )

    def figures(self) -> JointPlan:
        """The joint for the values as they stand."""
        return place_joint(self.settings(), self._plans, self._meshes)

    def show_figures(self) -> None:
        """See Panel."""
        found = self.figures()
        side = shown_length(found.tenon.size[0])
        self.tenon.setText(f"{side} square, {shown_length(found.tenon.length)} long")
        self.cover.setText(shown_length(found.least_cover) if found.least_cover >= 0 else "none")
        self.place.setText("x {}, y {}, z {}".format(*(shown_length(v) for v in found.cover_place)))
        self._found = found

    def clear_figures(self) -> None:
        """See Panel."""
        for label in (self.tenon, self.cover, self.place):
            label.setText("–")

    def remark(self) -> str:
        """See Panel."""
        if self._found.least_cover < 0:
            return (
                f"The mortise breaks out of the finished surface by {shown_length(-self._found.least_cover)}: make it "
                "smaller or shallower, or move it."
            )
        return ""

    # --- OK ----------------------------------------------------------------------------------------------------------
    def make(self) -> None:
        """Make or change the joint, in one undo step."""
        settings = self.settings()
        document = self.stacks[0].Document
        with busy():
            if self.joint is None:
                with one_undo_step(document, f"Add joint {settings.name}"):
                    self.joint = make_joint(document, self.stacks, settings)
            else:
                with one_undo_step(document, f"Change joint {settings.name}"):
                    change_joint(self.joint, settings)
        show_alone(self.joint)
        preferences.remember(tenon_side=settings.size[0])


def edit(joint: Any) -> JointPanel:
    """The panel for a joint that is there."""
    if len(joint.Stacks) != 2 or None in joint.Stacks:
        raise Refusal(f"“{joint.Label}” has lost one of its stacks: delete it, and join the stacks again.")
    first, second = joint.Stacks
    return JointPanel(first, second, joint)
