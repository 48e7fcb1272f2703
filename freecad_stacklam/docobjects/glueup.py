# SPDX-License-Identifier: LGPL-2.1-or-later

"""The GlueUp object: the glue, the room, a link to the sheet of clamps, and the plan that follows from them.

There is one for all stacks of a document. It depends on all that is cut into them and on how their staves are sawn; the
observer keeps it in step, so it needs no links but that to the clamps. Its set-ups are children of their own.
"""

from __future__ import annotations

from freecad_stacklam.docobjects.base.properties import Property, set_result, set_results
from freecad_stacklam.docobjects.base.protocols import GlueUpObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.rowproperties import properties_of
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.reading.glueups import plan_anew
from freecad_stacklam.docobjects.reading.setupwords import condition_lines, left_out_of
from freecad_stacklam.lamination.gluing.conditions import waiting_of
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import NO_CLAMPS
from freecad_stacklam.lamination.words import mark, say, say_many


class GlueUp(Proxy):
    """The glue-up of a document. The name of this class is written in users' files and never changes."""

    KIND = "glue-up"
    PROPERTIES = (
        Property("Bool", "Suppressed", "Glue-up", mark("Leave the glue-up out for now, without deleting it")),
        Property("LinkGlobal", "Clamps", "Glue-up", mark("The sheet of the clamps that the shop owns")),
        Property("StringList", "Zeros", "Glue-up", mark("Properties whose 0 is meant, not left out"), hidden=True),
        *properties_of(GlueSettings),
        *properties_of(GluingRoom),
        Property("Integer", "SetUpCount", "Plan", mark("Set-ups: runs of layers, each under one clock"), result=True),
        Property("String", "Rounds", "Plan", mark("Waits for the glue"), result=True),
        Property("Float", "GlueMass", "Plan", mark("Glue for all of it, loss counted in, g"), result=True),
        Property("StringList", "Conditions", "Plan", mark("What to see to before glue is opened"), result=True),
        Property("StringList", "Notes", "Plan", mark("What the maker must know besides"), result=True),
        Property(
            "String", "Verdict", "Plan", mark("ok, stop: a limit is broken, not planned, or suppressed"), result=True
        ),
        Property("LinkListHidden", "SetUps", "Plan", mark("The set-ups in their order"), result=True, hidden=True),
        Property("String", "ShownFor", "Plan", mark("What these figures were made for"), result=True, hidden=True),
    )

    def compute(self, obj: GlueUpObject) -> None:
        """Plan the glue-up and write its figures."""
        set_result(obj, "ShownFor", "")
        if obj.Suppressed:
            _show(obj, None, "suppressed")
            return
        try:
            plan, key = plan_anew(obj)
        except Exception:
            _show(obj, None, "")
            raise
        _show(obj, plan, "not planned" if plan is None else verdict_of(plan))
        set_result(obj, "ShownFor", key)


def _show(obj: GlueUpObject, plan: GlueUpPlan | None, verdict: str) -> None:
    units = units_in(obj.Document)
    set_results(
        obj,
        {
            "SetUpCount": 0 if plan is None else len(plan.set_ups),
            "Rounds": "" if plan is None else rounds_text(plan),
            "GlueMass": 0.0 if plan is None else round(plan.glue, 3),
            "Conditions": [] if plan is None else condition_lines(plan, units),
            "Notes": ([NO_CLAMPS] if verdict == "not planned" else []) if plan is None else notes_of(plan, units),
            "Verdict": verdict,
        },
    )


def verdict_of(plan: GlueUpPlan) -> str:
    """ "stop" where a set-up breaks a limit, a condition says no or a stack is left out, else "ok"."""
    held = all(s.held for s in plan.set_ups) and all(c.verdict != "no" for c in plan.conditions)
    return "ok" if held and not left_out_of(plan) else "stop"


def notes_of(plan: GlueUpPlan, units: str = "mm") -> list[str]:
    """What the maker must know besides the set-ups: what could not be planned, and the plan's own notes."""
    waiting = waiting_of(plan.water)
    days = [] if waiting is None else [waiting[1]]
    return [*left_out_of(plan, units), *(told(note, units) for note in plan.notes), *days]


def rounds_text(plan: GlueUpPlan) -> str:
    """How many waits for the glue there are, and how sure that is."""
    least, most = plan.rounds
    waits = say_many("{count} wait for the glue", "{count} waits for the glue", most)
    return waits if least == most else say("{waits}; no order does with fewer than {least}", waits=waits, least=least)
