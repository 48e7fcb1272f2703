# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the job costs: wood, glue, abrasives, finish, and hours at the maker's own rates.

Nothing is guessed. What has no price or no rate is named, and the total says that it is short of it.
"""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.lamination.bill.gluesupplies import copies_of
from freecad_stacklam.lamination.bill.rows import tenon_count
from freecad_stacklam.lamination.findings.finishing import FinishFindings, Quote, QuoteLine, WorkHours
from freecad_stacklam.lamination.lengths import SQUARE_METRE
from freecad_stacklam.lamination.plan.bill import SO_FAR, TOTAL, BillRow
from freecad_stacklam.lamination.plan.outline import Outline, sample
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.usage.rates import RateSettings
from freecad_stacklam.lamination.words import figure, mark, say, say_many

#: Items of the bill that are paid for, by the line of the quote that they are in. Boards on hand cost what they cost.
PAID = {
    mark("wood"): ("board to buy", "board on hand", "board for its grade"),
    mark("glue"): ("glue",),
    mark("finish"): ("finish",),
    mark("abrasives"): ("abrasive",),
}
#: Rows that are bought besides, and have no price in any table.
UNPRICED = {
    "tenon stock": mark("the wood of tenons"),
    "dowel": mark("dowels"),
    "caul": mark("cauls"),
    "rod": mark("rods"),
}
MM_PER_METRE = 1000.0


def outline_length(outline: Outline) -> float:
    """What the band saw cuts of one outline, holes counted, mm."""
    total = 0.0
    for loop in (outline.outer, *outline.holes):
        points = sample(loop)
        ahead = [*points[1:].tolist(), points[0].tolist()]
        total += sum(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 for a, b in zip(points.tolist(), ahead))
    return total


def work_hours(plan: Plan, rates: RateSettings, found: FinishFindings | None = None) -> tuple[WorkHours, ...]:
    """Hours of each kind of work that has a rate, every copy counted. found: the surface that is sanded and
    finished."""
    copies = {s.name: s.copies for s in plan.stacks}
    made: list[WorkHours] = []

    def add(what: str, hours: float, how: str) -> None:
        made.append(WorkHours(what, hours, how))

    layers = sum(s.copies * len(s.layers) for s in plan.stacks)
    if rates.layer_hours is not None:
        add(
            mark("layout"),
            layers * rates.layer_hours,
            say("{layers} layers × {layer_hours:g} h", layers=layers, layer_hours=rates.layer_hours),
        )
    if rates.sawing_rate is not None:
        metres = sum(
            s.copies * outline_length(o) for s in plan.stacks for layer in s.layers for o in layer.blank
        ) / MM_PER_METRE  # fmt: skip
        add(
            mark("sawing"),
            metres / rates.sawing_rate,
            say("{metres:.1f} m of outline at {sawing_rate:g} m an hour", metres=metres, sawing_rate=rates.sawing_rate),
        )
    if rates.set_up_hours is not None and plan.glue_up is not None:
        times = sum(copies_of(s, copies) for s in plan.glue_up.set_ups)
        add(
            mark("gluing"),
            times * rates.set_up_hours,
            say("{times} set-ups × {set_up_hours:g} h", times=times, set_up_hours=rates.set_up_hours),
        )
    if rates.joint_hours is not None and plan.joints:
        joints = sum(tenon_count(plan, joint) for joint in plan.joints)
        add(mark("joints"), joints * rates.joint_hours, figure(f"{joints} × {rates.joint_hours:g} h"))
    if plan.carving is not None and plan.carving.rate is not None:
        litres = sum(copies.get(r.stack, 1) * r.volume for r in plan.carving.removed) / 1e6
        add(
            mark("carving"),
            litres / plan.carving.rate,
            say("{litres:.1f} l at {rate:g} l an hour", litres=litres, rate=plan.carving.rate),
        )
    area = 0.0 if found is None else found.area / SQUARE_METRE
    if found is not None and rates.sanding_rate is not None and found.sheets:
        grits = len(found.sheets)
        add(
            mark("sanding"),
            grits * area / rates.sanding_rate,
            say(
                "{area:.2f} m² × {grits} grits at {sanding_rate:g} m²/h",
                area=area,
                grits=grits,
                sanding_rate=rates.sanding_rate,
            ),
        )
    if found is not None and rates.coating_rate is not None:
        hours = found.coats * area / rates.coating_rate
        add(
            mark("finishing"),
            hours,
            say(
                "{area:.2f} m² × {coats} coats at {coating_rate:g} m²/h",
                area=area,
                coats=found.coats,
                coating_rate=rates.coating_rate,
            ),
        )
    if rates.other_hours is not None:
        add(mark("other work"), rates.other_hours, say("once for the job"))
    return tuple(made)


def quote_of(plan: Plan, rows: Sequence[BillRow], rates: RateSettings, found: FinishFindings | None = None) -> Quote:
    """What a job costs. rows: of the whole bill, those of the finish too."""
    missing: list[str] = []
    lines: list[QuoteLine] = []
    for what, items in PAID.items():
        mine = [row for row in rows if row.item in items]
        if not mine:
            if what in ("wood", "finish"):
                missing.append(
                    say("The wood is not in it: no boards are planned.")
                    if what == "wood"
                    else say("The finish is not in it: no finish is chosen.")
                )
            continue
        known = [row.count * row.cost for row in mine if row.cost is not None]
        short = len(mine) - len(known)
        if short:
            names = sorted({row.name for row in mine if row.cost is None})
            several = say("No price is given for {names} and more.", names=", ".join(names[:4]))
            missing.append(several if len(names) > 4 else say("No price is given for {names}.", names=", ".join(names)))
        how = say_many("{count} row of the bill", "{count} rows of the bill", len(mine))
        lines.append(QuoteLine(what, sum(known) if known else None, how))
    besides = [say(words) for item, words in UNPRICED.items() if any(row.item == item for row in rows)]
    if besides:
        missing.append(say("Not in it, and to be priced by hand: {names}.", names=", ".join(besides)))
    hours = work_hours(plan, rates, found)
    lines += _work(hours, rates, missing)
    subtotal = sum(line.cost for line in lines if line.cost is not None)
    markup = subtotal * rates.markup / 100
    return Quote(tuple(lines), hours, markup, subtotal + markup, tuple(missing))


def _work(hours: Sequence[WorkHours], rates: RateSettings, missing: list[str]) -> list[QuoteLine]:
    """The line of the hours, where any are counted."""
    if not hours:
        missing.append(say("Work is not in it: no rate of your own is given."))
        return []
    total = sum(one.hours for one in hours)
    if rates.hour_price is None:
        missing.append(say("{total:.1f} h of work have no price: say what an hour costs.", total=total))
        return [QuoteLine(mark("work"), None, figure(f"{total:.1f} h"))]
    cost = total * rates.hour_price
    return [QuoteLine(mark("work"), cost, figure(f"{total:.1f} h × {rates.hour_price:g}"))]


def quote_rows(quote: Quote, rates: RateSettings) -> tuple[BillRow, ...]:
    """Rows of the bill: hours of each kind of work, the sums, what is put on top, and the total."""
    each = rates.hour_price
    rows = [
        BillRow(
            "work", say(one.what), "", 1, how=one.how, cost=None if each is None else one.hours * each,
            per=figure(f"{one.hours:.2f} h" + ("" if each is None else f" × {each:g}")),
        )
        for one in quote.hours
    ]  # fmt: skip
    rows += [BillRow("quote", say(line.what), "", 1, how=line.how, cost=line.cost) for line in quote.lines]
    if quote.markup:
        rows.append(
            BillRow(
                "quote",
                say("on top"),
                "",
                1,
                how=say("{markup:g} % of the sums above", markup=rates.markup),
                cost=quote.markup,
            )
        )
    short = (
        say("all that this bill knows of")
        if quote.complete
        else say("short of: {missing}", missing=" ".join(quote.missing).rstrip("."))
    )
    total = None if all(line.cost is None for line in quote.lines) else quote.total
    name = say(TOTAL) if quote.complete else say(SO_FAR)
    return (*rows, BillRow("quote", name, "", 1, how=short, cost=total))
