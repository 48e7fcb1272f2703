# SPDX-License-Identifier: LGPL-2.1-or-later

"""A run of layers pressed with what the shop has: where the pads sit, what reaches each new line, which limits that
breaks, and what would help. mm, N, MPa."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil, pi

from freecad_stacklam.lamination.lengths import size, size_up
from freecad_stacklam.lamination.plan.gluing import BrokenLimit, Caul, ClampPlace, LinePressure, WasteTab
from freecad_stacklam.lamination.pressing.cauls import barred, board_cauls
from freecad_stacklam.lamination.pressing.clamping import ENOUGH, FROM_ABOVE, Clamping, bagged, put_on, stands_for
from freecad_stacklam.lamination.pressing.faces import with_cauls
from freecad_stacklam.lamination.pressing.landings import Landings, landings_for
from freecad_stacklam.lamination.pressing.seats import least_throat
from freecad_stacklam.lamination.pressing.wanted import FLOOR
from freecad_stacklam.lamination.pressing.work import StackWood, Work, work_of
from freecad_stacklam.lamination.quantities import both_forces, both_pressures
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.tolerances import ROUNDING, WHOLE
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.words import say

#: A limit is broken where the cones miss more than this share of a line. No source: the wood that is missed is glued
#: only where the faces are flat by themselves.
MISSED = 0.1
#: A pressure within this share of the wanted one is the wanted one: nobody tightens a clamp more exactly. Of four who
#: tightened the same clamps by hand two reached about 60 % and 140 % of the others (a magazine's test of 2010).
NEAR = 0.1
#: More clamps than this nobody borrows: another glue is the smaller change (common practice, no source).
BORROWED = 16


@dataclass(frozen=True)
class Pressed:
    """A run as it is pressed. `pressures` has every new line where wood meets wood; `opening` is between the jaws,
    cauls counted in; `asked` how many pads were to be set, of which `places` has those that have room; `tightened` the
    share of their usual force that is used; `helps` what would help where a line is missed, best first, `tabs` the
    outlines of waste tabs among them, and `fewer` that of them which wants another order."""

    places: tuple[ClampPlace, ...]
    pressures: tuple[LinePressure, ...]
    cauls: tuple[Caul, ...]
    opening: float
    limits: tuple[BrokenLimit, ...] = ()
    helps: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    tabs: tuple[WasteTab, ...] = ()
    asked: int = 0
    tightened: float = 1.0
    fewer: str = ""

    @property
    def held(self) -> bool:
        """Whether no limit is broken."""
        return not self.limits


def press_run(
    wood: StackWood,
    first: int,
    last: int,
    lines: Iterable[int],
    presses: Sequence[PressSettings],
    room: GluingRoom,
    wanted_by_line: Mapping[int, tuple[float, float]],
    units: str = "mm",
    table: Mapping[str, Species] | None = None,
) -> Pressed:
    """Layers first..last of a stack piled up with their new glue `lines` (line k is between layers k and k + 1) and
    pressed.

    wanted_by_line: the least and the most pressure each new line wants. table: the woods; left out, nothing is said of
    crushing and of gaps."""
    return told_of(try_run(wood, first, last, lines, presses, room, wanted_by_line, units, table))


@dataclass(frozen=True, eq=False)
class Attempt:
    """A run as it is pressed at the best (`clamping` None: nothing presses it), before anybody asks what would help.
    `caul`: how thick the shop's are, mm."""

    work: Work
    presses: tuple[PressSettings, ...]
    caul: float
    units: str
    clamping: Clamping | None = None
    limits: tuple[BrokenLimit, ...] = ()

    @property
    def pressures(self) -> tuple[LinePressure, ...]:
        """Of every new line where wood meets wood."""
        return _unpressed(self.work) if self.clamping is None else self.clamping.pressures


def try_run(
    wood: StackWood,
    first: int,
    last: int,
    lines: Iterable[int],
    presses: Sequence[PressSettings],
    room: GluingRoom,
    wanted_by_line: Mapping[int, tuple[float, float]],
    units: str = "mm",
    table: Mapping[str, Species] | None = None,
) -> Attempt:
    """As press_run, without what would help."""
    work = work_of(wood, first, last, lines, wanted_by_line, table or {})
    if not work.lines:
        return Attempt(work, tuple(presses), room.caul_thickness, units)
    clamping = _best(work, presses, room)
    whole = (first, last) == (wood.layers[0].number, wood.layers[-1].number)
    limits = _Limits(work, presses, clamping, room.caul_thickness, units, whole).all()
    return Attempt(work, tuple(presses), room.caul_thickness, units, clamping, limits)


def told_of(tried: Attempt) -> Pressed:
    """An attempt with what would help."""
    work, clamping = tried.work, tried.clamping
    if not work.lines:
        return Pressed((), (), (), work.height)
    found = landings_for(work, tried.presses, tried.caul, clamping) if tried.presses else Landings()
    helps = tuple(told(s, tried.units) for s in found.helps)
    if clamping is None:
        nothing = Pressed((), tried.pressures, (), work.height, tried.limits, helps, (), found.tabs)
        return replace(nothing, fewer=told(found.fewer, tried.units))
    return Pressed(
        clamping.places,
        clamping.pressures,
        clamping.cauls,
        clamping.opening,
        tried.limits,
        helps,
        tuple(told(s, tried.units) for s in _cautions(work, clamping)),
        found.tabs,
        clamping.asked,
        clamping.tightened,
        told(found.fewer, tried.units),
    )


def _best(work: Work, presses: Sequence[PressSettings], room: GluingRoom) -> Clamping | None:
    """Pads on the wood where they do; else with bars, with boards over the faces, in a bag: whichever does best."""
    bare = put_on(work, work.run, (), stands_for(work.run, presses))
    ways = [bare] if bare else []
    if bare is None or not _does(bare):
        bags = [bagged(work, press) for press in presses if press.kind == "vacuum"]
        ways += bags
        if room.caul_thickness > 0.0 and not any(map(_does, bags)) and not (bare and _only_few(bare)):
            ways += _with_boards(work, presses, room.caul_thickness)
            if not any(map(_does, ways)):
                ways += [way for p in presses if p.kind == "clamp" and (way := barred(work, p))]
    return max(ways, key=lambda way: way.worth, default=None)


def _with_boards(work: Work, presses: Sequence[PressSettings], thickness: float) -> list[Clamping]:
    below, above = board_cauls(work.run, thickness)
    pile = with_cauls(work.run, below.outline, above.outline, thickness)
    found = put_on(work, pile, (below, above), stands_for(pile, presses))
    return [found] if found else []


def _only_few(way: Clamping) -> bool:
    """Whether nothing lacks but clamps: cauls would not add any."""
    return way.reached >= 1.0 - ENOUGH and len(way.places) >= way.asked


def _does(way: Clamping) -> bool:
    return way.short >= 1.0 - NEAR and way.reached >= 1.0 - ENOUGH


def _unpressed(work: Work) -> tuple[LinePressure, ...]:
    return tuple(
        LinePressure(line.lower, line.interface.area, 0.0, 0.0, 0.0, 0.0, line.interface.contact, line.wanted)
        for line in work.lines
    )


def _with_less(way: Clamping, most: LinePressure) -> str:
    """What to do where the most pressed line is starved by the force that the table of the pads names: all lines lie
    under the same pads."""
    share = most.wanted[1] / most.mean
    if all(p.mean * share >= p.wanted[0] * (1 - NEAR) for p in way.pressures):
        return say(
            "Tighten to {share} % of the force in the table instead: no line gets too little by it.",
            share=round(100 * share),
        )
    return say("With less force another line would get too little: glue fewer layers at once.")


def _cautions(work: Work, way: Clamping) -> list[str]:
    found = []
    over = [p for p in way.pressures if p.mean > p.wanted[1] * (1 + NEAR)]
    if over:
        most = max(over, key=lambda p: p.mean / p.wanted[1])
        found.append(
            say(
                "The smaller lines get the force of the largest: {mean} between layers {lower} and {upper}, more "
                "than the {wanted} that the glue wants at most.",
                mean=both_pressures(most.mean),
                lower=most.lower,
                upper=most.lower + 1,
                wanted=both_pressures(most.wanted[1]),
            )
        )
        found.append(_with_less(way, most))
    outer = (work.table.get(work.woods[0]), work.table.get(work.woods[-1]))
    soft = [wood.compression_across for wood in outer if wood and wood.compression_across]
    hard = max((place.force / (pi / 4 * place.pad**2) for place in way.places if place.pad), default=0.0)
    if soft and not way.cauls and hard > min(soft):
        found.append(
            say(
                "The pads press with {hard} and dent the wood, which is crushed across the grain at {soft}: lay "
                "blocks under them on faces that are glued later.",
                hard=both_pressures(hard),
                soft=both_pressures(min(soft)),
            )
        )
    if any(caul.bar for caul in way.cauls):
        found.append(say("Draw the two clamps of each bar by turns, a little at a time: one end alone tips it."))
    if way.tightened < 1.0 - NEAR:
        found.append(
            say(
                "Tighten each clamp to {tightened} % of its usual force: more would starve a line.",
                tightened=round(100 * way.tightened),
            )
        )
    return found


@dataclass(frozen=True, eq=False)
class _Limits:
    work: Work
    presses: Sequence[PressSettings]
    way: Clamping | None
    caul: float
    units: str
    whole: bool  # the run is the whole stack: no order spares it

    def all(self) -> tuple[BrokenLimit, ...]:
        """Every limit that is broken, in the maker's units."""
        if self.way is None:
            return (self._no_seat(),)
        found = [*self._force(self.way), *self._crushing(self.way), *self._gaping(self.way), *self._reach(self.way)]
        return tuple(found)

    def _broken(self, name: str, needed: float, there: float, unit: str, says: str) -> BrokenLimit:
        return BrokenLimit(name, needed, there, unit, told(says, self.units))

    def _no_seat(self) -> BrokenLimit:
        """Why nothing presses at all: no clamps, none opens wide enough, none reaches in, no two flats."""
        run, height = self.work.run, self.work.height
        name = say("layers {run} to {last}", run=run[0].number, last=run[-1].number)
        clamps = [p for p in self.presses if p.kind != "vacuum"]
        if not clamps:
            need = ceil(self.work.force / PressSettings("clamp").force)
            says = say(
                "There are no clamps: give those of the shop; {name} want {force}.",
                name=name,
                force=both_forces(self.work.force),
            )
            return self._broken("clamps", need, 0, "", says)
        clamps = [p for p in clamps if p.kind not in FROM_ABOVE] or clamps
        opens = max((p.opening or height) for p in clamps)
        if opens < height - ROUNDING:
            fewer = "" if self.whole else say("glue fewer layers at once, or ")
            says = say(
                "No clamp opens wide enough for {name}: they stand {height} high, the widest clamp opens {opens}; "
                "{fewer}use a longer clamp, or bars under and over them that rods draw together.",
                name=name,
                height=size(height),
                opens=size(opens),
                fewer=fewer,
            )
            return self._broken("opening", height, opens, "mm", says)
        fit = [p for p in clamps if p.opening is None or p.opening >= height - ROUNDING]
        throat = least_throat(run, min(p.pad for p in fit))
        deepest = max((p.throat or 0.0) for p in fit)
        if throat is not None and all(p.throat for p in fit) and throat > deepest:
            says = say(
                "No clamp that opens wide enough reaches in to press {name}: the nearest flats are {throat} from "
                "where a bar can stand, and the deepest throat of those clamps is {deepest}.",
                name=name,
                throat=size_up(throat),
                deepest=size(deepest),
            )
            return self._broken("throat", throat, deepest, "mm", says)
        with_cauls = height + 2 * self.caul
        if self.caul and max((p.opening or with_cauls) for p in fit) < with_cauls - ROUNDING:
            says = say(
                "No pad finds two flats opposite each other on {name}, and with cauls of {caul} over the faces they "
                "stand {with_cauls} high: the widest clamp opens {opens}.",
                name=name,
                caul=size(self.caul),
                with_cauls=size(with_cauls),
                opens=size(opens),
            )
            return self._broken("opening", with_cauls, opens, "mm", says)
        fewer = "" if self.whole else say(", or fewer layers at once")
        says = say(
            "No pad finds two flats opposite each other on {name}: cauls over the whole faces are needed{fewer}.",
            name=name,
            fewer=fewer,
        )
        return self._broken("reach", 1.0, 0.0, "", says)

    def _force(self, way: Clamping) -> list[BrokenLimit]:
        short = [p for p in way.pressures if p.mean < p.wanted[0] * (1 - NEAR)]
        if not short:
            return []
        worst = min(short, key=lambda p: p.mean / p.wanted[0])
        where = say("between layers {lower} and {upper}", lower=worst.lower, upper=worst.lower + 1)
        gets = say(
            "{mean} {where}, where the glue wants {wanted}",
            mean=both_pressures(worst.mean),
            where=where,
            wanted=both_pressures(worst.wanted[0]),
        )
        gets += (
            say("; that is less than the {floor} that any thin line wants", floor=both_pressures(FLOOR))
            if worst.mean < FLOOR
            else ""
        )
        names = {p.name: p for p in self.presses}
        used = [names[name] for name in dict.fromkeys(place.press for place in way.places)]
        wanted, mean = worst.wanted[0], worst.mean
        if any(press.kind == "vacuum" for press in used):
            says = say("The vacuum bag lets the line get {gets}: take a glue that fills gaps, or clamps.", gets=gets)
            return [self._broken("pressure", wanted, mean, "MPa", says)]
        many = len(way.places)
        if many < way.asked:
            # Cauls were tried where the room has any, and two layers are the fewest.
            ways = [say("stronger clamps"), say("smaller pads")]
            ways += [] if way.cauls or self.caul else [say("cauls over the whole faces")]
            ways += [say("fewer layers at once")] if len(self.work.run) > 2 and not self.whole else []
            pads = say("pads has room; it gets") if many == 1 else say("pads have room; they get")
            says = say(
                "Only {many} of {asked} {pads} {gets}: use {list}.",
                many=many,
                asked=way.asked,
                pads=pads,
                gets=gets,
                list=", or ".join(ways),
            )
            return [self._broken("pressure", wanted, mean, "MPa", says)]
        strongest = max(used, key=lambda p: p.force)
        lacks = ceil((wanted - mean) * worst.area / strongest.force - WHOLE)
        more = say("{lacks} more like “{strongest}” would do", lacks=lacks, strongest=strongest.name)
        glue = say("a glue that wants no more than {mean}", mean=both_pressures(mean))
        mend = (
            say("{more}, or {glue}", more=more, glue=glue)
            if lacks <= BORROWED
            else say("take {glue}, such as one that fills gaps; with this one {more}", glue=glue, more=more)
        )
        clamps = (
            say("one clamp that can be used gets")
            if many == 1
            else say("{many} clamps that can be used get", many=many)
        )
        says = say("The {clamps} {gets}: {mend}.", clamps=clamps, gets=gets, mend=mend)
        return [self._broken("clamps", many + lacks, many, "", says)]

    def _crushing(self, way: Clamping) -> list[BrokenLimit]:
        worst = max(way.pressures, key=lambda p: p.crush or 0.0)
        if worst.crush is None or worst.crush <= 1.0:
            return []
        bears = worst.mean / worst.crush
        says = say(
            "The wood between layers {lower} and {upper} is crushed: it gets {mean} from the force that the "
            "largest line wants, and bears {bears} across the grain; glue the large and the small lines in two "
            "set-ups.",
            lower=worst.lower,
            upper=worst.lower + 1,
            mean=both_pressures(worst.mean),
            bears=both_pressures(bears),
        )
        return [self._broken("crushing", worst.mean, bears, "MPa", says)]

    def _gaping(self, way: Clamping) -> list[BrokenLimit]:
        """Where a twentieth of a line and more is not pressed, because the force passes beside it."""
        gapes = [p for p in way.pressures if p.fifth <= 0.0 < p.mean]
        if not gapes:
            return []
        worst = min(gapes, key=lambda p: p.area)
        says = say(
            "The line between layers {lower} and {upper} gapes on one side, for the force of the clamps passes "
            "beside its middle: glue fewer layers at once, so that pads stand over it on all sides.",
            lower=worst.lower,
            upper=worst.lower + 1,
        )
        return [self._broken("pressure", worst.wanted[0], worst.least, "MPa", says)]

    def _reach(self, way: Clamping) -> list[BrokenLimit]:
        worst = min(way.pressures, key=lambda p: p.reached)
        if worst.reached >= 1.0 - MISSED:
            return []
        says = say(
            "The clamps reach {reached} % of the line between layers {lower} and {upper}: the rest lies beyond 45° "
            "of every pad.",
            reached=round(100 * worst.reached),
            lower=worst.lower,
            upper=worst.lower + 1,
        )
        return [self._broken("reach", 1.0 - MISSED, worst.reached, "", says)]
