# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where a joint's axis runs in each form, against lines and solids known from their sizes."""

from __future__ import annotations

import pytest
import solids
from joined import joint, planned

from freecad_stacklam.lamination.refusal import Refusal


def test_through_where_a_void_lies_is_refused():
    post = solids.box(100, 100, 300, (-50, -50, -300))
    # A top with a gap in it: two plates on two walls.
    import trimesh

    from freecad_stacklam.lamination.form.mesh import gate

    whole = trimesh.creation.box((200, 200, 100))
    gap = trimesh.creation.box((160, 300, 50))
    hollow = whole.difference(gap, engine="manifold")
    hollow.apply_translation([0, 0, 50])
    meshes = {"Post": post, "Top": gate(hollow.vertices, hollow.faces)}
    with pytest.raises(Refusal, match="passes a void"):
        joint((planned(meshes), meshes))
