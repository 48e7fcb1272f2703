# SPDX-License-Identifier: LGPL-2.1-or-later

"""Forms from a seed: each is proven, with the outside kernel's consent, or refused with a right sentence.

A few in every run; hundreds behind the mark `slow`. tests/corpus/run.py runs thousands, by hand.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from chances import settings_for
from meshforms import FAR, KINDS, mesh_form
from trial import FAULT, NO_JUDGE, PROVEN, REFUSED, ill_said, judged, planned_mesh, tried

from freecad_stacklam.lamination.refusal import Defect, Refusal

#: Forms of each kind when all are asked for.
MANY = 25


def outcome(kind: str, seed: int, plain: bool = False):
    raw = mesh_form(kind, seed)
    return tried(
        kind, f"{kind} {seed}",
        lambda: planned_mesh(raw.vertices, raw.triangles, lambda box: settings_for(seed, box, raw.step, plain)),
    )  # fmt: skip


@pytest.mark.parametrize("kind", list(KINDS))
def test_a_form_of_each_kind(kind: str) -> None:
    found = outcome(kind, 4, plain=True)
    assert found.verdict == PROVEN, found
    assert found.judged


def test_pins_voids_boards_and_carving_of_a_form() -> None:
    found = outcome("revolve", 100_002)
    assert found.verdict == PROVEN, found


@pytest.mark.slow
@pytest.mark.parametrize("kind", list(KINDS))
def test_many_forms_of_each_kind(kind: str) -> None:
    found = [outcome(kind, 700_000 + k) for k in range(MANY)]
    assert not [one for one in found if one.verdict == FAULT]
    assert sum(one.judged for one in found) >= MANY // 2


@pytest.mark.freecad
@pytest.mark.parametrize("kind", ["booleans", "coplanar", "rounded"])
def test_a_part_solid(kind: str) -> None:
    from partforms import solid_outcome

    found = solid_outcome(kind, 1, True)
    assert found.verdict == PROVEN, found
    assert found.judged


@pytest.mark.slow
@pytest.mark.freecad
def test_many_part_solids_and_all_models() -> None:
    from modelfiles import model_outcome, names
    from partforms import SOLIDS, solid_outcome

    found = [solid_outcome(kind, 700_000 + k, True) for kind in SOLIDS for k in range(8)]
    found += [model_outcome(name, 1, True) for name in names()]
    assert not [one for one in found if one.verdict == FAULT]


def test_forms_are_as_large_and_as_far_away_as_was_asked() -> None:
    made = [mesh_form("coplanar", seed).vertices for seed in range(60)]
    sizes = [np.ptp(v, axis=0).max() for v in made]
    assert 5 < min(sizes) < 15
    assert 1000 < max(sizes) < 3000.1
    far = [np.linalg.norm(v.mean(axis=0)) > 0.9 * FAR for v in made]
    assert 5 < sum(far) < 30
    assert all((mesh_form(kind, 3).vertices == mesh_form(kind, 3).vertices).all() for kind in KINDS)


def test_the_trial_tells_faults_from_refusals() -> None:
    """What it must not let pass: an exception, a defect, a sentence that helps nobody, blanks that are too small."""

    def raises(problem: Exception):
        def plan():
            raise problem

        return tried("kind", "name", plan)

    assert raises(Refusal("The form has no surface to slice: select a solid or a closed mesh.")).verdict == REFUSED
    assert raises(ZeroDivisionError()).verdict == FAULT
    assert raises(Defect("The plan")).verdict == FAULT
    assert raises(Refusal("It failed.")).verdict == FAULT
    assert ill_said("one\ntwo: give less.") and ill_said("give less")

    raw = mesh_form("booleans", 1)
    plan, (mesh,) = planned_mesh(raw.vertices, raw.triangles, lambda box: settings_for(1, box, plain=True))
    (stack,) = plan.stacks
    assert judged(mesh, stack) in ("", NO_JUDGE)
    less = stack.layers[:1] + tuple(layer for layer in stack.layers[2:])
    assert "outside its blanks" in judged(mesh, replace(stack, layers=less))
