# SPDX-License-Identifier: LGPL-2.1-or-later

"""Simple furniture as meshes by name, and how it stands, for tests that reckon it by hand. All lengths mm."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import cos, pi, sin

import numpy as np
from plans import layer_of, stack_of
from shapely import box as square
from solids import box, cylinder, moved, revolved

from freecad_stacklam.lamination.findings.standing import PieceStanding, StandingFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.volumes import volume_middle
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.standing.whole import Weighed, standing_of
from freecad_stacklam.lamination.usage.use import UseSettings

#: White oak at 12 %, kg/mm³ (FPL-GTR-282 (2021), Eq. 4-14 from a gravity of 0.68).
OAK = 762e-9
#: A hard and even floor.
EVEN = UseSettings("stool", short_foot=0.0)


def lifted(mesh: Mesh, z: float) -> Mesh:
    """The same mesh `z` higher."""
    matrix = np.eye(4)
    matrix[2, 3] = z
    return moved(mesh, matrix)


def leg(x: float, y: float, high: float = 400.0, thick: float = 40.0, under: float = 0.0) -> Mesh:
    """An upright square leg about (x, y) from `under` the seat's floor to `high`."""
    return box(thick, thick, high - under, (x - thick / 2, y - thick / 2, under))


def four_legs(half: float = 130.0, short: float = 0.0, seat: float = 400.0) -> dict[str, Mesh]:
    """A square seat 50 thick, 450 high, on four legs about (± half, ± half); the first is `short` by so much."""
    places = ((half, half), (-half, half), (-half, -half), (half, -half))
    legs = {f"Leg {i}": leg(x, y, under=short if i == 1 else 0.0) for i, (x, y) in enumerate(places, 1)}
    return {"Seat": box(seat, seat, 50, (-seat / 2, -seat / 2, 400)), **legs}


def legs_round(count: int, circle: float = 150.0, turn: float = 0.0, short: float = 0.0) -> dict[str, Mesh]:
    """A round seat, radius 180 and 450 high, on upright pins of 2 mm on a circle; the first is `short`."""
    turns = [turn + 2 * pi * i / count for i in range(count)]
    pins = {
        f"Leg {i}": leg(circle * cos(t), circle * sin(t), 410, 2.0, short if i == 1 else 0.0)
        for i, t in enumerate(turns, 1)
    }
    return {"Seat": lifted(cylinder(180, 40), 410), **pins}


def pedestal() -> dict[str, Mesh]:
    """A turned pedestal on a face of radius 170, with a dished plate of radius 220, 450 high."""
    profile = [[0, 0], [170, 0], [60, 200], [60, 400], [220, 420], [220, 450], [200, 450], [0, 430]]
    return {"Pedestal": revolved(np.array(profile, dtype=float), 360)}


def ring_base() -> dict[str, Mesh]:
    """A drum of radius 200, hollow from below by 3 mm up to radius 150: it stands on a ring."""
    profile = [[0, 3], [150, 3], [150, 0], [200, 0], [200, 300], [0, 300]]
    return {"Drum": revolved(np.array(profile, dtype=float), 360)}


def plan_of(meshes: Mapping[str, Mesh], joints: tuple[JointPlan, ...] = (), title: str = "Stool") -> Plan:
    """A plan that names these forms as stacks, and no more."""
    layer = layer_of(1, 0.0, 10.0, [square(0, 0, 10, 10)])
    return Plan(title, "mm", tuple(stack_of(name, (layer,)) for name in meshes), joints)


def weights_of(meshes: Mapping[str, Mesh], density: float | None = OAK) -> dict[str, tuple[Weighed, ...]]:
    """Mass and centre of each, as if solid; density None: of a wood that is not known."""
    found = {}
    for name, mesh in meshes.items():
        x, y, z = volume_middle(mesh).tolist()
        found[name] = (Weighed(None if density is None else density * mesh.volume, (x, y, z), mesh.volume),)
    return found


def standing(
    meshes: Mapping[str, Mesh], use: UseSettings = EVEN, density: float | None = OAK, **more: float
) -> StandingFindings:
    """How they stand; more: options of the use."""
    return standing_of(plan_of(meshes), meshes, replace(use, **more), weights_of(meshes, density))  # type: ignore[arg-type]


def one_piece(meshes: Mapping[str, Mesh], use: UseSettings = EVEN, density: float | None = OAK, **more: float
              ) -> PieceStanding:  # fmt: skip
    """The same of what is one piece."""
    (piece,) = standing(meshes, use, density, **more).pieces
    return piece
