# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a cut through the piece is made of: layers with their grain, holes, and tenons.

The transformed section: every material counts with n = its stiffness square to the cut over that of the first layer. A
tenon that is glued all round bends with the layers; one that stands dry does not, and leaves its mortise as a hole: it
carries by bearing, which the joint's own check tells.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import acos, degrees

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.plan.areas import cut_plan
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import Cut
from freecad_stacklam.lamination.plan.outline import circle, polygon_of, rectangle
from freecad_stacklam.lamination.strength.along import Body
from freecad_stacklam.lamination.strength.planes import ENDLESS, Plane, Prism, on_plane
from freecad_stacklam.lamination.strength.sections import Section, section_of
from freecad_stacklam.lamination.strength.timber import Grade, Timber, grade_at, grain_angle, stiffness_at
from freecad_stacklam.lamination.tolerances import NO_AREA

Floats = NDArray[np.float64]

#: The three ways a cut is taken: with the tenon glued in, with the mortise empty, and as if there were no joint.
GLUED, DRY, WHOLE = "glued", "dry", "whole"
#: Layers are cut out of a plane by slabs of this plan.
_EVERYWHERE = shapely.box(-ENDLESS, -ENDLESS, ENDLESS, ENDLESS)


@dataclass(frozen=True)
class Material:
    """What one part of a cut is: of which stack and layer (0: a tenon), of which wood, and how strong square to it."""

    stack: str
    layer: int
    species: str
    grade: Grade
    tenon: bool = False


@dataclass(frozen=True, eq=False)
class Composite:
    """A cut's section, and what each of its parts is."""

    section: Section
    materials: tuple[Material, ...]
    tenon: bool  # whether a tenon is part of it


@dataclass(frozen=True, eq=False)
class Piece:
    """The whole piece as it is cut: its stacks in their order, joints, and woods by name."""

    bodies: tuple[Body, ...]
    joints: tuple[JointPlan, ...]
    timbers: Mapping[str, Timber]


def tenon_prism(joint: JointPlan) -> Prism:
    """The tenon in its joint's own frame."""
    axis = joint.axis
    frame = np.eye(4)
    frame[:3, :3] = np.stack([axis.side, axis.other, axis.along], axis=1)
    frame[:3, 3] = axis.point
    size = joint.tenon.size
    outline = circle(size[0]) if joint.tenon.section == "round" else rectangle(size[0], size[-1])
    return Prism(frame, polygon_of(outline), joint.start, joint.end)


@dataclass(frozen=True, eq=False)
class Holes:
    """What is cut out of one stack on a plane: by pins and voids, and by mortises."""

    inner: shapely.Geometry
    mortises: shapely.Geometry


@lru_cache(maxsize=512)
def _ball_of(cut: Cut) -> tuple[shapely.Polygon, Floats, float]:
    """A cut's plan, and a ball in the stack's frame that holds all of it: a plane outside it meets none of the cut."""
    plan = cut_plan(cut)
    middle, radius = np.array(plan.centroid.coords[0]), 0.0
    radius = float(np.hypot(*(shapely.get_coordinates(plan) - middle).T).max())
    half = (cut.highest - cut.lowest) / 2
    return plan, np.array([*middle, cut.lowest + half]), float(np.hypot(radius, half))


def holes_on(body: Body, plane: Plane) -> Holes:
    """All cuts of a stack, as the plane meets them."""
    frame = np.asarray(body.stack.frame).reshape(4, 4)
    normal = frame[:3, :3].T @ plane.normal
    away = float(plane.normal @ (plane.origin - frame[:3, 3]))
    inner: list[shapely.Geometry] = []
    mortises: list[shapely.Geometry] = []
    for layer in body.stack.layers:
        for cut in layer.cuts:
            plan, middle, radius = _ball_of(cut)
            if abs(float(normal @ middle) - away) > radius:
                continue
            hole = on_plane(Prism(frame, plan, cut.lowest, cut.highest), plane)
            if not hole.is_empty:
                (mortises if cut.kind == "mortise" else inner).append(hole)
    return Holes(*(shapely.union_all(of) if of else shapely.Polygon() for of in (inner, mortises)))


def composite_of(
    piece: Piece, areas: Sequence[tuple[int, shapely.Geometry]], plane: Plane, rings: str, way: str,
    holes: Mapping[int, Holes],
) -> Composite | None:  # fmt: skip
    """What the plane cuts: (number of the stack, its area on the plane) pairs made into parts.

    rings: one of RINGS; way: GLUED, DRY or WHOLE; holes: on the plane, of every stack that it cuts. None where nothing
    is cut, or a wood is not known well enough to be judged.
    """
    parts: list[tuple[shapely.Geometry, float]] = []
    materials: list[Material] = []
    base = 0.0
    known = all(t.elastic is not None for t in piece.timbers.values())
    tenons = _tenons(piece, plane) if way == GLUED else []
    inner = [shape for shape, *_ in tenons]
    for number, area in areas:
        body = piece.bodies[number]
        out = [holes[number].inner, *([] if way == WHOLE else [holes[number].mortises]), *inner]
        out = [one for one in out if not one.is_empty]
        wood = shapely.difference(area, shapely.union_all(out)) if out else area
        turn = np.asarray(body.stack.frame).reshape(4, 4)
        normal = turn[:3, :3].T @ plane.normal
        for layer_number, species, grain, slab in _slabs(body, plane):
            here = wood if slab is None else shapely.intersection(wood, slab)
            if here.is_empty or here.area <= NO_AREA:
                continue
            timber = piece.timbers.get(species)
            if timber is None or not timber.judged:
                return None
            stiff = 1.0 if timber.elastic is None or not known else stiffness_at(timber.elastic, normal, grain, rings)
            base = base or stiff
            parts.append((here, stiff / base))
            materials.append(
                Material(body.stack.name, layer_number, species, grade_at(timber, grain_angle(normal, grain)))
            )
        for shape, stiff, grade, species in tenons:
            here = shapely.intersection(shape, area)
            if here.area > NO_AREA and base:
                parts.append((here, stiff / base))
                materials.append(Material(body.stack.name, 0, species, grade, tenon=True))
    kept = [i for i, (shape, _) in enumerate(parts) if shape.area > NO_AREA]
    section = section_of([parts[i] for i in kept])
    if section is None:
        return None
    return Composite(section, tuple(materials[i] for i in kept), any(materials[i].tenon for i in kept))


def _tenons(piece: Piece, plane: Plane) -> list[tuple[shapely.Geometry, float, Grade, str]]:
    """Tenons whose grain rather passes the plane than lies in it; one that lies in it adds nothing, and its mortise
    stays a hole. A tenon is of no use to a section where the stiffness of its wood, or of the layers', is not known."""
    found = []
    if any(t.elastic is None for t in piece.timbers.values()):
        return []
    for joint in piece.joints:
        timber = piece.timbers.get(joint.tenon.species)
        if timber is None or not timber.judged or timber.elastic is None:
            continue
        slope = abs(float(joint.axis.along @ plane.normal))
        if slope < 0.5:
            continue
        shape = on_plane(tenon_prism(joint), plane)
        if shape.is_empty:
            continue
        e = timber.elastic
        stiff = 1.0 / (slope**2 / e.along + (1 - slope**2) / min(e.radial, e.tangential))
        found.append((shape, stiff, grade_at(timber, degrees(acos(min(1.0, slope)))), timber.name))
    return found


def _slabs(body: Body, plane: Plane) -> list[tuple[int, str, float, shapely.Geometry | None]]:
    """Number, species, grain and region on the plane (None: all of it) of the layers that the plane meets."""
    frame = np.asarray(body.stack.frame).reshape(4, 4)
    found: list[tuple[int, str, float, shapely.Geometry | None]] = []
    layers = body.stack.layers
    alike = len({(layer.species, layer.grain) for layer in layers}) == 1
    square = abs(float(frame[:3, 2] @ plane.normal)) > 1 - NO_AREA
    if square:
        height = float((plane.origin - frame[:3, 3]) @ frame[:3, 2])
        layer = min(layers, key=lambda one: max(one.bottom - height, height - one.top))
        return [(layer.number, layer.species, layer.grain, None)]
    if alike:
        return [(0, layers[0].species, layers[0].grain, None)]
    for layer in layers:
        slab = on_plane(Prism(frame, _EVERYWHERE, layer.bottom, layer.top), plane)
        if not slab.is_empty:
            found.append((layer.number, layer.species, layer.grain, slab))
    return found
