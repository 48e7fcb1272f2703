# SPDX-License-Identifier: LGPL-2.1-or-later

"""Forms as FreeCAD Part solids, by kind and seed, planned by the way that document objects take. All lengths mm.

A solid that the kernel itself calls invalid or empty is made anew from the next number: it would say nothing of us.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import FreeCAD
import numpy as np
import Part
from chances import settings_for
from FreeCAD import Vector
from meshforms import placing
from trial import Outcome, tried

from freecad_stacklam.data import species_table
from freecad_stacklam.docobjects.forms.plancache import Found, clear, find_forms, plan_for
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.job.assembly import Form, assemble, matched
from freecad_stacklam.lamination.job.planjson import as_dict, dumps
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.job import Settings

Chance = np.random.Generator
UP = Vector(0, 0, 1)


def _curve(points: Any, closed: bool = True) -> Any:
    curve = Part.BSplineCurve()
    curve.interpolate([Vector(*map(float, p)) for p in points], PeriodicFlag=closed)
    return curve.toShape()


def _ring(chance: Chance, radius: float, z: float, corners: int, rough: float = 0.15) -> Any:
    turns = 2 * np.pi * np.arange(corners) / corners
    r = radius * (1 + rough * chance.uniform(-1, 1, corners))
    return Part.Wire(_curve(np.column_stack([r * np.cos(turns), r * np.sin(turns), np.full(corners, z)])))


def revolve(chance: Chance) -> Any:
    """A turned form of a drawn curve."""
    count = int(chance.integers(3, 9))
    z = np.linspace(0, 100, count)
    side = _curve(np.column_stack([chance.uniform(12, 45, count), np.zeros(count), z]), closed=False)
    start, end = side.Vertexes[0].Point, side.Vertexes[-1].Point
    low, high = Vector(0, 0, 0), Vector(0, 0, 100)
    wire = Part.Wire([Part.makeLine(low, start), side, Part.makeLine(end, high), Part.makeLine(high, low)])
    return Part.Face(wire).revolve(Vector(), UP, float(chance.choice([360.0, 360.0, chance.uniform(60, 330)])))


def loft(chance: Chance) -> Any:
    """Free sections lofted, smooth or ruled."""
    count = int(chance.integers(2, 6))
    corners = int(chance.integers(5, 12))
    wires = [_ring(chance, chance.uniform(20, 60), 35.0 * k, corners) for k in range(count)]
    return Part.makeLoft(wires, True, bool(chance.random() < 0.3))


def sweep(chance: Chance) -> Any:
    """A round bar along a bow."""
    points = [(70 * np.cos(t), 70 * np.sin(t), 25 * t) for t in np.linspace(0, chance.uniform(1, 4), 7)]
    way = Part.Wire(_curve(points, closed=False))
    edge = way.Edges[0]
    section = Part.Wire(Part.makeCircle(chance.uniform(3, 12), edge.Vertexes[0].Point, edge.tangentAt(
        edge.FirstParameter)))  # fmt: skip
    return way.makePipeShell([section], True, False)


def _part(chance: Chance) -> Any:
    size = chance.uniform(15, 60, 3)
    part = [
        lambda: Part.makeBox(*map(float, size)),
        lambda: Part.makeSphere(size[0] / 1.6),
        lambda: Part.makeCylinder(size[0] / 2, size[2]),
        lambda: Part.makeCone(size[0] / 2, size[0] * chance.uniform(0, 0.45), size[2]),
        lambda: Part.makeTorus(size[0], size[0] * 0.3),
    ][chance.integers(5)]()
    if chance.random() < 0.5:
        part.rotate(Vector(), Vector(*chance.normal(size=3)), float(chance.uniform(0, 180)))
    part.translate(Vector(*chance.uniform(-30, 30, 3)))
    return part


def booleans(chance: Chance) -> Any:
    """Bodies joined, cut and intersected."""
    solid = _part(chance)
    for _ in range(int(chance.integers(1, 5))):
        other = _part(chance)
        made = (solid.fuse, solid.cut, solid.common)[chance.choice(3, p=[0.5, 0.35, 0.15])](other)
        if made.Volume > 3000:
            solid = made
    return solid


def shell(chance: Chance) -> Any:
    """A wall around an empty inside, open at the top."""
    body = loft(chance) if chance.random() < 0.5 else Part.makeCone(45, chance.uniform(25, 60), 70)
    lid = max((f for f in body.Faces if isinstance(f.Surface, Part.Plane)), key=lambda f: f.CenterOfMass.z)
    return body.makeThickness([lid], -float(chance.uniform(0.5, 5)), 1e-3)


def rounded(chance: Chance) -> Any:
    """Edges rounded: faces tangent to each other and to glue lines."""
    body = Part.makeBox(*map(float, chance.uniform(30, 90, 3)))
    if chance.random() < 0.5:
        body = body.cut(Part.makeCylinder(float(chance.uniform(4, 12)), 200, Vector(15, 15, -50)))
    edges = [e for e in body.Edges if isinstance(e.Curve, Part.Line)]
    chosen = [edges[k] for k in chance.choice(len(edges), int(chance.integers(1, 9)), replace=False)]
    return body.makeFillet(float(chance.uniform(1, 12)), chosen)


def fins(chance: Chance) -> Any:
    """A body with blades a few tenths thick."""
    solid = Part.makeCylinder(float(chance.uniform(10, 25)), 70)
    for _ in range(int(chance.integers(1, 6))):
        blade = Part.makeBox(
            float(chance.uniform(30, 60)), 10 ** chance.uniform(-0.7, 0.4), float(chance.uniform(5, 60))
        )
        blade.rotate(Vector(), UP, float(chance.uniform(0, 360)))
        solid = solid.fuse(blade)
    return solid


def coplanar(chance: Chance) -> Any:
    """Terraces and pockets whose faces lie on glue lines, when layers are a tenth of the extent."""
    solid = Part.makeBox(100, 70, 40)
    for _ in range(int(chance.integers(2, 6))):
        tool = Part.makeBox(*map(float, chance.uniform(10, 50, 2)), 10.0 * int(chance.integers(1, 4)))
        tool.translate(Vector(*chance.uniform(0, 60, 2), 10.0 * int(chance.integers(1, 4))))
        made = solid.fuse(tool) if chance.random() < 0.4 else solid.cut(tool)
        solid = made if len(made.Solids) == 1 else solid
    return solid


def islands(chance: Chance) -> Any:
    """Rings and a post on a common base."""
    solid = Part.makeCylinder(100, float(chance.uniform(8, 20)))
    for r in (95, 65, 35):
        ring = Part.makeCylinder(r, float(chance.uniform(20, 80))).cut(
            Part.makeCylinder(r - chance.uniform(4, 20), 100)
        )
        solid = solid.fuse(ring)
    return solid.fuse(Part.makeCylinder(8, 60))


SOLIDS: dict[str, Callable[[Chance], Any]] = {
    kind.__name__: kind for kind in (revolve, loft, sweep, booleans, shell, rounded, fins, coplanar, islands)
}


def solid_form(kind: str, seed: int) -> tuple[Any, float]:
    """Form `seed` of a kind as one valid Part solid, and the layer that puts flat faces on glue lines (0: none)."""
    for again in range(50):
        chance = np.random.default_rng([seed, again, list(SOLIDS).index(kind), 5])
        try:
            made = SOLIDS[kind](chance)
        except (Part.OCCError, RuntimeError, ValueError):
            continue
        solids = made.Solids
        if len(solids) != 1 or not solids[0].isValid() or solids[0].Volume < 100:
            continue
        scale, turn, place = placing(chance, 100.0)
        step = 10.0 * scale if kind == "coplanar" else 0.0
        shape = solids[0].scaled(scale)
        if not step:
            turned = FreeCAD.Matrix(*np.vstack([np.column_stack([turn, place]), [0, 0, 0, 1]]).ravel().tolist())
            shape = shape.transformed(turned)
        if shape.isValid():
            return shape, step
    raise AssertionError(f"the kernel makes no {kind} from {seed}")


def solid_outcome(kind: str, seed: int, judge: bool) -> Outcome:
    """Form `seed` of a kind, planned."""
    shape, step = solid_form(kind, seed)
    document = FreeCAD.newDocument("Corpus", hidden=True)
    try:
        obj = document.addObject("Part::Feature", "Form")
        obj.Shape = shape
        return tried(
            kind, f"{kind} {seed}",
            lambda: planned(find_forms(obj), lambda box: settings_for(seed, box, step)), judge,
        )  # fmt: skip
    finally:
        FreeCAD.closeDocument(document.Name)
        clear()


def planned(found: list[Found], settings: Callable[[tuple[float, float, float]], Settings]) -> tuple[Plan, list[Mesh]]:
    """Forms of a document as a plan; settings: of the least extents."""
    box = np.min([np.ptp(f.mesh.vertices, axis=0) for f in found], axis=0)
    chosen = settings((float(box[0]), float(box[1]), float(box[2])))
    forms = {f.label: f for f in found}
    by_name = [Form(f.label, f.mesh, f.datum, f.exact) for f in found]
    pairs = matched(by_name, chosen)
    stacks = [plan_for(forms[form.name], one, form.name) for form, one in pairs]
    plan = assemble(stacks, by_name, (), chosen, species_table())
    dumps(as_dict(plan, chosen))
    return plan, [form.mesh for form, _ in pairs]
