# SPDX-License-Identifier: LGPL-2.1-or-later

"""Why a set-up is one of its own: what would break if it were done together with the one that it goes into, and why two
sub-stacks are made and then joined where they are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from freecad_stacklam.lamination.gluing.breaks import CHISEL, CLOCK, OPENING, SEATS, breaks_of
from freecad_stacklam.lamination.gluing.clampsets import PressSet
from freecad_stacklam.lamination.gluing.limits import Shop, Terms
from freecad_stacklam.lamination.gluing.pile import Pile
from freecad_stacklam.lamination.gluing.programme import Run
from freecad_stacklam.lamination.gluing.weighing import Trial, Weighed, most_force, told_apart
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.gluing import BrokenLimit
from freecad_stacklam.lamination.quantities import format_time
from freecad_stacklam.lamination.words import mark, say


@dataclass(frozen=True)
class Together:
    """The runs of an order as they are pressed, for what would be worse if they were done together. first: number of
    the lowest layer."""

    trial: Trial
    way: Weighed
    first: int

    def lost(self, both: Run, runs: Sequence[Run]) -> str:
        """What `both` in place of some runs would lose; nothing is asked where weighing changed nothing."""
        if not self.way.changed:
            return ""
        apart = {p.lower: p for run in runs for p in self.trial.pressed(run)}
        most = most_force(self.way.terms)
        return told_apart(self.trial.pressed(both), apart, most)


def why_of(
    pile: Pile,
    shop: Shop,
    terms: Terms,
    runs: Sequence[Run],
    rounds: Sequence[int],
    sets: Sequence[PressSet],
    which: int,
    together: Together | None = None,
) -> str:
    """A sentence or two on one set-up of an order. together: what was pressed to weigh it (None: nothing was)."""
    run = runs[which]
    goes_into = next((i for i, other in enumerate(runs) if (run.a, run.b) in other.parts), None)
    made = [i for i, other in enumerate(runs) if (other.a, other.b) in run.parts]
    told = []
    if goes_into is not None:
        told.append(_apart(pile, shop, terms, runs, sets, which, goes_into, together))
    elif not made:
        told.append(say("All lines at once: {reason}.", reason=_at_once(pile, shop, run, sets[which], together)))
    else:
        told.append(say("The last: it holds the whole stack."))
    if len(made) > 1:
        told.append(_joined(pile, shop, terms, runs, rounds, which, made))
    return " ".join(told)


def _apart(
    pile: Pile, shop: Shop, terms: Terms, runs: Sequence[Run], sets: Sequence[PressSet], which: int, goes_into: int,
    together: Together | None,
) -> str:  # fmt: skip
    """Why a set-up is not done together with the one that it goes into."""
    run, later = runs[which], runs[goes_into]
    both = Run(later.a, later.b, tuple(sorted({*run.lines, *later.lines})))
    joins = [(a + pile.first, b + pile.first) for a, b in both.parts]
    own = {limit.name for limit in _all(pile, shop, later, sets[goes_into])}
    limits = breaks_of(pile, shop, joins, sets[goes_into])
    # What the later set-up breaks by itself is a reason only where it grows: more clamps that find no room.
    new = [limit for limit in limits if limit.name not in own or limit.name == SEATS]
    first, last = later.a + pile.first, later.b + pile.first
    out = [i for i in run.lines if not (terms.low[i, both.a] or terms.high[i, both.b])]
    lost = together.lost(both, (run, later)) if together is not None else ""
    if not new and not out and not lost:
        if together is None or not together.way.changed:
            return say(
                "Apart from the set-up of layers {first} to {last}, so that no other set-up grows too long.",
                first=first,
                last=last,
            )
        return say(
            "Apart from the set-up of layers {first} to {last}, so that no other set-up reaches less of its lines.",
            first=first,
            last=last,
        )
    reasons = [lost] if lost else []
    reasons += [_reason(limit) for limit in new]
    if out and not any(limit.name == CHISEL for limit in new):
        reasons.append(say("line {line} would be out of a chisel's reach", line=out[0] + pile.first))
    return say(
        "Apart from the set-up of layers {first} to {last}: together {reasons}.",
        first=first,
        last=last,
        reasons=listed(reasons),
    )


def _at_once(pile: Pile, shop: Shop, run: Run, of: PressSet, together: Together | None) -> str:
    if together is not None and len(run.lines) > 1 and together.way.left:
        return say("no order that was tried is pressed better")
    if not _all(pile, shop, run, of):
        return say("no limit asks for more")
    if together is None:
        return say("in more set-ups the clamps would be no more; what they reach is not weighed here")
    return say("in more set-ups the clamps would be no more")


def _all(pile: Pile, shop: Shop, run: Run, of: PressSet) -> tuple[BrokenLimit, ...]:
    return breaks_of(pile, shop, [(a + pile.first, b + pile.first) for a, b in run.parts], of)


def _reason(limit: BrokenLimit) -> str:
    if limit.unit == "s":
        return say(
            mark("they would take {needed} of {there}")
            if limit.name == CLOCK
            else mark("a line would wait {needed} of {there}"),
            needed=format_time(limit.needed),
            there=format_time(limit.there),
        )
    if limit.name == OPENING:
        return say(
            "they would stand {height} high between jaws that open {opening}",
            height=size(limit.needed),
            opening=size(limit.there),
        )
    if limit.name == SEATS:
        return say(
            "they would want {needed:g} clamps, and about {there:g} would find room within their throats",
            needed=limit.needed,
            there=limit.there,
        )
    if limit.unit == "":
        return say(
            "they would want {needed:g} clamps, and {there:g} open wide enough", needed=limit.needed, there=limit.there
        )
    words = {"crushing": say("the smallest line would be crushed"), "lift": say("a part would be too heavy to lift")}
    words |= {
        "pressure": say("the bag would press too little"),
        CHISEL: say("a mortise would be out of a chisel's reach"),
    }
    return words[limit.name]


def _joined(
    pile: Pile,
    shop: Shop,
    terms: Terms,
    runs: Sequence[Run],
    rounds: Sequence[int],
    which: int,
    made: Sequence[int],
) -> str:
    """Why sub-stacks are made apart and then joined, and the pile does not grow layer by layer."""
    run = runs[which]
    reasons = []
    tall = pile.height(run.a + pile.first, run.b + pile.first) + shop.cauls
    if all(_presses(terms, run) != _presses(terms, runs[i]) for i in made):
        reasons.append(
            say("other presses hold the join, which stands {height} high, than the sub-stacks", height=size(tall))
        )
    if len({rounds[i] for i in made}) < len(made):
        reasons.append(say("the clamps serve them side by side, in one wait"))
    grown = [(run.a, i) for i in range(run.a + 1, run.b) if (run.a, i) not in run.parts]
    if any(terms.rough[p] for p in grown) and not any(terms.rough[runs[i].a, runs[i].b] for i in made):
        reasons.append(say("each can still be re-faced and turned, and a growing pile could not"))
    if not reasons:
        return say("Its sub-stacks are made apart and then joined because that clamps the fewest layers again.")
    return say("Its sub-stacks are made apart and then joined because {reasons}.", reasons=listed(reasons))


def _presses(terms: Terms, run: Run) -> set[int]:
    """Which sets of presses can be used on a run."""
    return {way.of for w, way in enumerate(terms.ways) if terms.usable[w, run.a, run.b]}
