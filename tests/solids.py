# SPDX-License-Identifier: LGPL-2.1-or-later

"""Closed meshes whose sizes are known exactly, for tests. All lengths mm."""

from __future__ import annotations

import numpy as np
import trimesh
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.mesh import Mesh, gate

Floats = NDArray[np.float64]


def revolved(profile: Floats, sides: int = 180) -> Mesh:
    """Turn a profile (K × 2 of radius and height, bottom to top, first and last radius 0) about z."""
    angles = 2 * np.pi * np.arange(sides) / sides
    inner = profile[1:-1]
    ring = np.stack(
        [
            np.outer(inner[:, 0], np.cos(angles)),
            np.outer(inner[:, 0], np.sin(angles)),
            np.repeat(inner[:, 1:], sides, 1),
        ],
        axis=-1,
    ).reshape(-1, 3)
    points = np.vstack([ring, [0, 0, profile[0, 1]], [0, 0, profile[-1, 1]]])
    bottom, top = len(points) - 2, len(points) - 1
    faces = []
    for i in range(sides):
        j = (i + 1) % sides
        faces.append((bottom, j, i))
        faces.append((top, (len(inner) - 1) * sides + i, (len(inner) - 1) * sides + j))
        for k in range(len(inner) - 1):
            a, b, c, d = k * sides + i, k * sides + j, (k + 1) * sides + i, (k + 1) * sides + j
            faces += [(a, b, d), (a, d, c)]
    return gate(points, np.array(faces))


def ball(radius: float = 150.0, subdivisions: int = 6) -> Mesh:
    """A ball about (0, 0, radius)."""
    mesh = trimesh.creation.icosphere(subdivisions, radius)
    return gate(mesh.vertices + [0, 0, radius], mesh.faces)


def cone(radius: float = 200.0, height: float = 450.0, sides: int = 720) -> Mesh:
    """A cone on its base at z = 0."""
    return revolved(np.array([[0, 0], [radius, 0], [0, height]], dtype=float), sides)


def cylinder(radius: float, height: float, sides: int = 360) -> Mesh:
    """A cylinder on z = 0."""
    return revolved(np.array([[0, 0], [radius, 0], [radius, height], [0, height]], dtype=float), sides)


def box(x: float, y: float, z: float, at: tuple[float, float, float] = (0, 0, 0)) -> Mesh:
    """A box with its lower corner at `at`."""
    mesh = trimesh.creation.box((x, y, z))
    return gate(mesh.vertices + np.array([x, y, z]) / 2 + np.array(at), mesh.faces)


def torus(ring: float = 120.0, tube: float = 40.0) -> Mesh:
    """A torus lying flat, its lowest points at z = 0."""
    mesh = trimesh.creation.torus(ring, tube, major_sections=192, minor_sections=96)
    return gate(mesh.vertices + [0, 0, tube], mesh.faces)


def moved(mesh: Mesh, matrix: Floats) -> Mesh:
    """The same mesh through a 3 × 3 or 4 × 4 matrix; a mirror turns the faces."""
    turn, shift = (matrix[:3, :3], matrix[:3, 3]) if matrix.shape == (4, 4) else (matrix, 0.0)
    faces = mesh.triangles if np.linalg.det(turn) > 0 else mesh.triangles[:, ::-1]
    return gate(mesh.vertices @ turn.T + shift, faces)


def turn_z(degrees: float) -> Floats:
    """Rotation about z."""
    a = np.radians(degrees)
    return np.array([[np.cos(a), -np.sin(a), 0], [np.sin(a), np.cos(a), 0], [0, 0, 1]])
