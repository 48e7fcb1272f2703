# SPDX-License-Identifier: LGPL-2.1-or-later

"""The whole glue-up of a job: panels from staves, each stack in its set-ups, the joints between the stacks; each
pressed with what the shop has, and in the earliest round in which its parts are cured and its clamps are free.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace

from freecad_stacklam.lamination.gluing.breaks import CLAMPS, CLOCK, CRUSHING, OPENING, PRESSURE, SEATS
from freecad_stacklam.lamination.gluing.clampsets import pads_that_fit
from freecad_stacklam.lamination.gluing.conditions import conditions_of, water_of
from freecad_stacklam.lamination.gluing.limits import clock_of
from freecad_stacklam.lamination.gluing.order import MOST_EXACT
from freecad_stacklam.lamination.gluing.pile import Pile, pile_of
from freecad_stacklam.lamination.gluing.stages import Stage, Stages, Tried, stages_of
from freecad_stacklam.lamination.inside.waysin import ring_ways
from freecad_stacklam.lamination.joining.edges import edge_set_ups
from freecad_stacklam.lamination.joining.jointglue import joint_set_ups
from freecad_stacklam.lamination.joining.means import Means
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import format_fine
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.gluing import JOINT, LAYERS, BrokenLimit, Clock, GlueUpPlan, LinePressure, SetUp
from freecad_stacklam.lamination.plan.layers import LeftOut, StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.pressing.clamping import ENOUGH
from freecad_stacklam.lamination.pressing.landings import shares_in_reach
from freecad_stacklam.lamination.pressing.press import Attempt, Pressed, told_of, try_run
from freecad_stacklam.lamination.pressing.wanted import wanted_pressure
from freecad_stacklam.lamination.pressing.work import StackWood, wood_of
from freecad_stacklam.lamination.quantities import format_time
from freecad_stacklam.lamination.refusal import Refusal, told
from freecad_stacklam.lamination.settings.glue import Glue, GlueSettings, glue_of, times_of, waits_of
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.presses import NO_CLAMPS, PressSettings
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.wood.weights import weight_of
from freecad_stacklam.lamination.words import say, say_many

#: Limits that the places of the pads answer: what was counted of them before the pads had places is dropped.
_BY_PLACES = (CLAMPS, PRESSURE, CRUSHING, OPENING, SEATS)
#: Limits of the pads that no order kept which was tried; the number of clamps is none of an order's.
BY_PADS = ("reach", "throat", PRESSURE, CRUSHING)


def wanted(settings: Settings) -> bool:
    """Whether a glue-up is asked for: clamps, a glue or a room are named."""
    return bool(settings.presses) or settings.glue is not None or settings.room is not None


@dataclass(frozen=True)
class _Job:
    """What all set-ups share."""

    plan: Plan
    settings: Settings
    glue: Glue
    own: GlueSettings
    room: GluingRoom
    table: Mapping[str, Species]
    glues: Mapping[str, Glue]

    def pressure(self, *species: str) -> tuple[float, float]:
        """Least and most for a line between woods, MPa."""
        return wanted_pressure(self.glue, species, self.table)

    @property
    def means(self) -> Means:
        """What panels and joints are glued with."""
        return Means(
            self.glue, self.own.loss, self.room, self.settings.presses, self.pressure, self.table, self.plan.units
        )


def plan_glue_up(plan: Plan, settings: Settings, table: Mapping[str, Species], glues: Mapping[str, Glue]) -> GlueUpPlan:
    """Every set-up of a planned job. glues: the kinds of glue by name.

    A stack that cannot be planned is left out, with its sentence. Raises Refusal where there are no clamps, and for a
    glue that is not known.
    """
    if not settings.presses:
        raise Refusal(NO_CLAMPS)
    own, room = settings.glue or GlueSettings(), settings.room or GluingRoom()
    job = _Job(plan, settings, glue_of(own, glues), own, room, table, glues)
    panels = () if plan.boards is None else edge_set_ups(plan.boards.staves, plan.stacks, job.means)
    found: list[SetUp] = []
    left: list[LeftOut] = []
    notes: list[str] = []
    waits: dict[str, int] = {}
    proven = True
    for stack in plan.stacks:
        if len(stack.layers) < 2:
            continue
        if len(stack.layers) > MOST_EXACT:  # of twice as many the pads alone take minutes
            says = say(
                "{stack} has {count} layers, and set-ups are planned for at most {most}: take thicker "
                "stock, or glue it as you see fit.",
                stack=stack.name,
                count=len(stack.layers),
                most=MOST_EXACT,
            )
            left.append(LeftOut(say("glue-up of {stack}", stack=stack.name), says))
            continue
        wood = wood_of(stack)
        try:
            pile = _pile(job, stack, wood)
            tries = _Tries(job, wood, pile)
            stages = _stages(job, stack, tries)
            made = [_pressed(job, stack, tries, stage) for stage in stages.stages]
        except Refusal as refusal:
            left.append(LeftOut(say("glue-up of {stack}", stack=stack.name), refusal.sentence))
            continue
        waits[stack.name], proven = stages.rounds[0], proven and stages.proven
        found += made
        notes += [told(note, plan.units) for note in (*stages.notes, *(_no_better(made) if stages.left else ()))]
    joints = joint_set_ups(plan.joints, plan.stacks, job.means)
    set_ups = _in_rounds(panels, [*found, *joints], settings.presses)
    least = waits_at_least(waits, joints)
    taken = max((s.round for s in set_ups), default=0)
    return GlueUpPlan(
        glue_name=job.glue.name,
        times=(*times_of(job.glue, room.temperature), *waits_of(job.glue, room.temperature)),
        temperature=room.temperature,
        set_ups=tuple(_in_units(s, plan.units) for s in set_ups),
        rounds=(min(max(least, 1 if set_ups else 0), taken), taken),
        set_ups_proven=proven,
        conditions=conditions_of(plan.stacks, plan.boards, job.glue, room, plan.units),
        faces=job.glue.faces,
        spread=job.glue.spread,
        water=water_of(plan.stacks, job.glue, room, table),
        notes=tuple(notes),
        left_out=tuple(left),
    )


def waits_at_least(stacks: Mapping[str, int], joints: Sequence[SetUp]) -> int:
    """Waits for the glue that no order avoids: those of each stack by name, and after them one for each joint that it
    goes into, in their order; what shares no joint cures side by side."""
    waits = dict(stacks)
    for joint in joints:
        waits |= dict.fromkeys(joint.stacks, 1 + max((waits.get(name, 0) for name in joint.stacks), default=0))
    return max(waits.values(), default=0)


# --- a stack --------------------------------------------------------------------------------------------------------


def _pile(job: _Job, stack: StackPlan, wood: StackWood) -> Pile:
    weights = [weight_of(job.table, layer.species) for layer in stack.layers]
    masses = [None if w is None else w * layer.blank_volume for w, layer in zip(weights, stack.layers)]
    woods = [job.table.get(layer.species) for layer in stack.layers]
    return pile_of(stack, wood.faces, masses, [w.compression_across if w else None for w in woods])


@dataclass(frozen=True, eq=False)
class _Tries:
    """The runs of a stack as they are pressed, each once."""

    job: _Job
    wood: StackWood
    pile: Pile
    found: dict[tuple[object, ...], tuple[Attempt, Clock]] = field(default_factory=dict)

    def best(self, stage: Stage) -> tuple[Attempt, Clock]:
        """A stage with its pads, and its clock with them. The presses that its clock was counted with come first; where
        they miss wood or leave it short and more are owned, all are tried."""
        key = (stage.first, stage.last, stage.lines, stage.presses)
        if key not in self.found:
            self.found[key] = self._tried(stage)
        return self.found[key]

    def _tried(self, stage: Stage) -> tuple[Attempt, Clock]:
        owned = self.job.settings.presses
        # Where none could be counted all are tried, so that the pads say why none holds.
        few = _counted(owned, stage) or tuple(owned)
        found = self._press(stage, few)
        if found.limits and Counter(p.count for p in few) != Counter(p.count for p in owned):
            more = self._press(stage, owned)
            longer = self._clock(stage, more)
            if _presses_better(more, found) and (longer.held or not stage.clock.held):
                return more, longer
        return found, self._clock(stage, found)

    def _press(self, stage: Stage, presses: Sequence[PressSettings]) -> Attempt:
        job, layers = self.job, {layer.number: layer for layer in self.wood.layers}
        wants = {k: job.pressure(layers[k].species, layers[k + 1].species) for k in stage.lines}
        first, last, units = stage.first, stage.last, job.plan.units
        return try_run(self.wood, first, last, stage.lines, presses, job.room, wants, units, job.table)

    def _clock(self, stage: Stage, tried: Attempt) -> Clock:
        """The timeline with the pads and the upper cauls that it takes."""
        way = tried.clamping
        upper, pads = (sum(c.side == "top" for c in way.cauls), len(way.places)) if way else (0, 0)
        return clock_of(self.job.glue, self.job.room, [self.pile.line(k) for k in stage.lines], pads, upper)

    def shares(self, a: int, b: int) -> tuple[float, ...]:
        """What pads on all seats reach of each line of the run [a, b], counted from 0."""
        contacts = [face.contact for face in self.wood.faces[a:b]]
        presses, caul = self.job.settings.presses, self.job.room.caul_thickness
        return shares_in_reach(self.wood.slabs[a : b + 1], contacts, presses, caul)


def _stages(job: _Job, stack: StackPlan, tries: _Tries) -> Stages:
    pressures = [job.pressure(a.species, b.species) for a, b in zip(stack.layers, stack.layers[1:])]
    return stages_of(
        tries.pile, job.glue, job.room, job.settings.presses, pressures, _reach(job, stack.name), job.own.loss,
        job.glues, pads_that_fit(tries.wood.slabs, job.settings.presses),
        Tried(tries.shares, lambda stage: tries.best(stage)[0].pressures),
    )  # fmt: skip


def _reach(job: _Job, stack: str) -> float | None:
    """How deep a chisel reaches into the mortises of a stack that are cut after it is glued; None where none is."""
    after = {
        joint.name
        for joint in job.plan.joints
        for boring in joint.drilling
        if boring.stack == stack and boring.when == "after glue-up"
    }
    return min((j.chisel_reach for j in job.settings.joints if j.name in after), default=None)


def _pressed(job: _Job, stack: StackPlan, tries: _Tries, stage: Stage) -> SetUp:
    """A stage with its pads, and what would help where they do not reach."""
    tried, clock = tries.best(stage)
    pressed = told_of(tried)
    return SetUp(
        number=stage.number,
        round=stage.round,
        kind=LAYERS,
        stack=tries.pile.stack,
        first=stage.first,
        last=stage.last,
        joins=stage.joins,
        lines=stage.lines,
        clock=clock,
        glue=stage.glue,
        area=stage.area,
        places=pressed.places,
        pressures=pressed.pressures,
        cauls=pressed.cauls,
        burden=stage.burden,
        opening=pressed.opening,
        limits=(*_limits(stage, pressed), *_late(job, stage, clock)),
        why=stage.why,
        before=(*_kerfs(stack, stage), *stage.before, *_keyed(job, stack, stage), *_flat(job, pressed)),
        # Fewer layers at once are another order, and the orders have been weighed.
        helps=tuple(says for says in pressed.helps if says != pressed.fewer),
        tabs=pressed.tabs,
        cautions=(*_tabbed(stack, stage), *stage.cautions, *pressed.cautions),
    )


def _presses_better(one: Attempt, other: Attempt) -> bool:
    """Whether a way of pressing breaks fewer limits than another, or as many and its worst line is plainly better: a
    limit that stays broken may be broken by less."""
    if len(one.limits) != len(other.limits):
        return len(one.limits) < len(other.limits)
    first, second = (min(map(_got, way.pressures), default=0.0) for way in (one, other))
    return first > second + ENOUGH / 2


def _got(line: LinePressure) -> float:
    """The share of a line that is reached times the share that it gets of the least pressure that it wants."""
    return line.reached * min(1.0, line.mean / line.wanted[0] if line.wanted[0] else 1.0)


def _no_better(made: Sequence[SetUp]) -> tuple[str, ...]:
    """What is pressed worst in the best of the orders that were tried, and the smallest change that mends it."""
    worst = [(_got(p), s) for s in made for p in s.pressures]
    limits = {s.number: [b for b in s.limits if b.name in BY_PADS] for s in made}
    found = min((one for one in worst if limits[one[1].number]), key=lambda one: one[0], default=None)
    if found is None:
        return ()
    one = found[1]
    says = " ".join(b.says for b in limits[one.number][:1])
    change = " " + say("Smallest change: {changes}", changes=one.helps[0]) if one.helps else ""
    said = say("No order of {stack} that was tried does better than this: {limit}", stack=one.stack, limit=says)
    return (said + change,)


def _flat(job: _Job, pressed: Pressed) -> tuple[str, ...]:
    """How flat the faces must be: what the pressure closes in the stiffest layer, and the glue bridges."""
    closed = min((p.closes for p in pressed.pressures if p.closes is not None), default=0.0)
    units, gap = job.plan.units, job.glue.gap
    if closed > 0.0:
        return (
            say(
                "Plane these faces flat: the clamps close a hollow of {hollow} at the most, and the glue bridges "
                "{gap}.",
                hollow=format_fine(closed, units),
                gap=format_fine(gap, units),
            ),
        )
    return (say("Plane these faces flat: the glue bridges {gap}.", gap=format_fine(gap, units)),)


def _kerfs(stack: StackPlan, stage: Stage) -> tuple[str, ...]:
    """The kerfs by which a blade got into the voids and rings of its single layers: glued before the layers are."""
    single = {first for first, last in stage.joins if first == last}
    ways = stack.hollow.ways_in if stack.hollow is not None else ()
    sawn = sorted({way.layer for way in ways if way.kind == "kerf"} & single)
    rings = [
        layer.number
        for layer in stack.layers
        if layer.number in single and any(way.kind == "kerf" for way in ring_ways(layer))
    ]
    return (*_void_kerfs(sawn), *_ring_kerfs(rings))


def _ring_kerfs(layers: Sequence[int]) -> tuple[str, ...]:
    if not layers:
        return ()
    return (
        say_many(
            "Where you sawed into the ring of layer {layers}, glue its kerf shut a day before, a slip as thick as the "
            "kerf in it, and plane the faces flat again.",
            "Where you sawed into the rings of layers {layers}, glue their kerfs shut a day before, a slip as thick as "
            "the kerf in each, and plane the faces flat again.",
            len(layers),
            layers=listed([str(n) for n in layers]),
        ),
    )


def _void_kerfs(sawn: Sequence[int]) -> tuple[str, ...]:
    if not sawn:
        return ()
    return (
        say_many(
            "Glue the kerf of the void in layer {layers} shut a day before, a slip as thick as the kerf in it, and "
            "plane the faces flat again.",
            "Glue the kerf of the void in layers {layers} shut a day before, a slip as thick as the kerf in it, and "
            "plane the faces flat again.",
            len(sawn),
            layers=listed([str(n) for n in sawn]),
        ),
    )


def _tabbed(stack: StackPlan, stage: Stage) -> tuple[str, ...]:
    """The tabs of the layers that are glued: pads may stand on them, and they come off afterwards."""
    having = [str(n.number) for n in stack.layers if n.tabs and stage.first <= n.number <= stage.last]
    if not having:
        return ()
    return (
        say_many(
            "Waste tabs on layer {layers}: pads may stand on them; saw them off after gluing, before the piece is "
            "carved.",
            "Waste tabs on layers {layers}: pads may stand on them; saw them off after gluing, before the piece is "
            "carved.",
            len(having),
            layers=listed(having),
        ),
    )


def _keyed(job: _Job, stack: StackPlan, stage: Stage) -> tuple[str, ...]:
    """The dummy tenon over which layers are glued whose mortises are cut already."""
    found = []
    for joint in job.plan.joints:
        bored = {b.layer for b in joint.drilling if b.stack == stack.name and b.when == "before glue-up"}
        if any(line in bored and line + 1 in bored for line in stage.lines):
            found.append(
                say(
                    "Lay these layers over the waxed dummy tenon of {joint}, and draw it before the glue is hard.",
                    joint=joint.name,
                )
            )
    return tuple(found)


def _late(job: _Job, stage: Stage, clock: Clock) -> tuple[BrokenLimit, ...]:
    """The clock, where only the pads and cauls in their places break it."""
    if clock.held or not stage.clock.held:
        return ()
    takes, there = clock.to_pressure, clock.assembly_limit
    says = say(
        "With all its pads and cauls it takes {takes} from the first glue to the last clamp, and {glue} "
        "must be under pressure after {limit}: lay them with a helper, or take a slower glue.",
        takes=format_time(takes),
        glue=shown(job.glue.name),
        limit=format_time(there),
    )
    return (BrokenLimit(CLOCK, takes, there, "s", says),)


def _counted(presses: Sequence[PressSettings], stage: Stage) -> tuple[PressSettings, ...]:
    counts = dict(stage.presses)
    return tuple(replace(p, count=counts[p.name]) for p in presses if counts.get(p.name, 0) > 0)


def _limits(stage: Stage, pressed: Pressed) -> tuple[BrokenLimit, ...]:
    """What is broken, once each: of force and place the pads' own account, of all else the stage's."""
    return (*(b for b in stage.limits if b.name not in _BY_PLACES), *pressed.limits)


# --- rounds ---------------------------------------------------------------------------------------------------------


def _in_rounds(panels: Sequence[SetUp], after: Sequence[SetUp], presses: Sequence[PressSettings]) -> list[SetUp]:
    """Panels in the rounds that they have; every set-up after them in the first round in which what it joins is cured
    and the clamps that it takes are free; numbered by rounds. Given in an order in which parts come before what they
    are part of."""
    owned = {p.name: p.count for p in presses}
    busy = [Counter[str]() for _ in range(max((one.round for one in panels), default=0))]
    for one in panels:
        busy[one.round - 1] += Counter(place.press for place in one.places)
    placed = list(panels)
    for one in after:
        takes = Counter(place.press for place in one.places)
        number = 1 + max((p.round for p in placed if _rests_on(one, p)), default=0)
        while number <= len(busy) and any(
            busy[number - 1][name] + count > owned.get(name, count) for name, count in takes.items()
        ):
            number += 1
        busy += [Counter() for _ in range(number - len(busy))]
        busy[number - 1] += takes
        placed.append(replace(one, round=number))
    order = sorted(range(len(placed)), key=lambda i: (placed[i].round, i))
    return [replace(placed[i], number=n + 1) for n, i in enumerate(order)]


def _rests_on(one: SetUp, before: SetUp) -> bool:
    """Whether a set-up needs what another made: layers of its run, stacks of its joint."""
    stacks: Collection[str] = one.stacks if one.kind == JOINT else (one.stack,)
    if before.kind == JOINT:
        return one.kind == JOINT and bool(set(before.stacks) & set(stacks))
    if before.stack not in stacks:
        return False
    return one.kind == JOINT or (one.kind == LAYERS and one.first <= before.first and before.last <= one.last)


def _in_units(one: SetUp, units: str) -> SetUp:
    """The set-up with all its sentences in the maker's units."""

    def all_told(many: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(told(text, units) for text in many)

    return replace(
        one,
        why=told(one.why, units),
        before=all_told(one.before),
        helps=all_told(one.helps),
        cautions=all_told(one.cautions),
        limits=tuple(replace(b, says=told(b.says, units)) for b in one.limits),
    )
