# SPDX-License-Identifier: LGPL-2.1-or-later

"""The whole job: forms and settings in, everything known before the first cut out."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.bandsaw.curves import shop_saw_checks
from freecad_stacklam.lamination.bandsaw.throat import room_checks
from freecad_stacklam.lamination.bill.finishing import finish_rows
from freecad_stacklam.lamination.bill.gluesupplies import supply_rows
from freecad_stacklam.lamination.bill.quote import quote_of, quote_rows
from freecad_stacklam.lamination.bill.rows import bill_of
from freecad_stacklam.lamination.boards import boardplan
from freecad_stacklam.lamination.boards.sawncut import stack_cut
from freecad_stacklam.lamination.carving.guide import plan_carving, seams_between
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.gluing import glueup
from freecad_stacklam.lamination.inside.pins import finish_stack
from freecad_stacklam.lamination.job.checks import SMALL_PART, checks_of, left_out_checks
from freecad_stacklam.lamination.job.gluecheck import glue_checks
from freecad_stacklam.lamination.job.piece import check_quickly, piece_wanted
from freecad_stacklam.lamination.job.piececheck import piece_checks
from freecad_stacklam.lamination.joints.clashes import clash_checks
from freecad_stacklam.lamination.joints.joint import place_joint
from freecad_stacklam.lamination.joints.mortise import as_sawn, cut_layers
from freecad_stacklam.lamination.plan.boards import BoardsPlan
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import LeftOut, StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.shop import Bit
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.wood.heights import height_movement
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.words import say

#: The season's change in moisture where no joint says another, % points.
SWING = JointSettings("").swing


@dataclass(frozen=True, eq=False)
class Form:
    """A form to be stacked: its name, its gated mesh in the model, the form's own origin, and points that lie exactly
    on its modelled surface (K × 3, mm; None for a form that is only a mesh)."""

    name: str
    mesh: Mesh
    datum: tuple[float, float, float] = (0.0, 0.0, 0.0)
    exact_points: NDArray[np.float64] | None = None


@dataclass(frozen=True)
class Steps:
    """Who places joints, cuts them into stacks, finishes a stack with its voids and pins, and looks at the finished
    piece: the computation itself, or somebody who asks it once and keeps the answer."""

    place: Callable[..., JointPlan] = place_joint
    cut: Callable[[StackPlan, JointPlan], StackPlan] = cut_layers
    finish: Callable[[StackPlan, Mesh, StackSettings, Sequence[Bit], str], StackPlan] = finish_stack
    look: Callable[[Plan, Mapping[str, Mesh], Settings, Mapping[str, Species]], PieceFindings] = check_quickly


def assemble(
    stacks: Sequence[StackPlan],
    forms: Sequence[Form],
    joints: Sequence[JointSettings],
    settings: Settings,
    table: Mapping[str, Species],
    plan_wood: Callable[[Sequence[StackPlan], Settings], BoardsPlan] = boardplan.plan_boards,
    plan_glue: Callable[[Plan, Settings], GlueUpPlan] | None = None,
    steps: Steps = Steps(),
    left_out: Sequence[LeftOut] = (),
) -> Plan:
    """Joints, voids, pins, boards, bill and checks for stacks that are planned already. A stack's own cuts are made
    anew. plan_wood: plans staves and boards, where the settings ask for them; plan_glue the glue-up, where they do
    (None: there is none). left_out: what was asked for besides, and could not be planned.

    A void, pins, boards, a glue-up or a carving guide that cannot be planned are left out, and a check says stop with
    the reason. Raises Refusal where a joint cannot be placed, for the forms do not fit together without it.
    """
    by_name = {s.name: s for s in stacks}
    meshes = {f.name: f.mesh for f in forms}
    placed = [
        steps.place(j, by_name, meshes, table, settings.shop.bits, settings.units, settings.shop.drill_stroke)
        for j in joints
    ]
    for joint in placed:
        for member in joint.members:
            by_name[member.stack] = steps.cut(by_name[member.stack], joint)
    for form, chosen in matched(forms, settings):
        if form.name in by_name:
            by_name[form.name] = steps.finish(by_name[form.name], form.mesh, chosen, settings.shop.bits, settings.units)
    swing = max((joint.swing for joint in placed), default=SWING)
    by_name = {n: replace(s, movement=height_movement(s, table, swing)) for n, s in by_name.items()}
    plan = Plan(
        title=settings.title,
        units=settings.units,
        stacks=tuple(by_name[s.name] for s in stacks),
        joints=tuple(placed),
        author=settings.author,
        date=settings.date,
        station_step=settings.station_step,
        compass_within=settings.compass_within,
        notes=tuple(f"{f.name}: {note}" for f in forms for note in f.mesh.notes),
    )
    failed = list(left_out)
    if boardplan.wanted(settings):
        try:
            plan = replace(plan, boards=plan_wood(plan.stacks, settings))
        except Refusal as refusal:
            failed.append(LeftOut("boards", refusal.sentence))
        sawn = tuple(_sawn(s, plan.boards) for s in plan.stacks)
        by_name = {s.name: s for s in sawn}
        plan = replace(plan, stacks=sawn, joints=tuple(as_sawn(j, by_name, table) for j in plan.joints))
    if settings.carving is not None:
        seams = seams_between(plan.boards.staves) if plan.boards is not None else None
        forms_of = [meshes[s.name] for s in plan.stacks]
        try:
            guide = plan_carving(plan.stacks, forms_of, settings.carving, units=settings.units, seams=seams)
            plan = replace(plan, carving=guide)
        except Refusal as refusal:
            failed.append(LeftOut("carving guide", refusal.sentence))
    plan = replace(plan, bill=bill_of(plan, table, settings.shop.least_planing))
    if plan_glue is not None and glueup.wanted(settings):
        plan = _glued(plan, settings, plan_glue, failed)
    if piece_wanted(settings):
        plan = _looked_at(plan, settings, steps.look(plan, meshes, settings, table))
    saw = settings.shop.band_saw
    checks = left_out_checks(plan.stacks, failed, plan.units)
    checks += checks_of(plan, table, small_part=SMALL_PART if saw is None else saw.smallest_part)
    checks += (*clash_checks(plan), *shop_saw_checks(plan, saw), *room_checks(plan, saw))
    if plan.glue_up is not None:
        checks += glue_checks(plan.glue_up, plan.units)
    if plan.piece is not None:
        checks += piece_checks(plan.piece, plan.units, plan.stacks)
    return replace(plan, checks=checks)


def _looked_at(plan: Plan, settings: Settings, found: PieceFindings) -> Plan:
    """The plan with what is found about the finished piece, its finish in the bill, and the quote of all of that."""
    bill = plan.bill
    if settings.finish is not None and found.finish is not None:
        bill = (*bill, *finish_rows(found.finish, settings.finish, plan.units))
    if settings.rates is not None:
        quote = quote_of(plan, bill, settings.rates, found.finish)
        found, bill = replace(found, quote=quote), (*bill, *quote_rows(quote, settings.rates))
    return replace(plan, piece=found, bill=bill)


def _glued(
    plan: Plan, settings: Settings, plan_glue: Callable[[Plan, Settings], GlueUpPlan], failed: list[LeftOut]
) -> Plan:
    """The plan with its glue-up and what that uses up; what of it cannot be planned goes to `failed`."""
    try:
        glue_up = plan_glue(plan, settings)
    except Refusal as refusal:
        failed.append(LeftOut("glue-up", refusal.sentence))
        return plan
    failed += glue_up.left_out
    used = supply_rows(glue_up, plan.stacks, settings.glue or GlueSettings(), settings.presses, plan.units)
    # Glue is bought once: by set-ups where all are planned, else by the blanks' faces.
    bought = tuple(row for row in plan.bill if row.item != "glue") if used and not glue_up.left_out else plan.bill
    return replace(plan, glue_up=glue_up, bill=(*bought, *used))


def _sawn(stack: StackPlan, boards: BoardsPlan | None) -> StackPlan:
    """The stack with its movement told by how its boards are sawn, where all of them say the same."""
    if stack.movement is None:
        return stack
    return replace(stack, movement=replace(stack.movement, cut=stack_cut(boards, stack.name)))


def matched(forms: Sequence[Form], settings: Settings) -> list[tuple[Form, StackSettings]]:
    """Pair forms with their settings. A [[stack]] without a form's name stands for every form not named elsewhere.

    Raises Refusal when two forms have one name, or a setting names a form that is not there.
    """
    names = [f.name for f in forms]
    doubles = {n for n in names if names.count(n) > 1}
    if doubles:
        raise Refusal(say("Two forms are called “{form}”: give each form a name of its own.", form=sorted(doubles)[0]))
    if not settings.stacks:
        return [(form, StackSettings(form=form.name)) for form in forms]
    by_name = {f.name: f for f in forms}
    for chosen in settings.stacks:
        if chosen.form and chosen.form not in by_name:
            raise Refusal(
                say(
                    "There is no form “{form}” in the model: the solids found are {names}.",
                    form=chosen.form,
                    names=", ".join(names) or say("none"),
                )
            )
    named = {s.form for s in settings.stacks if s.form}
    pairs = []
    for chosen in settings.stacks:
        for form in forms:
            if form.name == chosen.form or (not chosen.form and form.name not in named):
                pairs.append((form, chosen))
    return pairs
