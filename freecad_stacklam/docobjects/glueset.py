# SPDX-License-Identifier: LGPL-2.1-or-later

"""The GlueSet object: one set-up of the glue-up, one run of layers under one clock and one clamping.

It draws nothing: what is seen of it are its layers, alone, while it is selected.
"""

from __future__ import annotations

from typing import Any

from freecad_stacklam.docobjects.base.properties import Property, set_result, set_results
from freecad_stacklam.docobjects.base.protocols import GlueSetObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.reading.glueups import shown_glue_up
from freecad_stacklam.docobjects.reading.setupwords import clamp_lines, pressure_lines, run_text, time_text
from freecad_stacklam.lamination.plan.gluing import SetUp
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.words import mark


class GlueSet(Proxy):
    """One set-up. It depends on the glue-up that it belongs to. The name of this class is written in users' files and
    never changes."""

    KIND = "set-up"
    PROPERTIES = (
        Property("LinkGlobal", "GlueUp", "Set-up", mark("The glue-up that it belongs to")),
        Property("Integer", "Number", "Set-up", mark("Number of the set-up, in the order of the work"), result=True),
        Property("Integer", "Round", "Plan", mark("The wait for the glue in which it cures"), result=True),
        Property("String", "Kind", "Plan", mark("What it glues: edges of staves, layers, or a joint"), result=True),
        Property("String", "Stack", "Plan", mark("The stack whose layers it glues"), result=True),
        Property("StringList", "Stacks", "Plan", mark("The stacks that a joint's set-up joins"), result=True),
        Property("String", "JointName", "Plan", mark("The joint that it glues"), result=True),
        Property("Integer", "First", "Plan", mark("Its lowest layer"), result=True),
        Property("Integer", "Last", "Plan", mark("Its highest layer"), result=True),
        Property("String", "Joins", "Plan", mark("The parts that are laid together, from the bottom"), result=True),
        Property("IntegerList", "Lines", "Plan", mark("Its glue lines, each by the layer below it"), result=True),
        Property("String", "Time", "Plan", mark("What the clock needs, and what the glue gives"), result=True),
        Property("Float", "GlueMass", "Plan", mark("Glue, loss counted in, g"), result=True),
        Property("Area", "Area", "Plan", mark("Area of all its lines"), result=True),
        Property("StringList", "Clamps", "Plan", mark("The clamps that it takes, by their names"), result=True),
        Property(
            "StringList", "Pressures", "Plan", mark("Pressure on each line, and what the glue wants"), result=True
        ),
        Property("Length", "Opening", "Plan", mark("Opening between the jaws, cauls counted in"), result=True),
        Property("StringList", "Limits", "Plan", mark("Limits that are broken, and what mends them"), result=True),
        Property("String", "Why", "Plan", mark("What makes it a set-up of its own"), result=True),
        Property("StringList", "Before", "Plan", mark("What must be worked while it is still open"), result=True),
        Property("StringList", "Helps", "Plan", mark("What helps where the pressure does not reach"), result=True),
        Property("StringList", "Cautions", "Plan", mark("What to mind"), result=True),
        Property("String", "Verdict", "Plan", mark("ok, or stop: a limit is broken"), result=True),
        Property("LinkListHidden", "Layers", "Plan", mark("The layers that are glued"), result=True, hidden=True),
        Property("LinkHidden", "Joint", "Plan", mark("The joint that is glued"), result=True, hidden=True),
        Property("String", "ShownFor", "Plan", mark("What these figures were made for"), result=True, hidden=True),
    )

    def compute(self, obj: GlueSetObject) -> None:
        """Write the figures. One above the last, or without a glue-up, says nothing: the watcher takes it away."""
        if obj.GlueUp is None or obj.GlueUp.Suppressed:
            return
        plan = shown_glue_up(obj.GlueUp)
        set_ups = {s.number: s for s in plan.set_ups} if plan is not None else {}
        if obj.Number in set_ups:
            joins = run_text(set_ups[obj.Number])
            if obj.Label2 in ("", obj.Joins):  # a description that the maker wrote stays
                set_result(obj, "Label2", joins)
            set_results(obj, {**_figures(set_ups[obj.Number], units_in(obj.Document)), "ShownFor": obj.GlueUp.ShownFor})


def _figures(one: SetUp, units: str) -> dict[str, Any]:
    return {
        "Round": one.round,
        "Kind": one.kind,
        "Stack": one.stack,
        "Stacks": list(one.stacks),
        "JointName": one.joint,
        "First": one.first,
        "Last": one.last,
        "Joins": run_text(one),
        "Lines": list(one.lines),
        "Time": time_text(one),
        "GlueMass": round(one.glue, 3),
        "Area": one.area,
        "Clamps": clamp_lines(one),
        "Pressures": pressure_lines(one, units),
        "Opening": one.opening,
        "Limits": [told(limit.says, units) for limit in one.limits],
        "Why": told(one.why, units),
        "Before": [told(text, units) for text in one.before],
        "Helps": [told(text, units) for text in one.helps],
        "Cautions": [told(text, units) for text in one.cautions],
        "Verdict": "ok" if one.held else "stop",
    }
