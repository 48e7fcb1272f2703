# SPDX-License-Identifier: LGPL-2.1-or-later

"""Meshes and plans kept in the process, so that a new allowance costs no new mesh, and nothing is planned twice.

Nothing of this is saved: it is all made again from the form and the settings.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

import numpy as np
import Part
from numpy.typing import NDArray

from freecad_stacklam.docobjects.base.memory import Memory
from freecad_stacklam.docobjects.forms.form import (
    clear_cache,
    datum_of,
    end_points,
    mesh_arrays,
    own_deflection,
    shape_key,
    solids_of,
)
from freecad_stacklam.docobjects.forms.meshaside import mesh_and_points
from freecad_stacklam.lamination.form.crossing import refuse_crossing
from freecad_stacklam.lamination.form.mesh import Mesh, gate, guard_for
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.words import say
from freecad_stacklam.timelimit import limited


@dataclass(frozen=True, eq=False)
class Found:
    """A form as it is now: what changes when it changes (`key`), its label, gated mesh, origin, exact points, and
    `ends`, its exact ends along an axis (K × 3, mm)."""

    key: str
    label: str
    mesh: Mesh
    datum: tuple[float, float, float]
    exact: NDArray[np.float64] | None
    ends: Callable[[tuple[float, ...]], NDArray[np.float64]]

    def exact_along(self, axis: tuple[float, ...]) -> NDArray[np.float64] | None:
        """The exact points, and those at its ends along an axis; None for a form that is only a mesh."""
        return None if self.exact is None else np.vstack([self.exact, self.ends(axis)])


_KEPT = 48
#: Of one stack's steps several are kept, and they share what is large, its outlines.
_STEPS_KEPT = 240
_meshes: Memory[tuple[Mesh, NDArray[np.float64] | None]] = Memory(_KEPT)
_plans: Memory[StackPlan] = Memory(_KEPT)
_ends: Memory[NDArray[np.float64]] = Memory(_KEPT)
_joints: Memory[JointPlan] = Memory(_STEPS_KEPT)
_cuts: Memory[StackPlan] = Memory(_STEPS_KEPT)


def clear() -> None:
    """Forget everything, for tests that measure."""
    for kept in (_meshes, _plans, _ends, _joints, _cuts):
        kept.clear()
    clear_cache()


#: Forms found since `standing_still` began; None outside it, when a form may change between two looks.
_still: dict[tuple[Any, ...], Found] | None = None


@contextmanager
def standing_still() -> Iterator[None]:
    """Within it no form changes, so each is looked at once: for a job that nobody edits while it is made."""
    global _still
    before, _still = _still, {}
    try:
        yield
    finally:
        _still = before


def find_form(source: Any, path: str = "", solid: str = "") -> Found:
    """The form that `source` stands for. `solid`: its label, needed where there are several. Raises Refusal."""
    asked = source.Document.Name, source.Name, path, solid
    if _still is not None and asked in _still:
        return _still[asked]
    found = _looked_up(source, path, solid)
    if _still is not None:
        _still[asked] = found
    return found


def form_to_find(source: Any, path: str = "", solid: str = "") -> tuple[Hashable, Callable[[], Found]]:
    """What changes when the form does, and what finds it: the document is looked at now, and not when the form is
    found, which may be beside the window. Both raise Refusal."""
    label, form = _chosen(source, path, solid)
    key, datum = shape_key(form), datum_of(source, path)
    return (key, datum), lambda: _found_at(key, datum, label, form)


def _looked_up(source: Any, path: str, solid: str) -> Found:
    return _found(source, path, *_chosen(source, path, solid))


def _chosen(source: Any, path: str, solid: str) -> tuple[str, Any]:
    solids = dict(solids_of(source, path))
    if len(solids) == 1:
        ((label, form),) = solids.items()
    elif solid in solids:
        label, form = solid, solids[solid]
    else:
        names = ", ".join(f"“{name}”" for name in list(solids)[:6]) + ("…" if len(solids) > 6 else "")
        raise Refusal(
            say(
                "“{label}” holds {solids} solids ({names}): choose one of them.",
                label=source.Label,
                solids=len(solids),
                names=names,
            )
        )
    return label, form


def solid_text(source: Any, path: str = "", solid: str = "") -> str | None:
    """The solid that a form stands for as text in the kernel's own format, in the model; None for a mesh."""
    solids = dict(solids_of(source, path))
    form = next(iter(solids.values())) if len(solids) == 1 else solids.get(solid)
    return str(form.exportBrepToString()) if isinstance(form, Part.Shape) else None


def find_forms(source: Any, path: str = "") -> list[Found]:
    """All forms that `source` stands for. Raises Refusal."""
    found = [_found(source, path, label, form) for label, form in solids_of(source, path)]
    if _still is not None:
        where = source.Document.Name, source.Name, path
        _still.update({(*where, one.label): one for one in found})
        if len(found) == 1:
            _still[(*where, "")] = found[0]
    return found


def _found(source: Any, path: str, label: str, form: Any) -> Found:
    return _found_at(shape_key(form), datum_of(source, path), label, form)


def _found_at(key: str, datum: tuple[float, float, float], label: str, form: Any) -> Found:
    try:
        mesh, exact = _meshes.get(key, lambda: _gated(form, label))
    except Refusal as refusal:
        said = refusal.sentence
        raise Refusal(said if f"“{label}”" in said else f"“{label}”: {said[:1].lower()}{said[1:]}") from refusal
    # A mesh is its own exact form and is let go: of one of two million triangles it holds 150 MB.
    solid = form if isinstance(form, Part.Shape) else None
    return Found(key, label, mesh, datum, exact, partial(_ends_of, key, solid, label))


def _ends_of(key: str, form: Any, label: str, axis: tuple[float, ...]) -> NDArray[np.float64]:
    def found() -> NDArray[np.float64]:
        with limited(f"“{label}”"):
            return end_points(form, axis)

    return _ends.get((key, axis), found)


def _gated(form: Any, label: str) -> tuple[Mesh, NDArray[np.float64] | None]:
    if isinstance(form, Part.Shape):
        with limited(f"“{label}”"):
            arrays, exact = mesh_and_points(form, label)
        return replace(gate(*arrays), guard=guard_for(own_deflection(form))), exact
    mesh = gate(*mesh_arrays(form))
    # A solid's faces were checked by the kernel; a mesh may still pass through itself.
    return replace(mesh, notes=(*mesh.notes, *refuse_crossing(mesh))), None


def plan_for(found: Found, settings: StackSettings, name: str) -> StackPlan:
    """The stack of a form, planned once for each form and settings. Raises Refusal."""
    key = found.key, found.datum, replace(settings, form="", copies=1, hollow=None, pins=None)

    def planned() -> StackPlan:
        exact = found.exact_along(settings.axis)
        return plan_stack(found.mesh, settings, name=name, datum=found.datum, exact_points=exact)

    plan = _plans.get(key, planned)
    if (plan.name, plan.copies) != (name, settings.copies):
        plan = replace(plan, name=name, copies=settings.copies)
        _plans.put(key, plan)
    return plan


def joint_for(key: tuple[Any, ...], place: Callable[[], JointPlan]) -> JointPlan:
    """A joint, placed once for each of `key`. Raises Refusal."""
    return _joints.get(key, place)


def cut_for(key: tuple[Any, ...], cut: Callable[[], StackPlan]) -> StackPlan:
    """A stack with something cut into it, once for each of `key`. Raises Refusal."""
    return _cuts.get(key, cut)


class Same:
    """Equal only to the very same plan: comparing plans by value would compare every outline. A key that holds it keeps
    the plan, so its address is its own while the key is there."""

    def __init__(self, plan: Any) -> None:
        self.plan = plan

    def __hash__(self) -> int:
        return id(self.plan)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and other.plan is self.plan
