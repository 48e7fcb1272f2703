# SPDX-License-Identifier: LGPL-2.1-or-later

"""The plan as plain data for plan.json, schema 1: every key present, later rooms empty. mm, mm², mm³, degrees, kg.

Coordinates are in the stack's own frame. Polygons run counter-clockwise outside and clockwise in holes, the first point
is not repeated, arcs are sampled. Figures are rounded to 1e-6 and no further.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict
from math import isfinite
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
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.tolerances import ROUNDING

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


_TOP = {
    "schema": int, "title": str, "units": str, "author": str, "date": str, "notes": list, "proven": bool,
    "stacks": list, "joints": list, "boards": dict, "sheets": list, "glue_up": list, "carving": dict, "bill": list,
    "checks": list,
}  # fmt: skip
_STACK = {
    "name": str, "copies": int, "frame": list, "form": dict, "allowance": float, "guard": float, "species": str,
    "layers": list, "pins": list, "misfit": list, "containment": dict,
}  # fmt: skip
_LAYER = {
    "number": int, "bottom": float, "top": float, "species": str, "grain": float, "blank": list,
    "finished_bottom": list, "finished_top": list, "cuts": list, "blank_area": float, "blank_volume": float,
    "finished_volume": float, "board_feet": float,
}  # fmt: skip
_CUT = {"kind": str, "outline": list, "from": float, "to": float}
_JOINT = {
    "name": str, "section": str, "size": list, "axis": dict, "members": list, "tenon": dict, "fit": dict,
    "least_cover": dict, "drilling": list,
}  # fmt: skip
_CHECK = {"name": str, "verdict": str, "figure": float, "limit": float, "unit": str, "source": str, "says": str}


def _keys(where: str, facts: Mapping[str, Any], wanted: Mapping[str, type]) -> list[str]:
    faults = []
    for key, kind in wanted.items():
        if key not in facts:
            faults.append(f"{where}: {key} is missing")
        elif kind is float:
            value = facts[key]
            if isinstance(value, bool) or not isinstance(value, (int, float)) or not isfinite(value):
                faults.append(f"{where}: {key} is no number")
        elif not isinstance(facts[key], kind) or (kind is int and isinstance(facts[key], bool)):
            faults.append(f"{where}: {key} is no {kind.__name__}")
    return faults


def _rings(where: str, polygons: Sequence[Mapping[str, Any]]) -> list[str]:
    faults = []
    for polygon in polygons:
        for sign, rings in ((1, [polygon["outer"]]), (-1, polygon["holes"])):
            for ring in rings:
                if len(ring) < 3 or ring[0] == ring[-1]:
                    faults.append(f"{where}: a loop is too short or repeats its first point")
                elif shapely.LinearRing(ring).is_ccw != (sign > 0):
                    faults.append(f"{where}: a loop runs the wrong way round")
    return faults


def check_schema(facts: Mapping[str, Any]) -> list[str]:
    """What is wrong with a plan.json as read back; empty when nothing is."""
    faults = _keys("plan", facts, _TOP)
    if faults:
        return faults
    if facts["schema"] != SCHEMA:
        faults.append(f"plan: schema is {facts['schema']}, not {SCHEMA}")
    for stack in facts["stacks"]:
        where = f"stack {stack.get('name')}"
        missing = _keys(where, stack, _STACK)
        faults += missing
        if missing:
            continue
        if len(stack["frame"]) != 16:
            faults.append(f"{where}: frame has {len(stack['frame'])} numbers, not 16")
        faults += _keys(f"{where} form", stack["form"], {"volume": float, "height": float, "mesh_triangles": int})
        proof = {"uncovered_volume": float, "least_cover": float, "method": str}
        faults += _keys(f"{where} containment", stack["containment"], proof)
        for layer in stack["layers"]:
            faults += _layer_faults(f"{where} layer {layer.get('number')}", layer)
    for joint in facts["joints"]:
        faults += _keys(f"joint {joint.get('name')}", joint, _JOINT)
    for check in facts["checks"]:
        faults += _keys(f"check {check.get('name')}", check, _CHECK)
        if check.get("verdict") not in ("ok", "caution", "stop"):
            faults.append(f"check {check.get('name')}: verdict {check.get('verdict')}")
    for room, keys in (("boards", ("staves", "plan", "kerf", "yield", "cost", "bound", "seam_conflicts", "short")),
                       ("carving", ("depth_holes", "stops", "templates", "offsets", "removed_volume"))):  # fmt: skip
        faults += [f"{room}: {key} is missing" for key in keys if key not in facts[room]]
    return faults


def _layer_faults(where: str, layer: Mapping[str, Any]) -> list[str]:
    faults = _keys(where, layer, _LAYER)
    if faults:
        return faults
    for key in ("blank", "finished_bottom", "finished_top"):
        faults += _rings(f"{where} {key}", layer[key])
    for cut in layer["cuts"]:
        faults += _keys(f"{where} cut", cut, _CUT)
        if "joint" not in cut:
            faults.append(f"{where} cut: joint is missing")
        faults += _rings(f"{where} cut", cut["outline"])
    volume = layer["blank_area"] * (layer["top"] - layer["bottom"])
    if abs(volume - layer["blank_volume"]) > ROUNDING * max(1.0, volume):
        faults.append(f"{where}: blank_volume is not blank_area × thickness")
    return faults
