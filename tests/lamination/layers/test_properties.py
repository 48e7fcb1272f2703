# SPDX-License-Identifier: LGPL-2.1-or-later

"""What must hold for any form: random turned and tilted solids, by hypothesis, judged by manifold3d."""

from __future__ import annotations

import re

import judges
import numpy as np
import shapely
import solids
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.form.frame import to_model
from freecad_stacklam.lamination.form.mesh import gate
from freecad_stacklam.lamination.layers.stack import plan_stack, preview
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.refusal import Refusal, told
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import PLANE_SNAP

few = settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
many = settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@st.composite
def turned(draw, sides=24):
    """A body turned about z with any profile, squeezed to an oval, tilted."""
    count = draw(st.integers(2, 6))
    radii = draw(st.lists(st.floats(15, 120), min_size=count, max_size=count))
    steps = draw(st.lists(st.floats(5, 70), min_size=count - 1, max_size=count - 1))
    heights = np.concatenate([[0], np.cumsum(steps)])
    profile = np.vstack([[0, 0], np.column_stack([radii, heights]), [0, heights[-1]]])
    mesh = solids.revolved(profile, sides)
    tilt, squeeze = draw(st.floats(-0.6, 0.6)), draw(st.floats(0.4, 1.0))
    lean = np.array([[1, 0, np.sin(tilt)], [0, squeeze, 0], [-np.sin(tilt) * 0.3, 0, 1]])
    return solids.moved(mesh, lean)


@st.composite
def unions(draw):
    """Two or three turned bodies grown together by manifold3d."""
    import manifold3d

    whole = manifold3d.Manifold()
    for _ in range(draw(st.integers(2, 3))):
        shift = draw(st.tuples(st.floats(-60, 60), st.floats(-60, 60), st.floats(-40, 40)))
        whole += judges.solid(draw(turned(16))).translate(shift)
    found = whole.to_mesh64()
    return gate(found.vert_properties[:, :3], found.tri_verts)


def stock_for(mesh, axis, layers):
    z = mesh.vertices @ (np.array(axis) / np.linalg.norm(axis))
    return float(np.ptp(z)) / layers


@given(form=st.one_of(turned(), unions()), layers=st.floats(1.5, 9), allowance=st.floats(0, 6))
@few
def test_every_form_lies_in_its_blanks(form, layers, allowance):
    setting = StackSettings(stock=(stock_for(form, (0, 0, 1), layers),), allowance=allowance)
    try:
        plan = plan_stack(form, setting, name="any")
    except Refusal as refusal:
        # Bodies one above the other with a whole layer of air between them are no stack: the judge finds no wood there.
        low, high = (float(n) for n in re.findall(r"between ([\d.]+) mm and ([\d.]+) mm", told(refusal.sentence))[0])
        bottom = form.vertices[:, 2].min()
        slab = judges.solid(form).trim_by_plane((0, 0, 1), bottom + low + 0.1)
        assert slab.trim_by_plane((0, 0, -1), -(bottom + high) + 0.1).volume() == 0.0
        return
    assert plan.containment.proven
    assert plan.containment.least_cover >= allowance
    assert judges.uncovered(form, plan) <= 0.01 + snapped_away(form, plan)
    assert sum(layer.blank_volume for layer in plan.layers) >= form.volume


def snapped_away(form, plan):
    """What a blank may lack of a form by design: heights within PLANE_SNAP of a glue line count as on it. None,
    unless a
    corner of the form lies so near to one and not on it."""
    z = form.vertices[:, 2] - form.vertices[:, 2].min()
    off = np.abs(z[:, None] - np.array([0.0, *(layer.top for layer in plan.layers)])).min(axis=1)
    near = (off > 1e-9) & (off <= PLANE_SNAP)
    return PLANE_SNAP * sum(layer.shadow.area for layer in plan.layers) if near.any() else 0.0


@given(form=turned(), layers=st.floats(2, 8), one=st.floats(0, 5), more=st.floats(0.5, 5))
@few
def test_more_allowance_holds_less(form, layers, one, more):
    stock = stock_for(form, (0, 0, 1), layers)
    small = plan_stack(form, StackSettings(stock=(stock,), allowance=one), name="any")
    large = plan_stack(form, StackSettings(stock=(stock,), allowance=one + more), name="any")
    for a, b in zip(small.layers, large.layers):
        assert a.blank_area < b.blank_area
        assert area_polygon(b.blank).contains(area_polygon(a.blank))


@given(form=turned(), layers=st.floats(2, 7), degrees=st.floats(0, 360))
@few
def test_turned_form_has_turned_shadows(form, layers, degrees):
    stock = stock_for(form, (0, 0, 1), layers)
    turn = solids.turn_z(degrees)
    first = plan_stack(form, StackSettings(stock=(stock,)), name="any")
    second = plan_stack(solids.moved(form, turn), StackSettings(stock=(stock,)), name="any")
    for a, b in zip(first.layers, second.layers):
        assert_same_place(first, a, second, b, turn)


@given(form=turned(), layers=st.floats(2, 7))
@few
def test_mirrored_form_has_mirrored_shadows(form, layers):
    stock = stock_for(form, (0, 0, 1), layers)
    mirror = np.diag([-1.0, 1.0, 1.0])
    first = plan_stack(form, StackSettings(stock=(stock,)), name="any")
    second = plan_stack(solids.moved(form, mirror), StackSettings(stock=(stock,)), name="any")
    for a, b in zip(first.layers, second.layers):
        assert_same_place(first, a, second, b, mirror)


def assert_same_place(first, a, second, b, matrix):
    """The second shadow, in the model, is the first one moved by the matrix."""

    def in_model(plan, area):
        return shapely.transform(area, lambda p: to_model(plan.frame, np.column_stack([p, np.zeros(len(p))]))[:, :2])

    moved = shapely.transform(in_model(first, a.shadow), lambda p: p @ matrix[:2, :2].T)
    apart = shapely.symmetric_difference(shapely.make_valid(moved), in_model(second, b.shadow)).area
    # both lie on a grid of 1e-4 mm
    assert apart <= 3e-4 * (a.shadow.length + b.shadow.length) + 1e-3


@given(form=st.one_of(turned(), unions()), layers=st.integers(2, 5), parts=st.integers(2, 4))
@many
def test_splitting_every_layer_never_takes_more_wood(form, layers, parts):
    # Stock that divides the height, so that the overshoot of the last layer is the same.
    stock = stock_for(form, (0, 0, 1), layers)
    thick = preview(form, StackSettings(stock=(stock,), allowance=2.0))
    thin = preview(form, StackSettings(stock=(stock / parts,), allowance=2.0))
    assert thin.wood_volume <= thick.wood_volume * (1 + 1e-6)


@given(form=turned())
@few
def test_thin_layers_come_down_to_the_form(form):
    stock = stock_for(form, (0, 0, 1), 150)
    plan = preview(form, StackSettings(stock=(stock,), allowance=0.0))
    around = shapely.MultiPoint(form.vertices[:, :2]).convex_hull.length
    height = float(np.ptp(form.vertices[:, 2]))
    # what is left is the guard all round, and half a layer's step on the shallow parts
    area = shapely.MultiPoint(form.vertices[:, :2]).convex_hull.area
    assert form.volume <= plan.wood_volume <= form.volume + 0.5 * around * height + 3 * stock * area
