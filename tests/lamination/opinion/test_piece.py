# SPDX-License-Identifier: LGPL-2.1-or-later

"""A planned piece as the mesher's job, and a mesh as the solver's."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import bricks
import numpy as np
import pytest
import solids
from jobs import plan_job
from tetrahedrons import boxes

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.findings.deep import WeakSpot
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.opinion.piece import deck_for, groups_of, job_of, own_group
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.stress.materials import FLAT_SAWN, timber_of
from freecad_stacklam.lamination.voxels.fill import voxels_of

POST = [[0, 0], [40, 0], [40, 180], [0, 180]]
SPOT = WeakSpot((40.0, 0.0, 100.0), "Piece", 3, "across the grain", 0.3, 1.65, 5.5, False, "a push", (0.0, 0.0, 180.0),
                (100.0, 0.0, 0.0), FLAT_SAWN)  # fmt: skip


@cache
def joined() -> tuple[Plan, dict[str, Mesh]]:
    lift = np.eye(4)
    lift[2, 3] = 180.0
    meshes = {"Post": solids.cylinder(50, 180, 48), "Top": solids.moved(solids.cylinder(120, 54, 48), lift)}
    joint = JointSettings(name="j", through=(0.0, 0.0, 180.0), section="round", size=(30.0,),
                          embed=(("Post", 90.0), ("Top", None)))  # fmt: skip
    stacks = StackSettings(form="Post"), StackSettings(form="Top", stock=(27.0,), grain=90.0)
    forms = [Form(n, m) for n, m in meshes.items()]
    return plan_job(forms, Settings(stacks=stacks, joints=(joint,)), species_table()), meshes


def test_stacks_are_divided_where_the_wood_changes_and_at_the_tenon() -> None:
    plan, meshes = joined()
    cells = voxels_of(plan, meshes, 10.0)
    timber = timber_of(cells, species_table(), FLAT_SAWN)
    job, files = job_of(plan, meshes, cells, timber, True, SPOT, lambda name: f"solid {name}")
    assert list(files.values()) == ["solid Post", "solid Top"] and job.solids == tuple(files)
    # All layers of a stack lie alike: nothing to divide within one.
    assert job.planes == () and job.voids == () and len(job.tenons) == 1
    (tenon,) = job.tenons
    assert np.hypot(*tenon.outline[:, :2].T) == pytest.approx(
        np.full(len(tenon.outline), tenon.outline[0, 0]), rel=0.01
    )
    assert tenon.outline[:, 2].mean() == pytest.approx(180 - 90, abs=5) and tenon.along[2] > 100
    dry, _ = job_of(plan, meshes, cells, timber, False, SPOT, lambda name: f"solid {name}")
    assert dry.tenons == () and len(dry.voids) >= 4  # mortises, layer by layer


def test_layers_that_lie_another_way_are_cut_apart() -> None:
    plan, meshes = bricks.turned(POST)
    (stack,) = plan.stacks
    turned = [replace(layer, grain=90.0 * (n % 2)) for n, layer in enumerate(stack.layers)]
    plan = replace(plan, stacks=(replace(stack, layers=tuple(turned)),))
    cells = voxels_of(plan, meshes, 10.0)
    timber = timber_of(cells, species_table(), FLAT_SAWN)
    job, _ = job_of(plan, meshes, cells, timber, False, SPOT, lambda name: "solid")
    assert [float(p[0, 2]) for p in job.planes] == pytest.approx([45.0, 90.0, 135.0])
    assert all(np.abs(p[:, :2]).min() > 40 for p in job.planes)


def test_a_mesh_alone_will_do_where_nothing_is_joined() -> None:
    plan, meshes = bricks.turned(POST)
    cells = voxels_of(plan, meshes, 10.0)
    timber = timber_of(cells, species_table(), FLAT_SAWN)
    job, files = job_of(plan, meshes, cells, timber, False, SPOT, lambda name: None)
    assert job.facets in files and files[job.facets].startswith("solid")
    plan, meshes = joined()
    cells = voxels_of(plan, meshes, 10.0)
    with pytest.raises(Refusal, match="one of the forms is a mesh"):
        job_of(plan, meshes, cells, timber_of(cells, species_table(), FLAT_SAWN), True, SPOT, lambda name: None)


def test_every_place_has_its_layer_or_tenon() -> None:
    plan, meshes = joined()
    cells = voxels_of(plan, meshes, 10.0)
    at = np.array([[45.0, 0, 10], [45, 0, 50], [49.9, 0, 100], [0, 0, 170], [14, 0, 200], [16, 0, 200], [119, 0, 230]])
    group = groups_of(at, plan, cells, True)
    layers = [(plan.stacks[layer.stack].name, layer.number) for layer in cells.layers]
    named = [layers[g] if g < len(layers) else "tenon" for g in group]
    assert named == [("Post", 1), ("Post", 2), ("Post", 3), "tenon", "tenon", ("Top", 1), ("Top", 2)]
    assert groups_of(at, plan, cells, False).max() < len(layers)
    assert own_group(plan, cells, replace(SPOT, stack="Top", layer=2)) == layers.index(("Top", 2))
    assert own_group(plan, cells, replace(SPOT, tenon="j")) == len(layers)


def test_the_deck_holds_the_floor_and_carries_the_load() -> None:
    plan, meshes = bricks.turned(POST)
    cells = voxels_of(plan, meshes, 10.0)
    timber = timber_of(cells, species_table(), FLAT_SAWN)
    mesh = boxes(8, 180.0, 56.0)
    deck, group = deck_for(mesh, plan, cells, timber, species_table(), False, SPOT)
    assert (mesh.points[deck.floor, 2] < 0.2).all() and len(deck.floor) == 17**2
    assert deck.forces.sum(axis=0) == pytest.approx([100.0, 0.0, 0.0])
    turning = np.cross(mesh.points[deck.loaded], deck.forces).sum(axis=0)
    assert turning == pytest.approx([0, 100 * 180.0, 0], abs=100)  # its middle is where it stands
    assert (group[deck.read] == 2).all() and len(deck.read) > 20
    with pytest.raises(Refusal, match="too little wood"):
        deck_for(mesh, plan, cells, timber, species_table(), False, replace(SPOT, place=(900.0, 0.0, 100.0)))
