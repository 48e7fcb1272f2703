# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on the finished piece, and where they were found: on the form where it stands in the model, however its
stack lies.

Outside checks: the measures that the forms are made from, and what follows from them by arithmetic.
"""

from __future__ import annotations

from functools import cache
from math import hypot

import numpy as np
import pytest
import solids
import weakforms
from jobs import plan_job

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.findings.budget import AllowanceBudget, BudgetItem
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.job.piece import DEEP
from freecad_stacklam.lamination.job.piececheck import glue_line_places, piece_checks
from freecad_stacklam.lamination.job.planjson import as_dict
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.usage.use import UseSettings


def test_what_was_left_out_says_stop_and_what_is_pending_asks_for_care() -> None:
    found = PieceFindings(left_out=(("strength", "There is no such wood: choose another."),), pending=(DEEP,))
    stop, caution = piece_checks(found)
    assert (stop.verdict, stop.says) == ("stop", "There is no such wood: choose another.")
    assert caution.verdict == "caution" and DEEP in caution.says


def test_every_budget_has_its_verdict() -> None:
    # 3-4-5: the root of 3² + 4².
    short = AllowanceBudget("Foot", (BudgetItem("Saw", 3.0, ""), BudgetItem("Slip", 4.0, "")), 5.0, 7.0, 4.0)
    (check,) = piece_checks(PieceFindings(budgets=(short,)))
    assert (check.verdict, check.figure, check.limit) == ("caution", 5.0, 4.0)


def test_nothing_found_says_nothing() -> None:
    assert piece_checks(PieceFindings()) == ()


AT = (1000.0, -300.0, 70.0)
#: Deflection of the meshes and the guard, mm.
NEAR = 0.3


def shifted(mesh: Mesh) -> Mesh:
    matrix = np.eye(4)
    matrix[:3, 3] = AT
    return solids.moved(mesh, matrix)


def named(checks: tuple[Check, ...], end: str) -> Check:
    (found,) = [c for c in checks if c.name.endswith(end)]
    return found


@cache
def a_mushroom() -> tuple[Mesh, Settings, Plan]:
    form = shifted(weakforms.mushroom(neck=30.0, plate=30.0, radius=150.0, height=400.0))
    settings = Settings(
        title="Mushroom", stacks=(StackSettings(form="Mushroom", stock=(45.0,)),), use=UseSettings(deep="none")
    )
    return form, settings, plan_job([Form("Mushroom", form)], settings, species_table())


def test_a_weak_neck_is_marked_in_the_neck() -> None:
    _, _, plan = a_mushroom()
    neck = named(plan.checks, "strength of its neck").place
    assert neck is not None
    # Radius 30 about the axis (1000, -300), and the fibre that is worst off lies on its surface.
    assert hypot(neck[0] - 1000.0, neck[1] + 300.0) == pytest.approx(30.0, abs=0.5)
    assert 70.0 < neck[2] < 470.0


def test_a_glue_line_is_marked_on_its_finished_outline_towards_the_front() -> None:
    _, _, plan = a_mushroom()
    places = glue_line_places(plan.stacks)
    assert sorted(places) == [("Mushroom", n) for n in range(1, len(plan.stacks[0].layers))]
    # Between 80 and 370 over the floor the neck is 30 thick all round: 330 is 30 before the axis at 300.
    for n in (2, 5, 8):
        assert places["Mushroom", n] == pytest.approx((1000.0, -330.0, 70.0 + 45.0 * n), abs=0.5)


def test_the_weakest_edge_is_marked_on_the_floor() -> None:
    _, _, plan = a_mushroom()
    tips = [c for c in plan.checks if "tip" in c.name and c.place is not None]
    assert tips
    for check in tips:
        assert check.place is not None and check.place[2] == pytest.approx(70.0, abs=NEAR)
        assert hypot(check.place[0] - 1000.0, check.place[1] + 300.0) <= 150.0


@pytest.mark.parametrize("axis", ["z", "x", "y"])
def test_the_least_wood_is_marked_on_the_form_however_it_is_stacked(axis: str) -> None:
    form = shifted(solids.ball(60.0, 5))
    middle = (form.vertices.min(axis=0) + form.vertices.max(axis=0)) / 2
    direction = {"x": (1.0, 0.0, 0.0), "y": (0.0, 1.0, 0.0), "z": (0.0, 0.0, 1.0)}[axis]
    settings = Settings(title="Ball", stacks=(StackSettings(form="Ball", stock=(25.0,), axis=direction),))
    plan = plan_job([Form("Ball", form)], settings, species_table())
    for end in ("least wood left", "least wood square to the surface"):
        place = named(plan.checks, end).place
        assert place is not None and np.linalg.norm(middle - place) == pytest.approx(60.0, abs=NEAR), end
    held = named(plan.checks, "form inside its blanks")
    assert (held.verdict, held.place) == ("ok", None)  # nothing is missing, so nowhere


def test_pins_voids_and_cuts_that_meet_are_marked_where_they_are() -> None:
    block, lid = solids.box(260.0, 220.0, 120.0), solids.box(260.0, 220.0, 80.0, (0.0, 0.0, 120.0))
    meshes = {"Block": shifted(block), "Lid": shifted(lid)}
    joints = tuple(
        JointSettings(
            name=name, through=(1130.0 + off, -190.0, 190.0), section="round", size=(30.0,),
            embed=(("Block", 50.0), ("Lid", 40.0)),
        )
        for name, off in (("One", 0.0), ("Other", 20.0))
    )  # fmt: skip
    stacks = (
        StackSettings(
            form="Block", stock=(40.0,), pins=PinSettings(diameter=8.0, depth=12.0, margin=8.0),
            hollow=HollowSettings(wall=30.0, caps=1),
        ),
        StackSettings(form="Lid", stock=(40.0,)),
    )  # fmt: skip
    settings = Settings(title="B", stacks=stacks, joints=joints)
    plan = plan_job([Form(n, m) for n, m in meshes.items()], settings, species_table())
    meet = named(plan.checks, "Block: joint “One” and joint “Other”")
    assert meet.verdict == "stop" and meet.place is not None
    # Ø30 about x = 1130 and 1150: both are cut from 1135 to 1145 (with the tenon's clearance a little more), and from
    # the block's top at 190 down to 140 (and the glue room).
    assert 1134.0 <= meet.place[0] <= 1146.0 and abs(meet.place[1] + 190.0) <= 12.0
    assert 135.0 <= meet.place[2] <= 190.0
    low, high = meshes["Block"].vertices.min(axis=0), meshes["Block"].vertices.max(axis=0)
    for end in ("cover of the pins", "wall around the voids"):
        place = named(plan.checks, end).place
        assert place is not None and (low <= place).all() and (place <= high).all(), end
    pin = named(plan.checks, "cover of the pins").place
    assert pin is not None and (pin[2] - low[2]) % 40.0 == pytest.approx(0.0, abs=1e-6)  # on a glue line


def test_the_plan_as_data_tells_every_place() -> None:
    _, settings, plan = a_mushroom()
    told = as_dict(plan, settings)["checks"]
    assert len(told) == len(plan.checks)
    for fact, check in zip(told, plan.checks):
        if check.place is None:
            assert fact["place"] is None
        else:
            assert fact["place"] == pytest.approx(list(check.place), abs=1e-6)
    assert any(fact["place"] for fact in told)
