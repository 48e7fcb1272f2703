# SPDX-License-Identifier: LGPL-2.1-or-later

"""Forms as triangles, by kind and seed: the shapes that makers draw, and the ones that break programs. All lengths mm.

Each kind is a function of a numpy generator that gives vertices and triangles of about unit to hundred size, with the
glue lines it wants to lie on, if any; `mesh_form` then brings it to 5 mm to 3 m, turns it, and lays some 100 m away.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import manifold3d as m3
import numpy as np
import trimesh
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Solid = m3.Manifold
FAR = 100_000.0


@dataclass(frozen=True, eq=False)
class RawForm:
    """What a kind gives. `step`: height of a layer that puts flat faces on glue lines, 0 where there are none."""

    vertices: Floats
    triangles: Ints
    step: float = 0.0


def _raw(solid: Solid, step: float = 0.0) -> RawForm:
    mesh = solid.to_mesh64()
    return RawForm(np.asarray(mesh.vert_properties)[:, :3].copy(), np.asarray(mesh.tri_verts, dtype=np.int64), step)


def _polygon(chance: np.random.Generator, corners: int, radius: float, rough: float) -> Floats:
    turns = 2 * np.pi * np.arange(corners) / corners
    r = radius * (1 + rough * chance.uniform(-1, 1, corners))
    return np.column_stack([r * np.cos(turns), r * np.sin(turns)])


def _tube(rings: Floats) -> RawForm:
    """Rings (K × N × 3, each to the left seen from behind its way) joined, the ends closed by fans."""
    count, around = rings.shape[:2]
    i, k = np.meshgrid(np.arange(around), np.arange(count - 1), indexing="xy")
    j = (i + 1) % around
    a, b, c, d = k * around + i, k * around + j, (k + 1) * around + i, (k + 1) * around + j
    sides = np.vstack([np.stack(t, -1).reshape(-1, 3) for t in ((a, b, d), (a, d, c))])
    first = np.arange(around)
    after = (first + 1) % around
    low, high = count * around, count * around + 1
    ends = [np.column_stack([np.full(around, low), after, first])]
    last = (count - 1) * around
    ends.append(np.column_stack([np.full(around, high), last + first, last + after]))
    points = np.vstack([rings.reshape(-1, 3), rings[0].mean(axis=0), rings[-1].mean(axis=0)])
    return RawForm(points, np.vstack([sides, *ends]))


def revolve(chance: np.random.Generator) -> RawForm:
    """A turned form: round, stepped, undercut, pointed at an end or flat."""
    count = int(chance.integers(3, 24))
    z = np.sort(chance.uniform(0, 120, count))
    if chance.random() < 0.3:
        z = np.round(z / 15) * 15  # shoulders: several radii at one height
        z = np.sort(z)
    radii = 40 * chance.uniform(0.05, 1, count)
    if z[-1] - z[0] < 1:
        z = np.linspace(0, 60, count)
    keep = np.r_[True, (np.abs(np.diff(z)) > 1e-9) | (np.abs(np.diff(radii)) > 0.5)]
    z, radii = z[keep], radii[keep]
    if chance.random() < 0.3:
        radii[-1] = 1e-3
    turns = 2 * np.pi * np.arange(int(chance.integers(3, 181))) / 1.0
    turns = 2 * np.pi * np.arange(len(turns)) / len(turns)
    rings = np.stack([np.outer(radii, np.cos(turns)), np.outer(radii, np.sin(turns)),
                      np.repeat(z[:, None], len(turns), 1)], axis=-1)  # fmt: skip
    return _tube(rings)


def loft(chance: np.random.Generator) -> RawForm:
    """Sections of one number of corners, twisted and shifted on their way up."""
    corners, count = int(chance.integers(3, 40)), int(chance.integers(2, 30))
    z = np.linspace(0, 150, count)
    twist = chance.uniform(-1.5, 1.5) * z / 150
    wander = chance.uniform(-15, 15, (1, 2)) * np.sin(z[:, None] / chance.uniform(30, 90))
    rings = []
    base = _polygon(chance, corners, 40, 0.25)
    for k in range(count):
        turn = np.array([[np.cos(twist[k]), -np.sin(twist[k])], [np.sin(twist[k]), np.cos(twist[k])]])
        flat = base @ turn.T * chance.uniform(0.75, 1.15) + wander[k]
        rings.append(np.column_stack([flat, np.full(corners, z[k])]))
    return _tube(np.array(rings))


def sweep(chance: np.random.Generator) -> RawForm:
    """A round bar on a bent way: rails, bows, handles."""
    count, corners = int(chance.integers(12, 90)), int(chance.integers(6, 48))
    t = np.linspace(0, chance.uniform(1.0, 5.0), count)
    radius, rise, thick = chance.uniform(40, 90), chance.uniform(-30, 60), chance.uniform(3, 14)
    way = np.column_stack([radius * np.cos(t), radius * np.sin(t), rise * t + 8 * np.sin(2 * t)])
    along = np.gradient(way, axis=0)
    along /= np.linalg.norm(along, axis=1)[:, None]
    side = np.cross(along, [0, 0, 1.0])
    side /= np.linalg.norm(side, axis=1)[:, None]
    up = np.cross(side, along)
    turns = 2 * np.pi * np.arange(corners) / corners
    rings = way[:, None] + thick * (np.cos(turns)[:, None] * side[:, None] + np.sin(turns)[:, None] * up[:, None])
    return _tube(rings[:, ::-1])


def _part(chance: np.random.Generator) -> Solid:
    sides = int(chance.integers(8, 64))
    size = chance.uniform(15, 60, 3)
    part = [
        lambda: Solid.cube(tuple(size), True),
        lambda: Solid.sphere(size[0] / 1.6, sides),
        lambda: Solid.cylinder(size[2], size[0] / 2, chance.uniform(0.1, 1) * size[0] / 2, sides, True),
        lambda: Solid.sphere(1, sides).scale(tuple(size / 2)),
    ][chance.integers(4)]()
    if chance.random() < 0.5:
        part = part.rotate(tuple(chance.uniform(-90, 90, 3)))
    return part.translate(tuple(chance.uniform(-30, 30, 3)))


def booleans(chance: np.random.Generator) -> RawForm:
    """Bodies joined, cut and intersected."""
    solid = _part(chance)
    for _ in range(int(chance.integers(1, 8))):
        other = _part(chance)
        made = (solid + other, solid - other, solid ^ other)[chance.choice(3, p=[0.5, 0.35, 0.15])]
        if made.volume() > 2000:
            solid = made
    return _raw(solid)


def shell(chance: np.random.Generator) -> RawForm:
    """A thin wall around an empty inside: closed all round, or open like a bowl."""
    outer = m3.CrossSection([_polygon(chance, int(chance.integers(5, 60)), 45, 0.08)])
    wall, height = chance.uniform(0.3, 6), chance.uniform(20, 120)
    inner = outer.offset(-wall, m3.JoinType.Round)
    shrink = chance.uniform(0.7, 1.2)
    body = Solid.extrude(outer, height, 12, chance.uniform(0, 60), (shrink, shrink))
    core = Solid.extrude(inner, height - wall, 12, chance.uniform(0, 30), (min(shrink, 1) * 0.98,) * 2)
    if chance.random() < 0.5:
        core = core.scale((1, 1, (height - 2 * wall) / (height - wall)))
    return _raw(body - core.translate((0, 0, wall)))


def fins(chance: np.random.Generator) -> RawForm:
    """A body with blades a tenth of a millimetre to three thick."""
    solid = Solid.cylinder(80, 22, chance.uniform(8, 30), 48)
    for _ in range(int(chance.integers(1, 14))):
        thick = 10 ** chance.uniform(-1, 0.5)
        blade = Solid.cube((chance.uniform(25, 60), thick, chance.uniform(4, 78)))
        lean = chance.uniform(-12, 12) if chance.random() < 0.5 else 0.0
        solid = solid + blade.rotate((lean, 0, chance.uniform(0, 360))).translate((0, 0, chance.uniform(0, 60)))
    return _raw(solid)


def slivers(chance: np.random.Generator) -> RawForm:
    """Faces that nearly lie in one plane: triangles of a metre by a micrometre."""
    solid = Solid.cube((80, 60, 40))
    for _ in range(int(chance.integers(2, 7))):
        near = 10 ** chance.uniform(-6, -1)
        tool = Solid.cube((chance.uniform(10, 90), chance.uniform(10, 70), 20))
        lean = 10 ** chance.uniform(-5, -1) if chance.random() < 0.5 else 0.0
        at = (chance.uniform(-20, 60), chance.uniform(-20, 40), (40 if chance.random() < 0.6 else 20) - near)
        tool = tool.rotate((lean, lean, chance.uniform(0, 90))).translate(at)
        made = solid + tool if chance.random() < 0.5 else solid - tool
        solid = made if made.volume() > 2000 else solid
    return _raw(solid)


def tangencies(chance: np.random.Generator) -> RawForm:
    """Round bodies that touch planes and each other in a line or a point, and are joined there by a hair or by much."""
    sides = 4 * int(chance.integers(4, 24))
    r = chance.uniform(12, 30)
    hair = float(chance.choice([0.0, 1e-6, 1e-3, 0.05, 1.0]))
    solid = Solid.cube((120, 60, 20), True)
    for _ in range(int(chance.integers(1, 5))):
        x = float(chance.choice([-60 + r, 0.0, 60 - r, chance.uniform(-30, 30)]))
        other = Solid.cylinder(60, r, r, sides, True).rotate((90, 0, 0)) if chance.random() < 0.5 else Solid.sphere(
            r, sides)  # fmt: skip
        at = (x, 0, float(chance.choice([10 - hair, 10 + r - hair, -r + hair, 0.0])))
        made = solid + other.translate(at) if chance.random() < 0.6 else solid - other.translate(at)
        solid = made if made.volume() > 5000 else solid
    return _raw(solid)


def coplanar(chance: np.random.Generator) -> RawForm:
    """Terraces, pockets and shelves whose flat faces lie on glue lines, or a hair beside them."""
    step, solid = 10.0, Solid.cube((90, 70, 30))
    for _ in range(int(chance.integers(2, 10))):
        low = int(chance.integers(0, 5))
        size = (chance.uniform(8, 60), chance.uniform(8, 60), step * int(chance.integers(1, 4)))
        beside = float(chance.choice([0, 0, 0, 1e-7, 1e-4, 9e-4, 1.1e-3, 0.009])) * chance.choice([-1, 1])
        tool = Solid.cube(size).translate((*chance.uniform(-10, 70, 2), step * low + beside))
        made = solid + tool if chance.random() < 0.5 else solid - tool
        solid = made if made.volume() > 5000 else solid
    return _raw(solid, step)


def islands(chance: np.random.Generator) -> RawForm:
    """Rings in rings with posts in them, on a common base or apart."""
    solid, r = Solid(), 100.0
    while r > 8:
        wall, high = chance.uniform(2, 0.35 * r + 2), chance.uniform(20, 80)
        sides = int(chance.choice([4, 6, 48]))
        solid = solid + Solid.cylinder(high, r, r, sides)
        if r - wall > 4:
            solid = solid - Solid.cylinder(high + 1, r - wall, (r - wall) * chance.uniform(0.7, 1), sides).translate(
                (0, 0, chance.choice([-0.5, 6.0]))
            )
        r -= wall + chance.uniform(1, 20)
    return _raw(solid)


def legs(chance: np.random.Generator) -> RawForm:
    """A board on legs that splay, with stretchers: many pieces in one layer."""
    wide, deep, high = chance.uniform(60, 150), chance.uniform(50, 90), chance.uniform(40, 120)
    solid = Solid.cube((wide, deep, chance.uniform(4, 20))).translate((0, 0, high))
    splay = chance.uniform(-15, 15)
    for x in (8, wide - 8):
        for y in (8, deep - 8):
            leg = Solid.cylinder(high + 3, chance.uniform(2, 5), 6, 20)
            solid = solid + leg.rotate((0, splay * np.sign(x - wide / 2), 0)).translate((x, y, 0))
    if chance.random() < 0.5:
        solid = solid + Solid.cube((wide - 16, 3, 5)).translate((8, deep / 2, high / 3))
    return _raw(solid)


def overlapping(chance: np.random.Generator) -> RawForm:
    """Closed bodies in one mesh that share wood and were never joined."""
    bodies = [trimesh.creation.icosphere(2, chance.uniform(15, 30)) for _ in range(int(chance.integers(2, 5)))]
    bodies.append(trimesh.creation.box(chance.uniform(20, 50, 3)))
    points, faces, count = [], [], 0
    for body in bodies:
        at = chance.uniform(-18, 18, 3) if chance.random() < 0.8 else chance.uniform(-60, 60, 3)
        points.append(np.asarray(body.vertices) + at)
        faces.append(np.asarray(body.faces) + count)
        count += len(body.vertices)
    return RawForm(np.vstack(points), np.vstack(faces).astype(np.int64))


def dense(chance: np.random.Generator) -> RawForm:
    """A carved form as scanned: noise on its surface, up to 80 000 triangles."""
    body = trimesh.creation.icosphere(int(chance.choice([4, 4, 5, 5, 6])), 50)
    points = np.asarray(body.vertices)
    waves = chance.uniform(-3, 3, (4, 3)) / 20
    bump = sum(np.sin(points @ w + p) for w, p in zip(waves, chance.uniform(0, 6, 4)))
    rough = chance.normal(0, 10 ** chance.uniform(-4, -1.5), (len(points), 1))
    moved = points * (1 + 0.12 * bump[:, None] + rough / 50) * chance.uniform(0.3, 1, (1, 3))
    return RawForm(moved, np.asarray(body.faces, dtype=np.int64))


KINDS: dict[str, Callable[[np.random.Generator], RawForm]] = {
    kind.__name__: kind
    for kind in (revolve, loft, sweep, booleans, shell, fins, slivers, tangencies, coplanar, islands, legs,
                 overlapping, dense)
}  # fmt: skip


def placing(chance: np.random.Generator, extent: float) -> tuple[float, Floats, Floats]:
    """A scale that brings `extent` to 5 mm to 3 m, a turn (three in five stand upright), and a place."""
    scale = 10 ** chance.uniform(np.log10(5), np.log10(3000)) / extent
    turn = np.eye(3)
    if chance.random() < 0.4:
        turn, _ = np.linalg.qr(chance.normal(size=(3, 3)))
        turn *= np.sign(np.linalg.det(turn))
    away = chance.normal(size=3)
    place = FAR * away / np.linalg.norm(away) if chance.random() < 0.25 else chance.uniform(-300, 300, 3)
    return scale, turn, place


def mesh_form(kind: str, seed: int) -> RawForm:
    """Form `seed` of a kind, in the model, mm; the same for the same numbers."""
    chance = np.random.default_rng([seed, list(KINDS).index(kind)])
    raw = KINDS[kind](chance)
    scale, turn, place = placing(chance, float(np.ptp(raw.vertices, axis=0).max()))
    if raw.step:
        turn = np.eye(3)  # turned, no face would lie on a glue line
    return RawForm(raw.vertices @ turn.T * scale + place, raw.triangles, raw.step * scale)
