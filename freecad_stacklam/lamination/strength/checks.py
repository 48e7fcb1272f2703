# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on strength by sections. Sections never say that a piece holds: at best that no weak place was found."""

from __future__ import annotations

from collections.abc import Mapping

from freecad_stacklam.lamination.findings.strength import JointFinding, SectionFinding, StrengthFindings
from freecad_stacklam.lamination.lengths import format_length, format_place, rounded_up
from freecad_stacklam.lamination.plan.checks import NO_PLACES, Check, Place
from freecad_stacklam.lamination.quantities import format_force, format_pressure
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.strength.necks import LIMIT

PRACTICE = "common practice, no source"
SOURCE = (
    "sections by statics; mean strengths of small clear specimens, FPL-GTR-190 (2010) Table 5-3a; limit, a quarter of "
    f"the mean: {PRACTICE}"
)
JOINT = f"statics of a stiff peg; rolling shear 0.18 of shear along the grain, from memory; limit: {PRACTICE}"
#: What each kind of section is called in a sentence.
WORDS = {"neck": "neck", "overhang": "overhang", "span": "span between two supports", "wall": "hollow wall"}
#: A glue line of which less than this is left is told of.
LINE_LEFT = 0.5
#: What to do where nothing weak was found and the tables do not say how far the strength scatters.
TRY = (
    "How far such strength scatters is not known: load it by degrees, as with sandbags, to more than it is to carry, "
    "before anyone relies on it."
)
#: Where a use is greater by more than this part than that of the fibres, the shear makes it.
MUCH = 0.1
DANGER = "do not let anyone sit, stand or lean on it"


def strength_checks(
    findings: StrengthFindings, units: str = "mm", at_lines: Mapping[tuple[str, int], Place] = NO_PLACES
) -> tuple[Check, ...]:
    """The weak sections of each stack, the worst of the others in one verdict, the joints, the glue lines that lost
    much, and what could not be judged. Never better than caution: the tables have no variation for strength across the
    grain, and sections see no peaks. at_lines: a place of each glue line, by its stack and the layer under it."""
    worst = _worst_of_each(findings)
    found = [_section(s, findings.tenon, units) for s in worst if _use(s) > LIMIT]
    quiet = [s for s in worst if _use(s) <= LIMIT]
    found += [_quiet(quiet, units)] if quiet else []
    found += [_joint(j, units) for j in findings.joints]
    found += _lines(findings, units, at_lines)
    found += [
        Check(f"{one.what}: strength", "caution", 0.0, LIMIT, "", SOURCE, told(one.says, units))
        for one in findings.left_out
    ]
    return tuple(found)


def _use(finding: SectionFinding) -> float:
    return max(finding.use, finding.tenon_use)


def _worst_of_each(findings: StrengthFindings) -> list[SectionFinding]:
    """Of each stack its worst neck, and what of the rest is weak or worse than that."""
    found: list[SectionFinding] = []
    for stack in dict.fromkeys(s.stack for s in findings.sections):
        mine = [s for s in findings.sections if s.stack == stack]
        for kind in WORDS:
            of = [s for s in mine if s.kind == kind]
            worst = max(of, key=_use, default=None)
            if worst is not None and (_use(worst) > LIMIT or worst is max(mine, key=_use)):
                found.append(worst)
    return found


def _fact(s: SectionFinding, units: str) -> str:
    """What loads a section, and how near to breaking it is."""
    load = f"“{s.load}”" + (", which stays for years," if s.lasting else "")
    if s.use < s.tenon_use:
        return f"under {load} the tenon in it uses {s.tenon_use:.0%} of what breaks half of such wood"
    if s.use > (1 + MUCH) * abs(s.bending + s.axial) / s.strength:
        sheared = format_pressure(abs(s.shear), units)
        return f"under {load} it is sheared at {sheared}, {s.use:.0%} of what breaks half of such wood"
    stress, mean = format_pressure(abs(s.bending + s.axial), units), format_pressure(s.strength, units)
    return f"under {load} its fibres are stressed to {stress}, and {mean} is what breaks half of such wood"


def _quiet(sections: list[SectionFinding], units: str) -> Check:
    """The worst of the sections of which none is weak: one verdict for the whole piece."""
    s = max(sections, key=_use)
    where = f"layer {s.layer} of {s.stack} at ({format_place(s.place, units)}) in the model"
    stacks = " or ".join(dict.fromkeys(one.stack for one in sections))
    says = f"No weak section found in {stacks}: the worst is the {WORDS[s.kind]} in {where}; {_fact(s, units)}. {TRY}"
    return Check("strength by sections", "caution", _use(s), LIMIT, "", SOURCE, says, s.place)


def _section(s: SectionFinding, tenon: str, units: str) -> Check:
    """The verdict on a weak section."""
    what, use, fact = WORDS[s.kind], _use(s), _fact(s, units)
    name = f"{s.stack}: strength of its {what}"
    where = f"layer {s.layer} of {s.stack}, at ({format_place(s.place, units)}) in the model"
    do = f" {_mend(s, tenon, units)}"
    if use > 1:
        says = f"The {what} in {where} breaks by this reckoning: {fact}. Until it is changed, {DANGER}.{do}"
    else:
        says = f"The {what} in {where} is weak: {fact}: {use:.0%} in use where a quarter is usual.{do}"
    return Check(name, "caution", use, LIMIT, "", SOURCE, says, s.place)


def _mend(s: SectionFinding, tenon: str, units: str) -> str:
    """What would help, with a figure."""
    if s.do <= 0:
        return "Make it thicker, or the tenon stronger."
    size = format_length(rounded_up(s.do, units), units)
    if s.kind == "neck":
        helps = f"A neck of Ø {size} here would do"
        if s.with_tenon:
            return f"{helps}; so may a longer or thicker tenon."
        if tenon == "dry":
            return f"{helps}; so may a tenon through it that is glued all round, not dry."
        return f"{helps}; so may a tenon through it, glued all round and longer than the weak part."
    return f"A thickness of {size} here would do, or a support further out."


def _joint(j: JointFinding, units: str) -> Check:
    name = f"{j.name}: strength of the joint"
    load = f"“{j.load}”" + (", which stays for years," if j.lasting else "")
    bent, holds, pressed, crush = (format_pressure(p, units) for p in (j.bending, j.strength, j.bearing, j.crush))
    alone = f"alone its tenon bends at {bent} of {holds} and presses its mortise in {j.member} at {pressed} of {crush}"
    if j.way == "glued" and j.lever > 0:
        held = (
            f"; leaning on its shoulder, glued, it has {format_force(j.pull, units)} to hold down of "
            f"{format_force(j.holds, units)} (mean)"
        )
    else:
        held = "; it has no shoulder on that side that helps" if j.lever <= 0 else "; it stands dry, so no glue helps"
    out = "" if j.design is None else (
        f" Straight pull: count on no more than {format_force(j.design, units)} (screening estimate)."
    )  # fmt: skip
    fact = f"under {load} {alone}{held}"
    if j.use <= LIMIT:
        says = f"No weakness found in the joint {j.name}{_held_by(j, units)}{out} Try it by degrees with the piece."
    elif j.use <= 1:
        says = (
            f"The joint {j.name} is weak: {fact}. Let the tenon go deeper, make it thicker, or its shoulder wider.{out}"
        )
    else:
        says = (
            f"The joint {j.name} gives way by this reckoning: {fact}. Let the tenon go deeper, or make it or its "
            f"shoulder wider; until then {DANGER}.{out}"
        )
    return Check(name, "caution", j.use, LIMIT, "", JOINT, says, j.place)


def _held_by(j: JointFinding, units: str) -> str:
    """What holds a joint that is not weak: its tenon alone, or its glue and shoulder where the tenon would not do."""
    load = f"“{j.load}”" + (", which stays for years," if j.lasting else "")
    bent, holds, pressed, crush = (format_pressure(p, units) for p in (j.bending, j.strength, j.bearing, j.crush))
    wall = f"its mortise in {j.member} at {pressed} of {crush}"
    if j.use < j.alone:
        pull, most = format_force(j.pull, units), format_force(j.holds, units)
        return (
            f": under {load} it leans on its shoulder and its glued tenon holds down {pull} of {most} (mean). It rests "
            f"on that glue: dry, the tenon would press {wall}, so let the shoulder bear all round and wet all walls of "
            "the mortise with glue."
        )
    if j.way == "glued" and j.rolling / j.rolling_strength < j.bearing / j.crush:
        sheared, rolling = format_pressure(j.rolling, units), format_pressure(j.rolling_strength, units)
        wall = f"its glued walls carry {sheared} of {rolling} in shear"
        return f": under {load} its tenon bends at {bent} of {holds} and {wall}."
    return f": under {load} its tenon bends at {bent} of {holds} and presses {wall}."


def _lines(findings: StrengthFindings, units: str, at_lines: Mapping[tuple[str, int], Place]) -> list[Check]:
    """Of each stack the glue line of which least is left, where that is little."""
    found = []
    for stack in dict.fromkeys(line.stack for line in findings.lines):
        worst = min((line for line in findings.lines if line.stack == stack), key=lambda line: line.share)
        if worst.share >= LINE_LEFT:
            continue
        says = (
            f"Between layers {worst.interface} and {worst.interface + 1} of {stack} only {worst.share:.0%} of the glue "
            f"line is left beside mortises, voids and pins: leave more wood there, or let the weak line fall elsewhere."
        )
        if worst.overlap <= 0:
            says = (
                f"Layers {worst.interface} and {worst.interface + 1} of {stack} do not meet in the finished piece: "
                "change the form or the glue lines."
            )
        name = f"{stack}: glue line left"
        source, place = f"geometry of the plan; limit: {PRACTICE}", at_lines.get((stack, worst.interface))
        found.append(Check(name, "caution", worst.share, LINE_LEFT, "", source, says, place))
    return found
