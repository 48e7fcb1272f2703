# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Hollow object: the voids of one stack, drawn as the wood that they take away.

Voids keep clear of mortises, so a hollow depends on the stack and its joints; pins and layers depend on the hollow.
"""

from __future__ import annotations

from typing import Any

import FreeCAD
import numpy as np
import Part
import shapely

from freecad_stacklam.data import species_table
from freecad_stacklam.docobjects import watcher
from freecad_stacklam.docobjects.base.properties import Property, set_result
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.cuts import belongs_to, hollowed_plan, pinned_plan
from freecad_stacklam.docobjects.forms.shapes import hollow_shape, placement_of, show
from freecad_stacklam.docobjects.stack import name_of_stack
from freecad_stacklam.lamination.form.frame import to_model
from freecad_stacklam.lamination.inside.checks import hollow_checks
from freecad_stacklam.lamination.plan.insides import HollowPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import polygon_of
from freecad_stacklam.lamination.plan.verdicts import worst_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.hollow import HollowSettings

_FIRST = HollowSettings()
#: How the check of the cover is called.
COVER_CHECK = "wall around the voids"
#: A key of the settings file's `hollow` → the property that holds it.
KEYS = {
    "wall": "Wall", "caps": "Caps", "vent": "Vent", "margin": "Margin", "web": "Web", "turn": "SawTurn",
    "least": "LeastVoid",
}  # fmt: skip


class Hollow(Proxy):
    """The voids of one stack. The name of this class is written in users' files and never changes."""

    KIND = "hollow"
    PROPERTIES = (
        Property("LinkGlobal", "Stack", "Hollow", "The stack whose layers are hollowed"),
        Property("LinkListGlobal", "Joints", "Hollow", "The joints that the voids keep clear of", hidden=True),
        Property("Bool", "Suppressed", "Hollow", "Leave the voids out for now, without deleting them"),
        Property("Length", "Wall", "Hollow", "Least wood around a void, in every direction", _FIRST.wall),
        Property("Integer", "Caps", "Hollow", "Solid layers at each end", _FIRST.caps),
        Property("Length", "Web", "Hollow", "Width of a bar left standing across the grain; 0 for none", _FIRST.web),
        Property("Length", "Margin", "Hollow", "Least wood to a joint", _FIRST.margin),
        Property(
            "Length", "Vent", "Hollow", "Diameter of a hole from the underside into each void; 0 for none", _FIRST.vent
        ),
        Property("Length", "SawTurn", "Hollow", "Radius that the saw needs to turn inside a void", _FIRST.turn),
        Property("Area", "LeastVoid", "Hollow", "A void smaller than this in plan is not worth sawing", _FIRST.least),
        Property("Integer", "VoidCount", "Plan", "Number of voids in one stack", result=True),
        Property("Volume", "WoodSaved", "Plan", "Volume of the voids", result=True),
        Property("Distance", "LeastWall", "Plan", "Least wood left around the voids", result=True),
        Property("VectorDistance", "CoverPlace", "Plan", "Where the wall is about thinnest, in the model", result=True),
        Property("Area", "GlueArea", "Plan", "Glue area left where the voids take the largest share", result=True),
        Property("StringList", "GlueLines", "Plan", "Glue area left at each glue line that voids meet", result=True),
        Property("String", "CoverVerdict", "Plan", "The verdict on the wall", result=True, hidden=True),
        Property("String", "Verdict", "Plan", "ok, caution, stop, suppressed or idle", result=True),
        Property("StringList", "Notes", "Plan", "What the checks say", result=True),
    )

    def __init__(self, obj: Any) -> None:
        super().__init__(obj)
        watcher.install()

    def compute(self, obj: Any) -> None:
        """Find the voids, draw them, and write their figures."""
        idle = watcher.idle_because(obj)
        if idle:
            obj.Shape = Part.Shape()
            for name, value in (("VoidCount", 0), ("GlueLines", []), ("Notes", [idle[1]])):
                set_result(obj, name, value)
            set_result(obj, "CoverVerdict", idle[0])
            set_result(obj, "Verdict", idle[0])
            return
        plan = shown_hollow(obj)
        assert plan.hollow is not None
        show(obj, hollow_shape(plan), placement_of(plan.frame))
        checks = hollow_checks(plan, species_table())
        met = glue_lines_met(plan.hollow)
        for name, value in (
            ("VoidCount", len(plan.hollow.voids)),
            ("WoodSaved", plan.hollow.volume),
            ("LeastWall", plan.hollow.least_wall),
            ("CoverPlace", FreeCAD.Vector(*thinnest_place(plan))),
            ("GlueArea", min(met, key=lambda g: g.left / g.whole).left if met else 0.0),
            ("GlueLines", [_glue_line(g.interface, g.left, g.whole) for g in met]),
            ("CoverVerdict", worst_of(c for c in checks if c.name.endswith(COVER_CHECK))),
            ("Verdict", worst_of(checks)),
            ("Notes", [c.says for c in checks]),
        ):
            set_result(obj, name, value)


def glue_lines_met(hollow: HollowPlan) -> list[Any]:
    """The glue lines whose area the voids make smaller."""
    return [g for g in hollow.glue_lines if g.whole > 0 and g.left < g.whole - 1e-6]


def _glue_line(interface: int, left: float, whole: float) -> str:
    return f"layers {interface} and {interface + 1}: {left / 100:.0f} cm² of {whole / 100:.0f} cm²"


def thinnest_place(plan: StackPlan) -> tuple[float, float, float]:
    """A point of a void's wall, in the model, that lies nearest to the finished outlines at its layer's glue lines."""
    best: tuple[float, tuple[float, float, float]] = (float("inf"), (0.0, 0.0, 0.0))
    for layer in plan.layers:
        voids = [polygon_of(c.outline) for c in layer.cuts if c.kind == "hollow"]
        if not voids:
            continue
        room = shapely.union_all(voids).boundary
        for height, section in ((layer.bottom, layer.finished_bottom), (layer.top, layer.finished_top)):
            if section.is_empty:
                continue
            line = shapely.shortest_line(room, section.boundary)
            if line.length < best[0]:
                x, y = line.coords[0]
                best = line.length, (x, y, height)
    x, y, z = to_model(plan.frame, np.array([best[1]]))[0]
    return float(x), float(y), float(z)


# --- reading ------------------------------------------------------------------------------------------------------


def settings_of_hollow(hollow: Any) -> HollowSettings:
    """What the maker chose. Raises Refusal when a value cannot be."""
    values = {key: getattr(hollow, name) for key, name in KEYS.items()}
    read = {key: getattr(value, "Value", value) for key, value in values.items()}
    return HollowSettings(**read)


def shown_hollow(hollow: Any) -> StackPlan:
    """The stack's plan with its joints and these voids. Raises Refusal."""
    return hollowed_plan(hollow.Stack, hollow.Joints, settings_of_hollow(hollow))


# --- making and changing ------------------------------------------------------------------------------------------


def make_hollow(stack: Any, asked: HollowSettings) -> Any:
    """A hollow for a stack, its voids cut. Part of the caller's undo step if one is open.

    Raises Refusal before anything was made, also when the stack's pins would not
    fit any more.
    """
    there = watcher.in_use(stack, "hollow")
    if there is not None and not there.Suppressed:
        raise Refusal(f"{name_of_stack(stack)} is hollowed already (“{there.Label}”): change that hollow instead.")
    try_hollow(stack, asked)
    hollow = stack.Document.addObject("Part::FeaturePython", "Hollow")
    Hollow(hollow)
    hollow.Label = f"{name_of_stack(stack)} hollow"
    hollow.Stack = stack
    _fill(hollow, asked)
    watcher.match_layers(stack)
    return hollow


def change_hollow(hollow: Any, asked: HollowSettings) -> None:
    """Give a hollow other settings; pins and layers follow. Raises Refusal before anything was changed."""
    if hollow.Stack is not None:
        try_hollow(hollow.Stack, asked)
    _fill(hollow, asked)
    hollow.Document.recompute()


def try_hollow(stack: Any, asked: HollowSettings | None) -> StackPlan:
    """The stack's plan with its joints and its pins as they are, and voids as asked. Raises Refusal."""
    # Late: pins know the hollow.
    from freecad_stacklam.docobjects.pins import settings_of_pins

    pins = watcher.in_use(stack, "pins")
    chosen = settings_of_pins(pins) if belongs_to(pins, stack) else None
    return pinned_plan(stack, watcher.joints_of(stack), asked, chosen)


def _fill(hollow: Any, asked: HollowSettings) -> None:
    for key, name in KEYS.items():
        setattr(hollow, name, getattr(asked, key))
