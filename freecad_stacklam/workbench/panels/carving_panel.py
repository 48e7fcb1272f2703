# SPDX-License-Identifier: LGPL-2.1-or-later

"""The panel for the carving guide: depth holes, offsets, templates and the own rate in, holes and wood at once."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from freecad_stacklam.docobjects.base.family import carving_in, name_of_stack, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.carvingguide import hole_shape
from freecad_stacklam.docobjects.making.gluelines import glue_lines_of
from freecad_stacklam.docobjects.reading.guide import Guide, settings_of_carving, try_carving
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import CarvingSettings, Faces
from freecad_stacklam.qt_binding import widgets
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.fields.fields import (
    choice,
    figure,
    group,
    length_field,
    show_row,
    shown_length,
    shown_volume,
    value_of,
)
from freecad_stacklam.workbench.fields.messages import busy, one_undo_step
from freecad_stacklam.workbench.fields.panel import Panel
from freecad_stacklam.workbench.fields.picking import show_alone
from freecad_stacklam.workbench.fields.rowfields import RowFields
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.panels.picked_planes import PickedPlanes
from freecad_stacklam.workbench.recorded import options_of, run
from freecad_stacklam.workbench.scene import ghost

QtWidgets = widgets()
FACES = (
    ("none", ""),
    (QT_TRANSLATE_NOOP("StackLam", "from the top"), "top"),
    (QT_TRANSLATE_NOOP("StackLam", "from the underside"), "bottom"),
    (QT_TRANSLATE_NOOP("StackLam", "from both"), "both"),
)
SIDES = (
    (QT_TRANSLATE_NOOP("StackLam", "right and left"), ("right", "left")),
    (QT_TRANSLATE_NOOP("StackLam", "above and below"), ("above", "below")),
    ("none", ()),
)
#: Options that the panel asks in a way of its own.
BY_HAND = ("gauges", "rate")
#: What is shown for the words of an option.
WORDS = {
    "point": {"twist": QT_TRANSLATE_NOOP("StackLam", "twist bit"), "rim": QT_TRANSLATE_NOOP("StackLam", "forstner bit")}
}


class CarvingPanel(Panel):
    """Makes the carving guide of a document, or changes the one that is there."""

    patience = 500

    def __init__(self, document: Document) -> None:
        super().__init__(translate("StackLam", "Carving guide"), "StackLam_CarvingGuide")
        self.document = document
        self.stacks = stacks_in(document)
        if not self.stacks:
            raise Refusal(translate("StackLam", "There is nothing to carve yet: slice a form into layers first."))
        there = carving_in(document)
        self._new = there is None
        self._start = preferences.carving() if there is None else settings_of_carving(there)
        self._guide: Guide | None = None
        self._build()
        self.finish()

    # --- the fields ------------------------------------------------------------------------------------------------
    def _build(self) -> None:
        start = self._start
        self.fields = RowFields(start, without=BY_HAND, words=WORDS)
        self.point, self.angle = self.fields["point"], self.fields["angle"]
        for box in (self._gives(), self.sentence, self._holes(start), self._sheets(start), self._own(start)):
            self.body.addWidget(box)
        self._show_point()
        self.point.currentIndexChanged.connect(lambda *_: self._show_point())
        self.watch(*self.faces, *self.fields, self.point_length, self.gauges, self.rate)
        there = carving_in(self.document)
        if there is not None:
            own = {"DepthHoles": tuple(self.faces), "PointLength": self.point_length, "Gauges": self.gauges}
            self.edits(there, {**own, "Rate": self.rate, "Planes": self.planes.widget}, self.fields)

    def _gives(self) -> Any:
        names = ("holes", "stops", "deepest", "shallowest", "toCarve", "hours", "leftOut")
        self.figures = {name: figure(name) for name in names}
        captions = (
            translate("StackLam", "Depth holes"),
            translate("StackLam", "Settings of the stop"),
            translate("StackLam", "Deepest hole"),
            translate("StackLam", "Shallowest hole"),
            translate("StackLam", "To carve"),
            translate("StackLam", "Time"),
            translate("StackLam", "Left out"),
        )
        return group(translate("StackLam", "What it gives"), list(zip(captions, self.figures.values())))[0]

    def _holes(self, start: CarvingSettings) -> Any:
        self.faces = [
            choice(
                f"face{i}",
                [(translate("StackLam", text), face) for text, face in FACES],
                start.asked_face(name_of_stack(stack)),
                translate(
                    "StackLam",
                    "Holes from the rough surface that stop short of the finished one, as a gauge for carving",
                ),
            )
            for i, stack in enumerate(self.stacks, 1)
        ]
        self.point_length = length_field(
            "pointLength",
            start.point_length or 0.0,
            translate("StackLam", "Measure it: from the bit's rim, or its full width, to the tip"),
        )
        rest = ("bit_length", "hole_pattern", "pitch", "leave", "least_depth", "landing", "cover", "stop_step")
        box, self._rows = group(
            translate("StackLam", "Depth holes"),
            [
                *((name_of_stack(stack), face) for stack, face in zip(self.stacks, self.faces)),
                *self.fields.lines("bit", "point", "angle"),
                (translate("StackLam", "Length of its point"), self.point_length),
                *self.fields.lines(*rest),
            ],
        )
        return box

    def _sheets(self, start: CarvingSettings) -> Any:
        sides: list[tuple[str, tuple[str, ...]]] = [(translate("StackLam", text), side) for text, side in SIDES]
        if start.gauges not in [s for _, s in sides]:
            sides.append((", ".join(start.gauges), start.gauges))
        self.gauges = choice(
            "gauges",
            sides,
            start.gauges,
            translate("StackLam", "The sides that gauges are held against the piece from"),
        )
        self.planes = PickedPlanes(start.planes, self._soon.start)
        return group(
            translate("StackLam", "Offsets and section templates"),
            [
                *self.fields.of_group("Offsets"),
                *self.fields.lines("templates", "level_templates"),
                (translate("StackLam", "Other planes"), self.planes.widget),
                (translate("StackLam", "Gauges"), self.gauges),
                *self.fields.lines("clearance", "margin"),
            ],
        )[0]

    def _own(self, start: CarvingSettings) -> Any:
        self.rate = QtWidgets.QDoubleSpinBox()
        self.rate.setObjectName("rate")
        self.rate.setRange(0.0, 1000.0)
        self.rate.setDecimals(3)
        self.rate.setSingleStep(0.1)
        self.rate.setSuffix(translate("StackLam", " litres an hour"))
        self.rate.setSpecialValueText(translate("StackLam", "not measured"))
        self.rate.setValue(start.rate or 0.0)
        self.rate.setToolTip(
            translate(
                "StackLam", "Wood that you carve away in an hour, measured on a piece of yours; no rate is assumed"
            )
        )
        self.lines = QtWidgets.QCheckBox(translate("StackLam", "Draw the glue lines"))
        self.lines.setObjectName("glueLines")
        self.lines.setChecked(self._new or any(glue_lines_of(s) is not None for s in self.stacks))
        self.lines.setToolTip(
            translate(
                "StackLam", "On the finished forms; they stay in step when you change the stacking axis or the stock"
            )
        )
        return group(
            translate("StackLam", "Your work"), [(translate("StackLam", "You carve"), self.rate), ("", self.lines)]
        )[0]

    def _show_point(self) -> None:
        twist = self.point.currentData() == "twist"
        show_row(self._rows, self.angle, twist)
        show_row(self._rows, self.point_length, not twist)

    # --- what they say ---------------------------------------------------------------------------------------------
    def settings(self) -> CarvingSettings:
        """The values as they stand. Raises Refusal when one of them cannot be."""
        kind = self.point.currentData()
        measured = value_of(self.point_length) or None
        if kind == "twist":
            measured = self._start.point_length if self._start.point == "twist" else None
        faces = self._asked_faces()
        if faces and kind != "twist" and measured is None:
            raise Refusal(
                translate(
                    "StackLam", "Measure the length of the bit's point, from its rim to its tip, and give it here."
                )
            )
        return replace(
            self._start,
            depth_holes=faces,
            point_length=measured,
            planes=self.planes.planes,
            gauges=tuple(self.gauges.currentData()),
            rate=self.rate.value() or None,
            **self.fields.values(),
        )

    def _asked_faces(self) -> Faces:
        chosen = {name_of_stack(s): box.currentData() for s, box in zip(self.stacks, self.faces) if box.currentData()}
        # The same for every stack, also for those that are made later, where it was asked for so.
        everywhere = dict(self._start.depth_holes).get("", "")
        if everywhere and len(chosen) == len(self.stacks) and set(chosen.values()) == {everywhere}:
            return (("", everywhere),)
        return tuple(chosen.items())

    def show_figures(self) -> None:
        """See Panel."""
        settings = self.settings()
        with busy():
            stacks, self._guide = try_carving(self.document, settings)
            shape = hole_shape(stacks, self._guide.maps)
        guide, depths = self._guide, [h.depth for h in self._guide.holes]
        told = {
            "holes": str(len(depths)) if settings.depth_holes else translate("StackLam", "none are asked for"),
            "stops": str(guide.stops) if depths else "–",
            "deepest": shown_length(max(depths)) if depths else "–",
            "shallowest": shown_length(min(depths)) if depths else "–",
            "toCarve": shown_volume(guide.volume),
            "hours": translate("StackLam", "no rate is given")
            if guide.hours is None
            else translate("StackLam", "about {:.1f} hours").format(guide.hours),
            "leftOut": "\n".join(guide.left_out()) or "–",
        }
        for name, text in told.items():
            self.figures[name].setText(text)
        ghost.show(self.document, [ghost.Part3D(shape, ghost.TAKEN)])

    def clear_figures(self) -> None:
        """See Panel."""
        self._guide = None
        ghost.clear()
        for label in self.figures.values():
            label.setText("–")

    def remark(self) -> str:
        """See Panel."""
        if self._guide is not None and self._guide.holes:
            return translate(
                "StackLam",
                "Try the bit and its stop in waste first: every hole must end short of the finished surface.",
            )
        return ""

    # --- OK ----------------------------------------------------------------------------------------------------------
    def make(self) -> None:
        """Keep the guide, and draw the glue lines or take them away, in one undo step."""
        settings, lines = self.settings(), self.lines.isChecked()
        ghost.clear()
        with busy(), one_undo_step(self.document, translate("StackLam", "Carving guide")):
            carving = run("guide", "carving_guide", self.document, **options_of(settings))
            for stack in self.stacks:
                there = glue_lines_of(stack)
                if lines:
                    run("lines", "draw_glue_lines", stack)
                elif there is not None:
                    run("lines", "remove_glue_lines", stack)
            self.document.recompute()
        preferences.remember(
            carving_bit=settings.bit, carving_pitch=settings.pitch, carving_leave=settings.leave,
            carving_rate=settings.rate or 0.0,
        )  # fmt: skip
        show_alone(carving)

    def close(self) -> None:
        """The preview goes with the panel."""
        ghost.clear()
        super().close()
