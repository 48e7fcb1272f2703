# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which loads stand on the piece: one whose own point lies beside the wood cannot act on it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.nearest import Surface
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.words import say

#: A point this near to the surface, mm, is on it: as far as what a load stands on reaches. Common practice, no source.
REACH = 30.0


def on_piece(
    loads: Sequence[LoadCase], meshes: Sequence[Mesh]
) -> tuple[tuple[LoadCase, ...], tuple[tuple[str, str], ...]]:
    """The loads that stand on the piece, and of the others their names and a sentence each. meshes: of its forms, in
    the model."""
    asked = [load.at for load in loads if load.at is not None]
    if not asked or not meshes:
        return tuple(loads), ()
    places = np.array(asked)
    apart = np.min([Surface(m.vertices, m.triangles).nearest(places)[0] for m in meshes], axis=0)
    away = iter(apart.tolist())
    kept, left = [], []
    for load in loads:
        off = 0.0 if load.at is None else next(away)
        if off <= REACH:
            kept.append(load)
            continue
        says = say(
            "The strength under “{load}” is not judged: its point lies {off} from the surface of the piece. Give it "
            "a point on the surface.",
            load=load.name,
            off=size(off),
        )
        left.append((load.name, says))
    return tuple(kept), tuple(left)
