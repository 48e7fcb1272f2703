# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which stacks stand as one piece: those that a joint holds together, and those that touch; and which forms are none,
being in several bodies that nothing joins."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.mesh import Mesh, signed_volume
from freecad_stacklam.lamination.form.nearest import Surface
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.words import quoted, say

Floats = NDArray[np.float64]

#: Forms nearer than this are one piece, mm: drawings leave so much between parts that are joined, a published chair
#: of four solids 3 mm.
TOUCH = 5.0
#: What begins higher than this above the lowest of the model does not stand on the floor, mm.
_IN_THE_AIR = 20.0
#: Places of a surface that are asked, besides its corners.
_ASKED = 1000
#: Steps of a sequence of two numbers that fills the square evenly (powers of the plastic number, 1.3247…).
_STEPS = (0.7548776662466927, 0.5698402909980532)


def pieces_of(joined: Sequence[Sequence[str]], meshes: Mapping[str, Mesh]) -> tuple[tuple[str, ...], ...]:
    """The names of the meshes, piece by piece, in the order given. joined: names that a joint holds together."""
    names = list(meshes)
    group = {name: i for i, name in enumerate(names)}

    def join(one: str, other: str) -> None:
        old, new = group[other], group[one]
        for name in names:
            if group[name] == old:
                group[name] = new

    for members in joined:
        known = [name for name in members if name in group]
        for other in known[1:]:
            join(known[0], other)
    for i, one in enumerate(names):
        for other in names[i + 1 :]:
            if group[one] != group[other] and touching(meshes[one], meshes[other]):
                join(one, other)
    return tuple(tuple(n for n in names if group[n] == g) for g in dict.fromkeys(group[n] for n in names))


#: What was found of forms that are still in use: their bodies (none: the form itself is the one), and which touch, by
#: how near. A panel asks at every change of what does not change a form.
_bodies: WeakKeyDictionary[Mesh, tuple[Mesh, ...]] = WeakKeyDictionary()
_touch: WeakKeyDictionary[Mesh, WeakKeyDictionary[Mesh, dict[float, bool]]] = WeakKeyDictionary()


def bodies_of(mesh: Mesh) -> tuple[Mesh, ...]:
    """The closed surfaces of a mesh that hang together by edges, without those of voids, which look inward. Found once
    for as long as the mesh is there."""
    if mesh not in _bodies:
        found = _bodies_of(mesh)
        _bodies[mesh] = () if found == (mesh,) else found
    return _bodies[mesh] or (mesh,)


def _bodies_of(mesh: Mesh) -> tuple[Mesh, ...]:
    near = mesh.twins.reshape(-1, 3) // 3
    label = np.arange(len(mesh.triangles))
    while True:
        low = np.minimum(label, label[near].min(axis=1))
        low = np.minimum(low, low[low])
        if np.array_equal(low, label):
            break
        label = low
    numbers = np.unique(label)
    if len(numbers) == 1:
        return (mesh,)
    found = []
    for number in numbers:
        triangles = mesh.triangles[label == number]
        used, corners = np.unique(triangles, return_inverse=True)
        faces = corners.reshape(triangles.shape)
        volume = signed_volume(mesh.vertices[used], faces)
        if volume > 0:
            # Twins are not needed to ask what touches.
            found.append(Mesh(mesh.vertices[used], faces, np.zeros(0, dtype=np.int64), volume))
    return tuple(found)


def told_apart(joined: Sequence[Sequence[str]], meshes: Mapping[str, Mesh]) -> str:
    """A sentence where a form is in several bodies that nothing joins, or where something hangs in the air, else "".
    meshes: of one job's forms, in the model. Two stacks that both stand on the floor are two pieces, and no fault."""
    bodies = {(name, i): body for name, mesh in meshes.items() for i, body in enumerate(bodies_of(mesh))}
    names = {f"{i} {name}": (name, i) for name, i in bodies}
    # A joint holds the largest body of each of its stacks; what a body touches it holds as well.
    largest = {n: max((k for k in bodies if k[0] == n), key=lambda k: bodies[k].volume) for n in meshes}
    held = [[f"{largest[n][1]} {n}" for n in members if n in largest] for members in joined]
    parts = pieces_of(held, {key: bodies[which] for key, which in names.items()})
    floor = min(float(m.vertices[:, 2].min()) for m in meshes.values()) if meshes else 0.0
    for part in parts:
        low = min(float(bodies[names[key]].vertices[:, 2].min()) for key in part)
        if low > floor + _IN_THE_AIR:
            hanging = listed([quoted(n) for n in dict.fromkeys(names[key][0] for key in part)])
            several = any((names[key][0], 1) in bodies for key in part)
            return (
                say(
                    "A part of {stacks} hangs in the air, as nothing joins it to what stands on the floor: join it, or "
                    "take it out. What is said of the rest takes no load from it.",
                    stacks=hanging,
                )
                if several
                else say(
                    "{stacks} hangs in the air, as nothing joins it to what stands on the floor: join it, or take it "
                    "out. What is said of the rest takes no load from it.",
                    stacks=hanging,
                )
            )
    for name in meshes:
        inside = sum(any(names[key][0] == name for key in part) for part in parts)
        if inside > 1:
            return say(
                "“{stack}” is in {count} parts that nothing joins, and is judged as if they were one: join them, "
                "or make each a stack of its own.",
                stack=name,
                count=inside,
            )
    return ""


def touching(one: Mesh, other: Mesh, apart: float = TOUCH) -> bool:
    """Whether two forms come nearer to each other than `apart` mm at some asked place. Found once for as long as both
    are there."""
    known = _touch.setdefault(one, WeakKeyDictionary()).setdefault(other, {})
    if apart not in known:
        known[apart] = _touching(one, other, apart)
    return known[apart]


def _touching(one: Mesh, other: Mesh, apart: float) -> bool:
    low = np.maximum(one.vertices.min(axis=0), other.vertices.min(axis=0)) - apart
    high = np.minimum(one.vertices.max(axis=0), other.vertices.max(axis=0)) + apart
    if (low > high).any():
        return False
    for mesh, against in ((one, other), (other, one)):
        asked = _asked(mesh, low, high)
        if len(asked):
            within = np.full(len(asked), apart)
            if Surface(against.vertices, against.triangles).nearest(asked, within)[0].min() <= apart:
                return True
    return False


def _asked(mesh: Mesh, low: Floats, high: Floats) -> Floats:
    """Corners of a mesh and places spread over its faces by their area, those in a box, N × 3; no more than 2 000."""
    corners = mesh.vertices[mesh.triangles]
    inside = ((corners.max(axis=1) >= low) & (corners.min(axis=1) <= high)).all(axis=1)
    corners = corners[inside]
    if not len(corners):
        return np.empty((0, 3))
    area = np.linalg.norm(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1)
    sums = np.cumsum(area)
    which = np.searchsorted(sums, (np.arange(_ASKED) + 0.5) / _ASKED * sums[-1]).clip(max=len(corners) - 1)
    u, v = (np.arange(_ASKED) * step % 1.0 for step in _STEPS)
    over = u + v > 1.0
    u, v = np.where(over, 1 - u, u), np.where(over, 1 - v, v)
    a, b, c = corners[which, 0], corners[which, 1], corners[which, 2]
    spread = a + u[:, None] * (b - a) + v[:, None] * (c - a)
    points = corners.reshape(-1, 3)
    points = np.vstack([points[:: max(1, len(points) // _ASKED)], spread])
    return np.asarray(points[((points >= low) & (points <= high)).all(axis=1)])
