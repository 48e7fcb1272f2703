# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is said of the boards beside their pictures, and the lists of boards and pieces."""

from __future__ import annotations

from freecad_stacklam.benchsheets.drawing.lettering import Units, least_text, length_text, most_text, number, unit_name
from freecad_stacklam.benchsheets.pages.blocks import Block, notes
from freecad_stacklam.benchsheets.pages.reminders import BOARDS
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.names import any_of
from freecad_stacklam.lamination.plan.boards import FLATTEN, HAND_PLANE, JOINTER, PLANE, PLANER, BoardsPlan
from freecad_stacklam.lamination.words import figure, mark, say

#: More boards than this are not named one by one.
NAMED = 4


def _trims(boards: BoardsPlan, units: Units) -> str:
    trims = sorted({board.end_trim for board in boards.plan})
    return say("ends trimmed {trims}", trims=any_of([length_text(t, units) for t in trims]))


def _short_words(boards: BoardsPlan, units: Units) -> list[str]:
    """What is said of short work: the rule, and what is left to the hand."""
    words = []
    if boards.shortest_to_machine > 0:
        words.append(
            say(
                "Nothing shorter than {shortest_to_machine} goes over the jointer, through the planer or along the "
                "fence; where a manual asks for more, set more. Short pieces are held by a clamp or a stop at the "
                "crosscut saw, never by hand.",
                shortest_to_machine=most_text(boards.shortest_to_machine, units),
            )
        )
    by_hand = [o for board in boards.plan for o in board.operations if o.machine == HAND_PLANE]
    if by_hand:
        words.append(
            say(
                "{steps} steps are on parts too short or too wide for the machines: plane them by hand; a wide one may "
                "also go through the planer on a flat sled, wedged so that it does not rock.",
                steps=len(by_hand),
            )
        )
    return words + _wide_words(boards, units)


#: What the knives take, by the machine.
_TAKES = {
    JOINTER: mark(
        "The jointer takes {takes}: wider boards are ripped at the band saw first, and what is still wider is planed "
        "by hand."
    ),
    PLANER: mark(
        "The planer takes {takes}: wider boards are ripped at the band saw first, and what is still wider is planed by "
        "hand."
    ),
}
_NOT_KNOWN = {
    JOINTER: mark(
        "CAUTION: it is not known how wide your jointer takes. Parts up to {widest} wide go there: measure the knives "
        "first, or set the width and plan again."
    ),
    PLANER: mark(
        "CAUTION: it is not known how wide your planer takes. Parts up to {widest} wide go there: measure the knives "
        "first, or set the width and plan again."
    ),
    "both": mark(
        "CAUTION: it is not known how wide your jointer and planer take. Parts up to {widest} wide go there: measure "
        "the knives first, or set the width and plan again."
    ),
}


def _wide_words(boards: BoardsPlan, units: Units) -> list[str]:
    """What is said of wide work: what the knives take, or that nobody said."""
    words, unknown, widest = [], [], 0.0
    for machine, what, takes in (
        (JOINTER, FLATTEN, boards.jointer_width),
        (PLANER, PLANE, boards.planer_width),
    ):
        wide = [o.part[3] for b in boards.plan for o in b.operations if o.machine == machine and o.what == what]
        if takes is not None:
            words.append(say(_TAKES[machine], takes=least_text(takes, units)))
        elif wide:
            unknown.append(machine)
            widest = max(widest, *wide)
    if unknown:
        sentence = _NOT_KNOWN["both"] if len(unknown) > 1 else _NOT_KNOWN[unknown[0]]
        words.append(say(sentence, widest=most_text(widest, units)))
    return words


def summary(boards: BoardsPlan, units: Units, width: float) -> list[Block]:
    """How to read the pictures, and the lists, in columns `width` mm wide."""
    words = [
        say(
            "The wide lines are the pieces as cut, the ringed numbers the steps of the saw cuts; measures are from "
            "the board's left end to the near side of the kerf. The list of steps has all the work in its order: the "
            "rough board into parts, each made flat, planed, ripped and jointed whole, and the last crosscuts part "
            "its staves. There each cut is measured on its own part: a crosscut from the part's left end, a rip from "
            "its lower edge, which is at the fence. Kerf {kerf}, {trims}, jointing {jointing} on each glued edge, "
            "{first_cut} first.",
            kerf=length_text(boards.kerf, units),
            trims=_trims(boards, units),
            jointing=length_text(boards.jointing, units),
            first_cut=shown(boards.first_cut),
        ),
        *_short_words(boards, units),
        say("Hatched: knots that are cut around. Mark each layer's triangle on its pieces: it shows how they join."),
    ]
    wide = [b.board for b in boards.plan if boards.max_stave is not None and b.width > boards.max_stave]
    if wide and boards.max_stave is not None:
        sentence = (
            mark(
                "Wider than the widest stave, {widest}: {boards} and more. What is glued up is ripped to that and "
                "less, for a wide flat-sawn stave cups; only a blank of one piece is left as wide as it is."
            )
            if len(wide) > NAMED
            else mark(
                "Wider than the widest stave, {widest}: {boards}. What is glued up is ripped to that and less, for a "
                "wide flat-sawn stave cups; only a blank of one piece is left as wide as it is."
            )
        )
        words.append(say(sentence, widest=length_text(boards.max_stave, units), boards=", ".join(wide[:NAMED])))
    if boards.yield_ is not None:
        words.append(say("{part:.0f} % of the boards used becomes pieces.", part=100 * boards.yield_))
    if boards.gap is not None:
        words.append(
            say(
                "At most {gap:.1f} % above the least that any plan{bounded} could need ({method}).",
                gap=100 * boards.gap,
                bounded=boards.bounded,
                method=boards.method,
            )
        )
    if boards.cost is not None:
        words.append(say("The boards used cost {cost:.2f} together.", cost=boards.cost))
    words += [say("SHORT: {line}", line=line) for line in boards.short]
    words += [conflict.says for conflict in boards.seam_conflicts]
    words += [*boards.notes, say(BOARDS)]
    rows = []
    for board in boards.plan:
        cost = "" if board.cost is None else figure(f"{board.cost:.2f}")
        rows.append(
            (
                board.board,
                say("on hand") if board.on_hand else say("to buy"),
                number(board.length, units),
                number(board.width, units),
                number(board.thickness, units),
                str(len(board.pieces)),
                cost,
            )
        )
    table = Block(
        say("Boards, {unit}", unit=unit_name(units)),
        (say("board"), "", say("long"), say("wide"), say("thick"), say("pieces"), say("cost")),
        (44.0, 20.0, 24.0, 22.0, 22.0, 18.0, 20.0),
        (True, True, False, False, False, False, False),
        tuple(rows),
    )
    pieces = [
        (p.stave, board.board, number(p.length, units), number(p.width, units), number(board.thickness, units))
        for board in boards.plan
        for p in board.pieces
    ]
    listed = Block(
        say("Pieces as cut, {unit}", unit=unit_name(units)),
        (say("piece"), say("from"), say("long"), say("wide"), say("thick")),
        (44.0, 44.0, 26.0, 24.0, 22.0),
        (True, True, False, False, False),
        tuple(sorted(pieces)),
    )
    return [notes(say("How to read the pictures"), words, width), table, listed]
