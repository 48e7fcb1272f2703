# SPDX-License-Identifier: LGPL-2.1-or-later

"""Cautions that are the same of several stacks or joints, told once: three alike legs ask for one reading, not three.

Each check stays in the report with its own figure; only the running text, at the front of the drawings and on the
command line, is gathered.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from freecad_stacklam.lamination.names import each_of
from freecad_stacklam.lamination.plan.checks import Check, about
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.words import say


@dataclass
class _Told:
    """A verdict, what it is about, and what else it holds of."""

    check: Check
    subject: str
    also: list[str] = field(default_factory=list)


def told_once(plan: Plan, checks: Sequence[Check]) -> tuple[Check, ...]:
    """Checks in their order, each caution whose sentence is another's with the like names in it left out, and those
    named at the end of the first. A sentence with another figure or another place is another sentence; stops stay."""
    members = {joint.name: {m.stack for m in joint.members} for joint in plan.joints}
    names = sorted({*members, *(stack.name for stack in plan.stacks)}, key=len, reverse=True)
    pattern = re.compile("|".join(rf"(?<!\w){re.escape(name)}(?!\w)" for name in names)) if names else None
    told: list[_Told] = []
    for check in checks:
        subject = about(check, names)
        if check.verdict == "caution" and subject and pattern is not None:
            like = next((one for one in told if _alike(one, check, subject, pattern, members)), None)
            if like is not None:
                like.also.append(subject)
                continue
        told.append(_Told(check, subject))
    return tuple(_with_others(one) for one in told)


def _alike(one: _Told, check: Check, subject: str, pattern: re.Pattern[str], members: dict[str, set[str]]) -> bool:
    """Whether a sentence is another's, with its own subject, and the stacks that only its own joint holds, in place."""
    if one.check.verdict != check.verdict or one.subject in ("", subject) or subject in one.also:
        return False
    if pattern.split(one.check.says) != pattern.split(check.says):
        return False
    mine, others = members.get(one.subject, set()), members.get(subject, set())
    if bool(mine) != bool(others):
        return False
    return all(
        a == b or (a, b) == (one.subject, subject) or (a in mine - others and b in others - mine)
        for a, b in zip(pattern.findall(one.check.says), pattern.findall(check.says), strict=True)
    )


def _with_others(one: _Told) -> Check:
    if not one.also:
        return one.check
    others = each_of(one.also)
    return replace(
        one.check, says=say("{sentence} The same holds for {others}.", sentence=one.check.says, others=others)
    )
