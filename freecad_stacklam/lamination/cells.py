# SPDX-License-Identifier: LGPL-2.1-or-later

"""Text on its way into a table that a spreadsheet will open, and back out of one that a spreadsheet wrote."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import mark, say

#: A figure whose point, where the comma is the decimal sign, may stand between thousands.
_THOUSANDS = re.compile(r"(?<![.,\d])[1-9]\d{0,2}\.\d{3}(?![.,\d])")


@dataclass(frozen=True)
class Table:
    """The lines of a CSV file that have anything in them: their numbers from 1, and their cells without the apostrophe
    that keeps a spreadsheet from taking one for a formula. semicolons: they part the cells, as spreadsheets do where
    the comma is the decimal sign."""

    lines: tuple[int, ...]
    rows: tuple[tuple[str, ...], ...]
    semicolons: bool


def read_table(text: str, name: str, columns: Sequence[str]) -> Table:
    """The table in CSV text called `name`, whose first line names its columns (told where there is none). Raises
    Refusal for a text that is none, is empty, or parts its columns in two ways."""
    text = text.removeprefix("\ufeff")
    try:
        rows = _rows(text, ",")
        first = next((row for row in rows if any(c.strip() for c in row)), [])
        semicolons = len(first) == 1 and ";" in first[0]
        if semicolons:
            rows = _rows(text, ";")
    except csv.Error:
        raise Refusal(say("{name} is no table of cells parted by commas: save it as CSV again.", name=name)) from None
    found = [(i + 1, tuple(_bare(c) for c in row)) for i, row in enumerate(rows) if any(c.strip() for c in row)]
    if not found:
        raise Refusal(
            say(
                "{name} is empty: the first line must name the columns, {columns}.",
                name=name,
                columns=", ".join(columns),
            )
        )
    heads = found[0][1]
    if not semicolons and any(";" in head for head in heads):
        raise Refusal(
            say(
                "{name}, line {line}: the columns are parted by commas and by semicolons: save it with one of them.",
                name=name,
                line=found[0][0],
            )
        )
    for line, row in found[1:]:
        if len(row) > len(heads):
            sentence = (
                mark(
                    "{name}, line {line}: there are {cells} cells for {columns} columns: put a name or knots with a "
                    "semicolon in them between quotes."
                )
                if semicolons
                else mark(
                    "{name}, line {line}: there are {cells} cells for {columns} columns: a decimal comma parts a "
                    "number in two, write a point, as in 44.5."
                )
            )
            raise Refusal(say(sentence, name=name, line=line, cells=len(row), columns=len(heads)))
    return Table(tuple(line for line, _ in found), tuple(row for _, row in found), semicolons)


def figure_cell(text: str, semicolons: bool) -> str:
    """A cell that holds figures, as it is. Raises Refusal where semicolons part the cells and a point may stand between
    thousands: 1.250 is a thousand and more where the comma is the decimal sign."""
    if semicolons and (doubtful := _THOUSANDS.search(text)):
        figure = doubtful[0]
        raise Refusal(
            say(
                "“{text}” may be thousands or thousandths in a file parted by semicolons: write {whole}, or {figure}0.",
                text=text,
                whole=figure.replace(".", ""),
                figure=figure,
            )
        )
    return text


def _rows(text: str, sign: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text), delimiter=sign))


def _bare(cell: str) -> str:
    text = cell.strip()
    meant = text.lstrip("'")
    return text[1:] if meant != text and meant[:1] in ("=", "+", "-", "@") else text


def safe_cell(text: str) -> str:
    """Text that no spreadsheet takes for a formula: a leading = + - @, tab or return gets an apostrophe before it, and
    so does one that has apostrophes of its own there, so that it reads back as it was."""
    bare = text.lstrip(" \n\u00a0\ufeff").lstrip("'")
    return f"'{text}" if bare[:1] in tuple("=+-@\t\r＝＋－＠") and bare else text
