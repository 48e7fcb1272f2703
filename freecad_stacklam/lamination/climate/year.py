# SPDX-License-Identifier: LGPL-2.1-or-later

"""A year in the room, for a whole piece. Moisture %, lengths mm, times days."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import numpy as np

from freecad_stacklam.lamination.climate.following import Runs
from freecad_stacklam.lamination.climate.months import advice, best_to_glue, board_year
from freecad_stacklam.lamination.climate.moves import (
    free_cup,
    height_change,
    joint_season,
    known,
    pin_seasons,
    width_across,
    width_change,
)
from freecad_stacklam.lamination.climate.periodic import MOST_YEARS, Run, groups_of, run_years
from freecad_stacklam.lamination.climate.piece import Piece, left_out, piece_of, slanted
from freecad_stacklam.lamination.climate.quick import quick_rules
from freecad_stacklam.lamination.climate.surface import beyond_the_table, month_equilibria
from freecad_stacklam.lamination.findings.seasons import (
    MONTHS,
    ClimateMonth,
    Following,
    JointSeason,
    LayerSeason,
    SeasonFindings,
    StackSeason,
)
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.usage.climate import FINENESS, ClimateSettings
from freecad_stacklam.lamination.voxels.fill import size_for, voxels_of
from freecad_stacklam.lamination.voxels.grid import Voxels
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.wood.unknown import MOVEMENT, not_judged
from freecad_stacklam.lamination.words import say

#: Share done, and what is being done; False breaks it off.
Tell = Callable[[float, str], bool]
#: Shares of the work: cells, then the likely run, then faster and slower diffusion.
_CELLS, _LIKELY, _FAST = 0.1, 0.5, 0.7
#: Share of the wood in cells that count as air from which it is told.
MUCH_LEFT_OUT = 0.05


class BrokenOff(Refusal):
    """The maker broke it off."""


def plan_year(
    plan: Plan, meshes: Mapping[str, Mesh], climate: ClimateSettings, table: Mapping[str, Species], tell: Tell
) -> SeasonFindings:
    """Everything that a year does to the piece. meshes: the stacks' forms in the model, by name; climate: with its
    twelve months (`usage.climate.climate_of`). Raises Refusal for a climate that has only a name, a plan without
    stacks, a piece so thin that no cell is filled, and BrokenOff where `tell` returns False."""
    if isinstance(climate.months, str):
        raise Refusal(
            say(
                "The climate “{months}” has no months: give twelve pairs of temperature and humidity.",
                months=climate.months,
            )
        )
    _told(tell, 0.0, say("Dividing the piece into cells"))
    voxels = voxels_of(plan, meshes, size_for(plan, FINENESS[climate.fineness]))
    piece = piece_of(voxels, climate)
    if not (piece.part >= 0).any():
        raise Refusal(say("The piece is too thin for a year in the room: choose a finer division, or leave it out."))
    room = month_equilibria(climate.months)
    thickest = max(layer.thickness for stack in plan.stacks for layer in stack.layers)
    board = board_year(room, thickest, climate)
    settles = float(np.mean(room))
    glued = best_to_glue(climate, board, settles)
    runs = _runs(piece, room, glued, climate, tell)
    layers, stacks, whole = _followings(piece, runs, plan, voxels)
    start = climate.moisture
    by_stack = {
        stack.name: tuple(f.mean for f, cell in zip(layers, voxels.layers) if cell.stack == i)
        for i, stack in enumerate(plan.stacks)
    }
    stack_seasons = tuple(
        StackSeason(
            stack.name, min(stack.form.height, stack.height), moisture,
            height_change(stack, table, start, by_stack[stack.name]),
        )
        for stack, moisture in zip(plan.stacks, stacks)
    )  # fmt: skip
    layer_seasons = _layer_seasons(plan, piece, runs, voxels, layers, climate, table)
    joints = _joint_seasons(plan, piece, runs, table, start)
    pins = tuple(p for s in plan.stacks for p in pin_seasons(s, table, start, by_stack[s.name]))
    return SeasonFindings(
        months=tuple(ClimateMonth(n, t, h, e) for n, (t, h), e in zip(MONTHS, climate.months, room)),
        moisture=start, glued=glued, piece=whole, stacks=stack_seasons, layers=layer_seasons, joints=joints, pins=pins,
        quick=quick_rules(room, stack_seasons, layer_seasons, joints), advice=advice(climate, room, board, settles),
        cells=len(runs.likely.solver.cells), size=voxels.size, years=runs.likely.years, settled=runs.likely.repeats,
        across=climate.across, ratio=climate.ratio, surface=climate.surface, band=climate.band,
        notes=_notes(plan, voxels, climate, runs, table),
    )  # fmt: skip


def _told(tell: Tell, done: float, what: str) -> None:
    if not tell(done, what):
        raise BrokenOff(say("The year in the room was broken off before it was known."))


def _runs(piece: Piece, room: tuple[float, ...], glued: int, climate: ClimateSettings, tell: Tell) -> Runs:
    """As set, and with diffusion faster and slower by the band; these two start from where the likely one ends."""

    def from_to(low: float, high: float, what: str) -> Callable[[int, int], None]:
        def each(year: int, month: int) -> None:
            share = min((12 * (year - 1) + month) / (12 * MOST_YEARS / 2), 1.0)
            _told(tell, low + (high - low) * share, what)

        return each

    likely = run_years(
        piece, room, climate.moisture, glued, climate.surface, from_to(_CELLS, _LIKELY, say("A year in the room"))
    )

    def again(faster: float, low: float, high: float, what: str) -> Run:
        each = from_to(low, high, what)
        return run_years(piece, room, likely.last, glued, climate.surface, each, faster)

    fast = again(climate.band, _LIKELY, _FAST, say("The same with faster diffusion"))
    slow = again(1 / climate.band, _FAST, 1.0, say("The same with slower diffusion"))
    return Runs(likely, fast, slow, groups_of(piece, likely.solver), room)


def _followings(
    piece: Piece, runs: Runs, plan: Plan, voxels: Voxels
) -> tuple[tuple[Following, ...], tuple[Following, ...], Following]:
    """How each layer follows, each stack (its layers, without tenons), and the whole piece."""
    number = np.arange(piece.parts)
    of_layer = np.where(number < piece.layers, number, -1)
    in_stack = np.array([one.stack for one in voxels.layers])
    of_stack = np.where(number < piece.layers, in_stack[np.minimum(number, piece.layers - 1)], -1)
    layers = runs.gathered(of_layer, piece.layers)
    stacks = runs.gathered(of_stack, len(plan.stacks))
    (whole,) = runs.gathered(np.zeros(piece.parts, dtype=np.int64), 1)
    return layers, stacks, whole


def _layer_seasons(
    plan: Plan, piece: Piece, runs: Runs, voxels: Voxels, layers: tuple[Following, ...], climate: ClimateSettings,
    table: Mapping[str, Species],
) -> tuple[LayerSeason, ...]:  # fmt: skip
    solver = runs.likely.solver
    slopes = runs.slopes(piece.along.reshape(-1)[solver.cells[solver.order]])
    found = []
    for i, (cell, moisture) in enumerate(zip(voxels.layers, layers)):
        stack = plan.stacks[cell.stack]
        layer = stack.layers[cell.number - 1]
        found.append(
            LayerSeason(
                stack.name, layer.number, width_across(layer), moisture,
                width_change(stack, layer, table, climate.moisture, moisture.mean),
                free_cup(
                    stack, layer, table, climate.moisture, moisture.mean, tuple(slopes[:, i]), climate.ring_radius
                ),
            )
        )  # fmt: skip
    return tuple(found)


def _joint_seasons(
    plan: Plan, piece: Piece, runs: Runs, table: Mapping[str, Species], start: float
) -> tuple[JointSeason, ...]:
    """Every tenon in every stack that it goes into."""
    solver, groups = runs.likely.solver, runs.groups
    around = piece.around.reshape(-1)[solver.cells[solver.order]]
    places = {stack.name: i for i, stack in enumerate(plan.stacks)}

    def one(number: int, joint: JointPlan, member: JointMember, stack: StackPlan) -> JointSeason:
        part = piece.tenon_part(number, places[stack.name])
        mine, near = groups.volume * (groups.part == part), groups.volume * (around == part)
        wood = runs.of_cells(near)
        return joint_season(
            joint, member, stack, table, start, runs.of_cells(mine) if mine.any() else wood, wood
        )  # fmt: skip

    return tuple(
        one(number, joint, member, plan.stacks[places[member.stack]])
        for number, joint in enumerate(plan.joints)
        for member in joint.members
        if member.stack in places
    )


def unmoved(unknown: Sequence[str], table: Mapping[str, Species]) -> str:
    """A sentence on woods whose movement cannot be told."""
    lacks = say("shrinkage") if all(name in table for name in unknown) else ""
    return not_judged(say(MOVEMENT), unknown, lacks)


def _notes(
    plan: Plan, voxels: Voxels, climate: ClimateSettings, runs: Runs, table: Mapping[str, Species]
) -> tuple[str, ...]:
    """What is taken for granted, what is left out, and what does not hold here."""
    assert not isinstance(climate.months, str)
    found = list(beyond_the_table(climate.months))
    unknown = sorted(
        {layer.species for stack in plan.stacks for layer in stack.layers if not known(table.get(layer.species))}
    )
    if unknown:
        found.append(unmoved(unknown, table))
    if slanted(voxels):
        found.append(
            say(
                "Some grain lies askew to the cells: of its diffusion only what runs along their axes is taken, "
                "which was up to 6 % of a change off on a disc at 45°."
            )
        )
    small = left_out(voxels)
    if small > MUCH_LEFT_OUT:
        found.append(
            say("{small:.0f} % of the wood is thinner than half a cell and follows its neighbours.", small=100 * small)
        )
    if not runs.likely.repeats:
        found.append(
            say("After {years} years the piece had not come to rest: the last year is told.", years=runs.likely.years)
        )
    if any(stack.copies > 1 for stack in plan.stacks):
        found.append(say("Copies are alike: one of each is told."))
    if abs(climate.surface - type(climate)().surface) < ROUNDING:
        found.append(say("The surface is taken as bare wood: a film of finish slows and evens all that is told here."))
    found.append(
        say(
            "Glue lines are taken to let moisture through as wood does, closed voids to give none, and all "
            "woods to be alike: an estimate."
        )
    )
    return tuple(found)
