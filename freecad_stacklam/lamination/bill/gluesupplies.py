# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the glue-up uses, as rows of the bill: glue, cauls, rods.

Glue is counted for every copy of a stack. Cauls and rods are used again from round to round, so as many are counted as
are in use at once.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from freecad_stacklam.lamination.lengths import format_fine
from freecad_stacklam.lamination.plan.bill import BillRow
from freecad_stacklam.lamination.plan.gluing import Caul, GlueUpPlan, SetUp
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.settings.glue import GlueSettings
from freecad_stacklam.lamination.settings.presses import PressSettings
from freecad_stacklam.lamination.words import figure, mark, say, say_of

_CAUL = mark(
    "per piece; waxed or taped, flat stock of any straight wood; as many as are in use at once, then used again; in no "
    "total"
)
_ROD = "per piece, with nuts and a plate at either end; as many as are in use at once; in no total"


def supply_rows(
    plan: GlueUpPlan,
    stacks: Sequence[StackPlan],
    glue: GlueSettings,
    presses: Sequence[PressSettings] = (),
    units: str = "mm",
) -> tuple[BillRow, ...]:
    """Rows for glue, cauls and rods; none where nothing is glued. units: "mm" or "in", for words."""
    if not plan.set_ups:
        return ()
    return (_glue_row(plan, stacks, glue), *_caul_rows(plan, units), *_rod_rows(plan, presses))


def copies_of(set_up: SetUp, copies: Mapping[str, int]) -> int:
    """How often a set-up is done: once for every copy of its stack, of a joint for the most copied of its stacks."""
    return max((copies[n] for n in (*set_up.stacks, set_up.stack) if n in copies), default=1)


def _glue_row(plan: GlueUpPlan, stacks: Sequence[StackPlan], glue: GlueSettings) -> BillRow:
    copies = {s.name: s.copies for s in stacks}
    times = [(s, copies_of(s, copies)) for s in plan.set_ups]
    mass = sum(n * s.glue for s, n in times) / 1000
    lost = figure(f"{100 * glue.loss:g} %")
    return BillRow(
        "glue",
        plan.glue_name,
        "",
        1,
        area=sum(n * s.area for s, n in times),
        mass=mass,
        cost=None if glue.price is None else glue.price * mass,
        how=say(
            "all set-ups, every copy; area of all its lines, {lost} more for squeeze-out, pot and brush", lost=lost
        ),
        per="" if glue.price is None else say("{price:g} per kg × {mass:.3f} kg", price=glue.price, mass=mass),
    )


@dataclass(frozen=True)
class _Size:
    """Cauls of one size are one row."""

    bar: bool
    length: float
    width: float
    thickness: float
    crown: float


def _size(caul: Caul) -> _Size:
    return _Size(caul.bar, *(round(v, 1) for v in (caul.length, caul.width, caul.thickness, caul.crown)))


def _most_at_once(found: Mapping[int, Counter]) -> Counter:  # type: ignore[type-arg]
    """The most of each in any round."""
    most: Counter = Counter()  # type: ignore[type-arg]
    for counted in found.values():
        most |= counted
    return most


def _caul_rows(plan: GlueUpPlan, units: str) -> list[BillRow]:
    found: dict[int, Counter[_Size]] = {}
    for set_up in plan.set_ups:
        found.setdefault(set_up.round, Counter()).update(map(_size, set_up.cauls))
    rows = []
    for size, count in sorted(_most_at_once(found).items(), key=lambda p: (p[0].bar, -p[0].length, -p[0].width)):
        crown = "; " + say(
            "planed hollow toward the ends, {crown} higher in the middle", crown=format_fine(size.crown, units)
        )
        name = say_of("a caul", "bar") if size.bar else say_of("a caul", "board")
        rows.append(
            BillRow(
                "caul", name, "", count, size.thickness, size.length, size.width,
                area=size.length * size.width, volume=size.length * size.width * size.thickness,
                how=say(_CAUL) + (crown if size.crown > 0 else ""),
            )
        )  # fmt: skip
    return rows


def _rod_rows(plan: GlueUpPlan, presses: Sequence[PressSettings]) -> list[BillRow]:
    """Rods by what they are called; each is as long as the highest pile that it presses, or as the maker's own is."""
    rods = {p.name: p for p in presses if p.kind == "rod"}
    found: dict[int, Counter[str]] = {}
    length: dict[str, float] = {}
    for set_up in plan.set_ups:
        used = [p.press for p in set_up.places if p.press in rods]
        found.setdefault(set_up.round, Counter()).update(used)
        for name in used:
            length[name] = max(length.get(name, 0.0), set_up.opening)
    return [
        BillRow("rod", name, "", count, length=rods[name].opening or length[name], how=_ROD)
        for name, count in sorted(_most_at_once(found).items())
    ]
