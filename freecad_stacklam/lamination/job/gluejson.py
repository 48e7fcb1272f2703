# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up as plain data: the rooms `glue_up` (a list of set-ups) and `gluing` (what holds for all of them) of
plan.json. mm, mm², N, MPa, kg, g of glue; minutes; places in the stack's frame."""

from __future__ import annotations

from collections import Counter
from typing import Any

from freecad_stacklam.lamination.job.jsonfacts import area, maybe, number, numbers, record_facts
from freecad_stacklam.lamination.plan.gluing import Caul, ClampPlace, Clock, GlueUpPlan, LinePressure, SetUp, WasteTab


def glue_up_json(glue_up: GlueUpPlan | None) -> list[dict[str, Any]]:
    """Every set-up in the order of the work; none where no glue-up is planned."""
    return [] if glue_up is None else [_set_up(s) for s in glue_up.set_ups]


def gluing_json(glue_up: GlueUpPlan | None) -> dict[str, Any]:
    """What holds for all set-ups; empty where no glue-up is planned."""
    if glue_up is None:
        return {}
    names = ("open", "assembly", "clamped", "cured")
    return {
        "glue": glue_up.glue_name,
        "glue_mass": number(glue_up.glue),
        "temperature": number(glue_up.temperature),
        "minutes": {name: number(time / 60) for name, time in zip(names, glue_up.times, strict=True)},
        "rounds": list(glue_up.rounds),
        "fewest_set_ups": glue_up.set_ups_proven,
        "conditions": [record_facts(c) for c in glue_up.conditions],
        "water": [
            {"stack": stack, "layer": layer, "points": number(points), "days": number(days)}
            for stack, layer, points, days in glue_up.water
        ],
        "notes": list(glue_up.notes),
    }


def _set_up(one: SetUp) -> dict[str, Any]:
    worst = min(one.pressures, key=lambda p: p.mean - p.wanted[0], default=None)
    burden = one.burden
    return {
        "stage": one.number,
        "round": one.round,
        "kind": one.kind,
        "stack": one.stack,
        "joint": one.joint or None,
        "joins": [list(part) for part in one.joins],
        "staves": list(one.staves),
        "glue_lines": list(one.lines),
        "area": number(one.area),
        "glue_mass": number(one.glue),
        "minutes": _minutes(one.clock),
        "clamps": _owned(one.places),
        "places": [_place(p) for p in one.places],
        "pressure": maybe(worst.mean if worst else None),
        "pressure_wanted": numbers(worst.wanted) if worst else None,
        "lines": [_line(p) for p in one.pressures],
        "cauls": [_caul(c) for c in one.cauls],
        "height": maybe(burden.height if burden else None),
        "mass": maybe(burden.mass if burden else None),
        "centre": numbers(burden.middle) if burden else None,
        "opening": number(one.opening),
        "limits_broken": [record_facts(b) for b in one.limits],
        "why": one.why,
        "before": list(one.before),
        "helps": list(one.helps),
        "tabs": [_tab(t) for t in one.tabs],
        "cautions": list(one.cautions),
    }


def _minutes(clock: Clock) -> dict[str, Any]:
    return {
        "contact": number(clock.to_contact / 60),
        "close": number(clock.to_pressure / 60),
        "open_time": number(clock.open_limit / 60),
        "assembly_time": number(clock.assembly_limit / 60),
        "moves": [
            {"what": m.what, "line": m.line, "start": number(m.start / 60), "takes": number(m.takes / 60)}
            for m in clock.moves
        ],
    }


def _owned(places: tuple[ClampPlace, ...]) -> list[dict[str, Any]]:
    counts = Counter((p.press, p.force) for p in places)
    return [{"kind": press, "count": count, "force": number(force)} for (press, force), count in counts.items()]


def _place(place: ClampPlace) -> dict[str, Any]:
    return {
        "clamp": place.press, "at": numbers(place.at), "force": number(place.force), "pad": number(place.pad),
        "foot": number(place.foot), "head": number(place.head),
    }  # fmt: skip


def _line(line: LinePressure) -> dict[str, Any]:
    return {
        "line": line.lower, "area": number(line.area), "mean": number(line.mean), "least": number(line.least),
        "lowest_twentieth": number(line.fifth), "reached": number(line.reached), "missed": area(line.missed),
        "wanted": numbers(line.wanted), "closes": maybe(line.closes), "crush": maybe(line.crush),
    }  # fmt: skip


def _caul(caul: Caul) -> dict[str, Any]:
    return {
        "side": caul.side, "bar": caul.bar, "outline": area(caul.outline), "length": number(caul.length),
        "width": number(caul.width), "thickness": number(caul.thickness), "crown": number(caul.crown),
    }  # fmt: skip


def _tab(tab: WasteTab) -> dict[str, Any]:
    return {
        "layer": tab.layer, "outline": area(tab.outline), "area": number(tab.area), "share": number(tab.share),
        "reached": number(tab.reached), "option": tab.option,
    }  # fmt: skip
