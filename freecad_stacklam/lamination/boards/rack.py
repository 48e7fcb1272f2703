# SPDX-License-Identifier: LGPL-2.1-or-later

"""The rack: boards on hand and boards that can be bought, and how the shop saws them."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import fields
from math import isfinite
from typing import Any

from freecad_stacklam.lamination.cells import safe_cell
from freecad_stacklam.lamination.lengths import LENGTHS, parse_length
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import Board, Knot, Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings


def shop_from(shop: Mapping[str, Any]) -> ShopSettings:
    """The part of the shop's settings that concerns boards and staves."""
    known = {f.name for f in fields(ShopSettings)}
    return ShopSettings(**{k: v for k, v in shop.items() if k in known})


def rack_from(boards: Sequence[Mapping[str, Any]]) -> Rack:
    """Records from the [[board]] tables of the settings file (lengths in mm already)."""
    made = []
    for i, facts in enumerate(boards):
        name = str(facts.get("name") or f"Board {i + 1}")
        missing = [k for k in ("thickness", "width", "length") if k not in facts]
        if missing:
            raise Refusal(f"Board “{name}” has no {' and no '.join(missing)}: give its real size.")
        knots = tuple(Knot(*k) for k in facts.get("knots", ()))
        rest = {k: v for k, v in facts.items() if k not in ("name", "knots")}
        rest.setdefault("count", 0 if rest.get("for_sale") else 1)
        made.append(Board(name=name, knots=knots, **rest))
    return Rack(tuple(made))


#: Columns of a rack's CSV file; the first three after the name carry a unit in the head, as in "thickness mm".
COLUMNS = ("name", "species", "thickness", "width", "length", "count", "cost", "per", "for sale", "grade", "knots")
_NEEDED = ("name", "thickness", "width", "length")
_SIZES = ("thickness", "width", "length")


def read_rack(text: str, name: str = "rack.csv") -> Rack:
    """A rack from CSV text called `name`. Raises Refusal with the line: "rack.csv, line 3: …".

    Sizes carry a unit, in the cell or in the column's head ("width mm"). Knots are "x y dx dy" groups parted by
    semicolons, in the unit of the length.
    """
    rows = list(csv.reader(io.StringIO(text.removeprefix("\ufeff"))))
    rows_at = [(i + 1, row) for i, row in enumerate(rows) if any(c.strip() for c in row)]
    if not rows_at:
        raise Refusal(f"{name} is empty: the first line must name the columns, {', '.join(COLUMNS)}.")
    at, heads = rows_at[0]
    if len(heads) == 1 and ";" in heads[0]:
        raise Refusal(f"{name}, line {at}: the columns are parted by semicolons: save the file with commas.")
    columns, units = _heads(heads, name, at)
    return Rack(tuple(_board(row, columns, units, name, i) for i, row in rows_at[1:]))


def _heads(heads: Sequence[str], name: str, at: int) -> tuple[list[str], dict[str, str]]:
    columns: list[str] = []
    units: dict[str, str] = {}
    for head in heads:
        words = head.strip().lower().split()
        if len(words) == 2 and words[0] in _SIZES:
            if words[1] not in LENGTHS:
                raise Refusal(f"{name}, line {at}: “{words[1]}” is no unit of length: write mm, cm, m, in or ft.")
            units[words[0]] = words[1]
            words = words[:1]
        column = " ".join(words)
        if column not in COLUMNS:
            raise Refusal(f"{name}, line {at}: there is no column “{head.strip()}”; they are {', '.join(COLUMNS)}.")
        if column in columns:
            raise Refusal(f"{name}, line {at}: the column “{column}” stands twice: leave one out.")
        columns.append(column)
    missing = [c for c in _NEEDED if c not in columns]
    if missing:
        raise Refusal(f"{name}, line {at}: the column “{missing[0]}” is missing; {', '.join(_NEEDED)} are needed.")
    return columns, units


def _board(row: Sequence[str], columns: Sequence[str], units: Mapping[str, str], name: str, at: int) -> Board:
    if len(row) > len(columns):
        raise Refusal(
            f"{name}, line {at}: there are {len(row)} cells for {len(columns)} columns: a decimal comma parts a number "
            "in two, write a point, as in 44.5."
        )
    cells = {c: _bare(v) for c, v in zip(columns, row)}
    try:
        sizes = {c: parse_length(cells.get(c, ""), units.get(c, "")) for c in _SIZES}
        for_sale = _yes(cells.get("for sale", ""))
        facts: dict[str, Any] = {
            "name": cells["name"] or f"Board {at - 1}",
            "species": cells.get("species", ""),
            "count": int(_number(cells.get("count") or ("0" if for_sale else "1"), "count", whole=True)),
            "cost": _number(cells["cost"], "cost") if cells.get("cost") else None,
            "per": cells.get("per") or "board",
            "for_sale": for_sale,
            "grade": cells.get("grade", ""),
            "knots": _knots(cells.get("knots", ""), units.get("length", "mm")),
        }
        return Board(**{**facts, **sizes})
    except Refusal as error:
        raise Refusal(f"{name}, line {at}: {error}") from None


def _bare(cell: str) -> str:
    """A cell without the apostrophe that keeps a spreadsheet from taking it for a formula."""
    text = cell.strip()
    return text[1:] if len(text) > 1 and text[0] == "'" and text[1] in "=+-@" else text


def _number(text: str, what: str, whole: bool = False) -> float:
    if "," in text:
        raise Refusal(f"the {what} “{text}” has a comma: write a point, as in {text.replace(',', '.', 1)}.")
    try:
        value = float(text)
    except ValueError:
        raise Refusal(f"the {what} “{text}” is no number: write it with digits and a point, without a sign.") from None
    if not isfinite(value) or (whole and value != int(value)):
        raise Refusal(f"the {what} “{text}” is no {'whole number' if whole else 'number'}.")
    return value


def _yes(text: str) -> bool:
    if text.lower() not in ("", "yes", "no"):
        raise Refusal(f"“for sale” is “{text}”: write yes or no.")
    return text.lower() == "yes"


def _knots(text: str, unit: str) -> tuple[Knot, ...]:
    knots = []
    for group in filter(None, (g.strip() for g in text.split(";"))):
        parts = group.split()
        if len(parts) != 4:
            raise Refusal(f"the knot “{group}” needs four sizes, x y dx dy, parted by spaces: 600 40 80 35.")
        knots.append(Knot(*(parse_length(p, unit) for p in parts)))
    return tuple(knots)


def write_rack(rack: Rack, units: str = "mm") -> str:
    """The rack as CSV text (RFC 4180) that reads back the same; sizes in mm or inches, as the heads say."""
    one = LENGTHS["in" if units == "in" else "mm"]
    unit = "in" if units == "in" else "mm"

    def shown(value: float) -> str:
        return f"{value / one:.6f}".rstrip("0").rstrip(".")

    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow([f"{c} {unit}" if c in _SIZES else c for c in COLUMNS])
    for b in rack.boards:
        knots = "; ".join(" ".join(shown(v) for v in k.box) for k in b.knots)
        writer.writerow([
            safe_cell(b.name), safe_cell(b.species), shown(b.thickness), shown(b.width), shown(b.length), b.count,
            "" if b.cost is None else f"{b.cost:.6f}".rstrip("0").rstrip("."), b.per, "yes" if b.for_sale else "no",
            b.grade, knots,
        ])  # fmt: skip
    return text.getvalue()
