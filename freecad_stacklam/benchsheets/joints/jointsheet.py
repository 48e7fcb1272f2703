# SPDX-License-Identifier: LGPL-2.1-or-later

"""Joint sheets: the tenon blank with its wedges, how deep it stands in each member, and how its mortises are made."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.dimension import STEP, chain, stepped
from freecad_stacklam.benchsheets.drawing.lettering import (
    Units,
    bit_text,
    fine_number,
    number,
    text_width,
    unit_name,
)
from freecad_stacklam.benchsheets.drawing.lines import arrow
from freecad_stacklam.benchsheets.drawing.paper import SCALES
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, NOTE, PLAIN, Circle, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.joints.jointwords import (
    CHAMFER,
    joint_words,
    leading_ends,
    members_of,
    order_of_work,
)
from freecad_stacklam.benchsheets.joints.mouthviews import MouthView, mouth_marks, mouth_views, room_for
from freecad_stacklam.benchsheets.pages.blocks import Block, Column, flow, notes, steps
from freecad_stacklam.benchsheets.pages.continued import next_page
from freecad_stacklam.benchsheets.pages.facewords import face_word
from freecad_stacklam.benchsheets.pages.reminders import DRILL
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.titleblock import block_of, title_block
from freecad_stacklam.lamination.form.frame import direction_to_stack
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.plan.jointaxis import JointAxis
from freecad_stacklam.lamination.plan.joints import Boring, JointMember, JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.shop import SHOWN_KINDS
from freecad_stacklam.lamination.tolerances import HALF_SHOWN, ROUNDING
from freecad_stacklam.lamination.words import mark, say

#: A drawing any smaller than 1:5 tells nothing of a joint.
LEGIBLE = 5
#: Lettering that brings a long sheet to one page: 2.1 mm, or the 1.8 mm that are the least of ISO 3098.
SMALLER = (0.84, NOTE / PLAIN)
#: Where FRONT is in the end view, and the length of the triangle that points to it, mm.
#: When a hole is bored.
_WHEN = {"before glue-up": mark("before glue-up"), "after glue-up": mark("after glue-up")}
_FRONTS = {
    (0.0, 1.0): mark("FRONT up"),
    (0.0, -1.0): mark("FRONT down"),
    (1.0, 0.0): mark("FRONT right"),
    (-1.0, 0.0): mark("FRONT left"),
}
FRONT_MARK = 3.0
#: Heading; room for dimension lines; between the two views; caption over a view; mm.
HEADING, DIMENSIONS, BETWEEN, CAPTION = 13.0, 20.0, 30.0, 12.0
#: The row of mortises stands so much nearer under the dimension lines than tables do, mm.
CLOSER = 5.0


Point = tuple[float, float]


@dataclass(frozen=True)
class _Blank:
    """The tenon as it is drawn: `high` in the side view and `wide` across it; `grains`: direction of the layers' grain
    of each member in the end view, degrees from the side view's height, to the left as seen at the near end."""

    high: float
    wide: float
    grains: tuple[float, ...]
    across_first: bool  # the side view's height is the section's first side
    front: tuple[float, float]  # towards FRONT in the end view, page x and y


def _grain_in_section(axis: JointAxis, member: JointMember, stack: StackPlan) -> float:
    """Direction of the layers' grain in the section, degrees from its first side towards its second."""
    layer = next((n for n in stack.layers if n.top > member.start + ROUNDING), stack.layers[-1])
    along = np.array([np.cos(np.radians(layer.grain)), np.sin(np.radians(layer.grain)), 0.0])
    first, second = (float(direction_to_stack(stack.frame, d) @ along) for d in (axis.side, axis.other))
    return float(np.degrees(np.arctan2(second, first))) % 180.0


def _front(axis: JointAxis, stack: StackPlan, across_first: bool) -> tuple[float, float]:
    """Where the stack's front lies in the end view: along one of the section's sides, page x and y."""
    forward = np.array([0.0, -1.0, 0.0])
    first, second = (float(direction_to_stack(stack.frame, d) @ forward) for d in (axis.side, axis.other))
    x, y = (-second, first) if across_first else (first, second)
    return (float(np.sign(x)), 0.0) if abs(x) > abs(y) else (0.0, float(np.sign(y)))


def _blank(plan: Plan, joint: JointPlan) -> _Blank:
    axis = joint.axis
    grains = [_grain_in_section(axis, m, s) for m, s in members_of(plan, joint)]
    sizes = joint.tenon.size
    wedges = [m.wedge for m in joint.members if m.wedge is not None]
    first = wedges[0].along_first if wedges else not grains or min(grains[0], 180.0 - grains[0]) <= 45.0
    members = members_of(plan, joint)
    front = _front(axis, members[0][1], first) if members else (0.0, -1.0)
    if first:
        return _Blank(sizes[0], sizes[-1], tuple(grains), True, front)
    return _Blank(sizes[-1], sizes[0], tuple((g - 90.0) % 180.0 for g in grains), False, front)


def _meets(joint: JointPlan) -> list[float]:
    """Where along the tenon, from its near end, one member ends and the next begins; ends standing proud besides."""
    length = joint.tenon.length
    members = joint.members
    places = [0.0]
    at = joint.proud if members and members[0].through else 0.0
    if at:
        places.append(at)
    for member in members:
        at += member.embed
        places.append(min(at, length))
    if length - places[-1] > HALF_SHOWN:
        places.append(length)
    return [p for i, p in enumerate(places) if i == 0 or p - places[i - 1] > HALF_SHOWN]


def _eased(left: float, right: float, y: float, half: float, near: float, far: float) -> tuple[Point, ...]:
    """A lying rectangle whose corners are cut at 45° by `near` at its left end and by `far` at its right one."""
    corners: list[Point] = []
    for x, sign, cut, inward in ((left, -1.0, near, 1.0), (right, -1.0, far, -1.0),
                                 (right, 1.0, far, -1.0), (left, 1.0, near, 1.0)):  # fmt: skip
        at_end, along = (x, y + sign * (half - cut)), (x + inward * cut, y + sign * half)
        both = [along, at_end] if sign * inward > 0 else [at_end, along]
        corners += both if cut else [at_end]
    return tuple(corners)


def _side_view(joint: JointPlan, blank: _Blank, x: float, y: float, n: int, units: Units) -> list[Mark]:
    """The tenon lying, its near end to the left at page x, its middle at page y."""
    length, half = joint.tenon.length / n, blank.high / n / 2
    near, far = (CHAMFER / n if leading else 0.0 for leading in leading_ends(joint))
    marks: list[Mark] = [Polyline(_eased(x, x + length, y, half, near, far), "cut", closed=True)]
    marks.append(Polyline(((x - 5.0, y), (x + length + 5.0, y)), "centre"))
    ends = ((joint.members[0], x, 1.0), (joint.members[-1], x + length, -1.0)) if joint.members else ()
    for member, end, inward in ends:
        if member.wedge is None or (len(joint.members) == 1 and inward > 0):
            continue
        for place in member.wedge.kerfs(blank.high):
            depth = member.wedge.kerf_depth / n * inward
            kerf = max(member.wedge.kerf_width / n / 2, 0.25)
            level = y + place / n
            mouth = ((end, level - kerf), (end + depth, level - kerf), (end + depth, level + kerf), (end, level + kerf))
            marks.append(Polyline(mouth, "thin"))
            marks.append(Circle((end + depth, level), member.wedge.stop_hole / n / 2, "thin"))
    grain = min(30.0, 0.5 * length)
    at = y + half / 2 if half > 7.0 else y + half + 5.0
    marks += arrow((x + length / 2, at), 0.0, grain, both=True)
    marks.append(Text((x + length / 2 + grain / 2 + 2.0, at - 1.0), say("grain"), PLAIN))
    places = _meets(joint)
    for place in places[1:-1]:
        marks.append(Polyline(((x + place / n, y - half), (x + place / n, y + half + 4.0)), "hidden"))
    low = y - half
    lines, outer = stepped([(x + p / n, low) for p in places], low - 8.0, False, 1 / n, units)
    marks += lines
    if len(places) > 2:
        marks += chain([(x, outer), (x + length, outer)], outer - 7.0, False, 1 / n, units)
    marks += chain([(y - half, x), (y + half, x)], x - 9.0, True, 1 / n, units, level_words=True)
    return marks


def _end_view(joint: JointPlan, blank: _Blank, x: float, y: float, n: int, units: Units) -> list[Mark]:
    """The tenon from its far end, middle at page x, y; the layers' grain beside it."""
    half, across = blank.high / n / 2, blank.wide / n / 2
    if joint.tenon.section == "round":
        marks: list[Mark] = [Circle((x, y), half, "cut")]
    else:
        corners = ((x - across, y - half), (x + across, y - half), (x + across, y + half), (x - across, y + half))
        marks = [Polyline(corners, "cut", closed=True)]
    for member in joint.members:
        if member.wedge is not None:
            for place in member.wedge.kerfs(blank.high):
                reach = across if joint.tenon.section != "round" else (max(half**2 - (place / n) ** 2, 0.0)) ** 0.5
                marks.append(Polyline(((x - reach, y + place / n), (x + reach, y + place / n)), "mortise"))
    fx, fy = blank.front
    tip = (x + fx * across, y + fy * half)
    base = (tip[0] - fx * FRONT_MARK, tip[1] - fy * FRONT_MARK)
    wing = (fy * FRONT_MARK * 0.6, fx * FRONT_MARK * 0.6)
    wings = ((base[0] + wing[0], base[1] + wing[1]), (base[0] - wing[0], base[1] - wing[1]))
    marks.append(Polyline((tip, *wings), "cut", closed=True))
    # The side view's height points up here, too: grain at 0° runs up the page.
    place = x + across + 12.0
    seen: list[float] = []
    for grain in blank.grains:
        if any(abs(grain - other) < 1.0 or abs(abs(grain - other) - 180.0) < 1.0 for other in seen):
            continue
        seen.append(grain)
        marks += arrow((place, y), 90.0 + grain, 16.0, both=True)
        place += 9.0
    if seen:
        marks.append(Text((place - 6.0, y - 1.2), say("layers' grain"), PLAIN))
    low = y - half
    marks += chain([(x - across, low), (x + across, low)], low - 8.0, False, 1 / n, units)
    return marks


def _member_block(joint: JointPlan, units: Units) -> Block:
    def moved(value: float | None) -> str:
        return say("not known") if value is None else fine_number(value, units, "up")

    rows = []
    for member in joint.members:
        how = say("through") if member.through else say("stopped")
        rows.append(
            (
                member.stack,
                number(member.start, units),
                number(member.end, units),
                number(member.embed, units),
                how,
                fine_number(member.relief, units) if member.relief else say("none"),
                moved(member.movement_along),
                moved(member.movement_across),
            )
        )
    return Block(
        say(
            "Members, {unit}: heights in each stack; movement for {swing:g} points of moisture",
            unit=unit_name(units),
            swing=joint.swing,
        ),
        (
            say("stack"),
            say("from"),
            say("to"),
            say("tenon held"),
            say("end"),
            say("relief each end-grain wall"),
            say("moves along grain"),
            say("across"),
        ),
        (26.0, 13.0, 13.0, 18.0, 16.0, 42.0, 30.0, 18.0),
        (True, False, False, False, True, False, False, False),
        tuple(rows),
    )


def _alike(rows: Sequence[Boring]) -> list[tuple[Boring, int | None, int | None]]:
    """Rows with the first and last layer for which they hold: layers that are bored alike share a row."""
    found: list[tuple[Boring, int | None, int | None]] = []
    for row in rows:
        if found and row.layer is not None:
            before, first, last = found[-1]
            if last is not None and row.layer == last + 1 and replace(row, layer=before.layer) == before:
                found[-1] = before, first, row.layer
                continue
        found.append((row, row.layer, row.layer))
    return found


def _chiselled(row: Boring) -> str:
    """The part that the bit leaves, nothing where it is as round and as wide as the mortise."""
    part = f"{100 * row.chisel:.0f} %"
    return say("nothing") if part == "0 %" else part


def _drilling_block(rows: Sequence[Boring], units: Units) -> Block:
    found = []
    for row, first, last in _alike(rows):
        where = row.stack if first is None else f"{row.stack} {first}"
        if last != first:
            where = say("{first} to {last}", first=where, last=last)
        depth = say("through") if row.through else number(row.depth, units)
        for i, (x, y) in enumerate(row.centres):
            tip = "" if row.through else number(row.tip, units)
            rest = (depth, tip, face_word(row.side), say(_WHEN[row.when]), _chiselled(row)) if i == 0 else ("",) * 5
            name = (
                (where, f"Ø {bit_text(row.diameter, units)} {shown(SHOWN_KINDS.get(row.kind, row.kind))}".rstrip())
                if i == 0
                else ("", "")
            )
            found.append((*name, number(x, units), number(y, units), *rest))
    return Block(
        say(
            "Boring and chiselling, {unit}: centres from the axis; depth of the walls, and to the bit's tip",
            unit=unit_name(units),
        ),
        (
            say("bore in"),
            say("bit"),
            "x",
            "y",
            say("depth"),
            say("tip"),
            say("from"),
            say("when"),
            say("for the chisel"),
        ),
        (28.0, 30.0, 15.0, 15.0, 18.0, 15.0, 15.0, 30.0, 26.0),
        (True, True, False, False, False, False, True, True, False),
        tuple(found),
    )


def _under(joint: JointPlan) -> float:
    """What the dimension lines under the side view take, mm."""
    return (len(_meets(joint)) - 2) * STEP + 24.0


def _tables(plan: Plan, joint: JointPlan, units: Units, width: float) -> list[Block]:
    """What is said of the joint, broken to `width` mm."""
    blocks = [
        notes(say("Notes"), [*joint_words(plan, joint, units), say(DRILL)], width),
        steps(say("In this order"), order_of_work(plan, joint, units), width),
        _member_block(joint, units),
    ]
    return [*blocks, _drilling_block(joint.drilling, units)] if joint.drilling else blocks


def _scale(
    joint: JointPlan, blank: _Blank, mouths: list[MouthView], width: float, height: float
) -> tuple[int, bool, bool]:
    """The standard scale 1:n for all views, whether the end view stands beside the side view or under it, and whether
    all is on one page then. The mortises stand in a row under both.

    `height` is what the tables leave; without any scale that fits it the tables go on over the page.
    """
    length = joint.tenon.length
    for room in (height, 170.0 if mouths else 130.0):
        for n in SCALES:
            high = blank.high / n
            caption = CAPTION + 5.0 + room_for(mouths, n, width) - (CLOSER if mouths else 0.0)
            if (length + blank.wide) / n + 2 * DIMENSIONS + BETWEEN + 26.0 <= width:
                if high + caption + _under(joint) <= room:
                    return n, True, room == height
            elif (
                length / n + 2 * DIMENSIONS <= width
                and 2 * high + CAPTION + 5.0 + caption + _under(joint) + 14.0 <= room
            ):
                return n, False, room == height
    return SCALES[-1], True, False


def joint_sheet(book: Book, joint: JointPlan) -> list[Sheet]:
    """The sheet of one joint, and pages that carry its tables on. Not yet numbered."""
    plan, units = book.plan, book.units
    page = book.desk.portrait()
    f = drawing_space(page)
    blank = _blank(plan, joint)
    members = joint.members
    length = joint.tenon.length
    top = f.y + f.height - HEADING
    mouths = mouth_views(plan, joint, units)
    for size in (1.0, *SMALLER):
        blocks = _tables(plan, joint, units, (f.width - 2.0) / size)
        room = top - f.y - size * sum(block.height for block in blocks)
        n, beside, alone = _scale(joint, blank, mouths, f.width, room)
        if alone and n <= LEGIBLE:
            break
    else:  # no lettering brings it to one page
        size, blocks = 1.0, _tables(plan, joint, units, f.width - 2.0)
        n, beside, _ = _scale(joint, blank, mouths, f.width, 0.0)
    under = _under(joint)
    beyond = text_width(number(blank.high, units), PLAIN) + 12.0 if blank.high / n < 20.0 else DIMENSIONS
    x, y = f.x + max(DIMENSIONS, beyond) + 2.0, top - CAPTION - 5.0 - blank.high / n / 2
    end_x, end_y = x + length / n + BETWEEN + blank.wide / n / 2, y
    if not beside:
        end_x, end_y = f.x + f.width / 2, y - blank.high / n - under - CAPTION
    marks = _side_view(joint, blank, x, y, n, units) + _end_view(joint, blank, end_x, end_y, n, units)
    foot = end_y - blank.high / n / 2 - (under if beside else 18.0)
    row = room_for(mouths, n, f.width)
    if row < float("inf"):
        marks += mouth_marks(mouths, f.x, foot + CLOSER, f.width, n)
        foot -= row - (CLOSER if mouths else 0.0)
    level = y + blank.high / n / 2 + (6.0 if blank.high / n > 14.0 else 11.5)
    if members:
        near, far = say("in {stack}", stack=members[0].stack), say("in {stack}", stack=members[-1].stack)
        marks.append(Text((x, level), near, PLAIN, fit=length / n * 0.48))
        marks.append(Text((x + length / n, level), far, PLAIN, "right", fit=length / n * 0.48))
    seen_from = say("from the far end, {front}", front=say(_FRONTS[blank.front]))
    marks.append(Text((end_x, end_y + blank.high / n / 2 + 6.0), seen_from, PLAIN, "centre"))
    title = say("Joint “{joint}”", joint=joint.name)
    block = block_of(
        book,
        say("Joint sheet"),
        joint.name[:16],
        title,
        f"1:{n}",
        say("{note}; do not measure on the paper", note=book.sizes_note),
    )
    head = Text(
        (f.x + 1.0, f.y + f.height - LARGE),
        say("{title}, scale 1:{scale}", title=title, scale=n),
        LARGE,
        bold=True,
        fit=f.width - 2.0,
    )
    sheets: list[Sheet] = []
    columns = [Column(f.x + 1.0, foot, f.width - 2.0, foot - f.y - 1.0)]
    while True:
        tables, over = flow(blocks, columns, size=size)
        every = (head, *marks, *tables, *title_block(page, block))
        name = title if not sheets else next_page(title)
        sheets.append(Sheet("joint", name, (page.width, page.height), every, scale=1.0 / n, paper_name=page.name))
        if not over:
            return sheets
        blocks, marks = over, []
        columns = [Column(f.x + 1.0, top, f.width - 2.0, f.height - HEADING - 1.0)]


def joint_sheets(book: Book) -> list[Sheet]:
    """The sheets of all joints, not yet numbered."""
    return [sheet for joint in book.plan.joints for sheet in joint_sheet(book, joint)]
