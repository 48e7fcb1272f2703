# SPDX-License-Identifier: LGPL-2.1-or-later

"""What helps where a line is missed, best first: fewer layers at once, cauls, boards over the whole face, a jaw on a
step inside the run, a waste tab left on the blank, a rod through the bore. Each with its figures.

What pads could reach is asked of all their seats at once, whatever number of clamps there is: a figure of the form and
not of the rack.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import shapely
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.lengths import size, size_up, sizes
from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.plan.gluing import Caul, WasteTab
from freecad_stacklam.lamination.pressing.cauls import bar_section, barred, board_cauls
from freecad_stacklam.lamination.pressing.clamping import ENOUGH, FROM_ABOVE, Clamping
from freecad_stacklam.lamination.pressing.cones import cones_down, cones_up, pad_discs
from freecad_stacklam.lamination.pressing.faces import Slab, in_one_step, with_cauls
from freecad_stacklam.lamination.pressing.seats import Seats, bore_seats, bores, clamp_seats, step_seats, top_seats
from freecad_stacklam.lamination.pressing.tabs import COLUMN, option_line, tabs_for
from freecad_stacklam.lamination.pressing.work import Line, Work
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.words import say, say_of

#: The caul that is spoken of where the room has none, mm.
USUAL_CAUL = 36.0
#: Where less of a line is reached, tabs are told of beside what helps as well (the limit that press.py judges by).
CHOICE = 0.9
#: How much wider than its bore a washer is, mm (common practice, no source).
WASHER = 20.0
#: Seats, the area of pads on them, and whether the bench bears the pile.
_Pads = tuple[Seats, shapely.Geometry, bool]


@dataclass(frozen=True)
class Landings:
    """What would help a run: sentences, best first, and tabs for its worst line. `fewer`: that of the helps which wants
    fewer layers at once, another order; "" where none does."""

    helps: tuple[str, ...] = ()
    tabs: tuple[WasteTab, ...] = ()
    fewer: str = ""


def reach(pile: Sequence[Slab], presses: Sequence[PressSettings], contact: MultiPolygon, line: int) -> float:
    """The share of a line (place of its lower slab in the pile) that pads on any of their seats reach."""
    return _share(_reached(pile, _outer(pile, presses), line), contact)


def shares_in_reach(
    pile: Sequence[Slab], contacts: Sequence[MultiPolygon], presses: Sequence[PressSettings], caul: float
) -> tuple[float, ...]:
    """The share of each line of a pile that pads on all their seats reach, bare or on boards over the faces, of a
    thickness (0: none are used): no more is reached by those that are owned. A bar brings the force of clamps beside
    the wood to any flat, so that no throat is asked for. A vacuum bag reaches all."""
    height = pile[-1].top - pile[0].bottom
    pile = tuple(map(in_one_step, pile))
    if any(p.kind == "vacuum" and (p.opening is None or p.opening >= height) for p in presses):
        return (1.0,) * len(contacts)
    free = tuple(replace(p, throat=None) for p in presses)
    found = _shares(pile, contacts, _outer(pile, free))
    if caul > 0.0 and min(found, default=1.0) < 1.0 - ENOUGH:
        below, above = board_cauls(pile, caul)
        cauled = with_cauls(pile, below.outline, above.outline, caul)
        beside = MultiPolygon()  # between wood and board nothing is glued
        boards = _shares(cauled, (beside, *contacts, beside), _outer(cauled, free))[1:-1]
        found = tuple(map(max, found, boards))
    return found


def _shares(pile: Sequence[Slab], contacts: Sequence[MultiPolygon], pads: Sequence[_Pads]) -> tuple[float, ...]:
    cones: list[list[shapely.Geometry]] = [[] for _ in contacts]
    for bench in sorted({on for _, _, on in pads}):
        area = shapely.union_all([a for _, a, on in pads if on == bench])
        downs = cones_down(pile, area)
        ups = downs if bench else cones_up(pile, area)
        for at, (down, up) in enumerate(zip(downs, ups)):
            cones[at].append(shapely.intersection(down, up))
    return tuple(_share(areas_of(shapely.union_all(cone)), contact) for cone, contact in zip(cones, contacts))


def landings_for(work: Work, presses: Sequence[PressSettings], caul: float, clamping: Clamping | None) -> Landings:
    """What would help the line that is missed most; nothing where none is missed. caul: thickness of the shop's cauls,
    mm, 0 where none are used."""
    shares = {p.lower: p.reached for p in clamping.pressures} if clamping else {}
    worst = min(work.lines, key=lambda line: shares.get(line.lower, 0.0))
    now = shares.get(worst.lower, 0.0)
    clamps = tuple(p for p in presses if p.kind != "vacuum")
    if now >= 1.0 - ENOUGH or not clamps:
        return Landings()
    asked = _Asked(work, clamps, caul or USUAL_CAUL, worst, now, clamping.cauls if clamping else ())
    asked.more_pads()
    before = len(asked.says)
    asked.fewer_layers()
    fewer = "".join(asked.says[before:])
    asked.bars()
    asked.boards()
    asked.steps()
    asked.tabs_left()
    asked.rod()
    return Landings(tuple(asked.says), tuple(asked.tabs), fewer)


@dataclass(eq=False)
class _Asked:
    """One line and what is found to help it."""

    work: Work
    presses: tuple[PressSettings, ...]
    caul: float
    line: Line
    now: float
    cauls: tuple[Caul, ...]  # that are laid already
    says: list[str] = field(default_factory=list)
    tabs: list[WasteTab] = field(default_factory=list)
    best: float = 0.0

    @property
    def name(self) -> str:
        """The line as makers call it."""
        return say("the line between layers {lower} and {upper}", lower=self.line.lower, upper=self.line.lower + 1)

    def helped(self, share: float, sentence: str) -> None:
        """Keeps a sentence whose figure is better than what is reached now."""
        if share > self.now + ENOUGH / 2:
            self.says.append(sentence)
            self.best = max(self.best, share)

    def more_pads(self) -> None:
        """Whether pads on all seats would reach it: then it is the number of clamps that lacks."""
        share = reach(self.work.run, self.presses, self.line.interface.contact, self.line.place)
        if share < 1.0 - ENOUGH:
            return
        self.helped(
            share,
            say(
                "More clamps on the same flats would reach {share} of {name}, where these reach {now}.",
                share=_percent(share),
                name=self.name,
                now=_percent(self.now),
            ),
        )

    def fewer_layers(self) -> None:
        """The longest run around the line that reaches it."""
        first, last = self.work.run[0].number, self.work.run[-1].number
        low, high = self.line.lower, self.line.lower + 1
        if (low, high) == (first, last):
            return
        share = self._of_run(low, high)
        grown = share >= 1.0 - ENOUGH
        while grown:
            grown = False
            for a, b in ((low - 1, high), (low, high + 1)):
                if a >= first and b <= last and (a, b) != (first, last):
                    found = self._of_run(a, b)
                    if found >= 1.0 - ENOUGH:
                        low, high, share, grown = a, b, found, True
        self.helped(
            share,
            say(
                "Glue fewer layers at once: with layers {low} to {high} alone, {share} of {name} is reached, not "
                "{now}.",
                low=low,
                high=high,
                share=_percent(share),
                name=self.name,
                now=_percent(self.now),
            ),
        )

    def _of_run(self, low: int, high: int) -> float:
        pile = [slab for slab in self.work.run if low <= slab.number <= high]
        return reach(pile, self.presses, self.line.interface.contact, self.line.lower - low)

    def bars(self) -> None:
        """Bars with clamps at both ends."""
        press = max((p for p in self.presses if p.kind == "clamp"), key=lambda p: p.force, default=None)
        found = barred(self.work, press) if press and not any(c.bar for c in self.cauls) else None
        if found is None or press is None:
            return
        share = next(p.reached for p in found.pressures if p.lower == self.line.lower)
        bar = max(found.cauls, key=lambda c: c.length)
        section = bar_section(bar.length - press.pad, press.force, press.pad)
        self.helped(
            share,
            say(
                "{cauls} pairs of bars as cauls, {length} long, {width} wide and {thickness} thick with a crown of "
                "{crown} in the middle, with a clamp at each end reach {share} of {name}.",
                cauls=len(found.cauls) // 2,
                length=size_up(bar.length),
                width=size_up(section.width),
                thickness=size_up(section.thickness),
                crown=size(section.crown),
                share=_percent(share),
                name=self.name,
            ),
        )

    def boards(self) -> None:
        """Boards over the whole face, and as thick again where one does not do."""
        for thickness in (self.caul, 2 * self.caul):
            if any(not c.bar and c.thickness >= thickness for c in self.cauls):
                continue
            below, above = board_cauls(self.work.run, thickness)
            pile = with_cauls(self.work.run, below.outline, above.outline, thickness)
            share = reach(pile, self.presses, self.line.interface.contact, self.line.place + 1)
            self.helped(
                share,
                say(
                    "Cauls over the whole face, {thickness} thick, {above} above and {below} below, reach {share} of "
                    "{name}.",
                    thickness=size_up(thickness),
                    above=_board(above),
                    below=_board(below),
                    share=_percent(share),
                    name=self.name,
                ),
            )
            if share >= 1.0 - ENOUGH:
                break

    def steps(self) -> None:
        """Jaws on steps inside the run."""
        found = [s for p in self.presses if p.kind == "clamp" for s in _steps(self.work.run, p, self.line.place)]
        if not found:
            return
        every = [*_outer(self.work.run, self.presses), *found]
        share = _share(_reached(self.work.run, every, self.line.place), self.line.interface.contact)
        step = max((s for s, _, _ in found), key=lambda s: s.area.area)
        low, high = self.work.run[step.low].number, self.work.run[step.high].number
        self.helped(
            share,
            say(
                "A jaw on a step inside the run reaches {share} of {name}: set clamps on the faces of layers {low} "
                "and {high}, {opening} apart, where these stand bare.",
                share=_percent(share),
                name=self.name,
                low=low,
                high=high,
                opening=size_up(step.opening),
            ),
        )

    def tabs_left(self) -> None:
        """Tabs, where nothing before helps enough, or so much is missed that a maker wants the choice."""
        press = max((p for p in self.presses if p.kind == "clamp"), key=lambda p: p.force, default=None)
        choice = self.now < CHOICE and len(self.work.run) <= COLUMN
        if press is None or (self.best >= 1.0 - ENOUGH and not choice):
            return
        seats = areas_of(shapely.union_all([s.area for s, _, _ in _outer(self.work.run, (press,))]))
        found = tabs_for(self.work.run, self.line.interface.contact, self.line.place, press.pad, seats)
        if not found:
            return
        self.tabs.extend(found)
        share, count, layers = found[-1].reached, len({t.option for t in found}), sorted({t.layer for t in found})
        part = max(sum(t.share for t in found if t.layer == layer) for layer in layers)
        many, them = say("a tab"), say_of("a tab", "it")
        if count > 1:
            many, them = say("{count} tabs", count=count), say_of("tabs", "them")
        which = (
            say("blank of layer {layers}", layers=layers[0])
            if len(layers) == 1
            else say("blanks of layers {layers} to {last}", layers=layers[0], last=layers[-1])
        )
        self.helped(
            share,
            say(
                "Leave {many} of waste on the {which}, {percent} more of it, for a pad each: {share} of {name} is "
                "then reached; saw {them} off after the glue-up. To have {them}, write in the stack's table of the "
                "settings file, or the same values under Waste tabs for clamps in the panel that slices the form, "
                "which the stack's property Waste Tabs holds: {option_line}",
                many=many,
                which=which,
                percent=_percent(part),
                share=_percent(share),
                name=self.name,
                them=them,
                option_line=option_line(t.option for t in found),
            ),
        )

    def rod(self) -> None:
        """A rod where a bore goes through the whole run."""
        found = bores(self.work.run)
        if not found or any(p.kind == "rod" for p in self.presses):
            return
        pad = max(width for _, width in found) + WASHER
        discs = pad_discs([middle for middle, _ in found], pad)
        pads = [*_outer(self.work.run, self.presses), (clamp_seats(self.work.run, pad, None), discs, False)]
        share = _share(_reached(self.work.run, pads, self.line.place), self.line.interface.contact)
        self.helped(
            share,
            say(
                "A rod through the bore with washers of {pad} and nuts {height} apart reaches {share} of {name}.",
                pad=size(pad),
                height=size(self.work.height),
                share=_percent(share),
                name=self.name,
            ),
        )


def _outer(pile: Sequence[Slab], presses: Sequence[PressSettings]) -> list[_Pads]:
    found: list[_Pads] = []
    for press in presses:
        if press.kind == "rod":
            seats = clamp_seats(pile, press.pad, None)
            pads = pad_discs(bore_seats(pile, press.pad), press.pad)
        elif press.kind in FROM_ABOVE:
            seats = top_seats(pile, press.pad)
            pads = shapely.buffer(seats.area, press.pad / 2)
        elif press.kind == "clamp":
            seats = clamp_seats(pile, press.pad, press.throat)
            pads = shapely.buffer(seats.area, press.pad / 2)
        else:
            continue
        if not pads.is_empty and (press.opening is None or seats.opening <= press.opening):
            found.append((seats, pads, press.kind in FROM_ABOVE))
    return found


def _steps(run: Sequence[Slab], press: PressSettings, line: int) -> list[_Pads]:
    return [
        (seats, shapely.buffer(seats.area, press.pad / 2), False)
        for seats in step_seats(run, press.pad, press.throat, line)
        if press.opening is None or seats.opening <= press.opening
    ]


def _reached(pile: Sequence[Slab], pads: Sequence[_Pads], line: int) -> MultiPolygon:
    """What all pads reach of a line, those on the same slabs together."""
    found = []
    for low, high, bench in sorted({(s.low, s.high, on) for s, _, on in pads}):
        if not low <= line < high:
            continue
        area = shapely.union_all([a for s, a, on in pads if (s.low, s.high, on) == (low, high, bench)])
        part = pile[low : high + 1]
        cone = cones_down(part[line - low :], area)[0]
        if not bench:
            cone = areas_of(shapely.intersection(cone, cones_up(part[: line - low + 2], area)[-1]))
        found.append(cone)
    return areas_of(shapely.union_all(found))


def _share(cone: MultiPolygon, contact: MultiPolygon) -> float:
    if contact.is_empty:
        return 0.0
    missed = areas_of(shapely.difference(contact, cone), 1.0)
    return max(0.0, float(1.0 - missed.area / contact.area))


def _percent(share: float) -> str:
    return f"{min(100, int(100 * share + 0.5))} %"


def _board(caul: Caul) -> str:
    """Length and width of a caul, to whole millimetres."""
    return sizes(round(caul.length), round(caul.width))
