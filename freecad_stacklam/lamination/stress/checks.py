# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the deep check says to the maker: across the grain and at glue lines, along the grain, and what is left."""

from __future__ import annotations

from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot
from freecad_stacklam.lamination.lengths import format_place
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.strength.checks import DANGER, QUARTER, TRY, of_mean, percent, times, weakest
from freecad_stacklam.lamination.strength.necks import LIMIT
from freecad_stacklam.lamination.wood.scatter import SOURCE as SCATTER
from freecad_stacklam.lamination.wood.scatter import VARIATION, twentieth

#: Below this part of its mean strength a piece holds, where it is known how far the strength scatters: what one piece
#: in twenty does not reach in bending, 74 % of the mean, over 1.5 for knots and short grain (common practice).
HOLDS = 0.5
#: Where that is not known, the part of it that is usual: as the sections are judged.
USUAL = LIMIT
_MODEL = "own elastic model of the whole piece; strengths are means of FPL-GTR-190 Table 5-3a: an estimate, no proof"
KNOWN = (
    f"{_MODEL}; limit, half of the mean: what one piece in twenty does not reach in bending (74 %, {SCATTER}) over 1.5 "
    "for knots and short grain (common practice)"
)
SOURCE = f"{_MODEL}; {QUARTER}"
_NAME = "strength, whole piece"
#: Which variation is that of a kind of break.
_SCATTERS = {"along the grain": "bending", "shear along the grain": "shear"}


def deep_checks(findings: DeepFindings, units: str) -> tuple[Check, ...]:
    """The verdicts. A strength across the grain is never better than a caution: the table does not say how far it
    scatters. A stop where half of all such pieces would break, but in an inner corner."""
    return (*(check for _, check in spot_checks(findings, units)), *unfinished_checks(findings, units))


def spot_checks(findings: DeepFindings, units: str) -> tuple[tuple[WeakSpot, Check], ...]:
    """The verdicts on places, each with its spot; none where the check was refused."""
    if findings.refused:
        return ()
    return tuple((spot, _of(spot, findings, units)) for spot in _worst_two(findings))


def unfinished_checks(findings: DeepFindings, units: str) -> tuple[Check, ...]:
    """What could not be checked to its end."""
    if findings.refused:
        return (Check(_NAME, "caution", 0.0, 0.0, "", _MODEL, told(findings.refused, units)),)
    checks = []
    if not _whole(findings):
        says = findings.untried or (
            "The deep check was stopped before its end, so a worse place may be left: let it run through."
        )
        checks.append(Check(f"{_NAME}, not finished", "caution", 0.0, 0.0, "", _MODEL, says))
    checks += [
        Check(f"{_NAME}, doubtful", "caution", 0.0, 0.0, "", _MODEL, told(one, units)) for one in findings.cautions
    ]
    return tuple(checks)


def weak(spot: WeakSpot) -> bool:
    """Whether a place is told as weak."""
    return spot.index >= HOLDS if spot.scatter_known else spot.index > USUAL


def _whole(findings: DeepFindings) -> bool:
    """Whether all was looked at."""
    return not findings.stopped and not findings.untried


def _worst_two(findings: DeepFindings) -> list[WeakSpot]:
    """The worst spot whose strength is known with its scatter, and the worst of the others."""
    both = [[s for s in findings.judged if s.scatter_known == known] for known in (False, True)]
    return [max(some, key=lambda s: s.index) for some in both if some]


def place_of(spot: WeakSpot, units: str) -> str:
    """Where a spot lies, in words."""
    where = f"on the tenon of “{spot.tenon}”" if spot.tenon else f"in layer {spot.layer} of {spot.stack}"
    return f"{where}, at ({format_place(spot.place, units)}) in the model"


def _of(spot: WeakSpot, findings: DeepFindings, units: str) -> Check:
    at = f"{place_of(spot, units)}, under “{spot.load}” at ({format_place(spot.load_place, units)})"
    share = f"{of_mean(spot.index, 'the mean strength')} ({spot.kind})"
    cov = VARIATION.get(_SCATTERS.get(spot.kind, "")) if spot.scatter_known else None
    verdict = "caution"
    if spot.index > 1:
        verdict = "caution" if spot.corner else "stop"  # what a sharp corner reads is no strength
        says = f"It breaks {at}: {share}. Until it is changed, {DANGER}: {_mend(spot)}."
    elif spot.index >= twentieth(cov):
        says = f"{_first_up(DANGER)}: {at}, it is at {share}, and {weakest(cov)}. {_first_up(_mend(spot))}."
    elif spot.scatter_known and spot.index >= HOLDS:
        says = f"Little to spare {at}: {share}, where half is usual. {_first_up(_mend(spot))}."
    elif not spot.scatter_known and spot.index > USUAL:
        says = f"Weak {at}: {share}, where a quarter is usual. {_first_up(_mend(spot))}; else carry less."
    elif not spot.scatter_known:
        says = f"Nothing weak found; the worst is {at}: {share}. {TRY}"
    elif not _whole(findings):
        says = f"Worst so far {at}: {share}. The check did not run through to its end."
    else:
        verdict, says = "ok", f"It holds along the grain: worst {at}, {share}."
    bare = findings.without_tenon
    if bare is not None and spot.index < bare.index and not spot.scatter_known:
        says += f" Without its tenons it would be {percent(bare.index)}."
    if spot.corner:
        says += " It is an inner corner, where the figure hangs on how sharp the corner is: round it."
    name = _NAME if spot.scatter_known else f"{_NAME}, across the grain"
    limit = HOLDS if spot.scatter_known else USUAL
    source = KNOWN if spot.scatter_known else SOURCE
    return Check(name, verdict, round(spot.index, 3), limit, "", source, says, spot.place)


def _mend(spot: WeakSpot) -> str:
    """What would help, with a figure: bending stress goes down with the cube of all a section's sizes, shear with the
    square."""
    power = 2 if "shear" in spot.kind else 3
    thicker = (spot.index / (HOLDS if spot.scatter_known else USUAL)) ** (1 / power)
    if spot.tenon:
        return f"make the tenon {times(thicker)} as thick"
    through = "" if spot.scatter_known else ", or run a tenon through that place"
    return f"make it {times(thicker)} as thick there{through}"


def _first_up(words: str) -> str:
    return words[:1].upper() + words[1:]
