# SPDX-License-Identifier: LGPL-2.1-or-later

"""The revision of a plan: a short digest of its geometry, printed on every page, so that no two plans are mixed."""

from __future__ import annotations

from collections.abc import Iterable
from hashlib import sha256

import numpy as np
import shapely

from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.plan.outline import Outline
from freecad_stacklam.lamination.plan.whole import Plan


def _rounded(values: Iterable[float]) -> bytes:
    """Values to 0.001 mm: what a recomputation may move is not a revision."""
    rounded = np.round(np.asarray(list(values), dtype=float), 3) + 0.0
    return bytes(rounded.astype("<f8").tobytes())


def _outline(outline: Outline) -> bytes:
    return b"|".join(_rounded(v for p in loop.points for v in p) for loop in (outline.outer, *outline.holes))


def glue_up_digest(glue_up: GlueUpPlan) -> bytes:
    """What set-ups glue, by when and under which pads, to 1 s and 0.1 mm: SHA-256."""
    digest = sha256()
    for s in glue_up.set_ups:
        said = (s.number, s.round, s.kind, s.stack, s.joins, s.lines, s.joint, s.stacks, s.staves, s.before)
        times = (round(s.clock.open_limit), round(s.clock.assembly_limit))
        pads = [(p.press, round(p.at[0], 1) + 0.0, round(p.at[1], 1) + 0.0) for p in s.places]
        digest.update(repr((said, times, pads)).encode())
    return digest.digest()


def plan_revision(plan: Plan) -> str:
    """Eight hexadecimal digits, in two groups, of a SHA-256 over the plan: all heights, blanks, finished outlines and
    cuts, the tenons and borings, the pieces on the boards, the depth holes and the glue-up."""
    digest = sha256()
    for stack in plan.stacks:
        digest.update(stack.name.encode())
        digest.update(_rounded(stack.frame))
        for layer in stack.layers:
            digest.update(_rounded((layer.number, layer.bottom, layer.top, layer.grain)))
            for outline in layer.blank:
                digest.update(_outline(outline))
            for area in (layer.finished_bottom, layer.finished_top):
                digest.update(_rounded(shapely.get_coordinates(area).ravel()))
            for cut in layer.cuts:
                digest.update(cut.kind.encode() + _rounded((cut.start, cut.end)) + _outline(cut.outline))
    for joint in plan.joints:
        digest.update(joint.name.encode() + _rounded((joint.tenon.length, *joint.tenon.size)))
        for row in joint.drilling:
            digest.update(_rounded((row.diameter, row.depth, *(v for centre in row.centres for v in centre))))
    for board in plan.boards.plan if plan.boards else ():
        digest.update(board.board.encode())
        for piece in board.pieces:
            digest.update(piece.stave.encode() + _rounded((piece.x, piece.y, piece.length, piece.width)))
    for depth_map in plan.carving.depth_maps if plan.carving else ():
        for hole in depth_map.holes:
            digest.update(_rounded((hole.x, hole.y, hole.surface, hole.depth)))
    if plan.glue_up is not None:
        digest.update(glue_up_digest(plan.glue_up))
    mark = digest.hexdigest()
    return f"{mark[:4]}-{mark[4:8]}"
