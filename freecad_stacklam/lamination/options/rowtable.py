# SPDX-License-Identifier: LGPL-2.1-or-later

"""Records of one kind as rows of text, one column an option: the cells of a CSV file, of a document's sheet, of a
panel's table.

The heads name the columns, and those of figures with a unit may name it, as in "opening mm". A cell that is left empty
says nothing: the option is left out, or has its first value.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Mapping, Sequence
from typing import Any, Generic, TypeVar

from freecad_stacklam.lamination.cells import figure_cell, read_table, safe_cell
from freecad_stacklam.lamination.lengths import INCH, parse_length, parse_number
from freecad_stacklam.lamination.options.kinds import plain
from freecad_stacklam.lamination.options.rows import NEEDED, Record, Row, rows_of
from freecad_stacklam.lamination.quantities import FORCES, POUND_FORCE, PRESSURES, PSI, parse_force, parse_pressure
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

#: Says where a cell is, from the number of its row (from 0) and its column: "Clamps, cell C3".
Where = Callable[[int, str], str]
#: Unit inside → the units that heads may name, each with its worth; and those written, metric and in inches.
_UNITS: dict[str, dict[str, float]] = {
    "mm": {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": INCH, "ft": 12 * INCH},
    "N": FORCES,
    "MPa": PRESSURES,
}
_WRITTEN = {"mm": ("mm", "in"), "N": ("kN", "lbf"), "MPa": ("MPa", "psi")}
_WORTH = {"mm": (1.0, INCH), "N": (1000.0, POUND_FORCE), "MPa": (1.0, PSI)}
#: Places of a written figure: a force or a length to a billionth reads back as it was.
_PLACES = 9
_R = TypeVar("_R", bound=Record)


class RowTable(Generic[_R]):
    """The table of one kind of record. `apart`: the option by which its rows are told apart."""

    def __init__(self, record: type[_R], apart: str) -> None:
        self.record, self.apart = record, apart
        self.rows = {row.key.replace("_", " "): row for row in rows_of(record) if row.kind is not None}
        self.columns = tuple(self.rows)
        self.figures = tuple(c for c, row in self.rows.items() if _is_figure(row))
        self.needed = tuple(c for c, row in self.rows.items() if row.first is NEEDED)

    def heads(self, units: str = "mm") -> list[str]:
        """The heads of the columns; figures with a unit name it."""
        return [" ".join(filter(None, (c, written_in(row, units)))) for c, row in self.rows.items()]

    def read_heads(self, texts: Sequence[str], where: Callable[[int], str]) -> tuple[list[str], dict[str, str]]:
        """Columns, and the units that their heads name. `where` says where a head is. Raises Refusal."""
        columns: list[str] = []
        units: dict[str, str] = {}
        for i, text in enumerate(texts):
            words = text.strip().split()
            column = " ".join(words).lower()
            known = _named(_unit_of(self.rows.get(" ".join(words[:-1]).lower())), words[-1] if words else "")
            if column not in self.rows and known:
                column = " ".join(words[:-1]).lower()
                units[column] = known
            if column not in self.rows:
                raise Refusal(
                    say(
                        "{i}: there is no column “{text}”; they are {list}.",
                        i=where(i),
                        text=text.strip(),
                        list=", ".join(self.heads()),
                    )
                )
            if column in columns:
                raise Refusal(
                    say("{i}: the column “{column}” stands twice: delete one of the two.", i=where(i), column=column)
                )
            columns.append(column)
        missing = [c for c in self.needed if c not in columns]
        if missing:
            raise Refusal(
                say(
                    "{where}: the column “{missing}” is missing in this row: {list} must be there.",
                    where=where(0),
                    missing=missing[0],
                    list=", ".join(self.needed),
                )
            )
        return columns, units

    def read_row(
        self, cells: Mapping[str, str], units: Mapping[str, str], row: int, where: Where, bare: str = "mm"
    ) -> _R:
        """The record that a row of texts stands for. units: of columns whose heads name one; bare: those of the others,
        "mm" or "in" ("": each cell must name its own). Raises Refusal that begins with the cell."""
        facts: dict[str, Any] = {}
        for column, option in self.rows.items():
            text = cells.get(column, "").strip()
            if not text and option.first is not NEEDED:
                continue
            try:
                if not text:
                    noun = say(self.record.NOUN)
                    raise Refusal(say("this {noun} has no {column}: write one.", noun=noun, column=column))
                facts[option.name] = _value(option, text, units.get(column) or written_in(option, bare))
            except Refusal as refusal:
                raise Refusal(f"{where(row, column)}: {refusal.sentence}") from None
        try:
            return self.record(**facts)
        except Refusal as refusal:
            raise Refusal(f"{where(row, self.columns[0])}: {refusal.sentence}") from None

    def read_rows(
        self, many: Sequence[Mapping[str, str]], units: Mapping[str, str], where: Where, bare: str = "mm"
    ) -> tuple[_R, ...]:
        """A record for each row, no two of one name. Raises Refusal that begins with the cell."""
        made = tuple(self.read_row(cells, units, i, where, bare) for i, cells in enumerate(many))
        names = [getattr(one, self.apart) for one in made]
        for i, name in enumerate(names):
            if name in names[:i]:
                raise Refusal(
                    say(
                        "{i}: the {noun} “{name}” stands twice: give each a name of its own, or write how many there "
                        "are as their count.",
                        i=where(i, self.apart),
                        noun=say(self.record.NOUN),
                        name=name,
                    )
                )
        return made

    def write_row(self, one: _R, units: str = "mm") -> list[str]:
        """The texts of one record's cells, in the order of the columns."""
        return [_text(row, getattr(one, row.name), units) for row in self.rows.values()]

    # --- CSV files ---------------------------------------------------------------------------------------------------
    def read(self, text: str, name: str) -> tuple[_R, ...]:
        """Records from CSV text called `name`. Figures carry a unit, in the cell or in the column's head. Raises
        Refusal with the line: "clamps.csv, line 3: …"."""
        table = read_table(text, name, self.heads())
        at = table.lines[0]
        columns, units = self.read_heads(table.rows[0], lambda _: say("{name}, line {at}", name=name, at=at))

        def where(row: int, column: str) -> str:
            return say("{name}, line {lines}, {column}", name=name, lines=table.lines[row + 1], column=column)

        many = [dict(zip(columns, row)) for row in table.rows[1:]]
        for i, cells in enumerate(many):
            for column in set(cells) & set(self.figures):
                try:
                    figure_cell(cells[column], table.semicolons)
                except Refusal as refusal:
                    raise Refusal(f"{where(i, column)}: {refusal.sentence}") from None
        return self.read_rows(many, units, where, bare="")

    def write(self, many: Sequence[_R], units: str = "mm") -> str:
        """CSV text (RFC 4180) that reads back the same."""
        text = io.StringIO()
        writer = csv.writer(text)
        writer.writerow(self.heads(units))
        for one in many:
            cells = zip(self.columns, self.write_row(one, units))
            writer.writerow([cell if column in self.figures else safe_cell(cell) for column, cell in cells])
        return text.getvalue()


def written_in(row: Row, units: str) -> str:
    """The unit that an option's figures are written in where lengths are in "mm" or "in"; "" for those without."""
    written = _WRITTEN.get(_unit_of(row))
    return "" if written is None or not units else written[units == "in"]


def _unit_of(row: Row | None) -> str:
    return "" if row is None or row.kind is None else row.kind.unit


def _named(inside: str, text: str) -> str:
    """The unit of a head's last word, as the tables name it; "" where it is none."""
    wanted = text.lower().replace("²", "2")
    return next((name for name in _UNITS.get(inside, ()) if name.lower() == wanted), "")


def _is_figure(row: Row) -> bool:
    return row.kind is not None and row.kind.property in ("Length", "Distance", "Float", "Integer")


def _value(row: Row, text: str, unit: str) -> Any:
    """What a cell says, as the record takes it. unit: of a bare figure ("": it must name one). Raises Refusal."""
    assert row.kind is not None
    if not _is_figure(row):
        return row.kind.read(text.lower() if row.kind.choices else text, "")
    found = _figure(row, text, unit)
    fault = row.kind.fault(found)
    if fault:
        raise Refusal(say("“{text}” is impossible here: {fault}.", text=text, fault=fault))
    return found


def _figure(row: Row, text: str, unit: str) -> Any:
    assert row.kind is not None
    inside = row.kind.unit
    if inside == "mm":
        return parse_length(text, unit)
    if inside in _UNITS:
        parse = parse_force if inside == "N" else parse_pressure
        return parse(f"{text} {unit}".strip() if text[-1].isdigit() else text)
    found = parse_number(text)
    if row.kind.property == "Integer":
        if found != int(found):
            raise Refusal(say("“{text}” is no whole number: write one, as in 4.", text=text))
        return int(found)
    return found


def _text(row: Row, value: Any, units: str) -> str:
    if value is None:
        return ""
    if row.kind is not None and not _is_figure(row):
        return str(row.kind.write(value))
    worth = _WORTH.get(_unit_of(row), (1.0, 1.0))[units == "in"]
    return plain(round(value / worth, _PLACES)) if isinstance(value, float) else str(value)
