# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the deep check says to the maker: across the grain and at glue lines, along the grain, and what is left."""

from __future__ import annotations

from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import format_place
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.strength.checks import DANGER, TRY, of_mean, percent, quarter_source, times, weakest
from freecad_stacklam.lamination.strength.necks import LIMIT
from freecad_stacklam.lamination.wood.scatter import SOURCE as SCATTER
from freecad_stacklam.lamination.wood.scatter import VARIATION, twentieth
from freecad_stacklam.lamination.words import mark, say

#: Below this part of its mean strength a piece holds, where it is known how far the strength scatters: what one piece
#: in twenty does not reach in bending, 74 % of the mean, over 1.5 for knots and short grain (common practice).
HOLDS = 0.5
#: Where that is not known, the part of it that is usual: as the sections are judged.
USUAL = LIMIT
_MODEL = mark(
    "own elastic model of the whole piece; strengths are means of FPL-GTR-190 Table 5-3a: an estimate, no proof"
)
_KNOWN = mark(
    "{model}; limit, half of the mean: what one piece in twenty does not reach in bending (74 %, {scatter}) over 1.5 "
    "for knots and short grain (common practice)"
)
_NAME = mark("strength, whole piece")
#: Which variation is that of a kind of break.
_SCATTERS = {"along the grain": "bending", "shear along the grain": "shear"}


def _known_source() -> str:
    """The rule where it is known how far the strength scatters."""
    return say(_KNOWN, model=say(_MODEL), scatter=say(SCATTER))


def _usual_source() -> str:
    """The rule where that is not known."""
    return f"{say(_MODEL)}; {quarter_source()}"


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
        return (Check(say(_NAME), "caution", 0.0, 0.0, "", say(_MODEL), told(findings.refused, units)),)
    checks = []
    if not _whole(findings):
        says = findings.untried or (
            say("The deep check was stopped before its end, so a worse place may be left: let it run through.")
        )
        checks.append(Check(say("{name}, not finished", name=say(_NAME)), "caution", 0.0, 0.0, "", say(_MODEL), says))
    checks += [
        Check(say("{name}, doubtful", name=say(_NAME)), "caution", 0.0, 0.0, "", say(_MODEL), told(one, units))
        for one in findings.cautions
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
    where = (
        say("on the tenon of “{tenon}”", tenon=spot.tenon)
        if spot.tenon
        else say("in layer {layer} of {stack}", layer=spot.layer, stack=spot.stack)
    )
    return say("{where}, at ({place}) in the model", where=where, place=format_place(spot.place, units))


def _of(spot: WeakSpot, findings: DeepFindings, units: str) -> Check:
    at = say(
        "{spot}, under “{load}” at ({load_place})",
        spot=place_of(spot, units),
        load=spot.load,
        load_place=format_place(spot.load_place, units),
    )
    share = f"{of_mean(spot.index, mark('the mean strength'))} ({shown(spot.kind)})"
    cov = VARIATION.get(_SCATTERS.get(spot.kind, "")) if spot.scatter_known else None
    verdict = "caution"
    if spot.index > 1:
        verdict = "caution" if spot.corner else "stop"  # what a sharp corner reads is no strength
        says = say(
            "It breaks {at}: {share}. Until it is changed, {danger}: {spot}.",
            at=at,
            share=share,
            danger=say(DANGER),
            spot=_mend(spot),
        )
    elif spot.index >= twentieth(cov):
        says = say(
            "{danger}: {at}, it is at {share}, and {cov}. {spot}.",
            danger=_first_up(say(DANGER)),
            at=at,
            share=share,
            cov=weakest(cov),
            spot=_first_up(_mend(spot)),
        )
    elif spot.scatter_known and spot.index >= HOLDS:
        says = say(
            "Little to spare {at}: {share}, where half is usual. {spot}.",
            at=at,
            share=share,
            spot=_first_up(_mend(spot)),
        )
    elif not spot.scatter_known and spot.index > USUAL:
        says = say(
            "Weak {at}: {share}, where a quarter is usual. {spot}; else carry less.",
            at=at,
            share=share,
            spot=_first_up(_mend(spot)),
        )
    elif not spot.scatter_known:
        says = say("Nothing weak found; the worst is {at}: {share}. {advice}", at=at, share=share, advice=say(TRY))
    elif not _whole(findings):
        says = say("Worst so far {at}: {share}. The check did not run through to its end.", at=at, share=share)
    else:
        verdict, says = "ok", say("It holds along the grain: worst {at}, {share}.", at=at, share=share)
    bare = findings.without_tenon
    if bare is not None and spot.index < bare.index and not spot.scatter_known:
        says += say(" Without its tenons it would be {index}.", index=percent(bare.index))
    if spot.corner:
        says += say(" It is an inner corner, where the figure hangs on how sharp the corner is: round it.")
    name = say(_NAME) if spot.scatter_known else say("{name}, across the grain", name=say(_NAME))
    limit = HOLDS if spot.scatter_known else USUAL
    source = _known_source() if spot.scatter_known else _usual_source()
    return Check(name, verdict, round(spot.index, 3), limit, "", source, says, spot.place)


def _mend(spot: WeakSpot) -> str:
    """What would help, with a figure: bending stress goes down with the cube of all a section's sizes, shear with the
    square."""
    power = 2 if "shear" in spot.kind else 3
    thicker = (spot.index / (HOLDS if spot.scatter_known else USUAL)) ** (1 / power)
    if spot.tenon:
        return say("make the tenon {thicker} as thick", thicker=times(thicker))
    through = "" if spot.scatter_known else say(", or run a tenon through that place")
    return say("make it {thicker} as thick there{through}", thicker=times(thicker), through=through)


def _first_up(words: str) -> str:
    return words[:1].upper() + words[1:]
