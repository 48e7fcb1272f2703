# SPDX-License-Identifier: LGPL-2.1-or-later

"""A post with a top on it, and joints through both, for tests."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache

import numpy as np
import solids

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.joints.joint import place_joint
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.shop import Bit
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.wood.species import Species

Pieces = tuple[dict[str, StackPlan], dict[str, Mesh]]

SHIFT = np.eye(4)
SHIFT[2, 3] = 300.0


def planned(meshes: Mapping[str, Mesh], **settings: object) -> dict[str, StackPlan]:
    """Stacks of 45 mm layers, where nothing else is asked for."""
    asked = {"stock": (45.0,), **settings}
    return {n: plan_stack(m, StackSettings(**asked), name=n) for n, m in meshes.items()}  # type: ignore[arg-type]


@cache
def post_and_top(radius: float = 80.0) -> Pieces:
    """A post 300 mm high and a top 50 mm thick that lies on it."""
    meshes = {"Post": solids.cylinder(radius, 300), "Top": solids.moved(solids.cylinder(150, 50), SHIFT)}
    return planned(meshes), meshes


def joint(
    pieces: Pieces, table: Mapping[str, Species] | None = None, bits: Sequence[float] = (), **changes: object
) -> JointPlan:
    """A joint 75 mm into the post and through the top, changed as asked."""
    asked = {"name": "j", "embed": (("Post", 75.0), ("Top", None)), **changes}
    return place_joint(JointSettings(**asked), *pieces, table, [Bit(b) for b in bits])  # type: ignore[arg-type]
