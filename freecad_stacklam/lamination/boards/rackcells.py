# SPDX-License-Identifier: LGPL-2.1-or-later

"""A rack as rows of text, as makers type it, and as the [[board]] tables that the settings hold.

The columns are those of a rack's CSV file. A cell that is left empty says nothing, so the table keeps no such key.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import isfinite
from typing import Any

from freecad_stacklam.lamination.boards.rack import COLUMNS, rack_from
from freecad_stacklam.lamination.lengths import INCH, LENGTHS, parse_length
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import GRADES, PER, Board, Rack

SIZES = ("thickness", "width", "length")
#: Column → key of a [[board]] table.
KEYS = {c: c.replace(" ", "_") for c in COLUMNS}
#: Says where a cell is, from the number of its row (from 0) and its column: "Rack, cell C3".
Where = Callable[[int, str], str]


def heads(units: str = "mm") -> list[str]:
    """The heads of the columns; sizes name their unit."""
    return [f"{c} {'in' if units == 'in' else 'mm'}" if c in SIZES else c for c in COLUMNS]


def read_heads(texts: Sequence[str], where: Callable[[int], str]) -> tuple[list[str], dict[str, str]]:
    """Columns, and the units that the heads of sizes name. `where` says where a head is. Raises Refusal."""
    columns: list[str] = []
    units: dict[str, str] = {}
    for i, text in enumerate(texts):
        words = text.strip().lower().split()
        if len(words) == 2 and words[0] in SIZES and words[1] in LENGTHS:
            units[words[0]] = words[1]
            words = words[:1]
        column = " ".join(words)
        if column not in COLUMNS:
            raise Refusal(f"{where(i)}: there is no column “{text.strip()}”; they are {', '.join(heads())}.")
        if column in columns:
            raise Refusal(f"{where(i)}: the column “{column}” stands twice: delete one of the two.")
        columns.append(column)
    missing = [c for c in SIZES if c not in columns]
    if missing:
        raise Refusal(f"{where(0)}: the column “{missing[0]}” is missing in this row: {', '.join(SIZES)} are needed.")
    return columns, units


def read_row(cells: Mapping[str, str], units: Mapping[str, str], row: int, where: Where) -> dict[str, Any]:
    """One [[board]] table from the texts of its cells, lengths in mm. Raises Refusal that begins with the cell."""
    facts: dict[str, Any] = {}
    for column in COLUMNS:
        text = cells.get(column, "").strip()
        if not text and column not in SIZES:
            continue
        unit = units.get(column if column in SIZES else "length", "mm")
        try:
            facts[KEYS[column]] = _READ[column](text, unit)
        except Refusal as refusal:
            raise Refusal(f"{where(row, column)}: {refusal}") from None
    facts.setdefault("name", f"Board {row + 1}")
    if facts.get("count") == 0 and facts.get("for_sale"):
        del facts["count"]  # as many as wanted
    try:
        rack_from([facts])
    except Refusal as refusal:
        raise Refusal(f"{where(row, 'name')}: {refusal}") from None
    return facts


def write_row(facts: Mapping[str, Any], units: str = "mm") -> list[str]:
    """The texts of one board's cells, in the order of the columns."""
    one = INCH if units == "in" else 1.0
    return [_WRITE.get(c, _word)(facts[KEYS[c]], one) if facts.get(KEYS[c]) is not None else "" for c in COLUMNS]


def facts_of(board: Board) -> dict[str, Any]:
    """A board as the settings' [[board]] table, without what goes without saying."""
    facts: dict[str, Any] = {"name": board.name}
    if board.species:
        facts["species"] = board.species
    facts |= {"thickness": board.thickness, "width": board.width, "length": board.length}
    if board.count > 0:
        facts["count"] = board.count
    if board.cost is not None:
        facts |= {"cost": board.cost, "per": board.per}
    facts["for_sale"] = board.for_sale
    if board.grade:
        facts["grade"] = board.grade
    if board.knots:
        facts["knots"] = tuple(k.box for k in board.knots)
    return facts


def tables_of(rack: Rack) -> tuple[dict[str, Any], ...]:
    """A whole rack as [[board]] tables."""
    return tuple(facts_of(b) for b in rack.boards)


# --- reading one cell ---------------------------------------------------------------------------------------------


def _text(text: str, unit: str) -> str:
    return text


def _size(text: str, unit: str) -> float:
    if not text:
        raise Refusal("this size is missing: give it as measured, such as 190 mm.")
    size = parse_length(text, unit)
    if size <= 0:
        raise Refusal(f"“{text}” is no size of a board: give more than 0.")
    return size


def _number(text: str, what: str) -> float:
    if "," in text:
        raise Refusal(f"“{text}” has a comma: write a point, as in {text.replace(',', '.', 1)}.")
    try:
        value = float(text)
    except ValueError:
        raise Refusal(f"“{text}” is no {what}: write it with digits, without a unit.") from None
    if not isfinite(value) or value < 0:
        raise Refusal(f"“{text}” is impossible for a {what}: give 0 or more.")
    return value


def _cost(text: str, unit: str) -> float:
    return _number(text, "cost")


def _count(text: str, unit: str) -> int:
    value = _number(text, "count")
    if value != int(value):
        raise Refusal(f"“{text}” is no count: give a whole number of boards.")
    return int(value)


def _yes(text: str, unit: str) -> bool:
    if text.lower() not in ("yes", "no"):
        raise Refusal(f"“{text}” says neither yes nor no: write yes for boards that you can buy, no for your own.")
    return text.lower() == "yes"


def _one_of(choices: Sequence[str]) -> Callable[[str, str], str]:
    def read(text: str, unit: str) -> str:
        found = next((c for c in choices if c.lower() == text.lower()), None)
        if found is None:
            raise Refusal(f"“{text}” is not known here: write {', '.join(choices[:-1])} or {choices[-1]}.")
        return found

    return read


def _knots(text: str, unit: str) -> tuple[tuple[float, ...], ...]:
    knots = []
    for group in filter(None, (g.strip() for g in text.split(";"))):
        parts = group.split()
        if len(parts) != 4:
            raise Refusal(f"the knot “{group}” needs four sizes, x y dx dy, parted by spaces, as in 600 40 80 35.")
        knots.append(tuple(parse_length(p, unit) for p in parts))
    return tuple(knots)


_READ: dict[str, Callable[[str, str], Any]] = {
    "name": _text, "species": _text, "thickness": _size, "width": _size, "length": _size, "count": _count,
    "cost": _cost, "per": _one_of(PER), "for sale": _yes, "grade": _one_of(tuple(GRADES)), "knots": _knots,
}  # fmt: skip


# --- writing one cell ---------------------------------------------------------------------------------------------


def _word(value: Any, one: float) -> str:
    return str(value)


def number_text(value: float, one: float = 1.0) -> str:
    """A number to 1e-6, without exponent."""
    return f"{value / one:.6f}".rstrip("0").rstrip(".")


def _plain_number(value: float, one: float) -> str:
    return number_text(value)


def _answer(value: bool, one: float) -> str:
    return "yes" if value else "no"


def _knot_text(value: Sequence[Sequence[float]], one: float) -> str:
    return "; ".join(" ".join(number_text(v, one) for v in knot) for knot in value)


_WRITE: dict[str, Callable[[Any, float], str]] = {
    "thickness": number_text, "width": number_text, "length": number_text, "cost": _plain_number,
    "for sale": _answer, "knots": _knot_text,
}  # fmt: skip
