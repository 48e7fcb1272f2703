# SPDX-License-Identifier: LGPL-2.1-or-later

"""A pile's set-ups in the order of the work, each with its clock, its presses, its glue, its burden, what it breaks,
why it is one of its own, and what must be worked before it.

Times s, glue g, forces N, pressures MPa, lengths mm, areas mm², masses kg.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import isfinite

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.gluing.breaks import breaks_of
from freecad_stacklam.lamination.gluing.clampsets import PressSet
from freecad_stacklam.lamination.gluing.limits import Shop, Terms, clock_of, lift_limit, terms_of, ways_for
from freecad_stacklam.lamination.gluing.mends import both_masses
from freecad_stacklam.lamination.gluing.order import MOST_EXACT, Order, order_of
from freecad_stacklam.lamination.gluing.pile import HOLLOW, Channel, Pile
from freecad_stacklam.lamination.gluing.programme import Run
from freecad_stacklam.lamination.gluing.reasons import Together, why_of
from freecad_stacklam.lamination.gluing.rounds import Rounds, rounds_of
from freecad_stacklam.lamination.gluing.weighing import Trial, Weighed, weighed
from freecad_stacklam.lamination.lengths import size, size_up
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.gluing import BrokenLimit, Burden, Clock, LinePressure
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.glue import Glue, glue_grams
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.words import mark, say, say_many


@dataclass(frozen=True)
class Stage:
    """One set-up before its presses have places. `joins` are its parts from the bottom, each (first, last) layer;
    `presses` names and counts, `force` what they press with together (of a vacuum bag: on its largest line). `opening`
    is the height between the jaws, cauls counted in."""

    number: int  # from 1
    round: int  # from 1
    first: int
    last: int
    joins: tuple[tuple[int, int], ...]
    lines: tuple[int, ...]
    presses: tuple[tuple[str, int], ...]
    force: float
    clock: Clock
    glue: float
    area: float
    opening: float
    burden: Burden
    limits: tuple[BrokenLimit, ...] = ()
    why: str = ""
    before: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class Tried:
    """How runs are tried before their order is settled. `shares`: of the run [a, b], counted from 0, the share of each
    of its lines that pads on all seats reach; `pressed`: a stage's lines with the pads that are owned in their places.
    """

    shares: Callable[[int, int], Sequence[float]]
    pressed: Callable[[Stage], Sequence[LinePressure]]


@dataclass(frozen=True)
class Stages:
    """All set-ups of a pile. `rounds`: the least waits for the glue that any order needs, and what this one takes.
    `proven`: no order that breaks as few limits needs fewer set-ups. `left`: limits of reach and pressure that no order
    keeps which was tried."""

    stack: str
    stages: tuple[Stage, ...]
    rounds: tuple[int, int]
    proven: bool
    notes: tuple[str, ...] = ()
    left: int = 0

    @property
    def held(self) -> bool:
        """Whether no set-up breaks a limit."""
        return not any(stage.limits for stage in self.stages)


def stages_of(
    pile: Pile,
    glue: Glue,
    room: GluingRoom,
    presses: Sequence[PressSettings],
    wanted: Sequence[tuple[float, float]],
    reach: float | None = None,
    loss: float = 0.0,
    table: Mapping[str, Glue] | None = None,
    fits: Sequence[NDArray[np.int64]] = (),
    tried: Tried | None = None,
) -> Stages:
    """Plans a pile. wanted: least and most pressure of each line, from the bottom; reach: how deep a chisel reaches
    into a mortise (None: nothing is said); loss: share of the glue that is squeezed out; table: glues that could be had
    instead; fits: for each press how many of its pads find room on each run (none: as many as are owned); tried: how
    runs are pressed (None: the order is not weighed by it). There is always an order: where limits break, the set-ups
    say which, by how much and what mends it. Raises Refusal where `wanted` does not fit the lines."""
    if len(wanted) != len(pile.lines):
        raise Refusal(
            say(
                "{stack} has {count} glue lines and {pressures} pressures are wanted: give one for each.",
                stack=pile.stack,
                count=len(pile.lines),
                pressures=len(wanted),
            )
        )
    shop = Shop(glue, room, tuple(presses), tuple(wanted), reach, tuple(_rows(room_for) for room_for in fits))
    terms = terms_of(pile, shop)

    def stage(run: Run) -> Stage:
        return _stage(pile, shop, _set_for(terms, run), run, loss)

    way = Weighed(order_of(terms), terms)
    trial = None if tried is None else Trial(tried.shares, lambda run: tried.pressed(stage(run)))
    if trial is not None and len(pile.layers) > 2:
        way = weighed(terms, trial, pile.first)
    order, rounds = _by_rounds(way.order, rounds_of(way.terms, shop, way.order))
    sets = [_set_for(terms, run) for run in order.runs]
    together = Together(trial, way, pile.first) if trial is not None else None
    stages = [
        replace(
            stage(run),
            number=i + 1,
            round=rounds.numbers[i],
            limits=breaks_of(pile, shop, stage(run).joins, sets[i], table),
            why=why_of(pile, shop, way.terms, order.runs, rounds.numbers, sets, i, together),
            before=_before(pile, stage(run).joins),
            cautions=_cautions(pile, shop, run),
        )
        for i, run in enumerate(order.runs)
    ]
    notes = _notes(pile, way, order, rounds)
    return Stages(pile.stack, tuple(stages), (rounds.least, rounds.taken), order.proven, notes, way.left)


def _stage(pile: Pile, shop: Shop, of: PressSet, run: Run, loss: float) -> Stage:
    """A run with the presses it wants, before it has its place among the others."""
    joins = tuple((a + pile.first, b + pile.first) for a, b in run.parts)
    lines = [pile.line(last) for _, last in joins[:-1]]
    area = sum(line.area for line in lines)
    need = max(shop.wanted[k][0] * pile.lines[k].area for k in run.lines)
    count = min(of.count(need), shop.seats(of, run.a, run.b)) if of.owned else 0
    first, last = joins[0][0], joins[-1][1]
    height = pile.height(first, last)
    return Stage(
        number=1,
        round=1,
        first=first,
        last=last,
        joins=joins,
        lines=tuple(line.lower for line in lines),
        presses=of.by_name(count),
        force=of.force(count, max(line.area for line in lines)),
        clock=clock_of(shop.glue, shop.room, lines, count),
        glue=glue_grams(shop.glue, area, loss),
        area=area,
        opening=height + shop.cauls,
        burden=Burden(height, pile.mass(first, last), pile.middle(first, last)),
    )


def _by_rounds(order: Order, rounds: Rounds) -> tuple[Order, Rounds]:
    """Both in the order of the work: one round after the other."""
    turn = sorted(range(len(order.runs)), key=lambda i: (rounds.numbers[i], i))
    numbers = tuple(rounds.numbers[i] for i in turn)
    return replace(order, runs=tuple(order.runs[i] for i in turn)), replace(rounds, numbers=numbers)


def _rows(fits: NDArray[np.int64]) -> tuple[tuple[int, ...], ...]:
    return tuple(tuple(int(n) for n in row) for row in fits)


def _set_for(terms: Terms, run: Run) -> PressSet:
    """The presses that suit a set-up best; without rods where that does as well."""
    ways = sorted(ways_for(terms, run.a, run.b, run.lines), key=lambda j: (j.broken, j.way.of, j.seconds))
    if ways:
        return terms.sets[ways[0].way.of]
    # No order holds: the set that leaves the fewest of its lines short.
    usable = [w for w in range(len(terms.ways)) if terms.usable[w, run.a, run.b]]
    best = min(usable, key=lambda w: int(terms.short[w, list(run.lines)].sum()))
    return terms.sets[terms.ways[best].of]


def _before(pile: Pile, joins: Sequence[tuple[int, int]]) -> tuple[str, ...]:
    """What must be worked while it is still open."""
    first, last = joins[0][0], joins[-1][1]
    found = []
    for channel in pile.channels:
        crossed = [end for _, end in joins[:-1] if channel.crosses(end)]
        closes = _closed(channel, first, last) and not any(_closed(channel, *part) for part in joins)
        several = channel.last > channel.first
        places = {"first": channel.first, "last": channel.last}
        if channel.kind == HOLLOW and closes:
            found.append(
                say(
                    "The void in layers {first} to {last} closes: finish its walls, and bore its vent, before.",
                    **places,
                )
                if several
                else say("The void in layer {first} closes: finish its walls, and bore its vent, before.", **places)
            )
        elif channel.kind != HOLLOW and closes:
            found.append(
                say(
                    mark(
                        "The mortise of {joint} in layers {first} to {last} closes at both ends: cut and try it before."
                    )
                    if several
                    else mark("The mortise of {joint} in layer {first} closes at both ends: cut and try it before."),
                    joint=channel.name,
                    **places,
                )
            )
        elif channel.kind != HOLLOW and crossed:
            depth = max(min(pile.reach_below(k, first), pile.reach_above(k, last)) for k in crossed)
            if not isfinite(depth):
                continue  # another mortise beside it is closed
            found.append(
                say(
                    "Wipe the glue out of the mortise of {joint} while it is wet: {depth} deep at the most.",
                    joint=channel.name,
                    depth=size(depth),
                )
            )
    pinned = [end for _, end in joins[:-1] if pile.line(end).pins]
    if pinned:
        found.append(
            say_many(
                "Bore for the pins of line {lines} and try them dry.",
                "Bore for the pins of lines {lines} and try them dry.",
                len(pinned),
                lines=_numbers(pinned),
            )
        )
    return tuple(found)


def _numbers(found: Sequence[int]) -> str:
    """Numbers in a sentence, those that follow each other as from and to: “1 to 4 and 9”."""
    runs: list[list[int]] = []
    for number in found:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return listed(
        [say("{first} to {last}", first=r[0], last=r[-1]) if len(r) > 2 else listed(list(map(str, r))) for r in runs]
    )


def _closed(channel: Channel, first: int, last: int) -> bool:
    """Whether a run closes a channel at both ends."""
    below = first < channel.first or (first == channel.first and not channel.open_below)
    above = last > channel.last or (last == channel.last and not channel.open_above)
    return below and above


def _cautions(pile: Pile, shop: Shop, run: Run) -> tuple[str, ...]:
    """On the sub-stack that a set-up makes."""
    first, last = run.a + pile.first, run.b + pile.first
    mass, width = pile.mass(first, last), pile.width(first, last)
    found = []
    limit = lift_limit(shop.room, width)
    if mass is not None and mass > limit:
        found.append(
            say(
                "What comes out weighs {mass}, more than the {limit} that should be lifted here: turn and carry "
                "it with help, or with a hoist.",
                mass=both_masses(mass),
                limit=both_masses(limit),
            )
        )
    widest = shop.room.reface
    whole = (first, last) == (pile.first, pile.last)
    if not whole and widest is not None and width > widest:
        found.append(
            say(
                "It is {width} wide, and no more than {widest} can be re-faced: keep its outer faces flat.",
                width=size_up(width),
                widest=size(widest),
            )
        )
    return tuple(found)


def _notes(pile: Pile, way: Weighed, order: Order, rounds: Rounds) -> tuple[str, ...]:
    found = []
    if rounds.other is not None:
        set_ups, fewer = rounds.other
        found.append(
            say(
                "{stack} can be glued with {waits} waits in place of {taken}, in {set_ups} set-ups in place of "
                "{planned}.",
                stack=pile.stack,
                waits=fewer,
                taken=rounds.taken,
                set_ups=set_ups,
                planned=len(order.runs),
            )
        )
    if len(pile.layers) > MOST_EXACT:
        found.append(
            say("{stack} has so many layers that an order with fewer set-ups was not sought.", stack=pile.stack)
        )
    elif order.broken or not (order.proven or way.changed):
        found.append(
            say("No order of {stack} keeps all limits: this one breaks the fewest that were found.", stack=pile.stack)
        )
    if len(order.runs) > way.plain > 0:
        found.append(
            say(
                "{stack} is glued in {set_ups} set-ups, where clock and number of clamps ask for {fewer}, because "
                "the clamps reach and press more of its lines so.",
                stack=pile.stack,
                set_ups=len(order.runs),
                fewer=way.plain,
            )
        )
    return tuple(found)
