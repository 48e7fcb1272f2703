# SPDX-License-Identifier: LGPL-2.1-or-later

"""The plan as plain data for plan.json, schema 1: every key present, later rooms empty. mm, mm², mm³, degrees, kg.

Coordinates are in the stack's own frame. Polygons run counter-clockwise outside and clockwise in holes, the first point
is not repeated, arcs are sampled. Figures are rounded to 1e-6 and no further.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from freecad_stacklam.lamination.bill.rows import layer_board_feet
from freecad_stacklam.lamination.job.boardsjson import boards_json
from freecad_stacklam.lamination.job.carvingjson import carving_json
from freecad_stacklam.lamination.job.gluejson import glue_up_json, gluing_json
from freecad_stacklam.lamination.job.jsonfacts import area, check_facts, maybe, number, numbers, outlines, record_facts
from freecad_stacklam.lamination.job.piecejson import piece_json
from freecad_stacklam.lamination.plan.insides import HollowPlan, pin_patterns
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import Containment, Cut, LayerPlan, StackPlan, Tab
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.file import facts_of
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.wood.tally import rough_size
from freecad_stacklam.lamination.words import say

SCHEMA = 1


def _cut(cut: Cut) -> dict[str, Any]:
    made: dict[str, Any] = {
        "kind": cut.kind,
        "outline": outlines([cut.outline]),
        "from": number(cut.start),
        "to": number(cut.end),
        "joint": cut.joint,
    }
    if cut.outline_end is not None:
        made["outline_end"] = outlines([cut.outline_end])
    return made


def _tab(tab: Tab) -> dict[str, Any]:
    return {
        "outline": area(tab.area), "area": number(tab.area.area), "direction": number(tab.direction),
        "width": number(tab.width), "out": number(tab.out), "seat": numbers(tab.seat),
    }  # fmt: skip


def _layer(layer: LayerPlan, planing: float) -> dict[str, Any]:
    return {
        "number": layer.number,
        "bottom": number(layer.bottom),
        "top": number(layer.top),
        "species": layer.species,
        "grain": number(layer.grain),
        "blank": outlines(layer.blank),
        "tabs": [_tab(tab) for tab in layer.tabs],
        "finished_bottom": area(layer.finished_bottom),
        "finished_top": area(layer.finished_top),
        "cuts": [_cut(c) for c in layer.cuts],
        "blank_area": number(layer.blank_area),
        "blank_volume": number(layer.blank_volume),
        "finished_volume": number(layer.finished_volume),
        "board_feet": number(layer_board_feet(layer, planing)),
        "rough": rough_size(layer.thickness, planing).name,
    }


def _hollow(hollow: HollowPlan) -> dict[str, Any]:
    return {
        "wall": number(hollow.wall),
        "caps": hollow.caps,
        "volume": number(hollow.volume),
        "least_wall": number(hollow.least_wall),
        "voids": [
            {
                "layers": list(v.layers), "volume": number(v.volume), "vent": number(v.vent),
                "vent_place": None if v.vent_place is None else numbers(v.vent_place),
            }
            for v in hollow.voids
        ],
        "glue_lines": [
            {"interface": g.interface, "whole": number(g.whole), "left": number(g.left)} for g in hollow.glue_lines
        ],
        "ways_in": [
            {
                "layer": w.layer, "kind": w.kind, "start": numbers(w.start), "end": numbers(w.end),
                "bit": number(w.bit), "around": number(w.around),
            }
            for w in hollow.ways_in
        ],
    }  # fmt: skip


def _stack(stack: StackPlan, planing: float) -> dict[str, Any]:
    return {
        "name": stack.name,
        "copies": stack.copies,
        "frame": [float(v) + 0.0 for v in stack.frame],  # not rounded: 1e-6 in a direction is 1e-3 a metre away
        "form": {
            "volume": number(stack.form.volume),
            "height": number(stack.form.height),
            "mesh_triangles": stack.form.mesh_triangles,
            "notes": list(stack.form.notes),
        },
        "allowance": number(stack.allowance),
        "allowance_square": stack.square,
        "guard": number(stack.guard),
        "species": stack.species,
        "movement": None
        if stack.movement is None
        else {
            "height": {"flat": number(stack.movement.flat), "quarter": number(stack.movement.quarter)},
            "swing": number(stack.movement.swing),
            "cut": stack.movement.cut,
        },
        "layers": [_layer(n, planing) for n in stack.layers],
        "pins": [
            {
                "interface": p.interface,
                "centre": numbers(p.centre),
                "diameter": number(p.diameter),
                "hole_below": number(2 * p.radius_below),
                "hole_above": number(2 * p.radius_above),
                "dowel": number(p.dowel),
                "bit": p.bit,
                "point": number(p.point),
                "by_hand": p.by_hand,
                "underside": p.underside,
                "depth_down": number(p.depth_down),
                "depth_up": number(p.depth_up),
                "least_cover": number(p.least_cover),
                "waste": p.waste,
            }
            for p in stack.pins
        ],
        "pin_patterns": [
            {"interfaces": list(n.interfaces), "centres": [numbers(c) for c in n.centres]}
            for n in pin_patterns(stack.pins)
        ],
        "misfit": [
            {
                "interface": m.interface,
                "distance": None if m.distance is None else number(m.distance),
                "wanted": number(m.wanted),
                "way": m.way,
                "layer": m.layer,
            }
            for m in stack.misfits
        ],
        "hollow": None if stack.hollow is None else _hollow(stack.hollow),
        "containment": _containment(stack.containment),
    }


def _containment(proof: Containment) -> dict[str, Any]:
    least, square = proof.least_wood, proof.square
    return {
        "uncovered_volume": number(proof.uncovered_volume),
        "least_cover": number(proof.least_cover),
        "at": numbers(proof.place),
        "samples": proof.samples,
        "method": proof.method,
        "least_wood": None
        if least is None
        else {
            "distance": number(least.distance),
            "at": numbers(least.place),
            "kind": least.kind,
            "layer": least.layer,
            "asked": number(least.asked),
        },
        "square": None if square is None else record_facts(square),
    }


def _joint(joint: JointPlan) -> dict[str, Any]:
    return {
        "name": joint.name,
        "section": joint.section,
        "size": numbers(joint.size),
        "axis": {"point": numbers(joint.point), "direction": [float(v) + 0.0 for v in joint.direction]},
        "members": [
            {
                "stack": m.stack,
                "from": number(m.start),
                "to": number(m.end),
                "through": m.through,
                "embed": number(m.embed),
                "relief": number(m.relief),
                "movement": [maybe(m.movement_along), maybe(m.movement_across)],
                "wedge": None if m.wedge is None else record_facts(m.wedge),
                "share": number(m.share),
            }
            for m in joint.members
        ],
        "tenon": {
            "length": number(joint.tenon.length),
            "section": joint.tenon.section,
            "size": numbers(joint.tenon.size),
            "species": joint.tenon.species,
            "grain": "along its length",
            "volume": number(joint.tenon.volume),
        },
        "turn": number(joint.turn),
        "proud": number(joint.proud),
        "swing": number(joint.swing),
        "fit": {"clearance": number(joint.clearance), "end_room": number(joint.end_room)},
        "least_cover": {"distance": number(joint.least_cover), "at": numbers(joint.cover_place)},
        "drilling": [
            {
                "stack": b.stack,
                "layer": "assembled" if b.layer is None else b.layer,
                "diameter": number(b.diameter),
                "bit": b.kind,
                "depth": number(b.depth),
                "tip": None if b.through else number(b.tip),
                "through": b.through,
                "centre": numbers(b.centres[0]),
                "centres": [numbers(c) for c in b.centres],
                "left_for_chisel": number(b.chisel),
                "side": b.side,
                "when": b.when,
            }
            for b in joint.drilling
        ],
    }


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
        "stacks": [_stack(s, settings.shop.least_planing) for s in plan.stacks],
        "joints": [_joint(j) for j in plan.joints],
        "boards": boards_json(plan.boards),
        "sheets": [],
        "glue_up": glue_up_json(plan.glue_up),
        "gluing": gluing_json(plan.glue_up),
        "carving": carving_json(plan.carving),
        **piece_json(plan.piece),
        "bill": [record_facts(r) for r in plan.bill],
        "checks": [check_facts(c) for c in plan.checks],
        "files": {},
    }  # fmt: skip


def dumps(facts: Mapping[str, Any]) -> str:
    """Strict JSON (RFC 8259): no NaN and no infinity, which raise Refusal."""
    try:
        return json.dumps(facts, allow_nan=False, ensure_ascii=False, separators=(",", ":")) + "\n"
    except ValueError:
        raise Refusal(
            say("A figure of the plan is not a number: check the form's geometry and slice it again.")
        ) from None
