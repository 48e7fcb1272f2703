# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is said of the boards beside their pictures, and the lists of boards and pieces."""

from __future__ import annotations

from freecad_stacklam.benchsheets.drawing.lettering import Units, least_text, length_text, most_text, number, unit_name
from freecad_stacklam.benchsheets.pages.blocks import Block, notes
from freecad_stacklam.benchsheets.pages.reminders import BOARDS
from freecad_stacklam.lamination.plan.boards import FLATTEN, HAND_PLANE, JOINTER, PLANE, PLANER, BoardsPlan

#: More boards than this are not named one by one.
NAMED = 4


def _trims(boards: BoardsPlan, units: Units) -> str:
    trims = sorted({board.end_trim for board in boards.plan})
    return "ends trimmed " + " or ".join(length_text(t, units) for t in trims)


def _short_words(boards: BoardsPlan, units: Units) -> list[str]:
    """What is said of short work: the rule, and what is left to the hand."""
    words = []
    if boards.shortest_to_machine > 0:
        words.append(
            f"Nothing shorter than {most_text(boards.shortest_to_machine, units)} goes over the jointer, through the "
            "planer or along the fence; where a manual asks for more, set more. Short pieces are held by a clamp or a "
            "stop at the crosscut saw, never by hand."
        )
    by_hand = [o for board in boards.plan for o in board.operations if o.machine == HAND_PLANE]
    if by_hand:
        words.append(
            f"{len(by_hand)} steps are on parts too short or too wide for the machines: plane them by hand; a wide one "
            "may also go through the planer on a flat sled, wedged so that it does not rock."
        )
    return words + _wide_words(boards, units)


def _wide_words(boards: BoardsPlan, units: Units) -> list[str]:
    """What is said of wide work: what the knives take, or that nobody said."""
    words, unknown, widest = [], [], 0.0
    for machine, what, takes in (
        (JOINTER, FLATTEN, boards.jointer_width),
        (PLANER, PLANE, boards.planer_width),
    ):
        wide = [o.part[3] for b in boards.plan for o in b.operations if o.machine == machine and o.what == what]
        if takes is not None:
            words.append(
                f"The {machine} takes {least_text(takes, units)}: wider boards are ripped at the band saw first, and "
                "what is still wider is planed by hand."
            )
        elif wide:
            unknown.append(machine)
            widest = max(widest, *wide)
    if unknown:
        words.append(
            f"CAUTION: it is not known how wide your {' and '.join(unknown)} {'take' if len(unknown) > 1 else 'takes'}"
            f". Parts up to {most_text(widest, units)} wide go there: measure the knives first, or set the width and "
            "plan again."
        )
    return words


def summary(boards: BoardsPlan, units: Units, width: float) -> list[Block]:
    """How to read the pictures, and the lists, in columns `width` mm wide."""
    words = [
        "The wide lines are the pieces as cut, the ringed numbers the steps of the saw cuts; measures are from the "
        "board's left end to the near side of the kerf. The list of steps has all the work in its order: the rough "
        "board into parts, each made flat, planed, ripped and jointed whole, and the last crosscuts part its staves. "
        "There each cut is measured on its own part: a crosscut from the part's left end, a rip from its lower edge, "
        f"which is at the fence. Kerf {length_text(boards.kerf, units)}, {_trims(boards, units)}, jointing "
        f"{length_text(boards.jointing, units)} on each glued edge, {boards.first_cut} first.",
        *_short_words(boards, units),
        "Hatched: knots that are cut around. Mark each layer's triangle on its pieces: it shows how they join.",
    ]
    wide = [b.board for b in boards.plan if boards.max_stave is not None and b.width > boards.max_stave]
    if wide and boards.max_stave is not None:
        words.append(
            f"Wider than the widest stave, {length_text(boards.max_stave, units)}: {', '.join(wide[:NAMED])}"
            f"{' and more' if len(wide) > NAMED else ''}. What is glued up is ripped to that and less, for a wide "
            "flat-sawn stave cups; only a blank of one piece is left as wide as it is."
        )
    if boards.yield_ is not None:
        words.append(f"{100 * boards.yield_:.0f} % of the boards used becomes pieces.")
    if boards.gap is not None:
        words.append(f"At most {100 * boards.gap:.1f} % above the least that any plan{boards.bounded} could need "
                     f"({boards.method}).")  # fmt: skip
    if boards.cost is not None:
        words.append(f"The boards used cost {boards.cost:.2f} together.")
    words += [f"SHORT: {line}" for line in boards.short]
    words += [conflict.says for conflict in boards.seam_conflicts]
    words += [*boards.notes, BOARDS]
    rows = []
    for board in boards.plan:
        cost = "" if board.cost is None else f"{board.cost:.2f}"
        rows.append(
            (board.board, "on hand" if board.on_hand else "to buy", number(board.length, units),
             number(board.width, units), number(board.thickness, units), str(len(board.pieces)), cost)
        )  # fmt: skip
    table = Block(
        f"Boards, {unit_name(units)}",
        ("board", "", "long", "wide", "thick", "pieces", "cost"),
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
        f"Pieces as cut, {unit_name(units)}",
        ("piece", "from", "long", "wide", "thick"),
        (44.0, 44.0, 26.0, 24.0, 22.0),
        (True, True, False, False, False),
        tuple(sorted(pieces)),
    )
    return [notes("How to read the pictures", words, width), table, listed]
