# SPDX-License-Identifier: LGPL-2.1-or-later

"""One form as a stack of proven layers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPoint, MultiPolygon

from freecad_stacklam.lamination.form.frame import frame_for, lying, to_stack
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.layers.fitting import fit_outside, grown, without_holes
from freecad_stacklam.lamination.layers.proof import contain
from freecad_stacklam.lamination.layers.sequence import SequencePlan, SequencePoint, picked, plan_sequence
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.layers.sides import in_the_model, side_views
from freecad_stacklam.lamination.layers.squaregrowth import grown_square
from freecad_stacklam.lamination.layers.tabs import with_tabs
from freecad_stacklam.lamination.layers.thickness import layer_planes
from freecad_stacklam.lamination.layers.wholewood import whole_wood, wood_in_slabs
from freecad_stacklam.lamination.layers.woodleft import measure_wood
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.plan import outline
from freecad_stacklam.lamination.plan.layers import FormFigures, LayerPlan, StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import GUARD
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]

#: Curves kept for each form.
MOST_CURVES = 8
#: Ways of laying glue lines whose shadows are kept while a maker tries them.
MOST_PREVIEWS = 8


@dataclass(frozen=True)
class StackPreview:
    """What a maker watches while typing: mm and mm³. frame: stack → model; regions: the blanks, before lines and arcs
    are fitted to them, between planes, heights in the stack."""

    layers: int
    wood_volume: float
    form_volume: float
    height: float
    stack_height: float
    tab_volume: float = 0.0  # of the waste tabs, which are sawn off and not carved
    frame: tuple[float, ...] = ()
    planes: tuple[float, ...] = ()
    regions: tuple[MultiPolygon, ...] = ()

    @property
    def carved_volume(self) -> float:
        """Wood to carve away, mm³, once the waste tabs are sawn off."""
        return self.wood_volume - self.tab_volume - self.form_volume


def preview(mesh: Mesh, settings: StackSettings, *, datum: Sequence[float] = (0.0, 0.0, 0.0)) -> StackPreview:
    """Layers and wood without the fitted outlines and the proof: milliseconds, and within a percent of the plan's
    wood."""
    frame, points, planes = _laid_out(mesh, settings, datum)
    regions = _regions(mesh, points, _shadows(mesh, frame, planes), planes, settings)
    sawn = with_tabs(regions, settings.tabs)
    wood = sum(one.region.area * (top - bottom) for one, bottom, top in zip(sawn, planes[:-1], planes[1:]))
    bare = sum(region.area * (top - bottom) for region, bottom, top in zip(regions, planes[:-1], planes[1:]))
    form = whole_wood(mesh, points, planes)
    blanks = tuple(one.region for one in sawn)
    return StackPreview(
        len(regions), wood, form, float(points[:, 2].max()), planes[-1], wood - bare, frame, planes, blanks
    )


@lru_cache(maxsize=MOST_PREVIEWS)
def _shadows(mesh: Mesh, frame: tuple[float, ...], planes: tuple[float, ...]) -> tuple[MultiPolygon, ...]:
    """Worked out once: most options that a maker changes leave the glue lines where they are."""
    points = lying(mesh, frame)
    return slice_surface(points, mesh.triangles, mesh.twins, planes, sections=False).shadows


def plan_stack(
    mesh: Mesh,
    settings: StackSettings,
    *,
    name: str,
    datum: Sequence[float] = (0.0, 0.0, 0.0),
    exact_points: Floats | None = None,
) -> StackPlan:
    """Slice the form into layers, draw their blanks and prove them.

    mesh: the gated form in model coordinates, mm. datum: the form's own origin in the model. exact_points: K × 3 points
    on the modelled surface, in the model, for the proof. Raises Refusal when the settings do not suit the form.
    """
    frame, points, planes = _laid_out(mesh, settings, datum, exact_points)
    slices = slice_surface(points, mesh.triangles, mesh.twins, planes)
    exact = None if exact_points is None else to_stack(frame, exact_points)
    shadows = _none_empty(slices.shadows, planes, exact)
    _spare_enough(shadows, settings, name)
    regions = _regions(mesh, points, shadows, planes, settings)
    sawn = with_tabs(regions, settings.tabs)
    untabbed = [fit_outside(region) for region in regions]
    blanks = [fit_outside(one.region) if one.tabs else plain for one, plain in zip(sawn, untabbed)]
    form_wood = wood_in_slabs(mesh, points, planes)
    containment = contain(points, mesh.triangles, planes, blanks, exact)
    # Tabs are sawn off before anybody carves: the wood is measured without them.
    measured = measure_wood(
        mesh, points, replace(slices, shadows=shadows), regions, untabbed, containment, settings, exact
    )
    layers = tuple(
        LayerPlan(
            number=k + 1,
            bottom=planes[k],
            top=planes[k + 1],
            species=settings.species,
            grain=settings.grain,
            shadow=shadows[k],
            blank=blanks[k],
            finished_bottom=slices.just_above[k],
            finished_top=slices.just_below[k + 1],
            blank_area=sum(outline.area(o) for o in blanks[k]),
            finished_volume=form_wood.slabs[k],
            thin=measured.thin[k],
            tabs=sawn[k].tabs,
            untabbed=untabbed[k] if sawn[k].tabs else (),
        )
        for k in range(len(regions))
    )
    sides = side_views(points, mesh)
    figures = FormFigures(form_wood.whole, float(points[:, 2].max()), len(mesh.triangles), form_wood.notes)
    return StackPlan(
        name=name,
        frame=frame,
        form=figures,
        allowance=settings.allowance,
        guard=mesh.guard,
        species=settings.species,
        layers=layers,
        containment=replace(containment, least_wood=measured.least, square=measured.square),
        copies=settings.copies,
        square=settings.square,
        sides=sides,
        in_model=in_the_model(mesh, frame, sides),
    )


def _laid_out(
    mesh: Mesh, settings: StackSettings, datum: Sequence[float], exact_points: Floats | None = None
) -> tuple[tuple[float, ...], Floats, tuple[float, ...]]:
    # A round end of the form stands up to the mesh's error above and below the mesh: the exact points know its height.
    known = mesh.vertices if exact_points is None or not len(exact_points) else np.vstack([mesh.vertices, exact_points])
    frame = frame_for(known, settings.axis, datum)
    points = lying(mesh, frame)
    if not sequenced(settings):
        height = float(to_stack(frame, known)[:, 2].max())
        return frame, points, layer_planes(height, settings.stock[0], settings.thicknesses)
    best = _sequences(mesh, frame, settings).best
    if best.shift:
        matrix = np.asarray(frame).reshape(4, 4).copy()
        matrix[:3, 3] -= best.shift * matrix[:3, 2]
        frame = tuple(float(v) for v in matrix.ravel())
        points = lying(mesh, frame)
    return frame, points, best.planes


def _none_empty(
    shadows: Sequence[MultiPolygon], planes: Sequence[float], exact: Floats | None
) -> tuple[MultiPolygon, ...]:
    """The shadows; a layer that only the modelled surface reaches, a hair above the mesh, gets the shadow of its
    points. Raises Refusal when a layer would hold nothing."""
    found = []
    for shadow, bottom, top in zip(shadows, planes[:-1], planes[1:]):
        if shadow.is_empty and exact is not None:
            here = exact[(exact[:, 2] >= bottom) & (exact[:, 2] <= top), :2]
            shadow = MultiPolygon([MultiPoint(here).convex_hull.buffer(GUARD)]) if len(here) else shadow
        if shadow.is_empty:
            raise Refusal(
                say(
                    "Nothing of the form lies between {bottom} and {top} along the axis: it is in separate pieces, "
                    "one above the other; slice each piece by itself.",
                    bottom=size(bottom),
                    top=size(top),
                )
            )
        found.append(shadow)
    return tuple(found)


def sequenced(settings: StackSettings) -> bool:
    """Whether the glue lines are to be chosen, and not simply counted off from one stock thickness."""
    return bool(len(settings.stock) > 1 or settings.pick or settings.forced or settings.forbidden)


def candidates(mesh: Mesh, settings: StackSettings, *, datum: Sequence[float] = (0.0, 0.0, 0.0)) -> SequencePlan:
    """The curve wood ↔ layers for a form, for a maker to pick a point from."""
    return _sequences(mesh, frame_for(mesh.vertices, settings.axis, datum), settings)


def _sequences(mesh: Mesh, frame: tuple[float, ...], settings: StackSettings) -> SequencePlan:
    """The curve of a form, with the point that the settings pick."""
    first = StackSettings()
    asked = replace(
        settings, form="", pick="", glue_line_worth=0.0, species=first.species, grain=first.grain, copies=1,
        hollow=None, pins=None, tabs=(),
    )  # fmt: skip
    return picked(_curve(mesh, frame, asked), settings)


@lru_cache(maxsize=MOST_CURVES)
def _curve(mesh: Mesh, frame: tuple[float, ...], asked: StackSettings) -> tuple[SequencePoint, ...]:
    """Worked out once: a preview, a plan and a change of pick ask for the same one."""
    return plan_sequence(lying(mesh, frame), mesh.triangles, mesh.twins, asked, guard=mesh.guard).points


def _spare_enough(shadows: Sequence[MultiPolygon], settings: StackSettings, name: str) -> None:
    """Raises Refusal for an allowance that is more than the form is wide: a slip of the finger."""
    x0, y0, x1, y1 = shapely.total_bounds(shadows)
    width = float(min(x1 - x0, y1 - y0))
    if settings.allowance > width:
        raise Refusal(
            say(
                "An allowance of {allowance} all round is more than {name} is wide ({width}): give less, {size} to "
                "{most} is usual.",
                allowance=size(settings.allowance),
                name=name,
                width=size(width),
                size=size(3.0),
                most=size(6.0),
            )
        )


def _regions(
    mesh: Mesh, points: Floats, shadows: Sequence[MultiPolygon], planes: Sequence[float], settings: StackSettings
) -> list[MultiPolygon]:
    margin = settings.allowance + mesh.guard
    if settings.square:
        regions = grown_square(points, mesh.triangles, mesh.twins, shadows, planes, margin)
    else:
        regions = [grown(shadow, margin) for shadow in shadows]
    return [without_holes(r) for r in regions] if settings.fill_holes else regions
