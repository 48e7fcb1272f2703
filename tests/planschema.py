# SPDX-License-Identifier: LGPL-2.1-or-later

"""What plan.json must hold, as docs/help/plan-json.md documents it: for tests of whatever writes one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import isfinite
from typing import Any

import shapely

from freecad_stacklam.lamination.job.planjson import SCHEMA
from freecad_stacklam.lamination.tolerances import ROUNDING

_TOP = {
    "schema": int, "title": str, "units": str, "author": str, "date": str, "notes": list, "proven": bool,
    "settings": dict, "stacks": list, "joints": list, "boards": dict, "sheets": list, "glue_up": list, "gluing": dict,
    "carving": dict, "bill": list, "checks": list, "files": dict,
}  # fmt: skip

#: Of the finished piece: there, and null where it was not asked for.
_PIECE = {
    "weight": dict, "strength": dict, "strength_deep": dict, "stability": dict, "climate": dict, "finish": dict,
    "quote": dict, "allowance_budget": list,
}  # fmt: skip


_STACK = {
    "name": str, "copies": int, "frame": list, "form": dict, "allowance": float, "allowance_square": bool,
    "guard": float, "species": str, "layers": list, "pins": list, "misfit": list, "containment": dict,
}  # fmt: skip


_LAYER = {
    "number": int, "bottom": float, "top": float, "species": str, "grain": float, "blank": list,
    "finished_bottom": list, "finished_top": list, "cuts": list, "blank_area": float, "blank_volume": float,
    "finished_volume": float, "board_feet": float, "rough": str, "tabs": list,
}  # fmt: skip


_TAB = {"outline": list, "area": float, "direction": float, "width": float, "out": float, "seat": list}


_CUT = {"kind": str, "outline": list, "from": float, "to": float}


_JOINT = {
    "name": str, "section": str, "size": list, "axis": dict, "members": list, "tenon": dict, "fit": dict,
    "least_cover": dict, "drilling": list,
}  # fmt: skip


_CHECK = {"name": str, "verdict": str, "figure": float, "limit": float, "unit": str, "source": str, "says": str,
          "place": (list, type(None))}  # fmt: skip


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
    asked = {key: kind for key, kind in _PIECE.items() if facts.get(key, "") is not None}
    faults += _keys("plan", facts, asked)
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
        proof = {"uncovered_volume": float, "least_cover": float, "method": str, "least_wood": (dict, type(None))}
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
    for tab in layer["tabs"]:
        faults += _keys(f"{where} tab", tab, _TAB) or _rings(f"{where} tab", tab["outline"])
    for cut in layer["cuts"]:
        faults += _keys(f"{where} cut", cut, _CUT)
        if "joint" not in cut:
            faults.append(f"{where} cut: joint is missing")
        faults += _rings(f"{where} cut", cut["outline"])
    volume = layer["blank_area"] * (layer["top"] - layer["bottom"])
    if abs(volume - layer["blank_volume"]) > ROUNDING * max(1.0, volume):
        faults.append(f"{where}: blank_volume is not blank_area × thickness")
    return faults
