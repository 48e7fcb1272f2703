# SPDX-License-Identifier: LGPL-2.1-or-later

"""Every option as a table for the README's reader, from the rows of the records."""

from __future__ import annotations

from freecad_stacklam.lamination.options.rows import NEEDED, Record, Row, rows_of
from freecad_stacklam.lamination.options.tomllines import toml_value
from freecad_stacklam.lamination.settings.job import Settings

_HEAD = """# Options of the settings file

One row an option. The same rows make the properties of the document objects and the fields of the panels; this page is
written from them. A length is text with its unit, as in "45mm" or "1-3/4in"; an angle as in "15deg".
"""


def options_page() -> str:
    """All tables of options as one page of Markdown, the job's own first."""
    parts = [_HEAD]
    _tables(Settings, "", parts)
    return "\n".join(parts)


def _tables(record: type[Record], head: str, parts: list[str]) -> None:
    rows = [row for row in rows_of(record) if row.record is None]
    title = f"`{head}`" if head else "The job"
    parts += [f"## {title}\n", "| key | what it holds | first value | what it does |", "|---|---|---|---|"]
    parts += [f"| `{row.key}` | {_holds(row)} | {_first(row)} | {_cell(row.tip)} |" for row in rows]
    parts.append("")
    for row in rows_of(record):
        if row.record is not None:
            _tables(row.record, _head(row, head), parts)


def _head(row: Row, within: str) -> str:
    """How the table of a row is written in the file."""
    if not within:
        return f"[[{row.key}]]" if row.many else f"[{row.key}]"
    outer = within.strip("[]")
    return f"{outer}: {row.key} = [{{…}}]" if row.many else f"{outer}: {row.key} = {{…}}"


def _holds(row: Row) -> str:
    assert row.kind is not None
    return _cell(", ".join(f'"{c}"' for c in row.kind.choices) if row.kind.choices else row.kind.says)


def _first(row: Row) -> str:
    if row.first is NEEDED:
        return "must be given"
    if row.first in (None, "", ()):
        return "–"
    assert row.kind is not None
    return f"`{_cell(toml_value(row.kind.write(row.first)))}`"


def _cell(text: str) -> str:
    return text.replace("|", "\\|")
