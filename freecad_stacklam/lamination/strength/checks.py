# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on strength by sections. Sections never say that a piece holds: at best that no weak place was found.

From the share of the mean strength that one piece in twenty does not reach, nobody is to sit on it, and the sentence
says so plainly.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil, sqrt

from freecad_stacklam.lamination.findings.strength import JointFinding, SectionFinding, StrengthFindings
from freecad_stacklam.lamination.lengths import format_length, format_place, rounded_up
from freecad_stacklam.lamination.names import any_of
from freecad_stacklam.lamination.plan.checks import NO_PLACES, Check, Place
from freecad_stacklam.lamination.quantities import format_force, format_pressure
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.strength.necks import LIMIT
from freecad_stacklam.lamination.tolerances import WHOLE
from freecad_stacklam.lamination.wood.scatter import SOURCE as SCATTER
from freecad_stacklam.lamination.wood.scatter import twentieth
from freecad_stacklam.lamination.wood.strengths import duration_factor
from freecad_stacklam.lamination.words import mark, quoted, say, say_of

PRACTICE = mark("common practice, no source")
#: Why a quarter: 54 % over the 2.3 by which ASTM D245 lowers hardwood in bending (from memory) is 23 %.
QUARTER = mark(
    "limit, a quarter of the mean: what 19 pieces in 20 reach if strength across the grain scatters as widely as any "
    "in {scatter} (28 %: 54 % of the mean), over 2.3 for knots, short grain and years of use (ASTM D245, from memory), "
    "rounded"
)
_SECTIONS = mark(
    "sections by statics; mean strengths of small clear specimens, FPL-GTR-190 (2010) Table 5-3a; {quarter}; nobody to "
    "sit on it: from what one piece in twenty does not reach, the mean less 1.645 standard deviations ({scatter})"
)
_PEG = mark("statics of a stiff peg; rolling shear 0.18 of shear along the grain, from memory; {quarter}")
#: What each kind of section is called in a sentence.
WORDS = {
    "neck": mark("neck"),
    "overhang": mark("overhang"),
    "span": mark("span between two supports"),
    "wall": mark("hollow wall"),
}
#: A glue line of which less than this is left is told of.
LINE_LEFT = 0.5
#: What to do where nothing weak was found and the tables do not say how far the strength scatters.
TRY = mark(
    "How far such strength scatters is not known: load it by degrees, as with sandbags, to more than it is to carry, "
    "before anyone relies on it."
)
#: A share above the first is told as many times, for its figure says no more; one below the second as next to nothing.
MANY, LEAST_TOLD = 10.0, 0.01
#: Where a use is greater by more than this part than that of the fibres, the shear makes it.
MUCH = 0.1
DANGER = mark("do not let anyone sit, stand or lean on it")
#: Within this angle of square to the grain, degrees, another wood's strength across it is what counts.
_ACROSS = 80.0
#: Strongest across the grain of the woods in the handbook's table, MPa: American beech (FPL-GTR-190, 2010, Table 5-3a).
STRONGEST_ACROSS = 7.0
#: What few reach, MPa: of the bundled woods yellow birch, white ash and American beech (same table).
FEW_HOLD = 6.0


def quarter_source() -> str:
    """Why the limit is a quarter of the mean, with its source."""
    return say(QUARTER, scatter=say(SCATTER))


def sections_source() -> str:
    """By which rule sections are judged."""
    return say(_SECTIONS, quarter=quarter_source(), scatter=say(SCATTER))


def strength_checks(
    findings: StrengthFindings, units: str = "mm", at_lines: Mapping[tuple[str, int], Place] = NO_PLACES
) -> tuple[Check, ...]:
    """The weak sections of each stack, the worst of the others in one verdict, the joints, the glue lines that lost
    much, and what could not be judged. A stop where half of all such pieces would break; never better than caution:
    the tables have no variation for strength across the grain, and sections see no peaks. at_lines: a place of each
    glue line, by its stack and the layer under it."""
    return (*(check for _, check in section_checks(findings, units)), *other_checks(findings, units, at_lines))


def section_checks(findings: StrengthFindings, units: str = "mm") -> tuple[tuple[SectionFinding, Check], ...]:
    """The verdicts on sections, each with the section that it is on: the weak ones, then the worst of the others."""
    worst = _worst_of_each(findings)
    weak = sorted((s for s in worst if use_of(s) > LIMIT), key=use_of, reverse=True)
    found = [(s, _section(s, findings.tenon, units, "" if i else say(DANGER))) for i, s in enumerate(weak)]
    quiet = [s for s in worst if use_of(s) <= LIMIT]
    if quiet:
        found.append((max(quiet, key=use_of), _quiet(quiet, units)))
    return tuple(found)


def other_checks(
    findings: StrengthFindings, units: str = "mm", at_lines: Mapping[tuple[str, int], Place] = NO_PLACES
) -> tuple[Check, ...]:
    """All other verdicts: joints, glue lines, and what could not be judged. at_lines: as for strength_checks."""
    found = [_joint(j, units) for j in findings.joints]
    found += _lines(findings, units, at_lines)
    found += [
        Check(
            say("{what}: strength", what=one.what), "caution", 0.0, LIMIT, "", sections_source(), told(one.says, units)
        )
        for one in findings.left_out
    ]
    return tuple(found)


def use_of(finding: SectionFinding) -> float:
    """The greatest use in a section, of the layers or of a tenon."""
    return max(finding.use, finding.tenon_use)


def _worst_of_each(findings: StrengthFindings) -> list[SectionFinding]:
    """Of each stack its worst neck, and what of the rest is weak or worse than that."""
    found: list[SectionFinding] = []
    for stack in dict.fromkeys(s.stack for s in findings.sections):
        mine = [s for s in findings.sections if s.stack == stack]
        for kind in WORDS:
            of = [s for s in mine if s.kind == kind]
            worst = max(of, key=use_of, default=None)
            if worst is not None and (use_of(worst) > LIMIT or worst is max(mine, key=use_of)):
                found.append(worst)
    return found


def percent(share: float) -> str:
    """A share as the checks write it: "92 %"."""
    if share > MANY:
        return say("more than {many:.0f} times", many=MANY)
    return say("less than 1 %") if 0 < share < LEAST_TOLD else f"{100 * share:.0f} %"


def of_mean(share: float, strength: str = mark("its mean strength")) -> str:
    """A share of a strength in words: "92 % of its mean strength", "more than 10 times its mean strength"."""
    return (
        say("{share} {strength}", share=percent(share), strength=say(strength))
        if share > MANY
        else say("{share} of {strength}", share=percent(share), strength=say(strength))
    )


def weakest(cov: float | None) -> str:
    """What one piece in twenty holds of the mean, in words."""
    if cov is None:
        return say("one piece in twenty may hold no more than {twentieth} of it", twentieth=percent(twentieth(None)))
    return say("one piece in twenty holds no more than {cov} of it", cov=percent(twentieth(cov)))


def _fact(s: SectionFinding, units: str) -> str:
    """What loads a section, and what that does to it."""
    load = quoted(s.load) + (say(", which stays for years,") if s.lasting else "")
    if s.use < s.tenon_use:
        return say("under {load} the tenon in it is what is worst off", load=load)
    if _sheared(s):
        return say("under {load} it is sheared at {shear}", load=load, shear=format_pressure(abs(s.shear), units))
    stress, mean = format_pressure(abs(s.bending + s.axial), units), format_pressure(s.strength, units)
    return say(
        "under {load} its fibres are stressed to {stress}, and {mean} breaks half of such wood",
        load=load,
        stress=stress,
        mean=mean,
    )


def _sheared(s: SectionFinding) -> bool:
    """Whether shear makes the use."""
    return s.use > (1 + MUCH) * abs(s.bending + s.axial) / s.strength


def _quiet(sections: list[SectionFinding], units: str) -> Check:
    """The worst of the sections of which none is weak: one verdict for the whole piece."""
    s = max(sections, key=use_of)
    where = say(
        "layer {layer} of {stack} at ({place}) in the model",
        layer=s.layer,
        stack=s.stack,
        place=format_place(s.place, units),
    )
    stacks = any_of(list(dict.fromkeys(one.stack for one in sections)))
    says = say(
        "No weak section found in {stacks}: the worst is the {words} in {where}, at {set_up}; {fact}. {advice}",
        stacks=stacks,
        words=say(WORDS[s.kind]),
        where=where,
        set_up=of_mean(use_of(s)),
        fact=_fact(s, units),
        advice=say(TRY),
    )
    return Check(say("strength by sections"), "caution", use_of(s), LIMIT, "", sections_source(), says, s.place)


def _section(s: SectionFinding, tenon: str, units: str, danger: str) -> Check:
    """The verdict on a weak section. danger: what must not be done while it is so; "" where another line says it."""
    what, use, fact = say(WORDS[s.kind]), use_of(s), _fact(s, units)
    cov = s.cov if s.use >= s.tenon_use else None
    name = say("{stack}: strength of its {what}", stack=s.stack, what=what)
    where = say(
        "the {what} in layer {layer} of {stack}, at ({place}) in the model,",
        what=what,
        layer=s.layer,
        stack=s.stack,
        place=format_place(s.place, units),
    )
    mend = _mend(s, tenon, units)
    if use > 1:
        breaks = say(
            "{where} breaks by this reckoning, at {use}: {fact}.", where=_first_up(where), use=of_mean(use), fact=fact
        )
        says = (
            say("{breaks} Until it is changed, {danger}: {mend}", breaks=breaks, danger=danger, mend=mend)
            if danger
            else f"{breaks} {_first_up(mend)}"
        )
    elif use >= twentieth(cov):
        may = say(
            "{where} is at {use}, and {cov}; {fact}. {mend}",
            where=where,
            use=of_mean(use),
            cov=weakest(cov),
            fact=fact,
            mend=_first_up(mend),
        )
        says = f"{_first_up(danger)}: {may}" if danger else _first_up(may)
    else:
        share = say("at {use} where a quarter is usual", use=of_mean(use))
        says = say(
            "{where} is weak, {share}: {fact}. {mend}",
            where=_first_up(where),
            share=share,
            fact=fact,
            mend=_first_up(mend),
        )
    return Check(name, "stop" if use > 1 else "caution", use, LIMIT, "", sections_source(), says, s.place)


def _first_up(words: str) -> str:
    return words[:1].upper() + words[1:]


def _mend(s: SectionFinding, tenon: str, units: str) -> str:
    """What would help, with a figure, as the end of a sentence."""
    if s.do <= 0:  # the layers are strong enough, and the tenon in them is not
        return say(
            "make the tenon {tenon_use} as thick, or the {words} thicker.",
            tenon_use=times((s.tenon_use / LIMIT) ** (1 / 3)),
            words=say(WORDS[s.kind]),
        )
    size = format_length(rounded_up(s.do, units), units)
    if s.kind != "neck":
        nearer = {
            "overhang": say(", or bring a support nearer"),
            "span": say(", or bring the supports nearer to each other"),
        }
        return say(
            "make it {size} thick there{kind}{set_up}.", size=size, kind=nearer.get(s.kind, ""), set_up=_wood(s, units)
        )
    ways = [say("make the neck Ø {size} there", size=size)]
    if s.with_tenon:
        ways.append(say("the tenon longer or thicker"))
    elif tenon == "dry" and s.whole < s.use:  # it is mortised there
        ways.append(say("glue the tenon all round, not dry"))
    else:
        ways.append(say("run a tenon through it, glued all round and longer than the weak part"))
    return f"{', or '.join(ways)}{_wood(s, units)}."


def _wood(s: SectionFinding, units: str) -> str:
    """Whether another wood would do."""
    if s.angle < _ACROSS or s.bending + s.axial <= 0 or _sheared(s):
        return ""
    wanted = s.strength / duration_factor(s.lasting) * s.use / LIMIT
    if wanted > STRONGEST_ACROSS:
        return say("; another wood alone does not mend it")
    few = say(" (few do)") if wanted > FEW_HOLD else ""
    return say(
        ", or take a wood that holds {wanted} across its grain{few}", wanted=format_pressure(wanted, units), few=few
    )


def times(factor: float) -> str:
    """A factor in words, rounded up: “1.4 times”."""
    return say("{factor:.1f} times", factor=ceil(factor * 10 - WHOLE) / 10)


def _joint(j: JointFinding, units: str) -> Check:
    name = say("{name}: strength of the joint", name=j.name)
    load = quoted(j.load) + (say(", which stays for years,") if j.lasting else "")
    bent, holds, pressed, crush = (format_pressure(p, units) for p in (j.bending, j.strength, j.bearing, j.crush))
    alone = say(
        "its tenon by itself bends at {bent} of {holds} and presses its mortise in {member} at {pressed} of {crush}",
        bent=bent,
        holds=holds,
        member=j.member,
        pressed=pressed,
        crush=crush,
    )
    if j.way == "glued" and j.lever > 0:
        held = say(
            "; leaning on its shoulder, glued, it has {pull} to hold down of {holds} (mean)",
            pull=format_force(j.pull, units),
            holds=format_force(j.holds, units),
        )
    else:
        held = (
            say("; it has no shoulder on that side that helps")
            if j.lever <= 0
            else say("; it stands dry, so no glue helps")
        )
    out = (
        ""
        if j.design is None
        else (
            say(
                " Straight pull: count on no more than {design} (screening estimate).",
                design=format_force(j.design, units),
            )
        )
    )
    fact = say("under {load} {alone}{held}", load=load, alone=alone, held=held)
    if j.use <= LIMIT:
        says = say(
            "No weakness found in the joint “{name}”{held_by}{out} Try it by degrees with the piece.",
            name=j.name,
            held_by=_held_by(j, units),
            out=out,
        )
    elif j.use <= twentieth(None):
        says = say(
            "The joint “{name}” is weak, at {use} of the mean where a quarter is usual: {fact}. {advice}.{out}",
            name=j.name,
            use=percent(j.use),
            fact=fact,
            advice=_first_up(_deeper(j)),
            out=out,
        )
    elif j.use <= 1:
        says = say(
            "{danger}: the joint “{name}” is at {use}, and {weakest}; {fact}. {advice}.{out}",
            danger=_first_up(say(DANGER)),
            name=j.name,
            use=of_mean(j.use),
            weakest=weakest(None),
            fact=fact,
            advice=_first_up(_deeper(j)),
            out=out,
        )
    else:
        gives = say(
            "The joint “{name}” gives way by this reckoning, at {use}: {fact}.",
            name=j.name,
            use=of_mean(j.use),
            fact=fact,
        )
        says = say(
            "{gives} Until it is changed, {danger}: {advice}.{out}",
            gives=gives,
            danger=say(DANGER),
            advice=_deeper(j),
            out=out,
        )
    return Check(
        name, "stop" if j.use > 1 else "caution", j.use, LIMIT, "", say(_PEG, quarter=quarter_source()), says, j.place
    )


def _deeper(j: JointFinding) -> str:
    """What would help a joint, with a figure: bending goes with the cube of the thickness, pressure on the walls with
    the square of the depth, their glued area with the depth."""
    ways, it = [say("glue the tenon all round")], say_of("the tenon, named before", "it")
    if j.way == "glued":
        ways, it = [], say("the tenon")
    walls = j.bearing / j.crush
    if j.way == "glued":
        walls = min(walls, j.rolling / j.rolling_strength)
    bent = j.bending / j.strength
    thick, deep = (bent / LIMIT) ** (1 / 3), sqrt(walls / LIMIT)
    if j.way == "glued" and j.lever > 0 and j.pull / j.holds < LIMIT * max(thick**3, deep**2):
        thick, deep = 0.0, j.pull / j.holds / LIMIT  # glued and on its shoulder it holds more
    if thick > 1 and deep > 1:
        ways.append(
            say("let {it} go {deep} as deep and be {thick} as thick", it=it, deep=times(deep), thick=times(thick))
        )
    elif thick > 1:
        ways.append(say("make {it} {thick} as thick", it=it, thick=times(thick)))
    else:
        ways.append(say("let {it} go {deep} as deep", it=it, deep=times(deep)))
    if j.lever > 0 and j.way == "glued":
        ways.append(say("make its shoulder wider"))
    return say(", or ").join(ways)


def _held_by(j: JointFinding, units: str) -> str:
    """What holds a joint that is not weak: its tenon alone, or its glue and shoulder where the tenon would not do."""
    load = quoted(j.load) + (say(", which stays for years,") if j.lasting else "")
    bent, holds, pressed, crush = (format_pressure(p, units) for p in (j.bending, j.strength, j.bearing, j.crush))
    wall = say("its mortise in {member} at {pressed} of {crush}", member=j.member, pressed=pressed, crush=crush)
    if j.use < j.alone:
        pull, most = format_force(j.pull, units), format_force(j.holds, units)
        return say(
            ": under {load} it leans on its shoulder and its glued tenon holds down {pull} of {most} (mean). It "
            "rests on that glue: dry, the tenon would press {wall}, so let the shoulder bear all round and wet all "
            "walls of the mortise with glue.",
            load=load,
            pull=pull,
            most=most,
            wall=wall,
        )
    if j.way == "glued" and j.rolling / j.rolling_strength < j.bearing / j.crush:
        sheared, rolling = format_pressure(j.rolling, units), format_pressure(j.rolling_strength, units)
        wall = say("its glued walls carry {sheared} of {rolling} in shear", sheared=sheared, rolling=rolling)
        return say(
            ": under {load} its tenon bends at {bent} of {holds} and {wall}.",
            load=load,
            bent=bent,
            holds=holds,
            wall=wall,
        )
    return say(
        ": under {load} its tenon bends at {bent} of {holds} and presses {wall}.",
        load=load,
        bent=bent,
        holds=holds,
        wall=wall,
    )


def _lines(findings: StrengthFindings, units: str, at_lines: Mapping[tuple[str, int], Place]) -> list[Check]:
    """Of each stack the glue line of which least is left, where that is little."""
    found = []
    for stack in dict.fromkeys(line.stack for line in findings.lines):
        worst = min((line for line in findings.lines if line.stack == stack), key=lambda line: line.least)
        if worst.least >= LINE_LEFT:
            continue
        both = say(
            "layers {interface} and {upper} of {stack}",
            interface=worst.interface,
            upper=worst.interface + 1,
            stack=stack,
        )
        if worst.overlap <= 0:
            says = say(
                "L{both} do not meet in the finished piece: change the form, or where its glue lines fall.",
                both=both[1:],
            )
        elif worst.meets < worst.share:
            says = say(
                "L{both} meet on only {meets} of the smaller face, where half is usual: let the form overlap more "
                "there, or move the glue line, so that one layer holds both.",
                both=both[1:],
                meets=percent(worst.meets),
            )
        else:
            says = say(
                "Between {both} only {share} of the glue line is left beside mortises, voids and pins, where half is "
                "usual: make those smaller, or the form wider there.",
                both=both,
                share=percent(worst.share),
            )
        name = say("{stack}: glue line left", stack=stack)
        source, place = (
            say("geometry of the plan; limit: {practice}", practice=say(PRACTICE)),
            at_lines.get((stack, worst.interface)),
        )
        found.append(Check(name, "caution", worst.least, LINE_LEFT, "", source, says, place))
    return found
