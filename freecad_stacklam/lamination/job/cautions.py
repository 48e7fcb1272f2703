# SPDX-License-Identifier: LGPL-2.1-or-later

"""What to mind in the work that a plan sends hands to, step by step: short reminders, no instructions, no claim of
compliance.

They defer to the machines' manuals, the local rules and licensed practice. Common practice, no source, but where a
sentence names one, and for the figures' own provenance in the plan.
"""

from __future__ import annotations

from collections.abc import Callable

from freecad_stacklam.lamination.bill.finishing import RAGS
from freecad_stacklam.lamination.lengths import format_mass
from freecad_stacklam.lamination.plan.boards import CROSSCUT_SAW, HAND_PLANE, JOINTER, PLANER, TABLE_SAW
from freecad_stacklam.lamination.plan.checks import WEIGHT, is_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.words import mark, say

#: The steps of the work, in its order.
BEFORE, CUT, JOINT, GLUE, CARVE = (
    mark("Before the work"), mark("Cutting"), mark("Boring and joints"), mark("Gluing"), mark("Carving"),
)  # fmt: skip
SAND, FINISH, LIFT, USE = (
    mark("Sanding"), mark("Finishing"), mark("Lifting and moving"), mark("Before anyone relies on it"),
)  # fmt: skip
#: A bit this wide catches and turns the work, mm (common practice, no source).
LARGE_BIT = 20.0
#: Weight, kg, above which what lies in clamps is lifted by two (common practice, no source).
HEAVY = 15.0
#: Weight, kg, above which one pair of hands lifts nothing (common practice; the NIOSH lifting equation of 1994 begins
#: at 23 kg held close, and allows less at arm's length).
MOST_ALONE = 25.0
#: Woods whose dust is told to inflame skin or airways more than that of others (from memory; no list is complete).
SENSITISING = ("black walnut", "mahogany", "teak")

FIRST = mark(
    "The manuals of your machines, your local rules and licensed practice come before anything printed here; these "
    "reminders are not complete and claim compliance with no rule."
)


def _always(plan: Plan) -> bool:
    return True


def _machines(plan: Plan) -> set[str]:
    """What the boards are worked on; all that is usual where their work is not planned."""
    if plan.boards is None or not plan.boards.staves:
        return set()
    named = {o.machine for board in plan.boards.plan for o in board.operations}
    return named or {TABLE_SAW, JOINTER, PLANER, CROSSCUT_SAW}


def _on(*machines: str) -> Callable[[Plan], bool]:
    return lambda plan: bool(_machines(plan) & set(machines))


def _bits(plan: Plan) -> list[float]:
    bits = [row.diameter for joint in plan.joints for row in joint.drilling]
    bits += [pin.diameter for stack in plan.stacks for pin in stack.pins]
    return bits + [m.bit.diameter for m in (plan.carving.depth_maps if plan.carving else ())]


def _chiselled(plan: Plan) -> bool:
    return any(joint.section != "round" for joint in plan.joints)


def _hollow(plan: Plan) -> bool:
    """Whether a blank is sawn out inside: for a void, or because the form itself is open there."""
    layers = [layer for stack in plan.stacks for layer in stack.layers]
    return any(cut.kind == "hollow" for layer in layers for cut in layer.cuts) or any(
        outline.holes for layer in layers for outline in layer.blank
    )


def _glued(plan: Plan) -> bool:
    return any(len(stack.layers) > 1 for stack in plan.stacks) or bool(plan.joints)


def _pressed(plan: Plan) -> bool:
    return plan.glue_up is not None and bool(plan.glue_up.set_ups)


def _named(*presses: str) -> Callable[[Plan], bool]:
    """Whether the glue-up names one of these presses, as what is owned or as what would help."""

    def due(plan: Plan) -> bool:
        set_ups = plan.glue_up.set_ups if plan.glue_up is not None else ()
        told = (
            text
            for s in set_ups
            for text in (*(p.press for p in s.places), *s.helps, *s.cautions, *(b.says for b in s.limits))
        )
        words = {*presses, *(say(press).lower() for press in presses)}
        return any(word in text.lower() for text in told for word in words)

    return due


def _lifted(plan: Plan) -> bool:
    """Whether something heavy is moved while it is in clamps or wet."""
    burdens = [s.burden for s in plan.glue_up.set_ups] if plan.glue_up is not None else []
    return any(b is not None and b.mass is not None and b.mass > HEAVY for b in burdens)


def _heavy(plan: Plan) -> bool:
    return any(is_of(c, WEIGHT) and c.verdict != "ok" for c in plan.checks)


def _heaviest(plan: Plan) -> str:
    """What is heavier than one pair of hands lifts, and by how much one standard deviation is either way; "" where
    nothing is, or nothing was weighed."""
    if plan.piece is None or plan.piece.weight is None:
        return ""
    weight = plan.piece.weight
    told = []
    bodies = (
        (mark("the blank ({name}) about {mass}"), weight.blanks),
        (mark("the glued stack about {mass}"), weight.glued),
        (mark("the piece about {mass}"), (weight.whole,)),
    )
    for words, many in bodies:
        known = [b for b in many if b is not None and b.mass is not None]
        if not known:
            continue
        body = max(known, key=lambda b: b.mass or 0.0)
        if (body.mass or 0.0) > MOST_ALONE:
            give = "" if body.spread is None else f" ± {format_mass(body.spread, plan.units)}"
            told.append(say(words, name=body.name, mass=format_mass(body.mass or 0.0, plan.units) + give))
    if not told:
        return ""
    most = format_mass(MOST_ALONE, plan.units)
    return say(
        "Heavier than one lifts alone ({most}, common practice): {heavy}. Lift with help or an aid, "
        "close to the body and without twisting.",
        most=most,
        heavy=", ".join(told),
    )


def _species(plan: Plan) -> list[str]:
    names = [layer.species for stack in plan.stacks for layer in stack.layers]
    return list(dict.fromkeys([*names, *(joint.tenon.species for joint in plan.joints)]))


def _dust(plan: Plan) -> str:
    woods = _species(plan)
    sharp = [name for name in woods if name.lower() in SENSITISING]
    return say(
        mark(
            "Dust of {woods} harms the lungs, and that of hardwoods is listed as a cause of cancer (EU directive "
            "2004/37/EC); that of {sharp} inflames skin and airways in some people: extract at the tool, wear a mask "
            "that fits, sweep nothing dry."
        )
        if sharp
        else mark(
            "Dust of {woods} harms the lungs, and that of hardwoods is listed as a cause of cancer (EU directive "
            "2004/37/EC): extract at the tool, wear a mask that fits, sweep nothing dry."
        ),
        woods=_all(woods) or say("wood"),
        sharp=_all(sharp),
    )


def _all(names: list[str]) -> str:
    """Names that are all meant."""
    told = "".join(names[:1])
    for name in names[1:]:
        told = say("{one} and {other}", one=told, other=name)
    return told


def _rags(plan: Plan) -> str:
    """Of the finish that was chosen; of any, where none was."""
    finish = plan.piece.finish if plan.piece is not None else None
    if finish is None:
        return say(
            "Rags soaked with drying oils can catch fire by themselves: spread them out or keep them under water."
        )
    return say(RAGS) if RAGS in finish.cautions else ""


#: The step, when a reminder is due, and its words, or what makes them of the plan; in the order of the work.
REMINDERS: tuple[tuple[str, Callable[[Plan], bool], str | Callable[[Plan], str]], ...] = (
    (
        BEFORE, _always,
        mark(
            "Measure the check scales of every printed page before you rely on it: a page that is not to size "
            "ruins the piece."),
    ),
    (
        BEFORE, _always,
        mark("Wear eye, face and hearing protection, snug sleeves, hair tied back, no gloves near turning tools."),
    ),
    (
        CUT, _on(CROSSCUT_SAW),
        mark(
            "Crosscuts: the board held to the fence and both its ends borne up, hands well off the line, the "
            "blade stopped before you reach for offcuts."),
    ),
    (
        CUT, _on(TABLE_SAW),
        mark(
            "Table saw: guard and riving knife on, push sticks at hand, nobody behind the blade; rip nothing that "
            "is too short or too bowed to run along the fence."),
    ),
    (
        CUT, _on(JOINTER, PLANER),
        mark("Jointer and planer: feed nothing shorter than the manual allows; take light cuts, hands never over the "
        "knives."),
    ),
    (
        CUT, _on(HAND_PLANE),
        mark("What is too short for the machines is planed by hand, held in a vice or against a stop."),
    ),
    (
        CUT, _always,
        mark(
            "Band saw: guard and guides just above the work, hands beside the line and never in it, a push block "
            "for the last of the cut; let the blade stop before you clear offcuts."),
    ),
    (
        CUT, _always,
        mark("Band saw: see that the blade takes the tightest curve and that the blank turns clear of the column; make "
        "relief cuts first; hold small parts in a jig, and keep round or tilting parts from rolling."),
    ),
    (
        CUT, _hollow,
        mark(
            "A blank that is sawn through to its void springs and pinches the blade: wedge the kerf open behind "
            "it, and clamp the ring before its last cut."),
    ),
    (
        JOINT, lambda plan: bool(_bits(plan)),
        mark("Drill press: clamp the work, bore a trial hole in waste, and let the chips clear."),
    ),
    (
        JOINT, lambda plan: max(_bits(plan), default=0.0) >= LARGE_BIT,
        mark(
            "Large bits run slowly, by their maker's table, in a drill press and never in the hand; a bit that "
            "catches turns what is not clamped."),
    ),
    (
        JOINT, _chiselled,
        mark("Chisels: sharp, both hands behind the edge, the work held by a clamp and not by you."),
    ),
    (
        GLUE, lambda plan: _glued(plan) and not _pressed(plan),
        mark("Glue: read its sheet, wear gloves, air the room; clamps under load can slip and let go."),
    ),
    (
        GLUE, _pressed,
        mark(
            "The sheet of your glue's maker comes before every time, temperature and pressure printed here; so "
            "does the safety sheet for gloves, air, skin and fire, above all with resins and polyurethane."),
    ),
    (
        GLUE, _pressed,
        mark(
            "Clamps: tighten by turns, your face out of line with bars and screws, never a pipe on a handle that "
            "its maker did not allow it on; let go by turns too, for a bowed part springs."),
    ),
    (
        GLUE, _named(mark("rod"), mark("go-bar")),
        mark(
            "Rods and go-bars under load shoot out: plates that cannot tip, sound threads, eyes covered, nobody "
            "over the rod's end or under a sprung bar."),
    ),
    (
        GLUE, _named(mark("vacuum")),
        mark(
            "Vacuum: run the pump by its manual, and see that the bag cannot draw in a hand, a hose or the "
            "stack's edge."),
    ),
    (
        CARVE, _always,
        mark("Before carving, take out every screw, brad and clamp, and know where the joints lie: the checks and the "
        "layer sheets say how much wood is over them."),
    ),
    (
        CARVE, _always,
        mark(
            "Toothed carving disc and angle grinder: only a disc that its maker allows for your machine, guard "
            "and side handle on, two hands, the work clamped, you out of the plane of the disc; expect kickback "
            "where teeth run in."),
    ),
    (
        SAND, _always, _dust,
    ),
    (
        SAND, _always,
        mark(
            "Keep dust from sparks and flames, and a grinder that throws sparks away from the extractor: dust in "
            "a bag smoulders and bursts into flame later."),
    ),
    (
        FINISH, _always,
        mark("Read the sheet of the finish for air, gloves, mask and fire, and for what children and food may touch."),
    ),
    (
        FINISH, _always, _rags,
    ),
    (
        LIFT, lambda plan: bool(_heaviest(plan)), _heaviest,
    ),
    (
        LIFT, lambda plan: _heavy(plan) and not _heaviest(plan),
        mark("The glued stack is heavy and awkward: see its weight in the bill, lift with help or a lifting aid."),
    ),
    (
        LIFT, _lifted,
        mark(
            "A stack in its clamps is heavier than its wood and its bars catch: clear the way, lift and turn it "
            "by two."),
    ),
    (
        LIFT, lambda plan: _heavy(plan) or _lifted(plan) or bool(_heaviest(plan)),
        mark("Chock what can roll, and keep a tall stack from tipping off the bench."),
    ),
    (
        USE, lambda plan: plan.piece is None or plan.piece.strength is None,
        mark(
            "The plan does not prove that the piece will carry a load: strength and stability are for you to "
            "judge and to test before anyone relies on it."),
    ),
    (
        USE, lambda plan: plan.piece is not None and plan.piece.strength is not None,
        mark("Strength and standing are estimates from mean figures of clear wood, not a test to any standard: try the "
        "piece with care and by degrees before anyone relies on it, and do not hand it on where your local rules ask "
        "for a test."),
    ),
)  # fmt: skip


def cautions_for(plan: Plan) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The reminders for what this plan has hands do: each step of the work with its sentences, in its order. What they
    defer to comes first."""
    steps: dict[str, list[str]] = {BEFORE: [say(FIRST)]}
    for step, due, words in REMINDERS:
        said = (say(words) if isinstance(words, str) else words(plan)) if due(plan) else ""
        if said:
            steps.setdefault(step, []).append(said)
    return tuple((say(step), tuple(said)) for step, said in steps.items())
