# SPDX-License-Identifier: LGPL-2.1-or-later

"""One form and its settings, tried: planned and proven, refused with a sentence, or a fault of the program.

manifold3d judges: the form less its blanks must be empty, but for what PLANE_SNAP allows, and its volume must be ours.
"""

from __future__ import annotations

import re
import traceback
from collections.abc import Callable
from dataclasses import dataclass, replace
from time import process_time
from typing import Any

import judges
import manifold3d
import numpy as np

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.form.crossing import refuse_crossing
from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.job.assembly import Form, assemble, matched
from freecad_stacklam.lamination.job.planjson import as_dict, dumps
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Defect, Refusal, told
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.tolerances import PLANE_SNAP, UNCOVERED_VOLUME

PROVEN, REFUSED, FAULT = "proven", "refused", "FAULT"
#: Processor seconds that a plan may take: the longest that a maker would wait for one form.
LONGEST = 60.0
#: Words of which a refusal has at least one: they say what to do.
ADVICE = re.compile(
    r"\b(give|choose|pick|select|mend|close|flip|make|slice|lay|leave|look|check|export|save|say|use|add|take|delete|"
    r"move|name|set|buy|repair|install|write|needs?|the keys here are|mean|plane|turn|spell|ask|wait|start|raise|"
    r"lower|put|keep|report)\b"
)


@dataclass(frozen=True)
class Outcome:
    """What became of one form. `says`: the sentence of a refusal, or what a fault is. `left_out`: rooms of the plan
    that were left out with a check that says stop. `judged`: an outside kernel agreed."""

    kind: str
    name: str
    verdict: str
    seconds: float = 0.0
    says: str = ""
    left_out: tuple[str, ...] = ()
    judged: bool = False
    layers: int = 0
    triangles: int = 0


def ill_said(sentence: str) -> str:
    """What is wrong with a refusal's sentence; empty where nothing is."""
    if "\n" in sentence or "Traceback" in sentence:
        return "not one line"
    if not sentence.endswith((".", "?")):
        return "no sentence"
    if len(sentence) > 600:
        return "too long"
    if not ADVICE.search(sentence.lower()):
        return "does not say what to do"
    return "says nan" if "nan" in sentence.lower().split() else ""


def tried(kind: str, name: str, plan: Callable[[], tuple[Plan, list[Mesh]]], judge: bool = True) -> Outcome:
    """Run `plan`, which gives a plan and the mesh of each of its stacks, and say what came of it."""
    start = process_time()
    try:
        made, meshes = plan()
    except Defect as defect:
        return Outcome(kind, name, FAULT, process_time() - start, str(defect))
    except Refusal as refusal:
        wrong = ill_said(str(refusal))
        seconds = process_time() - start
        return Outcome(
            kind, name, FAULT if wrong else REFUSED, seconds, f"{wrong}: {refusal}" if wrong else str(refusal)
        )
    except Exception:
        return Outcome(kind, name, FAULT, process_time() - start, traceback.format_exc(limit=-4))
    seconds = process_time() - start
    left = tuple(f"{one.what}: {told(one.says)}" for one in left_outs(made))
    found = Outcome(
        kind, name, PROVEN, seconds, "", left, False, sum(len(s.layers) for s in made.stacks),
        sum(len(m.triangles) for m in meshes),
    )  # fmt: skip
    faults = [f"{s.name} is not proven: {s.containment}" for s in made.stacks if not s.containment.proven]
    faults += [f"left out, {ill_said(says)}: {says}" for says in left if ill_said(says)]
    faults += [f"a defect: {says}" for says in left if "defect of the program" in says]
    if seconds > LONGEST:
        faults.append(f"it took {seconds:.0f} s")
    if judge and not faults:
        try:
            said = [judged(mesh, stack) for mesh, stack in zip(meshes, made.stacks)]
        except Exception:
            said = ["the judge fell: " + traceback.format_exc(limit=-3)]
        faults += [s for s in said if s and s != NO_JUDGE]
        found = replace(found, judged=bool(said) and all(s == "" for s in said))
    return replace(found, verdict=FAULT, says="; ".join(faults)) if faults else found


def left_outs(plan: Plan) -> list[Any]:
    """What could not be planned, of the stacks and (as the checks tell it) of the job."""
    return [one for stack in plan.stacks for one in stack.left_out]


NO_JUDGE = "no judge"


def judged(mesh: Mesh, stack: StackPlan) -> str:
    """What manifold3d says against a plan; empty where it agrees, NO_JUDGE where it does not take the mesh."""
    form = judges.solid(mesh, stack.frame)
    if form.status() != manifold3d.Error.NoError or form.is_empty():
        return NO_JUDGE
    rest = form - judges.blanks(stack)
    if rest.volume() > UNCOVERED_VOLUME:
        for piece in rest.decompose():
            box = piece.bounding_box()
            # A hair above a glue line is moved onto it: PLANE_SNAP is what a blank may lack, in height.
            if piece.volume() > UNCOVERED_VOLUME and box[5] - box[2] > 1.5 * PLANE_SNAP:
                return f"manifold3d finds {piece.volume():.4g} mm³ of {stack.name} outside its blanks, {box}"
    whole = judges.solid(mesh).volume() if len(form.decompose()) == 1 else None
    if whole is not None and abs(stack.form.volume - whole) > 1e-5 * whole + UNCOVERED_VOLUME:
        return f"manifold3d finds {whole:.6g} mm³ in {stack.name}, we {stack.form.volume:.6g}"
    slabs = sum(layer.finished_volume for layer in stack.layers)
    # Flat faces within PLANE_SNAP of a glue line count into the layer beside them.
    if abs(slabs - stack.form.volume) > 1e-5 * stack.form.volume + 1:
        return f"the layers of {stack.name} hold {slabs:.6g} mm³, the whole {stack.form.volume:.6g}"
    return ""


def planned_mesh(
    vertices: Any, triangles: Any, settings: Callable[[tuple[float, float, float]], Settings], name: str = "form"
) -> tuple[Plan, list[Mesh]]:
    """A form of triangles as a plan, by the way that a mesh object takes; settings: of the form's extents."""
    mesh = gate(vertices, triangles)
    mesh = replace(mesh, notes=(*mesh.notes, *refuse_crossing(mesh)))
    x, y, z = (float(v) for v in np.ptp(mesh.vertices, axis=0))
    chosen = settings((x, y, z))
    forms = [Form(name, mesh)]
    stacks = [plan_stack(f.mesh, s, name=f.name, datum=f.datum) for f, s in matched(forms, chosen)]
    plan = assemble(stacks, forms, (), chosen, species_table())
    dumps(as_dict(plan, chosen))
    return plan, [mesh]
