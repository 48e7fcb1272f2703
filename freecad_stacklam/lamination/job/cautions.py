# SPDX-License-Identifier: LGPL-2.1-or-later

"""What to mind in the work that a plan sends hands to: short reminders, no instructions, no claim of compliance.

They defer to the machines' manuals, the local rules and licensed practice. Common practice, no source, but for the
figures' own provenance in the plan.
"""

from __future__ import annotations

from collections.abc import Callable

from freecad_stacklam.lamination.plan.whole import Plan

#: A bit this wide catches and turns the work, mm (common practice, no source).
LARGE_BIT = 20.0
#: Weight, kg, above which what lies in clamps is lifted by two (common practice, no source).
HEAVY = 15.0

FIRST = (
    "The manuals of your machines, your local rules and licensed practice come before anything printed here; these "
    "reminders are not complete and claim compliance with no rule."
)


def _always(plan: Plan) -> bool:
    return True


def _boards(plan: Plan) -> bool:
    return plan.boards is not None and bool(plan.boards.staves)


def _bits(plan: Plan) -> list[float]:
    bits = [row.diameter for joint in plan.joints for row in joint.drilling]
    bits += [pin.diameter for stack in plan.stacks for pin in stack.pins]
    return bits + [m.bit.diameter for m in (plan.carving.depth_maps if plan.carving else ())]


def _chiselled(plan: Plan) -> bool:
    return any(joint.section != "round" for joint in plan.joints)


def _glued(plan: Plan) -> bool:
    return any(len(stack.layers) > 1 for stack in plan.stacks) or bool(plan.joints)


def _pressed(plan: Plan) -> bool:
    return plan.glue_up is not None and bool(plan.glue_up.set_ups)


def _lifted(plan: Plan) -> bool:
    """Whether something heavy is moved while it is in clamps or wet."""
    burdens = [s.burden for s in plan.glue_up.set_ups] if plan.glue_up is not None else []
    return any(b is not None and b.mass is not None and b.mass > HEAVY for b in burdens)


def _heavy(plan: Plan) -> bool:
    return any(c.name.endswith("weight to lift") and c.verdict != "ok" for c in plan.checks)


#: When a reminder is due, and its words; in the order of the work.
REMINDERS: tuple[tuple[Callable[[Plan], bool], str], ...] = (
    (
        _always,
        "Measure the check scales of every printed page before you rely on it: a page that is not to size ruins the "
        "piece.",
    ),
    (
        _always,
        "Wear eye, face and hearing protection, snug sleeves, hair tied back, no gloves near turning tools.",
    ),
    (
        _boards,
        "Table saw: guard and riving knife on, push sticks at hand, nobody behind the blade; rip nothing that is too "
        "short or too bowed to run along the fence.",
    ),
    (
        _boards,
        "Jointer and planer: feed nothing shorter than the manual allows; take light cuts, hands never over the "
        "knives.",
    ),
    (
        _always,
        "Band saw: guard and guides just above the work, hands beside the line and never in it, a push block for the "
        "last of the cut; let the blade stop before you clear offcuts.",
    ),
    (
        _always,
        "Band saw: see that the blade takes the tightest curve and that the blank turns clear of the column; make "
        "relief cuts first; hold small parts in a jig, and keep round or tilting parts from rolling.",
    ),
    (
        lambda plan: bool(_bits(plan)),
        "Drill press: clamp the work, bore a trial hole in waste, and let the chips clear.",
    ),
    (
        lambda plan: max(_bits(plan), default=0.0) >= LARGE_BIT,
        "Large bits run slowly, by their maker's table, in a drill press and never in the hand; a bit that catches "
        "turns what is not clamped.",
    ),
    (
        _chiselled,
        "Chisels: sharp, both hands behind the edge, the work held by a clamp and not by you.",
    ),
    (
        _glued,
        "Glue: read its sheet, wear gloves, air the room; clamps under load can slip and let go.",
    ),
    (
        _pressed,
        "The sheet of your glue's maker comes before every time, temperature and pressure printed here; so does the "
        "safety sheet for gloves, air, skin and fire, above all with resins and polyurethane.",
    ),
    (
        _pressed,
        "Clamps: tighten by turns, your face out of line with bars and screws, never a pipe on a handle that its maker "
        "did not allow it on; let go by turns too, for a bowed part springs.",
    ),
    (
        _pressed,
        "Rods and go-bars under load shoot out: plates that cannot tip, sound threads, eyes covered, nobody over the "
        "rod's end or under a sprung bar; watch a vacuum pump by its manual.",
    ),
    (
        _lifted,
        "A stack in its clamps is heavier than its wood and its bars catch: clear the way, lift and turn it by two, "
        "and chock what can roll.",
    ),
    (
        _heavy,
        "The glued stack is heavy and awkward: see its weight in the bill, lift with help or a lifting aid, and keep "
        "it from tipping on the bench.",
    ),
    (
        _always,
        "Toothed carving disc and angle grinder: only a disc that its maker allows for your machine, guard and side "
        "handle on, two hands, the work clamped, you out of the plane of the disc; expect kickback where teeth run "
        "in.",
    ),
    (
        _always,
        "Before carving, take out every screw, brad and clamp, and know where the joints lie: the checks and the "
        "layer sheets say how much wood is over them.",
    ),
    (
        _always,
        "Wood dust harms the lungs and some of it causes cancer: extract at the tool, wear a fitting dust mask, sweep "
        "nothing dry, and keep dust from sparks.",
    ),
    (
        _always,
        "Read the sheet of the finish and air the room; rags soaked with drying oils can catch fire by themselves: "
        "spread them out or keep them under water.",
    ),
    (
        lambda plan: plan.piece is None or plan.piece.strength is None,
        "The plan does not prove that the piece will carry a load: strength and stability are for you to judge and to "
        "test before anyone relies on it.",
    ),
    (
        lambda plan: plan.piece is not None and plan.piece.strength is not None,
        "Strength and standing are estimates from mean figures of clear wood, not a test to any standard: try the "
        "piece with care and by degrees before anyone relies on it, and do not hand it on where your local rules ask "
        "for a test.",
    ),
)  # fmt: skip


def cautions_for(plan: Plan) -> tuple[str, ...]:
    """The reminders for what this plan has hands do, in the order of the work; what they defer to comes first."""
    return (FIRST, *(words for due, words in REMINDERS if due(plan)))
