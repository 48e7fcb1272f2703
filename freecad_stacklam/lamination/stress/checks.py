# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the deep check says to the maker: across the grain and at glue lines, along the grain, and what is left."""

from __future__ import annotations

from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot
from freecad_stacklam.lamination.lengths import format_place
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.refusal import told

#: Below this part of its mean strength a piece holds, where it is known how far the strength scatters.
HOLDS = 0.5
#: Where that is not known, the part of it that is usual: as the sections are judged (common practice, no source).
USUAL = 0.25
SOURCE = "own elastic model of the whole piece; strengths are means of FPL-GTR-190 Table 5-3a: an estimate, no proof"
_NAME = "strength, whole piece"


def deep_checks(findings: DeepFindings, units: str) -> tuple[Check, ...]:
    """The verdicts. A strength across the grain is never better than a caution: the table does not say how far it
    scatters. No verdict is a stop: the maker decides."""
    if findings.refused:
        return (Check(_NAME, "caution", 0.0, 0.0, "", SOURCE, told(findings.refused, units)),)
    checks = [_of(spot, findings, units) for spot in _worst_two(findings)]
    if not _whole(findings):
        says = findings.untried or (
            "The deep check was stopped before its end, so a worse place may be left: let it run through."
        )
        checks.append(Check(f"{_NAME}, not finished", "caution", 0.0, 0.0, "", SOURCE, says))
    checks += [
        Check(f"{_NAME}, doubtful", "caution", 0.0, 0.0, "", SOURCE, told(one, units)) for one in findings.cautions
    ]
    return tuple(checks)


def _whole(findings: DeepFindings) -> bool:
    """Whether all was looked at."""
    return not findings.stopped and not findings.untried


def _worst_two(findings: DeepFindings) -> list[WeakSpot]:
    """The worst spot whose strength is known with its scatter, and the worst of the others."""
    both = [[s for s in findings.judged if s.scatter_known == known] for known in (False, True)]
    return [max(some, key=lambda s: s.index) for some in both if some]


def _of(spot: WeakSpot, findings: DeepFindings, units: str) -> Check:
    where = f"on the tenon of “{spot.tenon}”" if spot.tenon else f"in layer {spot.layer} of {spot.stack}"
    place, load_place = format_place(spot.place, units), format_place(spot.load_place, units)
    at = f"{where} at ({place}), under “{spot.load}” at ({load_place})"
    share = f"{spot.index * 100:.0f} % of the mean strength ({spot.kind})"
    verdict = "caution"
    if spot.index > 1:
        says = f"It breaks {at}: {share}. Do not let anyone sit on it; make it thicker there, or run a tenon through."
    elif spot.index >= HOLDS:
        says = f"It may break {at}: {share}, and many pieces are weaker. Make it thicker there, or run a tenon through."
    elif not spot.scatter_known and spot.index > USUAL:
        says = (
            f"Weak {at}: {share}, where a quarter is usual, for how far that strength scatters is not known. Make it "
            f"thicker there, or run a tenon through; else carry less."
        )
    elif not spot.scatter_known:
        says = (
            f"Nothing weak found; the worst is {at}: {share}. How far that strength scatters is not known: load it by "
            f"degrees, as with sandbags, to more than it is to carry, before anyone relies on it."
        )
    elif not _whole(findings):
        says = f"Worst so far {at}: {share}. The check did not run through to its end."
    else:
        verdict, says = "ok", f"It holds: worst {at}, {share}."
    bare = findings.without_tenon
    if bare is not None and spot.index < bare.index and not spot.scatter_known:
        says += f" Without its tenons it would be {bare.index * 100:.0f} %."
    name = _NAME if spot.scatter_known else f"{_NAME}, across the grain"
    limit = 1.0 if spot.index > 1 else HOLDS if spot.scatter_known else USUAL
    return Check(name, verdict, round(spot.index, 3), limit, "", SOURCE, says)
