# SPDX-License-Identifier: LGPL-2.1-or-later

"""The plan as plain data for plan.json, schema 1: every key present, later rooms empty. mm, mm², mm³, degrees, kg.

Coordinates are in the stack's own frame. Polygons run counter-clockwise outside and clockwise in holes, the first point
is not repeated, arcs are sampled. Figures are rounded to 1e-6 and no further.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict
from typing import Any

import shapely
from shapely.geometry import MultiPolygon, Polygon
from shapely.geometry.polygon import orient

from freecad_stacklam.lamination.bill.rows import layer_board_feet
from freecad_stacklam.lamination.job.carvingjson import carving_json
from freecad_stacklam.lamination.plan.boards import BoardCut, BoardsPlan
from freecad_stacklam.lamination.plan.insides import HollowPlan
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Outline, polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.file import facts_of
from freecad_stacklam.lamination.settings.job import Settings

SCHEMA = 1


def _n(value: float) -> float:
    """Rounded to 1e-6, and never -0."""
    return round(float(value), 6) + 0.0


def _maybe(value: float | None) -> float | None:
    return None if value is None else _n(value)


def _numbers(values: Iterable[float]) -> list[float]:
    return [_n(v) for v in values]


def _ring(ring: Any) -> list[list[float]]:
    return [[_n(x), _n(y)] for x, y in shapely.get_coordinates(ring)[:-1]]


def _polygon(polygon: Polygon) -> dict[str, Any]:
    turned = orient(polygon)
    return {"outer": _ring(turned.exterior), "holes": [_ring(h) for h in turned.interiors]}


def _area(area: MultiPolygon) -> list[dict[str, Any]]:
    return [_polygon(p) for p in shapely.get_parts(area) if isinstance(p, Polygon) and not p.is_empty]


def _outlines(outlines: Sequence[Outline]) -> list[dict[str, Any]]:
    return [_polygon(polygon_of(o)) for o in outlines]


def _cut(cut: Cut) -> dict[str, Any]:
    made: dict[str, Any] = {
        "kind": cut.kind,
        "outline": _outlines([cut.outline]),
        "from": _n(cut.start),
        "to": _n(cut.end),
        "joint": cut.joint,
    }
    if cut.outline_end is not None:
        made["outline_end"] = _outlines([cut.outline_end])
    return made


def _layer(layer: LayerPlan) -> dict[str, Any]:
    return {
        "number": layer.number,
        "bottom": _n(layer.bottom),
        "top": _n(layer.top),
        "species": layer.species,
        "grain": _n(layer.grain),
        "blank": _outlines(layer.blank),
        "finished_bottom": _area(layer.finished_bottom),
        "finished_top": _area(layer.finished_top),
        "cuts": [_cut(c) for c in layer.cuts],
        "blank_area": _n(layer.blank_area),
        "blank_volume": _n(layer.blank_volume),
        "finished_volume": _n(layer.finished_volume),
        "board_feet": _n(layer_board_feet(layer)),
    }


def _hollow(hollow: HollowPlan) -> dict[str, Any]:
    return {
        "wall": _n(hollow.wall),
        "caps": hollow.caps,
        "volume": _n(hollow.volume),
        "least_wall": _n(hollow.least_wall),
        "voids": [
            {
                "layers": list(v.layers), "volume": _n(v.volume), "vent": _n(v.vent),
                "vent_place": None if v.vent_place is None else _numbers(v.vent_place),
            }
            for v in hollow.voids
        ],
        "glue_lines": [
            {"interface": g.interface, "whole": _n(g.whole), "left": _n(g.left)} for g in hollow.glue_lines
        ],
    }  # fmt: skip


def _stack(stack: StackPlan) -> dict[str, Any]:
    return {
        "name": stack.name,
        "copies": stack.copies,
        "frame": [float(v) + 0.0 for v in stack.frame],  # not rounded: 1e-6 in a direction is 1e-3 a metre away
        "form": {
            "volume": _n(stack.form.volume),
            "height": _n(stack.form.height),
            "mesh_triangles": stack.form.mesh_triangles,
            "notes": list(stack.form.notes),
        },
        "allowance": _n(stack.allowance),
        "guard": _n(stack.guard),
        "species": stack.species,
        "layers": [_layer(n) for n in stack.layers],
        "pins": [
            {
                "interface": p.interface,
                "centre": _numbers(p.centre),
                "diameter": _n(p.diameter),
                "depth_down": _n(p.depth_down),
                "depth_up": _n(p.depth_up),
                "least_cover": _n(p.least_cover),
                "waste": p.waste,
            }
            for p in stack.pins
        ],
        "misfit": [
            {
                "interface": m.interface,
                "distance": None if m.distance is None else _n(m.distance),
                "wanted": _n(m.wanted),
                "way": m.way,
                "layer": m.layer,
            }
            for m in stack.misfits
        ],
        "hollow": None if stack.hollow is None else _hollow(stack.hollow),
        "containment": {
            "uncovered_volume": _n(stack.containment.uncovered_volume),
            "least_cover": _n(stack.containment.least_cover),
            "at": _numbers(stack.containment.place),
            "samples": stack.containment.samples,
            "method": stack.containment.method,
        },
    }


def _joint(joint: JointPlan) -> dict[str, Any]:
    return {
        "name": joint.name,
        "section": joint.section,
        "size": _numbers(joint.size),
        "axis": {"point": _numbers(joint.point), "direction": [float(v) + 0.0 for v in joint.direction]},
        "members": [
            {
                "stack": m.stack,
                "from": _n(m.start),
                "to": _n(m.end),
                "through": m.through,
                "embed": _n(m.embed),
                "relief": _n(m.relief),
                "movement": [_maybe(m.movement_along), _maybe(m.movement_across)],
                "wedge": None if m.wedge is None else _record(m.wedge),
                "share": _n(m.share),
            }
            for m in joint.members
        ],
        "tenon": {
            "length": _n(joint.tenon.length),
            "section": joint.tenon.section,
            "size": _numbers(joint.tenon.size),
            "species": joint.tenon.species,
            "grain": "along its length",
            "volume": _n(joint.tenon.volume),
        },
        "turn": _n(joint.turn),
        "proud": _n(joint.proud),
        "swing": _n(joint.swing),
        "fit": {"clearance": _n(joint.clearance), "end_room": _n(joint.end_room)},
        "least_cover": {"distance": _n(joint.least_cover), "at": _numbers(joint.cover_place)},
        "drilling": [
            {
                "stack": b.stack,
                "layer": "assembled" if b.layer is None else b.layer,
                "diameter": _n(b.diameter),
                "depth": _n(b.depth),
                "through": b.through,
                "centre": _numbers(b.centres[0]),
                "centres": [_numbers(c) for c in b.centres],
                "left_for_chisel": _n(b.chisel),
                "side": b.side,
                "when": b.when,
            }
            for b in joint.drilling
        ],
    }


def _boards(boards: BoardsPlan | None) -> dict[str, Any]:
    if boards is None:
        boards = BoardsPlan(staves=())
    bound = {"area": boards.bound_area, "lp": boards.bound_lp}
    planned = bool(boards.plan)
    return {
        "staves": [
            {
                "id": s.id, "stack": s.stack, "layer": s.layer, "region": [_numbers(p) for p in s.region],
                "width": _n(s.width), "length": _n(s.length), "thickness": _n(s.thickness), "grain": _n(s.grain),
                "species": s.species, "copies": s.copies, "glued_edges": s.glued_edges,
            }
            for s in boards.staves
        ],
        "plan": [_board(b) for b in boards.plan],
        "kerf": _n(boards.kerf) if boards.staves else None,
        "yield": None if boards.yield_ is None else _n(boards.yield_),
        "cost": _n(boards.cost) if planned and boards.cost is not None else None,
        "objective": {"value": _n(boards.objective), "unit": boards.objective_unit} if planned else None,
        "bound": {k: None if v is None else _n(v) for k, v in bound.items()},
        "seam_conflicts": [_record(c) for c in boards.seam_conflicts],
        "short": list(boards.short),
        "notes": list(boards.notes),
    }  # fmt: skip


def _board(board: BoardCut) -> dict[str, Any]:
    return {
        "board": board.board, "width": _n(board.width), "length": _n(board.length), "thickness": _n(board.thickness),
        "species": board.species, "cost": None if board.cost is None else _n(board.cost), "on_hand": board.on_hand,
        "pieces": [_record(p) for p in board.pieces],
        "knots": [_numbers(k) for k in board.knots],
        "cuts": [_record(c) for c in board.cuts],
        "offcuts": [_numbers(o) for o in board.offcuts],
    }  # fmt: skip


def _record(record: Any) -> dict[str, Any]:
    return {k: _n(v) if isinstance(v, float) else v for k, v in asdict(record).items()}


def as_dict(plan: Plan, settings: Settings) -> dict[str, Any]:
    """The plan as dicts, lists, strings and numbers, as the README documents them."""
    return {
        "schema": SCHEMA,
        "title": plan.title,
        "units": plan.units,
        "author": plan.author or settings.author,
        "date": plan.date or settings.date,
        "notes": list(plan.notes),
        "proven": plan.proven,
        "settings": facts_of(settings),
        "stacks": [_stack(s) for s in plan.stacks],
        "joints": [_joint(j) for j in plan.joints],
        "boards": _boards(plan.boards),
        "sheets": [],
        "glue_up": [],
        "carving": carving_json(plan.carving),
        "bill": [_record(r) for r in plan.bill],
        "checks": [_record(c) for c in plan.checks],
    }  # fmt: skip


def dumps(facts: Mapping[str, Any]) -> str:
    """Strict JSON (RFC 8259): no NaN and no infinity, which raise Refusal."""
    try:
        return json.dumps(facts, allow_nan=False, ensure_ascii=False, separators=(",", ":")) + "\n"
    except ValueError:
        raise Refusal("A figure of the plan is not a number: check the form's geometry and slice it again.") from None
