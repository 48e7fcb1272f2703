# SPDX-License-Identifier: LGPL-2.1-or-later

"""Forms whose weak places are known, planned as stacks, for tests of strength. All lengths mm."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import trimesh
from jobs import plan_job
from solids import cylinder, moved, revolved

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.findings.strength import StrengthFindings
from freecad_stacklam.lamination.form.mesh import Mesh, gate
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.strength.along import body_of
from freecad_stacklam.lamination.strength.composite import Piece
from freecad_stacklam.lamination.strength.timber import woods_of
from freecad_stacklam.lamination.strength.whole import plan_strength
from freecad_stacklam.lamination.usage.use import LoadSettings, UseSettings

OAK = "white oak"


def mushroom(neck: float = 30.0, plate: float = 30.0, radius: float = 150.0, height: float = 400.0) -> Mesh:
    """A plate on a round neck on a foot as wide as the plate."""
    under = height - plate
    profile = [[0, 0], [radius, 0], [radius, 40], [neck, 80], [neck, under], [radius, under], [radius, height]]
    return revolved(np.array([*profile, [0, height]], dtype=float), 120)


def hourglass(neck: float = 30.0, at: float = 187.0, height: float = 400.0, end: float = 120.0) -> Mesh:
    """Narrowest `at` a height that is no glue line's."""
    return revolved(np.array([[0, 0], [end, 0], [neck, at], [end, height], [0, height]], dtype=float), 120)


def bowl(radius: float = 180.0, wall: float = 10.0, height: float = 150.0, foot: float = 60.0) -> Mesh:
    """A cone-shaped bowl on a foot."""
    profile = [[0, 0], [foot, 0], [radius, height], [radius - wall, height], [foot - wall, 2 * wall], [0, 2 * wall]]
    return revolved(np.array(profile, dtype=float), 120)


def arch(width: float = 60.0, crown: float = 45.0, span: float = 400.0, height: float = 360.0) -> Mesh:
    """Two square legs and a beam on them."""
    return boxes([(-span / 2, 0, width, width, 0, height), (span / 2, 0, width, width, 0, height),
                  (0, 0, span + width, width, height - crown, height)])  # fmt: skip


def armchair() -> Mesh:
    """A block of a seat, a back, and two arms that hang on the back."""
    return boxes([(0, 0, 460, 440, 0, 400), (0, 200, 460, 40, 400, 800), (-210, 20, 40, 400, 600, 645),
                  (210, 20, 40, 400, 600, 645)])  # fmt: skip


def boxes(each: Sequence[tuple[float, float, float, float, float, float]]) -> Mesh:
    """The union of boxes given by their middle in plan, width, depth, bottom and top."""
    solids = []
    for x, y, width, depth, bottom, top in each:
        box = trimesh.creation.box((width, depth, top - bottom))
        box.apply_translation((x, y, (bottom + top) / 2))
        solids.append(box)
    whole = solids[0] if len(solids) == 1 else trimesh.boolean.union(solids, engine="manifold")
    return gate(whole.vertices, whole.faces)


def planned(
    forms: dict[str, Mesh], stock: str = "45mm", joints: Sequence[JointSettings] = (), species: str = OAK
) -> tuple[Plan, dict[str, Mesh]]:
    """The plan of a job of these forms in one wood."""
    from freecad_stacklam.lamination.lengths import parse_length

    stacks = tuple(StackSettings(form=n, stock=(parse_length(stock),), species=species) for n in forms)
    settings = Settings(title="Weak", stacks=stacks, joints=tuple(joints))
    return plan_job([Form(n, m) for n, m in forms.items()], settings, species_table()), forms


def own(**load: object) -> UseSettings:
    """A use with one load of the maker's own."""
    return UseSettings(own_loads=True, loads=(LoadSettings(name="own", **load),))  # type: ignore[arg-type]


def strength(forms: dict[str, Mesh], use: UseSettings, **how: object) -> StrengthFindings:
    """Planned and judged."""
    plan, meshes = planned(forms, **how)  # type: ignore[arg-type]
    return plan_strength(plan, meshes, use, species_table())


def piece(joints: Sequence[JointSettings] = (), **forms: Mesh) -> Piece:
    """Forms as they are cut, in white oak."""
    plan, meshes = planned(forms, joints=joints)
    timbers, _, _ = woods_of(plan, species_table())
    return Piece(tuple(body_of(s, meshes[s.name]) for s in plan.stacks), plan.joints, timbers)


def tenoned() -> tuple[Plan, dict[str, Mesh]]:
    """Ø60 post of two stacks with a Ø36 tenon 120 mm into each, a push of 300 N on top: 135 N·m at 450 below it."""
    up = np.eye(4)
    up[2, 3] = 270.0
    joint = JointSettings(
        "J", through=(0.0, 0.0, 270.0), section="round", size=(36.2,), embed=(("Low", 120.0), ("High", 120.0))
    )
    return planned({"Low": cylinder(30.0, 270.0, 180), "High": moved(cylinder(30.0, 450.0, 180), up)}, joints=[joint])
