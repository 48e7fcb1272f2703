# SPDX-License-Identifier: LGPL-2.1-or-later

"""The finished piece: what it weighs, whether it stands and holds, what a year does to it, what its finish takes.

What takes a second at most is found with every plan; the deep check of strength and the year in the room take longer,
and are found when they are asked for. A part that cannot be found is left out with its sentence, and takes no other
down.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TypeVar

from freecad_stacklam.lamination.bill.finishing import finish_findings
from freecad_stacklam.lamination.carving.budget import budget_of
from freecad_stacklam.lamination.climate.year import BrokenOff, plan_year
from freecad_stacklam.lamination.elastic.multigrid import Stopped
from freecad_stacklam.lamination.findings.budget import AllowanceBudget
from freecad_stacklam.lamination.findings.deep import DeepFindings
from freecad_stacklam.lamination.findings.seasons import SeasonFindings
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.opinion.second import Programs, second_opinion
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.standing.weight import weigh
from freecad_stacklam.lamination.standing.whole import standing_of, weights_from
from freecad_stacklam.lamination.strength.whole import plan_strength
from freecad_stacklam.lamination.stress.deep import check_deep
from freecad_stacklam.lamination.usage.budget import BudgetSettings
from freecad_stacklam.lamination.usage.climate import Climate, climate_of
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.words import mark

#: The tables of the settings that say something of the finished piece.
PARTS = ("use", "climate", "finish", "rates", "budget")
DEEP, OPINION, YEAR = mark("deep check of strength"), mark("second opinion on strength"), mark("year in the room")
#: Share of the slow work that the deep check is.
_DEEP_SHARE = 0.8
#: Share of the deep check that is the check itself, where there is a second opinion on it.
_OWN_SHARE = 0.4
#: Share done, and what is being done; False breaks it off.
Tell = Callable[[float, str], bool]
_T = TypeVar("_T")


def piece_wanted(settings: Settings) -> bool:
    """Whether anything is asked of the finished piece."""
    return any(getattr(settings, name) is not None for name in PARTS)


def pending_of(settings: Settings) -> tuple[str, ...]:
    """What of it takes long."""
    deep = settings.use is not None and settings.use.deep != "none"
    opinion = settings.use is not None and settings.use.second_opinion != "none"
    return (
        ((DEEP,) if deep else ()) + ((OPINION,) if opinion else ()) + ((YEAR,) if settings.climate is not None else ())
    )


def check_quickly(
    plan: Plan, meshes: Mapping[str, Mesh], settings: Settings, table: Mapping[str, Species]
) -> PieceFindings:
    """What is found at once. meshes: the stacks' forms in the model, by name."""
    left_out: list[tuple[str, str]] = []

    def found(what: str, find: Callable[[], _T]) -> _T | None:
        try:
            return find()
        except Refusal as refusal:
            left_out.append((what, refusal.sentence))
            return None

    use, finish, budget = settings.use, settings.finish, settings.budget
    weight = found(mark("weight"), lambda: weigh(plan, meshes, table))
    standing = strength = None
    if use is not None:
        weights = {} if weight is None else weights_from(plan, weight)
        standing = found(mark("standing"), lambda: standing_of(plan, meshes, use, weights))
        strength = found(mark("strength"), lambda: plan_strength(plan, meshes, use, table))
    return PieceFindings(
        weight=weight,
        standing=standing,
        strength=strength,
        finish=None if finish is None else found(mark("finish"), lambda: finish_findings(plan, meshes, finish)),
        budgets=() if budget is None else found(mark("budget"), lambda: _budgets(plan, budget)) or (),
        pending=pending_of(settings),
        left_out=tuple(left_out),
    )


def _budgets(plan: Plan, budget: BudgetSettings) -> tuple[AllowanceBudget, ...]:
    return tuple(budget_of(stack, budget) for stack in plan.stacks)


@dataclass(frozen=True)
class Slow:
    """What takes long: each None where it was not asked for, or could not be found."""

    deep: DeepFindings | None = None
    seasons: SeasonFindings | None = None
    left_out: tuple[tuple[str, str], ...] = ()


def check_slowly(
    plan: Plan,
    meshes: Mapping[str, Mesh],
    settings: Settings,
    table: Mapping[str, Species],
    climates: Mapping[str, Climate],
    tell: Tell,
    programs: Programs | None = None,
) -> Slow | None:
    """The deep check and the year, those that are asked for. climates: those that settings may name. programs: for a
    second opinion. None where `tell` broke it off."""
    deep = seasons = None
    left_out: list[tuple[str, str]] = []
    share = _DEEP_SHARE if settings.climate is not None else 1.0
    asked = pending_of(settings)
    if settings.use is not None and (DEEP in asked or OPINION in asked):
        own = share * (_OWN_SHARE if OPINION in asked and programs is not None else 1.0)
        deep = check_deep(plan, meshes, settings.use, table, lambda done, what: tell(own * done, what))
        if deep.stopped:
            return None
        if OPINION in asked and programs is not None:
            rest: Tell = lambda done, what: tell(own + (share - own) * done, what)  # noqa: E731
            try:
                opinion = second_opinion(plan, meshes, settings.use, table, deep, programs, rest)
            except Stopped:
                return None
            deep = replace(deep, second_opinion=opinion)
    if settings.climate is not None:
        start = share if deep is not None else 0.0
        try:
            climate = climate_of(settings.climate, climates)
            seasons = plan_year(plan, meshes, climate, table, lambda done, what: tell(start + (1 - start) * done, what))
        except BrokenOff:
            return None
        except Refusal as refusal:
            left_out.append((YEAR, refusal.sentence))
    return Slow(deep, seasons, tuple(left_out))


def with_slow(found: PieceFindings, slow: Slow) -> PieceFindings:
    """The findings with what took long."""
    return replace(found, deep=slow.deep, seasons=slow.seasons, pending=(), left_out=(*found.left_out, *slow.left_out))
