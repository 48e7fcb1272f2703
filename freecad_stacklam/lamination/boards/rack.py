# SPDX-License-Identifier: LGPL-2.1-or-later

"""The rack: boards on hand and boards that can be bought, and how the shop saws them."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields
from math import isfinite
from typing import Any

from freecad_stacklam.lamination.cells import safe_cell
from freecad_stacklam.lamination.lengths import LENGTHS, parse_length
from freecad_stacklam.lamination.plan.boards import Rectangle
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.wood.tally import tally

PER = ("board", "board foot", "m3")
#: Part of a board that is clear by its grade (NHLA grades: 10/12, 8/12, 6/12 of the surface in clear-face cuttings).
GRADES = {"FAS": 10 / 12, "No. 1 common": 8 / 12, "No. 2 common": 6 / 12}


@dataclass(frozen=True)
class Knot:
    """A rectangle of a board to be avoided: its corner nearest the board's left end and lower edge, and its size."""

    x: float
    y: float
    dx: float
    dy: float

    @property
    def box(self) -> Rectangle:
        """As x, y, length, width."""
        return self.x, self.y, self.dx, self.dy


@dataclass(frozen=True)
class Board:
    """A board, or `count` alike. `for_sale`: it can be bought, as many as wanted where count is 0; otherwise it is on
    hand. `cost` is the price per `per`; None: not known."""

    name: str
    width: float
    length: float
    thickness: float
    species: str = ""
    cost: float | None = None
    per: str = "board"
    count: int = 1
    knots: tuple[Knot, ...] = ()
    for_sale: bool = False
    grade: str = ""

    def __post_init__(self) -> None:
        who = f"Board “{self.name}”"
        for what in ("thickness", "width", "length"):
            size = getattr(self, what)
            if not isfinite(size) or size <= 0:
                raise Refusal(f"{who} has a {what} of {size:g} mm: give its real size, more than 0 mm.")
        if self.cost is not None and (not isfinite(self.cost) or self.cost < 0):
            raise Refusal(f"{who} costs {self.cost:g}: give 0 or more, or leave the cost out.")
        if self.per not in PER:
            raise Refusal(f"{who} is priced per “{self.per}”: write {', '.join(PER[:-1])} or {PER[-1]}.")
        if self.grade and self.grade not in GRADES:
            raise Refusal(f"{who} has the grade “{self.grade}”: write {', '.join(GRADES)}, or leave it out.")
        if self.count < 0 or (self.count == 0 and not self.for_sale):
            raise Refusal(f"{who}: {self.count} boards on hand is impossible: give 1 or more.")
        for knot in self.knots:
            inside = knot.x >= 0 and knot.y >= 0 and knot.dx > 0 and knot.dy > 0
            if not inside or knot.x + knot.dx > self.length + 1e-6 or knot.y + knot.dy > self.width + 1e-6:
                raise Refusal(
                    f"{who}: a knot at {knot.x:g}, {knot.y:g} mm of {knot.dx:g} × {knot.dy:g} mm does not lie on the "
                    f"board of {self.length:g} × {self.width:g} mm: measure x from its left end, y from its lower edge."
                )

    @property
    def volume(self) -> float:
        """Volume of one board, mm³."""
        return self.width * self.length * self.thickness

    @property
    def board_feet(self) -> float:
        """Board feet of one board as it is sold."""
        return tally(self.thickness, self.width, self.length)

    @property
    def price(self) -> float | None:
        """What one board costs; None when not known."""
        if self.cost is None:
            return None
        if self.per == "board foot":
            return self.cost * self.board_feet
        return self.cost * self.volume * 1e-9 if self.per == "m3" else self.cost

    @property
    def priced(self) -> str:
        """How the price of one board comes about, in words."""
        if self.cost is None:
            return "no price given"
        if self.per == "board foot":
            return f"{self.cost:g} per board foot × {self.board_feet:g}"
        return f"{self.cost:g} per m³ × {self.volume * 1e-9:.4f} m³" if self.per == "m3" else f"{self.cost:g} per board"


@dataclass(frozen=True)
class ShopSettings:
    """How boards are sawn and staves are made; lengths mm. Defaults are common shop practice, no published source.

    kerf: of the saw. end_trim: lost at each end of a board. jointing: added in width for every edge that is glued.
    stave_trim: added at each end of a stave. stagger: least distance of a seam from one in the layer below.
    first_cut: "crosscut", "rip", or "better" for the cheaper of the two. planing: thickness that may be planed away.
    spare_staves: how many of the largest staves of each stock are cut once more. glue_spread: g/m² on one face.
    """

    kerf: float = 3.0
    end_trim: float = 25.0
    jointing: float = 1.5
    stave_trim: float = 5.0
    stagger: float = 25.0
    max_stave: float = 150.0
    min_stave: float = 40.0
    seam_margin: float = 8.0
    planing: float = 8.0
    first_cut: str = "crosscut"
    spare_staves: int = 0
    glue_spread: float = 180.0

    def __post_init__(self) -> None:
        rooms = ("kerf", "end_trim", "jointing", "stave_trim", "stagger", "seam_margin", "planing", "glue_spread")
        for what in rooms:
            size = getattr(self, what)
            if not isfinite(size) or size < 0:
                raise Refusal(f"The shop's {what.replace('_', ' ')} cannot be {size:g}: give 0 or more.")
        if not 0 < self.min_stave <= self.max_stave:
            raise Refusal(
                f"Staves cannot be at least {self.min_stave:g} mm and at most {self.max_stave:g} mm wide: give a least "
                "width above 0 and below the greatest."
            )
        if self.first_cut not in ("crosscut", "rip", "better"):
            raise Refusal(f"The first cut cannot be “{self.first_cut}”: write crosscut, rip or better.")
        if self.spare_staves < 0:
            raise Refusal(f"{self.spare_staves} spare staves cannot be cut: give 0 or more.")


@dataclass(frozen=True)
class Rack:
    """All boards that may be cut."""

    boards: tuple[Board, ...] = field(default=())


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
