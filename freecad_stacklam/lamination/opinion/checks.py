# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a second opinion says to the maker."""

from __future__ import annotations

from freecad_stacklam.lamination.findings.deep import DeepFindings
from freecad_stacklam.lamination.lengths import format_place
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.words import mark, say

#: Two figures that differ by less than this part of ours agree: a fit over stepped cells is within 5 % on a neck, and
#: reads low by up to 11 % where few cells lie across it (measured).
AGREED = 0.15
SOURCE = mark(
    "two other programs on a mesh of their own, with the same floor, load and stiffness: no proof, a test of the sums"
)
_NAME = mark("strength, second opinion")
_FINER = mark("Go by the higher, and check it in finer cells.")
_CORNER = mark(
    "The place lies in an inner corner, where stress grows with the sharpness of the corner and with finer cells, so "
    "that neither figure is a strength: go by the higher, round the corner, and trust the places away from it."
)


def opinion_checks(findings: DeepFindings, units: str) -> tuple[Check, ...]:
    """One verdict where a second opinion was asked for: caution where there is none, or it differs."""
    found = findings.second_opinion
    if found is None:
        return ()
    if found.refused:
        return (Check(say(_NAME), "caution", 0.0, AGREED, "", say(SOURCE), told(found.refused, units)),)
    at, load = format_place(found.place, units), format_place(found.load_place, units)
    ours, theirs = (
        say("{index:.1f} % of the mean strength", index=index * 100) for index in (found.our_index, found.index)
    )
    where = say(
        "for the worst place at ({at}), under “{load}” at ({load_place})", at=at, load=found.load, load_place=load
    )
    if abs(found.difference) <= AGREED:
        verdict, says = (
            "ok",
            say(
                "A second opinion by another method gives {theirs} {where}; the deep check gives {ours}.",
                theirs=theirs,
                where=where,
                ours=ours,
            ),
        )
    else:
        verdict = "caution"
        both = (
            found.kind
            if found.kind == found.our_kind
            else say("{kind}; {our_kind} by the deep check", kind=found.kind, our_kind=found.our_kind)
        )
        says = say(
            "A second opinion by another method gives {theirs} {where}, the deep check {ours} ({both}): they differ "
            "by {difference:.0f} %. {what}",
            theirs=theirs,
            where=where,
            ours=ours,
            both=both,
            difference=abs(found.difference) * 100,
            what=say(_CORNER) if _in_corner(findings) else say(_FINER),
        )
    return (Check(say(_NAME), verdict, round(abs(found.difference), 3), AGREED, "", say(SOURCE), says),)


def _in_corner(findings: DeepFindings) -> bool:
    """Whether the place that both looked at lies in an inner corner."""
    at = findings.second_opinion.place if findings.second_opinion is not None else None
    return any(spot.corner for spot in findings.judged if spot.place == at)
