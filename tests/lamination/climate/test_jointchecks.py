# SPDX-License-Identifier: LGPL-2.1-or-later

"""A joint over the year, told in any language. Figures: see test_checks.py."""

from __future__ import annotations

from dataclasses import replace

from pseudo import same_but_marked
from seasons import seasons

from freecad_stacklam.lamination.climate.jointchecks import joint_checks, month_of
from freecad_stacklam.lamination.findings.seasons import MONTHS
from freecad_stacklam.lamination.plan.checks import Check


def test_every_verdict_on_a_joint_over_the_year_is_said_whole_in_any_language() -> None:
    found = seasons().joints
    tight = [replace(j, clearance=0.0, relief=0.0, spread=0.01) for j in found]

    def checks() -> list[Check]:
        return [c for j in (*found, *tight) for c in joint_checks(j, "mm")]

    verdicts = {c.verdict for c in same_but_marked(checks)}
    assert verdicts == {"ok", "caution"}


def test_the_month_with_the_most_is_named() -> None:
    year = tuple(float(m == 6) for m in range(12))
    assert month_of(year, True) == MONTHS[6] == "July"
    assert month_of(year, False) == "January"
