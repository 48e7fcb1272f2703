# SPDX-License-Identifier: LGPL-2.1-or-later

"""The page of options is written from the rows, and the README's readers find it. The table's form is that of the
GitHub Flavored Markdown specification, 4.10."""

from __future__ import annotations

import re
from pathlib import Path

from freecad_stacklam.lamination.options.rows import Record, rows_of
from freecad_stacklam.lamination.settings.carving import CarvingSettings, PickedPlane
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.optiontable import options_page
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.settings.stack import StackSettings

CHECKOUT = Path(__file__).resolve().parents[3]
PAGE = CHECKOUT / "docs" / "options.md"
WRITE = "write it anew: python3 -m freecad_stacklam options > docs/options.md"


def test_the_page_says_what_the_rows_say() -> None:
    assert PAGE.read_text(encoding="utf-8") == options_page(), WRITE
    assert "(docs/options.md)" in (CHECKOUT / "README.md").read_text(encoding="utf-8")


def test_every_row_stands_in_its_own_table() -> None:
    sections = dict(re.findall(r"^## (.+)\n((?:(?!^## ).*\n?)*)", options_page(), re.M))
    records = {
        "The job": Settings,
        "`[[stack]]`": StackSettings,
        "`stack: hollow = {…}`": HollowSettings,
        "`stack: pins = {…}`": PinSettings,
        "`[[joint]]`": JointSettings,
        "`[shop]`": ShopSettings,
        "`[carving]`": CarvingSettings,
        "`carving: planes = [{…}]`": PickedPlane,
    }
    for head, record in records.items():
        keys = re.findall(r"^\| `(\w+)` \|", sections[head], re.M)
        assert keys == [row.key for row in rows_of(record) if row.record is None]


def test_every_line_of_a_table_has_four_cells() -> None:
    lines = [line for line in options_page().splitlines() if line.startswith("|")]
    assert len(lines) > 90
    for line in lines:
        assert len(re.findall(r"(?<!\\)\|", line)) == 5, line


def _all_records(record: type[Record]) -> set[type[Record]]:
    """The record and those of all its tables."""
    within = [row.record for row in rows_of(record) if row.record is not None]
    return {record}.union(*map(_all_records, within))


def test_the_help_page_s_example_names_only_options_that_there_are() -> None:
    known = {row.key for record in _all_records(Settings) for row in rows_of(record)}
    text = (CHECKOUT / "docs" / "help" / "settings-file.md").read_text(encoding="utf-8")
    example = text.split("```toml\n")[1].split("```")[0]
    for key in re.findall(r"^(\w+) =", example, re.M):
        assert key in known, key
