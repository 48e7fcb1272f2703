# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sections and deep check as one report: where both name the same place one line is kept, the worse, with the other's
figure; and where one of them finds nothing weak, it does not say so in a line of its own beside a weakness."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import dist

from freecad_stacklam.lamination.findings.deep import WeakSpot
from freecad_stacklam.lamination.findings.strength import SectionFinding
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.strength.checks import percent, use_of
from freecad_stacklam.lamination.strength.necks import LIMIT
from freecad_stacklam.lamination.stress.checks import weak
from freecad_stacklam.lamination.words import say

#: Two places of one stack nearer than this, mm, are one: as far as the deep check stays away from a load.
SAME_PLACE = 45.0

Sections = Sequence[tuple[SectionFinding, Check]]
Spots = Sequence[tuple[WeakSpot, Check]]


def in_one(sections: Sections, spots: Spots) -> tuple[Check, ...]:
    """The verdicts on sections and on spots of the deep check, each place once."""
    kept = [check for _, check in (*sections, *spots)]

    def one_of(worse: Check, other: Check, words: str) -> None:
        verdict = other.verdict if other.verdict == "stop" else worse.verdict
        kept[kept.index(worse)] = replace(worse, verdict=verdict, says=f"{worse.says} {words}")
        kept.remove(other)

    left = list(sections)
    for spot, deep in spots:
        other = _of_same(spot, left)
        if other is None:
            continue
        section, plain = other
        use = use_of(section)
        if use > LIMIT and (not weak(spot) or use > spot.index):
            finds = (
                say("The deep check finds {use}.", use=_found(spot))
                if same_place(section, spot)
                else say("The deep check finds no more than {use}.", use=_found(spot))
            )
            one_of(plain, deep, finds)
        elif use > LIMIT or weak(spot) or spot.index >= use:
            finds = (
                say("By sections it is {use}.", use=percent(use))
                if same_place(section, spot)
                else say("By sections nothing is above {use}.", use=percent(use))
            )
            one_of(deep, plain, finds)
        else:
            one_of(plain, deep, say("The deep check finds no more than {use}.", use=_found(spot)))
        left.remove(other)
    return tuple(kept)


def _of_same(spot: WeakSpot, sections: Sections) -> tuple[SectionFinding, Check] | None:
    """What the sections say of the same: of the place where both are weak, and of the whole where one of them is not.
    A strength along the grain that is far from its limit is no word on one across it."""
    if not weak(spot):
        return None if spot.scatter_known else max(sections, key=lambda one: use_of(one[0]), default=None)
    own = () if spot.scatter_known else sections
    near = [one for one in own if use_of(one[0]) > LIMIT and same_place(one[0], spot)]
    quiet = [one for one in sections if use_of(one[0]) <= LIMIT]
    return max(near or quiet, key=lambda one: use_of(one[0]), default=None)


def same_place(section: SectionFinding, spot: WeakSpot) -> bool:
    """Whether both name one place: of one stack, in the same layer or its neighbour, or near each other."""
    if section.stack != spot.stack:
        return False
    return abs(section.layer - spot.layer) <= 1 or dist(section.place, spot.place) <= SAME_PLACE


def _found(spot: WeakSpot) -> str:
    """How much of the limit, and what breaks there, where it is another thing than what sections look at."""
    used = percent(spot.index)
    return used if spot.kind == "across the grain" else f"{used} ({say(spot.kind)})"
