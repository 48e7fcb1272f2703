# SPDX-License-Identifier: LGPL-2.1-or-later

"""The pages of one set-up: what goes on what and where glue goes, the clock, the clamp plan, and the figures."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, fine_number, unit_name, unit_words, wrapped
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, NOTE, PLAIN, STRONG, Mark, Sheet, Text
from freecad_stacklam.benchsheets.gluing import clockbars
from freecad_stacklam.benchsheets.gluing.clampplan import clamp_plan, holds_number
from freecad_stacklam.benchsheets.gluing.clockbars import bars_height, clock_bars, clock_block
from freecad_stacklam.benchsheets.gluing.gluewords import (
    area_text,
    faces_text,
    force_text,
    place_number,
    pressed_name,
    pressure_text,
    set_up_facts,
    set_up_name,
    title_of,
    wanted_text,
)
from freecad_stacklam.benchsheets.gluing.picture import Box, Picture, lowest
from freecad_stacklam.benchsheets.gluing.runs import foot_of, inner_jaw, stack_named, tightened
from freecad_stacklam.benchsheets.gluing.sideview import joint_view, side_view
from freecad_stacklam.benchsheets.gluing.spreadmaps import spread_maps
from freecad_stacklam.benchsheets.pages.blocks import Block, Column, flow, notes
from freecad_stacklam.benchsheets.pages.continued import next_page
from freecad_stacklam.benchsheets.pages.reminders import GLUE
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.titleblock import block_of, title_block
from freecad_stacklam.lamination.keywords import shown as shown_word
from freecad_stacklam.lamination.plan.gluing import EDGES, JOINT, GlueUpPlan, SetUp
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.words import mark, say

#: Height of a caption over a picture, and of the pictures' rows at the most, mm of paper.
CAPTION, PICTURES, CLAMPS = 6.0, 96.0, 122.0
#: Where all stands on one page, its pictures in a row so high, at the most; that of a panel, which has but one.
ROW_OF_ALL, PANEL = 82.0, 106.0
#: Parts of that height that are tried where they save a page.
LOWER = (1.0, 0.8, 0.64)
#: How the width is shared by two pictures and by three: the shares with the largest scales are taken.
TWO = ((70.0, 110.0), (92.0, 88.0), (110.0, 70.0))
THREE = ((62.0, 46.0, 72.0), (76.0, 50.0, 54.0), (60.0, 60.0, 60.0), (50.0, 40.0, 90.0))
#: From baseline to baseline of the heading's facts, mm.
LINE = 4.2
KIND = "glue-up"
#: Lettering of the tables as a part of the usual: its capitals are 2.1 mm high at the least.
SIZES = (1.0, 0.92, 0.84)


def pads_block(plan: Plan, set_up: SetUp, units: Units) -> Block | None:
    """Where each pad's middle sits, from the axis cross; two pads in a row of the table where both have room. None for
    a panel, whose bars stand at even steps that are told and drawn."""
    places = tightened(set_up)
    if not places or set_up.kind == EDGES:
        return None
    stack = stack_named(plan, set_up.stack)
    jaws = [inner_jaw(stack, set_up, place) for place in places]
    cells = []
    for i, (place, jaw) in enumerate(zip(places, jaws, strict=True), start=1):
        x, y = (place_number(v, units) for v in place.at)
        cells.append((str(i), x, y, f"{place.press}, {jaw}" if jaw else place.press, force_text(place.force, units)))
    heads = (say("pad"), "x", "y", say("press"), say("force"))
    shares, left = (9.0, 16.0, 16.0, 29.0, 19.0), (True, False, False, True, False)
    title = say(
        "Pads in the order they are tightened: their middles from the axis cross, {unit}",
        unit=unit_name(units),
    )
    if units.both or len(cells) < 4 or any(jaws):
        return Block(title, heads, (9.0, 30.0, 30.0, 76.0, 33.0), left, tuple(cells))
    half = (len(cells) + 1) // 2
    pairs = [(*one, *two) for one, two in zip(cells[:half], [*cells[half:], ("",) * 5])]
    return Block(title, heads * 2, shares * 2, left * 2, tuple(pairs))


def pressure_block(set_up: SetUp, units: Units) -> Block | None:
    """Pressure reached beside pressure wanted, line by line; None where nothing presses: a broken limit says so."""
    if not any(p.mean for p in set_up.pressures):
        return None
    one = Units(units.first, units.fraction)
    rows = []
    for p in set_up.pressures:
        closes = "" if p.closes is None else fine_number(p.closes, one)
        crush = "" if p.crush is None else f"{100 * p.crush:.0f} %"
        mean, fifth, least = (pressure_text(value, one) for value in (p.mean, p.fifth, p.least))
        reach = f"{100 * p.reached:.0f} %"
        name, area = pressed_name(set_up, p.lower), area_text(p.area, units)
        rows.append((name, area, wanted_text(p.wanted, one), mean, fifth, least, reach, closes, crush))
    heads = (
        say("line"),
        say("area"),
        say("wanted"),
        say("mean"),
        say("lowest 5 %"),
        say("least"),
        say("in reach"),
        say("closes"),
        say("crushing"),
    )
    wide = (15.0, 19.0, 33.0, 19.0, 20.0, 18.0, 16.0, 15.0, 18.0)
    title = say("Pressure reached; gaps that it closes in {unit}", unit=unit_words(one))
    shown = len(heads)
    if not any(row[-2] or row[-1] for row in rows):  # of seams and seats neither is worked out
        title, shown = say("Pressure reached"), len(heads) - 2
    left = (True, *(False,) * (shown - 1))
    return Block(title, heads[:shown], wide[:shown], left, tuple(row[:shown] for row in rows))


def _told(title: str, sentences: Sequence[str], width: float) -> list[Block]:
    some = [sentence for sentence in sentences if sentence]
    return [notes(title, some, width)] if some else []


def _words_before(set_up: SetUp, width: float) -> list[Block]:
    """What is read before glue is opened."""
    blocks = _told(
        say("A LIMIT IS BROKEN") if len(set_up.limits) == 1 else say("LIMITS ARE BROKEN"),
        [limit.says for limit in set_up.limits],
        width,
    )
    blocks += _told(say("Before it closes"), set_up.before, width)
    blocks += _told(say("Why a set-up of its own"), [set_up.why], width)
    return blocks


def _words_after(set_up: SetUp, width: float) -> list[Block]:
    """What is read with the clamps in hand."""
    blocks = _told(say("What would help the pressure, best first"), set_up.helps, width)
    return blocks + _told(say("Mind"), [*set_up.cautions, say(GLUE)], width)


def _figures(book: Book, set_up: SetUp) -> list[Block]:
    both = (pads_block(book.plan, set_up, book.units), pressure_block(set_up, book.units))
    return [block for block in both if block is not None]


@dataclass(frozen=True)
class Draw:
    """A picture to be drawn into a box of the page, and its caption."""

    caption: str
    picture: Callable[[Book, SetUp, Box], Picture]


class _Page:
    """A page while it is filled from the top: pictures, then tables under them."""

    def __init__(self, book: Book, set_up: SetUp, glue_up: GlueUpPlan) -> None:
        self.book, self.set_up = book, set_up
        self.page = book.desk.portrait()
        self.f = drawing_space(self.page)
        self.x0, self.x1 = self.f.x + 1.0, self.f.x + self.f.width - 1.0
        self.marks: list[Mark] = []
        self.level = self.f.y + self.f.height - LARGE - 3.2
        self.glue_up = glue_up

    @property
    def width(self) -> float:
        return self.x1 - self.x0

    @property
    def room(self) -> float:
        """What is left under the pictures, mm."""
        return self.level - self.f.y - 2.0

    def heading(self) -> None:
        """Its facts, and the limits that it breaks by name."""
        foot = foot_of(self.book.plan, self.set_up)
        for fact in set_up_facts(self.set_up, self.glue_up, foot, self.book.units):
            for line in wrapped(fact, PLAIN, self.width - 4.0):
                self.level -= LINE
                self.marks.append(Text((self.x0, self.level + 0.6), line, PLAIN, fit=self.width))
        if self.set_up.limits:
            names = ", ".join(dict.fromkeys(shown_word(limit.name) for limit in self.set_up.limits))
            self.level -= LINE + 2.6
            self.marks.append(
                Text(
                    (self.x0, self.level + 0.8),
                    say("DOES NOT HOLD: {limits}", limits=names),
                    STRONG,
                    bold=True,
                    fit=self.width,
                )
            )
        self.level -= 2.0

    def boxes(self, height: float, shares: Sequence[float]) -> list[Box]:
        """Boxes side by side under what is there, at most so high, less their captions."""
        whole = sum(shares)
        found, x = [], self.x0
        for share in shares:
            wide = self.width * share / whole
            found.append((x, self.level - height, x + wide - 2.0, self.level - CAPTION))
            x += wide
        return found

    def row(self, height: float, draw: Sequence[Draw], choices: Sequence[Sequence[float]]) -> list[Picture]:
        """Pictures side by side with their captions and legends: with those shares of the width that draw them
        largest. The pictures."""
        tried = [(boxes, [one.picture(self.book, self.set_up, box) for one, box in zip(draw, boxes, strict=True)])
                 for boxes in (self.boxes(height, shares) for shares in choices)]  # fmt: skip
        boxes, pictures = min(tried, key=lambda pair: sum(picture.n for picture in pair[1]))
        low = self.level - CAPTION
        for one, box, picture in zip(draw, boxes, pictures, strict=True):
            if picture.marks:
                caption = f"{say(one.caption)}, 1:{picture.n}"
                self.marks.append(Text((box[0], box[3] + 1.4), caption, PLAIN, bold=True, fit=box[2] - box[0] - 1.0))
                self.marks += picture.marks
                low = min(low, lowest(picture.marks, low))
        self.level = low - 1.0
        for picture in pictures:
            if picture.marks and picture.legend:
                self.note(picture.legend)
        return pictures

    def clock(self) -> bool:
        """The bars of its time; False where they have no room here."""
        if not self.set_up.clock.moves:
            return True
        high = bars_height(self.set_up) + CAPTION
        if high + 6.0 > self.room:
            return False
        (box,) = self.boxes(high, (1.0,))
        self.marks += clock_bars(self.set_up, box)
        self.marks.append(Text((box[0], box[3] + 1.4), say("Time"), PLAIN, bold=True))
        self.level -= high
        self.note(say(clockbars.KEY))
        return True

    def note(self, words: str) -> None:
        """A small line under a picture."""
        for line in wrapped(words, NOTE + 0.2, self.width - 4.0):
            self.level -= 3.4
            self.marks.append(Text((self.x0, self.level + 0.9), line, NOTE + 0.2, fit=self.width))
        self.level -= 1.0


def _what(book: Book, set_up: SetUp, box: Box) -> Picture:
    return (joint_view if set_up.kind == JOINT else side_view)(book.plan, set_up, box)


def _glue(book: Book, set_up: SetUp, box: Box) -> Picture:
    glue_up = book.plan.glue_up
    picture = spread_maps(book.plan, set_up, book.units, box)
    faces = f"{faces_text(glue_up)}. " if glue_up is not None else ""
    return replace(picture, legend=faces + picture.legend)


def _clamped(book: Book, set_up: SetUp, box: Box) -> Picture:
    return clamp_plan(book.plan, set_up, box)


WHAT, SPREAD = Draw(mark("What goes on what"), _what), Draw(mark("Glue, from above"), _glue)
CLAMPED = Draw(mark("Clamps, from above"), _clamped)


def _one_page(filled: _Page, part: float = 1.0) -> bool:
    """All pictures in a row, so high as that part of the usual; whether the pads are large enough there to hold their
    numbers."""
    set_up = filled.set_up
    filled.heading()
    if set_up.kind == EDGES:
        pictures = filled.row(PANEL * part, [CLAMPED], [(1.0,)])
    elif set_up.kind == JOINT:
        pictures = filled.row(
            ROW_OF_ALL * part, [WHAT, CLAMPED] if set_up.places else [WHAT], TWO if set_up.places else [(1.0,)]
        )
    else:
        pictures = filled.row(ROW_OF_ALL, [WHAT, SPREAD, CLAMPED], THREE)
    roomy = filled.clock()
    return roomy and all(holds_number(place.pad / 2 / pictures[-1].n) for place in set_up.places)


def _blocks(book: Book, set_up: SetUp, width: float) -> tuple[list[Block], list[Block]]:
    before = _words_before(set_up, width)
    clock = [clock_block(set_up)] if set_up.clock.moves else []
    return [*before, *clock], [*_figures(book, set_up), *_words_after(set_up, width)]


def set_up_sheets(book: Book, glue_up: GlueUpPlan, set_up: SetUp) -> list[Sheet]:
    """The pages of one set-up, not yet numbered: one where all has room on it, else one for laying and spreading and
    one for clamping, and more where tables go on. Smaller lettering where that saves a page."""
    if set_up.kind in (EDGES, JOINT) or len(set_up.lines) <= 1:
        tried = []
        for part in LOWER:
            single = _Page(book, set_up, glue_up)
            clear = _one_page(single, part)
            tried += [_finished([single], size) for size in SIZES]
            if set_up.kind not in (EDGES, JOINT) or len(tried[-1]) == 1:
                break
        sheets = min(tried, key=len)
        if (len(sheets) == 1 and clear) or set_up.kind in (EDGES, JOINT):
            return sheets
    laying = _Page(book, set_up, glue_up)
    laying.heading()
    laying.row(PICTURES, [WHAT, SPREAD], TWO)
    pages = [laying]
    if not laying.clock():
        pages.append(_Page(book, set_up, glue_up))
        pages[-1].clock()
    clamping = _Page(book, set_up, glue_up)
    clamping.row(CLAMPS, [CLAMPED], [(1.0,)])
    return min((_finished([*pages, clamping], size) for size in SIZES), key=len)


def _finished(pages: Sequence[_Page], size: float) -> list[Sheet]:
    """Pages with their tables, in lettering of that part of the usual; what finds no room under the first page's
    pictures goes on under the second's."""
    first = pages[0]
    before, after = _blocks(first.book, first.set_up, first.width / size)
    sheets: list[Sheet] = []
    left: list[Block] = []
    while len(sheets) < len(pages) or left:
        number = len(sheets)
        page = pages[number] if number < len(pages) else _Page(first.book, first.set_up, first.glue_up)
        left += before if number == 0 else []
        left += after if number == len(pages) - 1 else []
        column = Column(page.x0, page.level, page.width, page.room)
        tables, left = flow(left, [column], size=size)
        sheets.append(_sheet(page, tables, number))
    return sheets


def _sheet(page: _Page, tables: Sequence[Mark], count: int) -> Sheet:
    book, set_up = page.book, page.set_up
    title = next_page(title_of(set_up)) if count else title_of(set_up)
    block = block_of(
        book,
        say("Glue-up"),
        say("glue-up {number}", number=set_up.number),
        set_up_name(set_up),
        note=say("{note}; scales over the pictures", note=book.sizes_note),
    )
    head = Text((page.f.x + 1.0, page.f.y + page.f.height - LARGE), title, LARGE, bold=True, fit=page.f.width - 2.0)
    marks = (head, *page.marks, *tables, *title_block(page.page, block))
    size = (page.page.width, page.page.height)
    return Sheet(KIND, title, size, marks, stack=set_up.stack, paper_name=page.page.name)
