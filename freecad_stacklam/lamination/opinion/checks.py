# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a second opinion says to the maker."""

from __future__ import annotations

from freecad_stacklam.lamination.findings.deep import DeepFindings
from freecad_stacklam.lamination.lengths import format_place
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.refusal import told

#: Two figures that differ by less than this part of ours agree: a fit over stepped cells is within 5 % on a neck, and
#: reads low by up to 11 % where few cells lie across it (measured).
AGREED = 0.15
SOURCE = (
    "two other programs on a mesh of their own, with the same floor, load and stiffness: no proof, a test of the sums"
)
_NAME = "strength, second opinion"


def opinion_checks(findings: DeepFindings, units: str) -> tuple[Check, ...]:
    """One verdict where a second opinion was asked for: caution where there is none, or it differs."""
    found = findings.second_opinion
    if found is None:
        return ()
    if found.refused:
        return (Check(_NAME, "caution", 0.0, AGREED, "", SOURCE, told(found.refused, units)),)
    at, load = format_place(found.place, units), format_place(found.load_place, units)
    ours, theirs = (f"{index * 100:.1f} % of the mean strength" for index in (found.our_index, found.index))
    where = f"for the worst place at ({at}), under “{found.load}” at ({load})"
    if abs(found.difference) <= AGREED:
        verdict, says = "ok", f"A second opinion by another method gives {theirs} {where}; the deep check gives {ours}."
    else:
        verdict = "caution"
        both = found.kind if found.kind == found.our_kind else f"{found.kind}; {found.our_kind} by the deep check"
        says = (
            f"A second opinion by another method gives {theirs} {where}, the deep check {ours} ({both}): they differ "
            f"by {abs(found.difference) * 100:.0f} %. Go by the higher, and check it in finer cells."
        )
    return (Check(_NAME, verdict, round(abs(found.difference), 3), AGREED, "", SOURCE, says),)
