# SPDX-License-Identifier: LGPL-2.1-or-later

"""The deep check: the whole piece under every load of its use. Its steps, its progress, what it may leave out.

It never takes the plan down: what it cannot do it says, and what it had found when it was stopped it keeps.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from time import monotonic, process_time

import numpy as np

from freecad_stacklam.lamination.elastic.feet import standing, stands
from freecad_stacklam.lamination.elastic.multigrid import Stopped
from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot
from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.form.pieces import told_apart
from freecad_stacklam.lamination.lengths import size, size_up
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.stress.loads import Load, loads_of
from freecad_stacklam.lamination.stress.materials import FLAT_SAWN, QUARTER_SAWN
from freecad_stacklam.lamination.stress.model import NEAR_LOAD, WALL, Model, model_of
from freecad_stacklam.lamination.stress.scan import Scan, Seen, drawn_influence, scan, surface_map, told_of
from freecad_stacklam.lamination.tops.seat import seat_of
from freecad_stacklam.lamination.usage.back import with_backs
from freecad_stacklam.lamination.usage.touching import on_piece
from freecad_stacklam.lamination.usage.use import UseSettings, load_cases
from freecad_stacklam.lamination.voxels.fill import size_for, voxels_of
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.words import mark, say

#: Cells of the scan, and of its worst loads where finer ones are asked for; on request there may be ten times as many.
SCANNED, FINE = 20_000, 100_000
#: How many of the worst loads are solved again: with the rings the other way, without tenons, in finer cells.
AGAIN = 3

#: Seconds after which it says what it has found and what is left untried: a scan of 20 000 cells wants 10 to 40, of a
#: slender post 120 (measured); ten times as many cells want ten times as long.
LONGEST = {"scan": 180.0, "fine": 600.0}

Tell = Callable[[float, str], bool]


@dataclass
class _Steps:
    """Tells what is done, and what is left to do; knows when the time is over."""

    tell: Tell
    end: float
    left: list[str] = field(default_factory=list)
    at: float = 0.0
    what: str = ""

    def start(self, at: float, what: str) -> None:
        self.at, self.what = at, what
        if not self.going():
            raise Stopped

    def going(self) -> bool:
        return self.tell(self.at, self.what) and not self.late()

    def late(self) -> bool:
        return monotonic() > self.end


def check_deep(
    plan: Plan,
    meshes: Mapping[str, Mesh],
    use: UseSettings,
    table: Mapping[str, Species],
    tell: Tell,
    fine_cells: int = FINE,
    longest: float | None = None,
) -> DeepFindings:
    """Check the piece as deep as `use.deep` says. meshes: the stacks' forms in the model, by name. tell: hears the
    share done, 0 to 1, and what is being done; returns False to stop. fine_cells: how many a fine check has. longest:
    seconds that it may take (None: LONGEST).

    What cannot be checked comes back with the sentence that says why, never as an error.
    """
    if use.deep == "none":
        return DeepFindings(refused=say("The deep check was not asked for."))
    begun = process_time()
    found = DeepFindings()
    seconds = LONGEST[use.deep] if longest is None else longest
    steps = _Steps(tell, monotonic() + seconds)
    try:
        for more in _found(plan, meshes, use, table, steps, fine_cells):
            found = more
    except Stopped:
        if not steps.late():
            found = replace(found, stopped=True)
        elif not found.spots:
            found = replace(found, refused=say(_NO_TIME, seconds=seconds))
        else:
            found = replace(
                found, untried=say(_UNTRIED, seconds=seconds, untried=listed([say(step) for step in steps.left]))
            )
    except Refusal as refusal:
        if not found.spots:
            found = replace(found, refused=refusal.sentence)
        else:
            found = replace(found, notes=(*found.notes, refusal.sentence))
    return replace(found, seconds=process_time() - begun)


_NO_BACK = mark(
    "The only loads are against a back, and nothing rises above the seat as a back: give them another place."
)
_NO_TIME = mark(
    "The deep check found nothing in the {seconds:.0f} s that it may take: set it to none and go by the sections."
)
_UNTRIED = mark(
    "The deep check may take {seconds:.0f} s and they were over, so a worse place may be left; untried: {untried}."
)


def _found(
    plan: Plan,
    meshes: Mapping[str, Mesh],
    use: UseSettings,
    table: Mapping[str, Species],
    steps: _Steps,
    fine_cells: int,
) -> Iterator[DeepFindings]:
    """What is found, more and more of it."""
    steps.start(0.0, "cells")
    forms = [meshes[s.name] for s in plan.stacks]
    bending = [case for case in load_cases(use) if case.bends]
    if not bending:
        raise Refusal(say("No load here may break the piece: let one of them, for the deep check to look at."))
    seat = seat_of(forms)
    cases, beside = on_piece(with_backs(bending, forms, seat.sat), forms)
    if not cases:
        raise Refusal(beside[0][1] if beside else say(_NO_BACK))
    loads = loads_of(cases, seat)
    cells = voxels_of(plan, meshes, size_for(plan, SCANNED))
    glued = bool(plan.joints) and use.tenon == "glued"
    steps.start(0.05, say("the loads, one by one"))
    steps.left = [
        _SOME_LOADS,
        _MAP,
        _RINGS,
        _FEET,
        *([_BARE] if glued else []),
        *([_FINER] if use.deep == "fine" else []),
    ]
    model = model_of(plan, meshes, cells, table, FLAT_SAWN, glued, steps.going)
    apart = told_apart([[m.stack for m in joint.members] for joint in plan.joints], meshes)
    loads, cautions = _carried(model, loads, [apart] if apart else [])
    first = scan(plan, model, loads, cases, lambda share: steps.start(0.05 + 0.6 * share, steps.what), steps.late)
    if not first.spots:
        raise Refusal(
            say(
                "Nowhere does the piece reach further than {near_load} from its loads, and the deep check cannot "
                "look nearer: set it to none and go by the sections.",
                near_load=size_up(NEAR_LOAD),
            )
        )
    found = _first(model, first, len(loads))
    thin = _thin(model, first.places[0]) if use.deep != "fine" else ()
    found = replace(found, notes=(*(says for _, says in beside), *thin, *found.notes), cautions=cautions)
    yield found
    if first.whole:
        steps.left.remove(_SOME_LOADS)

    steps.start(0.67, say(_MAP))
    moved, _ = model.solve(first.worst[0])
    found = replace(found, influence=drawn_influence(model, first.places[0], moved), solved=found.solved + 1)
    yield found
    steps.left.remove(_MAP)

    steps.start(0.7, say(_RINGS))
    again = first.worst[:AGAIN]
    other = model_of(plan, meshes, cells, table, QUARTER_SAWN, glued, steps.going)
    turned = _again(plan, other, again, cases)
    found = _with(found, turned, other_rings=turned.spots[0] if turned.spots else None)
    yield found
    steps.left.remove(_RINGS)

    rings = FLAT_SAWN
    if found.other_rings is not None and found.other_rings.index > found.spots[0].index:
        rings, again, model = QUARTER_SAWN, turned.worst[:AGAIN], other
    steps.start(0.77, say(_FEET))
    found = _loose(plan, model, (*again, *first.worst), cases, found)
    yield found
    steps.left.remove(_FEET)
    if glued:
        steps.start(0.8, say(_BARE))
        bare = model_of(plan, meshes, cells, table, rings, False, steps.going)
        empty = _again(plan, bare, again, cases)
        found = _with(found, empty, without_tenon=empty.spots[0] if empty.spots else None)
        yield found
        steps.left.remove(_BARE)
    if use.deep == "fine":
        steps.start(0.85, say(_FINER))
        small = voxels_of(plan, meshes, size_for(plan, fine_cells))
        about = [s.place for s in (*found.spots, found.other_rings) if s is not None]
        finer = model_of(plan, meshes, small, table, rings, glued, steps.going, about)
        fine = _again(plan, finer, again, cases)
        found = _with(found, fine, fine=fine.spots[0] if fine.spots else None, fine_cells=_count(finer))
        yield found


#: What there is to do, as it is told while it is done and when it is left untried.
_SOME_LOADS, _MAP = mark("some of the loads"), mark("the map of the worst place")
_FEET = mark("feet that may lift and slide")
_RINGS, _BARE, _FINER = mark("the rings the other way"), mark("the piece without tenons"), mark("finer cells")


def _thin(model: Model, place: int) -> tuple[str, ...]:
    """What to say where the wall at the worst place is only a few cells thick."""
    if model.wall(place) > WALL - 0.25:
        return ()
    return (
        say(
            "At the worst place the wall is under three cells thick (of {size}), so that its figure may be off by a "
            "fifth either way: ask for the deep check in finer cells.",
            size=size(model.cells.size),
        ),
    )


def _carried(model: Model, loads: tuple[Load, ...], cautions: list[str]) -> tuple[tuple[Load, ...], tuple[str, ...]]:
    """The loads that stand on wood which is joined to the floor; and what to say of the others. Raises Refusal where
    none is left."""
    there = {place: model.pads.carries(place) for place in dict.fromkeys(load.place for load in loads)}
    free = len(there) - sum(there.values())
    if free == len(there):
        raise Refusal(say("No load stands on wood that is joined to the floor: join the parts of the piece."))
    if free:
        cautions.append(
            say(
                "At {free} of {there} places nothing that reaches the floor carries the loads, and they were left "
                "out: what hangs free there is not checked.",
                free=free,
                there=len(there),
            )
        )
    return tuple(load for load in loads if there[load.place]), tuple(cautions)


def _first(model: Model, first: Scan, tried: int) -> DeepFindings:
    """The scan, which found a spot at least, as findings with its map."""
    return DeepFindings(
        spots=first.spots,
        surface=surface_map(model.points, first.surface),
        balance=first.balance,
        cells=_count(model),
        tried=tried,
        solved=first.solved,
        notes=(*model.body.timber.assumed, *(say(note, near=size_up(NEAR_LOAD)) for note in _NOTES)),
    )


#: What every deep check rests on.
_NOTES = (
    mark("What stands on a joint is reckoned as glued to it all over."),
    mark(
        "Nothing is read within {near} of a load, nor just above the floor, nor on the walls of hollows and mortises."
    ),
    mark(
        "Where fewer than seven cells lie across a round neck its stress reads low, by 3 to 11 %: check it in finer "
        "cells."
    ),
    mark("Strengths are means of small clear pieces: no knots, no short grain, no fault in the glue."),
)


def _loose(
    plan: Plan, model: Model, loads: Sequence[Load], cases: Sequence[LoadCase], found: DeepFindings
) -> DeepFindings:
    """Findings with the worst of the loads that press all feet onto the floor, on feet that may lift and slide."""
    lattice, up = model.body.lattice, model.body.up
    for load in dict.fromkeys(loads):
        force = model.pads.forces(load)
        if not stands(lattice, force, up):
            continue
        rest = standing(lattice, force, up, model.going)
        if rest is None:
            continue
        seen = Seen(model, cases)
        seen.add(load, rest.moved)
        scan = told_of(plan, model, seen, cases)
        if not scan.spots:
            continue
        feet = lattice.floor > 0
        off = 100 * (1 - float(rest.on[feet].mean()))
        held = Seen(model, cases)
        held.solve(load)
        before = float(held.found[0][0].max())
        note = say(
            "The feet are reckoned as held fast to the floor; under “{cases}” they were also let lift and slide: "
            "{off:.0f} % of them lifts, and the worst is {index:.1f} % of the mean strength, not {before:.1f} %.",
            cases=cases[load.case].name,
            off=off,
            index=scan.spots[0].index * 100,
            before=before * 100,
        )
        return replace(
            found,
            loose_feet=scan.spots[0],
            balance=max(found.balance, rest.balance),
            solved=found.solved + rest.rounds,
            notes=(*found.notes, note),
        )
    note = say(
        "The feet are reckoned as held fast to the floor: under all of its worst loads the piece would tip or lift."
    )
    return replace(found, notes=(*found.notes, note))


def _again(plan: Plan, model: Model, loads: Sequence[Load], cases: Sequence[LoadCase]) -> Scan:
    """The same loads on another model."""
    seen = Seen(model, cases)
    for load in loads:
        seen.solve(load)
    return told_of(plan, model, seen, cases)


def _with(found: DeepFindings, more: Scan, **changes: WeakSpot | int | None) -> DeepFindings:
    """Findings with those of another model."""
    return replace(found, balance=max(found.balance, more.balance), solved=found.solved + more.solved, **changes)  # type: ignore[arg-type]


def _count(model: Model) -> int:
    """Cells of a model, those of two woods once."""
    return len(np.unique(model.body.lattice.cell, axis=0))
