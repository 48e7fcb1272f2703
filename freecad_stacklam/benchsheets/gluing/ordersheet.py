# SPDX-License-Identifier: LGPL-2.1-or-later

"""The page before the set-ups: their order and rounds, whether to begin, what to lay out, and the dry run."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, fine_text, length_text, most_text, size_text, wrapped
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, Sheet
from freecad_stacklam.benchsheets.gluing.gluewords import (
    VERDICTS,
    begun,
    force_text,
    grams_text,
    mass_text,
    set_up_name,
)
from freecad_stacklam.benchsheets.pages.blocks import Block, notes, steps
from freecad_stacklam.benchsheets.pages.tablepages import table_pages
from freecad_stacklam.benchsheets.pages.titleblock import block_of
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan, SetUp
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.quantities import format_temperature, format_time
from freecad_stacklam.lamination.words import figure, mark, say, say_many

WIDTH = 178.0
#: The feeler that may not enter a line that is clamped dry, mm. Common practice, no source.
FEELER = 0.1
#: A crown that no plane takes off, mm, is not told.
LEAST_CROWN = 0.1


def dry_run(plan: Plan, units: Units) -> tuple[str, ...]:
    """What is done without glue before each set-up, in its order."""
    feeler = fine_text(FEELER, units)
    bare = [stack.name for stack in plan.stacks if len(stack.layers) > 1 and not stack.pins]
    keys = [say("Set the pins dry; every layer goes down by hand and comes off again by hand.")]
    if bare:
        keys = keys[: len(bare) < len(plan.stacks)] + [
            say(
                "No pins are set in {stacks}, and wet layers slide under the clamps: keep each in its place by two "
                "brads clipped short, in waste that is carved off, or by blocks against its sides, and try that dry.",
                stacks=listed(bare),
            )
        ]
    return (
        say(
            "Pile the whole stack dry in its order, FRONT to FRONT, and strike the triangle in pencil over all its "
            "front edges, point up: a layer out of its place shows at once."
        ),
        *keys,
        say("Clamp the run dry with every clamp and caul of its page, in the order of the numbers, and time it."),
        say(
            "Try a feeler of {feeler} all round each line: where it enters, plane again; clamps are no planes.",
            feeler=feeler,
        ),
        say("Compare your time with the page: if it is longer, glue fewer lines at once or ask for help."),
        say(
            "Take off the clamps and lay them open in their order, bars to one side; spread the glue out of reach of "
            "the sleeves."
        ),
    )


def _order(glue_up: GlueUpPlan, units: Units) -> Block:
    rows = []
    last = 0
    for s in glue_up.set_ups:
        clock = format_time(s.clock.to_pressure)
        lines = str(len(s.lines) or "")
        holds = say("yes") if s.held else ", ".join(dict.fromkeys(shown(limit.name) for limit in s.limits)).upper()
        turn = str(s.round) if s.round != last else ""
        last = s.round
        rows.append((turn, str(s.number), set_up_name(s), lines, grams_text(s.glue, units), clock, holds))
    return Block(
        say("Order: set-ups of one round may cure side by side; between rounds the glue is waited for"),
        (say("round"), say("no."), say("what is glued"), say("lines"), say("glue"), say("to last clamp"), say("holds")),
        (13.0, 9.0, 60.0, 11.0, 21.0, 27.0, 37.0),
        (True, True, True, False, False, False, True),
        tuple(rows),
    )


def _proof(glue_up: GlueUpPlan) -> str:
    low, high = glue_up.rounds
    rounds = (
        say_many(
            "{count} wait for the glue, and no order needs fewer",
            "{count} waits for the glue, and no order needs fewer",
            high,
        )
        if low == high
        else say_many(
            "{count} wait for the glue; an order with {fewer} is not ruled out",
            "{count} waits for the glue; an order with {fewer} is not ruled out",
            high,
            fewer=low,
        )
    )
    count = len(glue_up.set_ups)
    if glue_up.set_ups_proven:
        return say_many(
            "{count} set-up, {waits}; no order has fewer set-ups.",
            "{count} set-ups, {waits}; no order has fewer set-ups.",
            count,
            waits=rounds,
        )
    return say_many(
        "{count} set-up, {waits}; an order with fewer set-ups is not ruled out.",
        "{count} set-ups, {waits}; an order with fewer set-ups is not ruled out.",
        count,
        waits=rounds,
    )


def _waits(glue_up: GlueUpPlan, units: Units) -> tuple[str, ...]:
    opened, assembly, clamped, cured = glue_up.times
    return (
        _proof(glue_up),
        say(
            "{glue_name} at {temperature}: open time {opened}, assembly time {assembly}, in clamps {clamped}, cured "
            "after {cured}. What stands on your own can comes first.",
            glue_name=begun(shown(glue_up.glue_name)),
            temperature=format_temperature(glue_up.temperature, units.first),
            opened=format_time(opened),
            assembly=format_time(assembly),
            clamped=format_time(clamped),
            cured=format_time(cured),
        ),
    )


def _conditions(glue_up: GlueUpPlan) -> list[Block]:
    if not glue_up.conditions:
        return []
    worst = next((v for v in ("no", "wait") if any(c.verdict == v for c in glue_up.conditions)), "go")
    title = {
        "no": mark("Before glue is opened: NO, do not glue yet"),
        "wait": mark("Before glue is opened: WAIT"),
        "go": mark("Before glue is opened: go"),
    }[worst]
    order = {"no": 0, "wait": 1, "go": 2}
    some = sorted(glue_up.conditions, key=lambda c: order.get(c.verdict, 1))
    return [notes(say(title), [f"{say(VERDICTS[c.verdict])} – {c.says}" for c in some], WIDTH)]


def most_at_once(set_ups: Sequence[SetUp]) -> dict[str, tuple[int, float, float]]:
    """Of each press the most that one round wants: how many, force, widest opening. Set-ups of a round stand in the
    clamps together."""
    found: dict[str, tuple[int, float, float]] = {}
    for turn in sorted({s.round for s in set_ups}):
        wanted: dict[str, int] = {}
        for s in (s for s in set_ups if s.round == turn):
            for place in s.places:
                wanted[place.press] = wanted.get(place.press, 0) + 1
                count, force, opening = found.get(place.press, (0, 0.0, 0.0))
                found[place.press] = (count, max(force, place.force), max(opening, s.opening))
        for press, count in wanted.items():
            most, force, opening = found[press]
            found[press] = (max(most, count), force, opening)
    return found


#: A caul that is laid out: a bar, or a full one on top or below, and whether its middle is higher.
_CAULS = {
    ("bar", False): mark("bar caul, {size}, {thickness} thick (set-up {number}, half of them on top)"),
    ("bar", True): mark(
        "bar caul, {size}, {thickness} thick, middle higher by {crown} (set-up {number}, half of them on top)"
    ),
    ("top", False): mark("full caul, {size}, {thickness} thick (set-up {number}, top)"),
    ("top", True): mark("full caul, {size}, {thickness} thick, middle higher by {crown} (set-up {number}, top)"),
    ("bottom", False): mark("full caul, {size}, {thickness} thick (set-up {number}, bottom)"),
    ("bottom", True): mark("full caul, {size}, {thickness} thick, middle higher by {crown} (set-up {number}, bottom)"),
}


def laid_out(glue_up: GlueUpPlan, units: Units) -> list[tuple[str, str]]:
    """What is laid out before the first glue: what, and how much of it."""
    rows = [
        (
            say("glue"),
            say(
                "{glue}, {amount} for all set-ups, loss counted in",
                glue=shown(glue_up.glue_name),
                amount=grams_text(glue_up.glue, units),
            ),
        )
    ]
    for press, (count, force, opening) in most_at_once(glue_up.set_ups).items():
        sentence = (
            mark("{count}, each drawn to {force} at the most, jaws to {opening}")
            if opening
            else mark("{count}, each drawn to {force} at the most")
        )
        jaws = most_text(opening, units) if opening else ""
        rows.append((press, say(sentence, count=count, force=force_text(force, units), opening=jaws)))
    cauls: dict[str, int] = {}
    for s in glue_up.set_ups:
        for caul in s.cauls:
            crowned = caul.crown >= LEAST_CROWN
            words = say(
                _CAULS[caul.side if not caul.bar else "bar", crowned],
                size=size_text(caul.length, caul.width, units),
                thickness=length_text(caul.thickness, units),
                crown=fine_text(caul.crown, units) if crowned else "",
                number=s.number,
            )
            cauls[words] = cauls.get(words, 0) + 1
    rows += [(say("cauls") if i == 0 else "", f"{count} × {words}") for i, (words, count) in enumerate(cauls.items())]
    heavy = max((s.burden.mass for s in glue_up.set_ups if s.burden and s.burden.mass is not None), default=None)
    if heavy is not None:
        rows.append((say("heaviest"), say("{mass} to be moved", mass=mass_text(heavy, units))))
    besides = say("spreader, feeler, clock, straight edge, damp cloth, wax paper under every caul and pad")
    return [*rows, (say("besides"), besides)]


def _lay_out(glue_up: GlueUpPlan, units: Units) -> Block:
    rows = []
    for what, words in laid_out(glue_up, units):
        first, *rest = wrapped(words, PLAIN, 138.0)
        rows += [(what, first), *(("", line) for line in rest)]
    return Block(say("Lay out"), (say("what"), say("how much")), (34.0, 144.0), (True, True), tuple(rows))


def _water(glue_up: GlueUpPlan) -> list[Block]:
    if not glue_up.water:
        return []
    found: dict[tuple[str, str, str], list[int]] = {}
    for stack, layer, points, days in glue_up.water:
        found.setdefault((stack, figure(f"{points:.2f}"), f"{days:.0f}"), []).append(layer)
    rows = [(stack, _runs(layers), points, days) for (stack, points, days), layers in found.items()]
    title = say("Water that the glue brings: let it leave before carving")
    heads = (say("stack"), say("layers"), say("points added"), say("days to wait"))
    return [Block(title, heads, (50.0, 60.0, 34.0, 34.0), (True, True, False, False), tuple(rows))]


def _runs(numbers: Sequence[int]) -> str:
    """“1, 3 to 5”."""
    found: list[list[int]] = []
    for n in sorted(numbers):
        if found and n == found[-1][1] + 1:
            found[-1][1] = n
        else:
            found.append([n, n])
    return ", ".join(str(a) if a == b else say("{first} to {last}", first=a, last=b) for a, b in found)


def order_sheets(book: Book, glue_up: GlueUpPlan) -> list[Sheet]:
    """Order, conditions, what to lay out, dry run. Not yet numbered."""
    units = book.units
    blocks = [_order(glue_up, units), notes(say("How long it takes"), _waits(glue_up, units), WIDTH)]
    blocks += [*_conditions(glue_up), _lay_out(glue_up, units)]
    blocks += [steps(say("Dry run, before each set-up"), dry_run(book.plan, units), WIDTH), *_water(glue_up)]
    if glue_up.notes:
        blocks.append(notes(say("Besides"), glue_up.notes, WIDTH))
    if glue_up.left_out:
        blocks.insert(0, notes(say("NOT PLANNED"), [f"{left.what}: {left.says}" for left in glue_up.left_out], WIDTH))
    title = say("Glue-up: order and conditions")
    block = block_of(book, say("Glue-up"), say("glue-up"), title, note=book.sizes_note)
    return table_pages("glue-up", title, book.desk, block, blocks, WIDTH)
