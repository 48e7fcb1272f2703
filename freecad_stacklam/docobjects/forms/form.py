# SPDX-License-Identifier: LGPL-2.1-or-later

"""The form as FreeCAD knows it, and the same form as arrays: the adapter between document objects and lamination.

A form is one solid (Part.Shape) or one closed mesh (Mesh.Mesh), in the model's own coordinates, mm. Extents are never
taken from a shape's BoundBox: it was seen to say 2735 mm for a form of 409 mm. They come from the mesh.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import FreeCAD
import numpy as np
import Part
from numpy.typing import NDArray

from freecad_stacklam.docobjects.base.memory import Memory
from freecad_stacklam.docobjects.forms import meshkernel
from freecad_stacklam.lamination.form.mesh import deflection_for, signed_volume
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import MESH_DEFLECTION
from freecad_stacklam.lamination.words import say
from freecad_stacklam.timelimit import limited

Vertices = NDArray[np.float64]
Triangles = NDArray[np.int64]

#: Most points that `exact_points` returns, on faces and on edges.
MOST_FACE_POINTS = 10_000
MOST_EDGE_POINTS = 8_000
#: Meshes and checks kept in the process; a piece of furniture has a handful of forms.
KEPT = 24
#: Measured: the nearest point of a plane, cylinder, cone, sphere or torus costs 3 µs; of any other surface 0.5 ms.
QUICK_SURFACES = (Part.Plane, Part.Cylinder, Part.Cone, Part.Sphere, Part.Toroid)
_SPLINES = (Part.BSplineSurface, Part.BezierSurface)
#: The exact end of a form stands no farther beyond its mesh than this, in deflections: one that was asked for is no
#: bound.
END_ERROR = 5
_MOST_SLOW_POINTS = 400
_MOST_NODES = 25_000
_TSHAPE_FLAGS = re.compile(r"(?m)^[01]{7}$")


# --- from objects to solids ---------------------------------------------------------------------------------------


class InvalidSolid(Refusal):
    """A solid that is there, and that cannot be used as it is."""


def is_ours(obj: Any) -> bool:
    """True for the workbench's own objects (stacks, layers, joints), which are never forms themselves."""
    proxy = getattr(obj, "Proxy", None)
    return proxy is not None and type(proxy).__module__.startswith("freecad_stacklam")


def final_objects(objects: Iterable[Any]) -> list[Any]:
    """Of `objects`, those that stand for a finished shape: not built into another of them, not ours, not hidden.

    If all of those are hidden they all count, because a file may have been saved with its forms switched off.
    """
    pool = [o for o in objects if not is_ours(o)]
    names = {o.Name for o in pool}
    finals = []
    for obj in pool:
        users = [u for u in obj.InList if u.Name in names and not is_ours(u)]
        if not any(u.isDerivedFrom("Part::Feature") or u.isDerivedFrom("Mesh::Feature") for u in users):
            finals.append(obj)
    shown = [o for o in finals if getattr(o, "Visibility", True)]
    return shown or finals


def solids_of(obj: Any, sub: str = "") -> list[tuple[str, Any]]:
    """Every solid and closed mesh that `obj` stands for, as (label, Part.Shape or Mesh.Mesh) in model coordinates.

    `obj` is a PartDesign Body, a Part shape or compound, an App::Part or group, an App::Link, or a Mesh object; `sub`
    is the path to an object inside it ("Body.", as the selection gives it; an element name at its end is ignored).
    Labels are made unique. Raises Refusal when there is no solid, or when a solid is invalid.
    """
    found = list(_leaves(obj, sub, _parents_placement(obj)))
    label = _label(obj)
    if not found:
        if is_ours(obj):
            raise Refusal(say("“{label}” was made by StackLam itself: pick the form it was made from.", label=label))
        raise Refusal(say("“{label}” holds no solid: pick a closed solid, or a closed mesh.", label=label))
    for name, form in found:
        if isinstance(form, Part.Shape):
            _refuse_invalid(name, form)
    return _unique(found)


def datum_of(obj: Any, sub: str = "") -> tuple[float, float, float]:
    """Where the object's own origin lies in the model, mm."""
    base = place_of(obj, sub).Base
    return float(base.x), float(base.y), float(base.z)


def place_of(obj: Any, sub: str = "") -> Any:
    """Where the object lies in the model, and how it is turned: its own placement and that of all that it sits in."""
    return _parents_placement(obj) * _placement(obj, sub)


def _label(obj: Any) -> str:
    return str(getattr(obj, "Label", obj))


def _parents_placement(obj: Any) -> Any:
    """Placement of everything that `obj` sits in; App::Link has no getGlobalPlacement on FreeCAD 0.20."""
    total = FreeCAD.Placement()
    parent = obj.getParentGeoFeatureGroup()
    while parent is not None:
        total = parent.Placement * total
        parent = parent.getParentGeoFeatureGroup()
    return total


def _placement(obj: Any, sub: str) -> Any:
    placement = obj.getSubObject(sub, retType=3)
    return placement if placement is not None else FreeCAD.Placement()


def _leaves(root: Any, sub: str, outer: Any, depth: int = 0) -> Iterator[tuple[str, Any]]:
    if depth > 32:
        raise Refusal(say("“{root}” is nested more than 32 deep: pick the solid itself.", root=_label(root)))
    target = root.getSubObject(sub, retType=1) if sub else root
    if target is None:
        raise Refusal(say("“{root}” has nothing called “{sub}”: pick the solid again.", root=_label(root), sub=sub))
    if is_ours(target):
        return
    source = target.getLinkedObject(True) or target
    label = _label(target)
    if source.isDerivedFrom("Part::Feature"):
        shape = Part.getShape(root, sub, needSubElement=False, transform=True)
        if shape is None or shape.isNull():
            return
        shape.Placement = outer * shape.Placement
        solids = shape.Solids or _closed_shells(shape)
        for number, solid in enumerate(solids, 1):
            yield (label if len(solids) == 1 else f"{label} {number}"), solid
    elif source.isDerivedFrom("Mesh::Feature"):
        if source.Mesh.CountFacets:
            mesh = source.Mesh.copy()
            mesh.Placement = outer * _placement(root, sub)
            yield label, mesh
    elif source.isDerivedFrom("App::DocumentObjectGroup") and not sub:
        # A plain group has no place of its own, and FreeCAD does not follow a path through it to the end.
        for child in final_objects(source.Group):
            yield from _leaves(child, "", _parents_placement(child), depth + 1)
    else:
        paths: dict[str, tuple[Any, list[str]]] = {}
        for name in target.getSubObjects():
            child = root.getSubObject(sub + name, retType=1)
            # What sits in a plain group inside a part is listed by the part as well.
            if child is not None and not child.isDerivedFrom("App::DocumentObjectGroup"):
                paths.setdefault(child.Name, (child, []))[1].append(sub + name)
        for child in final_objects(c for c, _ in paths.values()):
            for path in paths[child.Name][1]:
                yield from _leaves(root, path, outer, depth + 1)


def _closed_shells(shape: Any) -> list[Any]:
    """Solids out of the closed shells of a shape that has no solid: some programs write those alone."""
    solids = []
    for shell in shape.Shells:
        if shell.isClosed() and shell.isValid():
            solid = Part.Solid(shell)
            if solid.Volume < 0:
                solid.reverse()
            solids.append(solid)
    return solids


def _unique(forms: list[tuple[str, Any]]) -> list[tuple[str, Any]]:
    taken: set[str] = set()
    result = []
    for label, form in forms:
        name, number = label, 2
        while name in taken:
            name, number = f"{label} {number}", number + 1
        taken.add(name)
        result.append((name, form))
    return result


# --- from solids to arrays ----------------------------------------------------------------------------------------


@dataclass
class _Kept:
    """What is known of one shape: the shape itself (so that its address is not reused), key, validity, meshes."""

    shape: Any
    key: str
    valid: bool | None = None
    deflection: float = 0.0


_known: list[_Kept] = []
_meshes: Memory[tuple[Any, Vertices, Triangles]] = Memory(KEPT)


def clear_cache() -> None:
    """Forget every mesh and key."""
    _known.clear()
    _meshes.clear()
    meshkernel.clear()


def _kept(shape: Any) -> _Kept:
    for entry in _known:
        if entry.shape.isEqual(shape):
            return entry
    # The text of the shape changes with its geometry only, once the flags are left out that the kernel flips when it
    # has checked or meshed a shape; its hash code is an address and says nothing.
    text = _TSHAPE_FLAGS.sub("", shape.exportBrepToString())
    entry = _Kept(shape, f"{hashlib.sha256(text.encode()).hexdigest()}{shape.Orientation[0]}")
    _known.append(entry)
    del _known[:-KEPT]
    return entry


def shape_key(form: Any) -> str:
    """A text that changes whenever the form changes, fit for a cache. Equal forms made apart may differ in it."""
    if isinstance(form, Part.Shape):
        return _kept(form).key
    return meshkernel.key_of_mesh(form)


def _refuse_invalid(label: str, shape: Any) -> None:
    entry = _kept(shape)
    if entry.valid is None:
        with limited(f"“{label}”"):
            entry.valid = bool(shape.isValid())
    if not entry.valid:
        raise InvalidSolid(
            say(
                "The solid “{label}” is not valid: look at it with Part ▸ Check geometry and repair it first.",
                label=label,
            )
        )


def rough_extent(form: Any) -> float:
    """The largest size along x, y or z, mm, roughly: of a shape, between its vertices and at its edges' middles."""
    if not isinstance(form, Part.Shape):
        box = form.BoundBox
        return float(max(box.XLength, box.YLength, box.ZLength))
    points = [v.Point for v in form.Vertexes]
    points += [e.valueAt((e.FirstParameter + e.LastParameter) / 2) for e in form.Edges if not e.Degenerated]
    at = np.array([(p.x, p.y, p.z) for p in points]).reshape(-1, 3)
    return float(np.ptp(at, axis=0).max()) if len(at) else 0.0


def own_deflection(form: Any) -> float:
    """The deflection, mm, that a shape is meshed with; of a mesh, which is its own exact form, the usual one."""
    if not isinstance(form, Part.Shape):
        return MESH_DEFLECTION
    entry = _kept(form)
    if not entry.deflection:
        entry.deflection = deflection_for(rough_extent(form))
    return entry.deflection


def mesh_arrays(form: Any, deflection: float | None = None) -> tuple[Vertices, Triangles]:
    """Vertices (N × 3, mm) and triangles (M × 3, indices, counter-clockwise from outside) of a shape or mesh.

    deflection: mm; None for the form's own.

    A shape is tessellated afresh, from a copy without triangulation, because the kernel otherwise hands back any finer
    mesh it finds and so the answer would depend on what was on screen before. The arrays are read-only and cached.
    Raises Refusal when nothing could be meshed.
    """
    if not isinstance(form, Part.Shape):
        vertices, triangles = meshkernel.mesh_topology(form)
        if not len(triangles):
            raise Refusal(say("The mesh has no triangles: pick a closed mesh."))
        return vertices, triangles
    _, vertices, triangles = _meshed(form, deflection or own_deflection(form))
    return vertices, triangles


def _meshed(shape: Any, deflection: float) -> tuple[Any, Vertices, Triangles]:
    return _meshes.get((shape_key(shape), deflection), lambda: _tessellated(shape, deflection))


def keep_mesh(shape: Any, clean: Any, vertices: Vertices, triangles: Triangles) -> None:
    """Keep a shape's own mesh that was made elsewhere. clean: a copy of the shape without one."""
    _meshes.put((shape_key(shape), own_deflection(shape)), (clean, vertices, triangles))


def _tessellated(shape: Any, deflection: float) -> tuple[Any, Vertices, Triangles]:
    clean = shape.copy()
    vertices, triangles = meshkernel.as_arrays(clean.tessellate(deflection))
    if not len(triangles):
        raise Refusal(say("The shape could not be meshed: look at it with Part ▸ Check geometry and repair it first."))
    if signed_volume(vertices, triangles) < 0 and shape.ShapeType == "Solid" and shape.isValid():
        # A sound solid that was reversed as a whole (by a mirror or a script): the wood is the same.
        triangles = np.ascontiguousarray(triangles[:, ::-1])
    vertices.flags.writeable = triangles.flags.writeable = False
    return clean, vertices, triangles


# --- points on the exact surface ----------------------------------------------------------------------------------


def exact_points(shape: Any, spacing: float = 10.0) -> Vertices:
    """Points (N × 3, mm) on the exact faces and edges of `shape`, about one per `spacing` mm, at most about 20 000.

    They prove the blanks against the form itself instead of its mesh, so they lie over the middles of the mesh's
    triangles, where it strays farthest. Empty for a mesh, which is its own exact form.
    """
    if not isinstance(shape, Part.Shape):
        return np.empty((0, 3))
    deflection = own_deflection(shape)
    clean, _, _ = _meshed(shape, deflection)
    faces, edges = clean.Faces, clean.Edges
    areas = [face.Area for face in faces]
    pitch = max(spacing, (sum(areas) / MOST_FACE_POINTS) ** 0.5)
    points: list[Any] = []
    nodes_left = _MOST_NODES
    for face, area in zip(faces, areas):
        surface = face.Surface
        corners, triangles = face.tessellate(deflection)
        triangles = _every(triangles, int(area / pitch**2) + 1)
        if isinstance(surface, QUICK_SURFACES):
            points.extend(_above_middles(surface, corners, triangles))
        elif len(corners) <= nodes_left:
            nodes_left -= len(corners)
            points.extend(_at_middle_parameters(face, corners, triangles))
        else:
            points.extend(_above_middles(surface, corners, _every(triangles, _MOST_SLOW_POINTS // len(faces) + 1)))
    step = max(spacing / 2.0, sum(e.Length for e in edges) / MOST_EDGE_POINTS)
    for edge in edges:
        if not edge.Degenerated:
            points.extend(edge.discretize(Number=max(3, int(edge.Length / step) + 1)))
    return np.array([(p.x, p.y, p.z) for p in points], dtype=np.float64).reshape(-1, 3)


def end_points(shape: Any, axis: Sequence[float]) -> Vertices:
    """The points (K × 3, mm) of `shape` that lie farthest along `axis` and against it, exactly on it: a round end
    stands up to the mesh's error beyond the mesh. Found by the kernel, as the nearest to a plane beyond each end.

    axis: any length but 0. Empty for a mesh, which is its own exact form.
    """
    if not isinstance(shape, Part.Shape):
        return np.empty((0, 3))
    deflection = own_deflection(shape)
    clean, vertices, _ = _meshed(shape, deflection)
    along = np.asarray(axis, dtype=np.float64) / np.linalg.norm(axis)
    middle = vertices.mean(axis=0)
    reach = float(np.abs(vertices - middle).max())
    found = []
    for out in (along, -along):
        top = float((vertices @ out).max())
        plane = _plane_at(middle + out * (top - middle @ out + reach), out, 4 * reach)
        for face in clean.Faces:
            if _box_reaches(face.BoundBox, out) >= top - deflection:
                point = np.array(tuple(face.distToShape(plane)[1][0][0]))
                if top - deflection <= point @ out <= top + END_ERROR * deflection:
                    found.append(point)
    return np.array(found, dtype=np.float64).reshape(-1, 3)


def _plane_at(centre: NDArray[np.float64], normal: NDArray[np.float64], size: float) -> Any:
    plane = Part.makePlane(2 * size, 2 * size)
    turn = FreeCAD.Rotation(FreeCAD.Vector(0, 0, 1), FreeCAD.Vector(*normal))
    corner = turn.multVec(FreeCAD.Vector(size, size, 0))
    plane.Placement = FreeCAD.Placement(FreeCAD.Vector(*centre) - corner, turn)
    return plane


def _box_reaches(box: Any, out: NDArray[np.float64]) -> float:
    """How far a box reaches in a direction, mm; boxes of faces may be too large, never too small."""
    low, high = np.array([box.XMin, box.YMin, box.ZMin]), np.array([box.XMax, box.YMax, box.ZMax])
    return float(np.where(out > 0, high, low) @ out)


def _every(triangles: list[Any], wanted: int) -> list[Any]:
    step = max(1, len(triangles) // wanted)
    return triangles[step // 2 :: step]


def _above_middles(surface: Any, corners: list[Any], triangles: list[Any]) -> list[Any]:
    """The surface's nearest points to the triangles' middles."""
    return [surface.value(*surface.parameter((corners[a] + corners[b] + corners[c]) / 3.0)) for a, b, c in triangles]


def _at_middle_parameters(face: Any, corners: list[Any], triangles: list[Any]) -> list[Any]:
    """The face's values at the middles of the triangles in parameter space.

    The kernel gives the parameters of the nodes in another order than the corners, so they are paired by place; a
    triangle with a corner that finds no partner, or several (on a seam or pole), is left out.
    """
    surface = face.Surface
    # Asked of the face itself a value takes 40 times as long.
    value = surface.value if isinstance(surface, _SPLINES) else face.valueAt
    by_place: dict[tuple[float, float, float], list[tuple[float, float]]] = {}
    for u, v in face.getUVNodes():
        by_place.setdefault(_rounded(value(u, v)), []).append((u, v))
    points = []
    for triangle in triangles:
        found = [by_place.get(_rounded(corners[k]), []) for k in triangle]
        if all(len(f) == 1 for f in found):
            points.append(value(sum(f[0][0] for f in found) / 3.0, sum(f[0][1] for f in found) / 3.0))
    return points


def _rounded(point: Any) -> tuple[float, float, float]:
    return round(point.x, 3), round(point.y, 3), round(point.z, 3)
