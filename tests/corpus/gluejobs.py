# SPDX-License-Identifier: LGPL-2.1-or-later

"""Glue-ups by seed: piles that no maker would make and shops that nobody has. mm, N.

Blanks are plates of any outline: blocks, discs, rings, islands, slivers, points that touch, layers beside each other;
with pins, voids and mortises; of woods that are known and unknown. `judged` says what a plan of one must keep.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from math import hypot, isfinite

import numpy as np
import shapely
from blocks import joint_of
from piles import plate
from shapely import MultiPolygon, Point, Polygon, affinity

from freecad_stacklam.data import glue_table, species_table
from freecad_stacklam.lamination.gluing.glueup import plan_glue_up
from freecad_stacklam.lamination.job.gluecheck import glue_checks
from freecad_stacklam.lamination.job.gluejson import glue_up_json, gluing_json
from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.plan.gluing import LAYERS, GlueUpPlan, SetUp
from freecad_stacklam.lamination.plan.layers import Containment, Cut, FormFigures, StackPlan
from freecad_stacklam.lamination.plan.outline import Outline, area_polygon, circle, rectangle, straight
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.presses import PRESS_KINDS, PressSettings

Dice = np.random.Generator
WOODS = ("white oak", "basswood", "hickory", "balsam fir", "not a wood", "")
_MM = re.compile(r"\d\s?mm\b|\bMPa\b|\bkN\b|\bmm²")
_INCH = re.compile(r"\d\s?in\b|\bpsi\b|\blbf\b")


def shape(dice: Dice, size: float) -> MultiPolygon:
    """A blank of about a size."""
    kind = int(dice.integers(0, 11))
    half = size / 2
    box = shapely.box(-half, -half * dice.uniform(0.05, 1), half, half * dice.uniform(0.05, 1))
    disc = Point(0, 0).buffer(half, 12)
    if kind <= 1:
        made = box
    elif kind == 2:
        made = disc
    elif kind == 3:
        made = disc.difference(Point(0, 0).buffer(half * dice.uniform(0.3, 0.97), 12))
    elif kind == 4:  # islands
        places = dice.uniform(-half, half, (4, 2))
        made = shapely.union_all([Point(at).buffer(size * dice.uniform(0.03, 0.3), 6) for at in places])
    elif kind == 5:  # a sliver
        made = shapely.box(-half, 0, half, float(dice.choice([0.2, 1.0, 4.0])))
    elif kind == 6:  # comb
        teeth = [-half + i * size / 6 for i in range(6)]
        back = shapely.box(-half, -half, half, -half + size / 9)
        made = shapely.union_all([back, *(shapely.box(x, -half, x + size / 20, half) for x in teeth)])
    elif kind == 7:  # far off
        made = affinity.translate(box, float(dice.choice([0.9, 1.0, 3.0])) * size)
    elif kind == 8:  # a triangle
        made = Polygon(dice.uniform(-half, half, (3, 2)))
    elif kind == 9:  # spike
        turns = np.linspace(0, 2 * np.pi, 24, endpoint=False)
        r = half * np.where(np.arange(24) % 2, 1.0, dice.uniform(0.1, 0.9))
        made = Polygon(np.column_stack([r * np.cos(turns), r * np.sin(turns)]))
    else:
        made = affinity.rotate(box, float(dice.uniform(0, 180)))
    made = areas_of(made.buffer(0))
    return made if made.area > 0.05 else areas_of(shapely.box(-half, -half, half, half))


def outlines(area: MultiPolygon) -> list[Outline]:
    """Its islands."""
    return [straight(p) for p in area.geoms]


def stack(dice: Dice, name: str, layers: int | None = None) -> StackPlan:
    """A stack of a few layers, or of very many."""
    count = layers or int(dice.choice([1, 2, 2, 3, 4, 5, 6, 8, 12]))
    size = float(dice.choice([30.0, 120.0, 350.0, 1200.0]))
    steady = dice.random() < 0.8
    first = shape(dice, size)
    bottom, made = 0.0, []
    mixed = dice.random() < 0.4
    wood = str(dice.choice(WOODS))
    thick = float(dice.choice([1.0, 6.0, 27.0, 45.0, 100.0]))
    for number in range(1, count + 1):
        if not steady:
            area = shape(dice, size)
        else:
            f = float(dice.uniform(0.5, 1.2))
            area = affinity.scale(first, f, f, origin=(0, 0)) if dice.random() < 0.6 else first
        t = thick if dice.random() < 0.7 else float(dice.uniform(0.5, 120))
        layer = plate(number, bottom, t, outlines(area), species=str(dice.choice(WOODS)) if mixed else wood)
        layer = replace(layer, grain=float(dice.uniform(0, 180)), blank_area=area.area)
        made.append(replace(layer, cuts=_cuts(dice, layer, size)))
        bottom += t
    frame = tuple(float(i % 5 == 0) for i in range(16))
    return StackPlan(
        name, frame, FormFigures(0.0, bottom, 0), 3.0, 0.2, wood, tuple(made), Containment(0, 0, (0, 0, 0), 0, ""),
        copies=int(dice.integers(1, 4)),
    )  # fmt: skip


def _cuts(dice: Dice, layer, size: float) -> tuple[Cut, ...]:  # type: ignore[no-untyped-def]
    found = []
    low, high, middle = layer.bottom, layer.top, (layer.bottom + layer.top) / 2
    if dice.random() < 0.25:
        start, end = [(low, high), (low, middle), (middle, high)][int(dice.integers(0, 3))]
        found.append(Cut("mortise", rectangle(size / 8, size / 6), start, end, "the joint"))
    if dice.random() < 0.2:
        found.append(Cut("hollow", circle(size * float(dice.uniform(0.1, 1.2))), low, high))
    if dice.random() < 0.25:
        for _ in range(2):
            at = tuple(map(float, dice.uniform(-size / 3, size / 3, 2)))
            found.append(Cut("pin", circle(8.0, at), middle, high))
    return tuple(found)


def press(dice: Dice, name: str) -> PressSettings:
    """Something to press with: usual, or at the bounds of its options."""
    odd = dice.random() < 0.4
    kind = str(dice.choice(PRESS_KINDS)) if dice.random() < 0.5 else "clamp"
    return PressSettings(
        name=name,
        kind=kind,
        count=int(dice.choice([1, 999, 300])) if odd else int(dice.integers(1, 30)),
        force=float(dice.choice([1.0, 1e6, 50.0])) if odd else float(dice.uniform(500, 9000)),
        opening=[None, 0.02, 1.0, 60.0, 300.0, 1200.0, 1e5][int(dice.integers(0, 7))],
        throat=[None, None, 1.0, 60.0, 250.0, 1e5][int(dice.integers(0, 6))],
        pad=float(dice.choice([5.0, 1000.0, 300.0])) if odd else float(dice.uniform(15, 80)),
        air=float(dice.choice([0.001, 0.085, 0.1])),
    )


def glue(dice: Dice) -> GlueSettings | None:
    """A glue of the table, some of it changed."""
    if dice.random() < 0.2:
        return None
    made = GlueSettings(kind=str(dice.choice(list(glue_table()))))
    if dice.random() < 0.3:
        made = replace(made, open_time=1.0, assembly_time=float(dice.choice([1.0, 86400.0])))
    if dice.random() < 0.3:
        low = float(dice.choice([0.0, 0.5, 20.0]))
        high = float(dice.choice([max(low, 0.01), 20.0]))
        made = replace(made, least_pressure=low, most_pressure=high)
    if dice.random() < 0.2:
        made = replace(made, water=float(dice.choice([0.0, 1.0])), gap=float(dice.choice([0.0, 20.0])), spread=2000.0,
                       faces=2, loss=1.0, clamp_time=1.0, cure_time=2_592_000.0, least_temperature=120.0)  # fmt: skip
    return made


def room(dice: Dice) -> GluingRoom | None:
    """A room, with hands that are slow or quick."""
    if dice.random() < 0.2:
        return None
    odd = dice.random() < 0.3
    return GluingRoom(
        temperature=float(dice.choice([-20.0, 0.0, 10.0, 20.0, 35.0, 60.0])),
        humidity=[None, 1.0, 45.0, 99.0][int(dice.integers(0, 4))],
        helpers=int(dice.choice([0, 1, 9])),
        lift=[None, 1.0, 500.0][int(dice.integers(0, 3))],
        start=600.0 if odd else 10.0,
        spread=float(dice.choice([1.0, 10_000.0])) if odd else 400.0,
        place=float(dice.choice([0.0, 3600.0])) if odd else 30.0,
        clamp=float(dice.choice([1.0, 600.0])) if odd else 20.0,
        caul_thickness=float(dice.choice([0.0, 18.0, 36.0, 200.0])),
        reface=[None, 1.0, 300.0][int(dice.integers(0, 3))],
        planed=[None, 0.0, 2_592_000.0][int(dice.integers(0, 3))],
    )


def job(seed: int) -> tuple[Plan, Settings]:
    """A plan and its settings."""
    dice = np.random.default_rng([seed, 11])
    names = ["Seat & <base>", "Leg", "Top"][: int(dice.choice([1, 1, 1, 2, 3]))]
    stacks = [stack(dice, name) for name in names]
    for i in range(1, len(stacks)):
        at = sum(s.layers[-1].top for s in stacks[:i])
        frame = list(stacks[i].frame)
        frame[11] = at
        stacks[i] = replace(stacks[i], frame=tuple(frame))
    joints = ()
    if len(stacks) > 1 and dice.random() < 0.7:
        joints = tuple(joint_of(a, b, height=b.frame[11]) for a, b in zip(stacks, stacks[1:]))
    presses = tuple(press(dice, f"press {i}") for i in range(int(dice.choice([1, 1, 2, 3, 5]))))
    units = str(dice.choice(["mm", "in"]))
    plan = Plan("Glue & <up>", units, tuple(stacks), joints)
    return plan, Settings(units=units, presses=presses, glue=glue(dice), room=room(dice))


# --- what a plan must keep --------------------------------------------------------------------------------------------


def judged(plan: Plan, settings: Settings, made: GlueUpPlan) -> list[str]:
    """What is wrong with a glue-up; nothing where it is right."""
    return [*_lines(plan, made), *_rounds(settings, made), *_figures(plan, made), *_sentences(plan, made),
            *(fault for s in made.set_ups if s.kind == LAYERS for fault in _pads(plan, s, settings))]  # fmt: skip


def _lines(plan: Plan, made: GlueUpPlan) -> Iterator[str]:
    left = [one.what for one in made.left_out]
    for stack in plan.stacks:
        found = sorted(k for s in made.set_ups if s.stack == stack.name and s.kind == LAYERS for k in s.lines)
        whole = [layer.number for layer in stack.layers[:-1]]
        if any(stack.name in what for what in left):
            if found:
                yield f"{stack.name} is left out and glued"
        elif found != whole:
            yield f"{stack.name}: lines {found} in place of {whole}"
    for joint in plan.joints:
        if sum(s.joint == joint.name for s in made.set_ups) != 1 and not any(joint.name in what for what in left):
            yield f"{joint.name} is not glued once"
    for one in made.set_ups:
        if one.kind != LAYERS:
            continue
        ends = [end for _, end in one.joins[:-1]]
        if ends != list(one.lines) or one.joins[0][0] != one.first or one.joins[-1][1] != one.last:
            yield f"set-up {one.number}: joins {one.joins} and lines {one.lines}"
        for part in one.joins:
            if part[1] > part[0] and not any(
                (s.stack, s.first, s.last) == (one.stack, *part) and s.round < one.round for s in made.set_ups
            ):
                yield f"set-up {one.number}: part {part} is not there yet"


def _rounds(settings: Settings, made: GlueUpPlan) -> Iterator[str]:
    owned = Counter()
    for p in settings.presses:
        owned[p.name] += p.count
    for number in {s.round for s in made.set_ups}:
        used = Counter(p.press for s in made.set_ups if s.round == number for p in s.places)
        for name, count in used.items():
            if count > owned[name]:
                yield f"round {number}: {count} of {owned[name]} “{name}”"
    if [s.number for s in made.set_ups] != list(range(1, len(made.set_ups) + 1)):
        yield "set-ups are not numbered in their order"
    rounds = {s.round for s in made.set_ups}
    if rounds and rounds != set(range(1, max(rounds) + 1)):
        yield f"empty rounds: {sorted(rounds)}"
    if not 0 <= made.rounds[0] <= made.rounds[1]:
        yield f"rounds {made.rounds}"


def _pads(plan: Plan, one: SetUp, settings: Settings) -> Iterator[str]:
    stack = next(s for s in plan.stacks if s.name == one.stack)
    layers = {layer.number: layer for layer in stack.layers}
    presses = {p.name: p for p in settings.presses}
    run = [layers[n] for n in range(one.first, one.last + 1)]
    pads = [p for p in one.places if presses[p.press].kind not in ("vacuum",)]
    for a, b in combinations(pads, 2):
        if hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]) < (a.pad + b.pad) / 2 - 1e-6:
            yield f"set-up {one.number}: two pads overlap: {a} {b}"
    whole = [c for c in one.cauls if not c.bar]
    for p in pads:
        disc = Point(p.at).buffer(p.pad / 2 * 0.999, 16)
        kind = presses[p.press].kind
        opening = presses[p.press].opening
        if opening is not None and kind not in ("weight", "go-bar") and p.head - p.foot > opening + 1e-6:
            yield f"set-up {one.number}: “{p.press}” opens {opening}, and spans {p.head - p.foot}"
        if kind == "rod" or one.cauls:
            continue
        top = next((layer for layer in run if abs(layer.top - p.head) < 1e-6), None)
        bottom = next((layer for layer in run if abs(layer.bottom - p.foot) < 1e-6), None)
        if top is None or bottom is None:
            yield f"set-up {one.number}: a pad on no face: {p}"
            continue
        ends = [(top, [c for c in top.cuts if c.kind != "pin" and c.opens_top(top)])]
        if kind == "clamp":
            ends.append((bottom, [c for c in bottom.cuts if c.kind != "pin" and c.opens_bottom(bottom)]))
        for layer, cuts in ends:
            wood = area_polygon(layer.blank).difference(shapely.union_all([area_polygon([c.outline]) for c in cuts]))
            if disc.difference(wood).area > 0.02 * disc.area:
                yield f"set-up {one.number}: a pad beside layer {layer.number}: {p}"
    if whole and len(whole) != 2:
        yield f"set-up {one.number}: one caul"
    for line in one.pressures:
        height = layers[line.lower].top
        force = sum(p.force for p in one.places if p.foot <= height <= p.head and presses[p.press].kind != "vacuum")
        bags = any(presses[p.press].kind == "vacuum" for p in one.places)
        if bags:
            continue
        if line.mean * line.area > force * 1.01 + 1e-6:
            yield f"set-up {one.number}, line {line.lower}: {line.mean * line.area} N of {force} N"
        if (
            len(line_islands(stack, line.lower)) == 1
            and force > 0
            and abs(line.mean * line.area - force) > 0.01 * force
        ):
            yield f"set-up {one.number}, line {line.lower}, one island: {line.mean * line.area} N of {force} N"
    if [p.lower for p in one.pressures] != list(one.lines):
        yield f"set-up {one.number}: pressures of {[p.lower for p in one.pressures]} in place of {one.lines}"


def line_islands(stack: StackPlan, lower: int) -> list[Polygon]:
    """Islands of the blanks that meet, and of those beside: one where the force has one way."""
    found = [area_polygon(layer.blank).geoms for layer in stack.layers]
    return max(([*islands] for islands in found), key=len)


def _figures(plan: Plan, made: GlueUpPlan) -> Iterator[str]:
    try:
        json.dumps([glue_up_json(made), gluing_json(made)], allow_nan=False)
        for one in made.set_ups:
            figures = [one.glue, one.area, one.opening, one.clock.to_contact, one.clock.to_pressure,
                       one.clock.open_limit, one.clock.assembly_limit]  # fmt: skip
            figures += [v for m in one.clock.moves for v in (m.start, m.takes)]
            figures += [v for p in one.pressures for v in (p.mean, p.least, p.fifth, p.reached, p.area)]
            figures += [v for b in one.limits for v in (b.needed, b.there)]
            if not all(isfinite(v) and v >= -1e-6 for v in figures):
                yield f"set-up {one.number}: figures {figures}"
            for p in one.pressures:
                if not 0 <= p.reached <= 1 + 1e-9 or p.least > p.mean * 1.001 + 1e-9 or p.fifth < p.least - 1e-9:
                    yield f"set-up {one.number}: {p.lower}: mean {p.mean}, least {p.least}, {p.fifth}, {p.reached}"
    except ValueError as error:
        yield f"plan.json: {error}"
    if not all(map(isfinite, made.times)):
        yield f"times {made.times}"


def sentences(plan: Plan, made: GlueUpPlan) -> Iterator[str]:
    """All that a glue-up says."""
    for one in made.set_ups:
        yield from (one.why, *one.before, *one.helps, *one.cautions, *(b.says for b in one.limits))
    yield from made.notes
    yield from (c.says for c in made.conditions)
    yield from (told(left.says, plan.units) for left in made.left_out)
    yield from (check.says for check in glue_checks(made, plan.units))


def _sentences(plan: Plan, made: GlueUpPlan) -> Iterator[str]:
    for said in dict.fromkeys(sentences(plan, made)):
        # A line to be copied into the settings file is no sentence, and has the units of that file.
        text = re.sub(r": \w+ = \[\{.*\}\]$", ".", said)
        bare = text.replace("Glue & <up>", "").replace("Seat & <base>", "")
        if any("\ue000" <= c <= "\uf8ff" for c in text):
            yield f"private signs: {text!r}"
        if "\n" in text or "  " in text or re.search(r"\b(nan|inf|None)\b", bare):
            yield f"ill said: {text!r}"
        if text and text.rstrip()[-1] not in ".?!%)":
            yield f"no sentence: {text!r}"
        if (_MM if plan.units == "in" else _INCH).search(bare):
            yield f"units {plan.units}: {text!r}"


def planned(seed: int) -> tuple[Plan, Settings, GlueUpPlan]:
    """The glue-up of a seed. Raises Refusal."""
    plan, settings = job(seed)
    return plan, settings, plan_glue_up(plan, settings, species_table(), glue_table())
