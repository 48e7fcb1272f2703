# SPDX-License-Identifier: LGPL-2.1-or-later

"""The help pages: one for each command, all found from the contents, no link into nothing, and no default that is not
the program's own."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from freecad_stacklam.benchsheets.drawing.lettering import FRACTIONS
from freecad_stacklam.lamination.lengths import parse_length
from freecad_stacklam.lamination.settings import shop as shops
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.workbench.help.pages import CONTENTS, FOLDER, PAGES, page_of, path_of

CHECKOUT = Path(__file__).resolve().parents[2]
WORKBENCH = CHECKOUT / "freecad_stacklam" / "workbench"
ALL = sorted(FOLDER.glob("*.md"))


def links(path: Path) -> list[str]:
    return re.findall(r"\]\(([^)#]+)\)", path.read_text(encoding="utf-8"))


def test_every_command_has_a_page_of_its_own() -> None:
    names = re.findall(r'name = "(StackLam_\w+)"', (WORKBENCH / "commands.py").read_text(encoding="utf-8"))
    assert len(names) >= 14
    pages = [PAGES[name] for name in names]
    assert len(set(pages)) == len(pages)
    for page in set(PAGES.values()):
        assert path_of(page).is_file(), page
    assert page_of("StackLam_SetPins") == "set-pins"
    assert page_of("Std_New") == page_of("") == ""
    assert page_of("StackLam_ofALaterDay") == CONTENTS


@pytest.mark.parametrize("path", ALL, ids=lambda p: p.stem)
def test_no_link_leads_into_nothing_or_to_the_network(path: Path) -> None:
    assert path.read_text(encoding="utf-8").startswith("# ")
    for link in links(path):
        assert "://" not in link, link
        assert (path.parent / link).is_file(), f"{path.name} links to {link}"


def test_every_page_is_found_from_the_contents() -> None:
    found, to_read = set(), [path_of(CONTENTS)]
    while to_read:
        page = to_read.pop().resolve()
        if page in found:
            continue
        found.add(page)
        to_read += [page.parent / link for link in links(page) if link.endswith(".md")]
    assert {path.resolve() for path in ALL} <= found


def _rows(heading: str) -> dict[str, list[str]]:
    text = path_of("preferences").read_text(encoding="utf-8").split(f"## {heading}\n")[1].split("\n## ")[0]
    rows = [[cell.strip() for cell in line.strip("|").split("|")] for line in text.splitlines() if line.startswith("|")]
    return {row[0]: row[1:] for row in rows[2:]}


def test_the_page_of_preferences_tells_the_first_values_that_there_are() -> None:
    source = (WORKBENCH / "fields" / "preferences.py").read_text(encoding="utf-8")
    first = {
        name: (float(mm), float(inches)) for name, mm, inches in re.findall(r'"(\w+)": \(([\d.]+), ([\d.]+)\),', source)
    }
    captions = dict(
        re.findall(
            r'"(\w+)": \(\s*QT_TRANSLATE_NOOP\("StackLam", "([^"]+)"\)',
            (WORKBENCH / "preferencepages.py").read_text(encoding="utf-8"),
        )
    )
    assert set(captions) == set(first) and len(first) == 10
    rows = _rows("Start values")
    for name, caption in captions.items():
        told = tuple(parse_length(rows[caption][i], "mm") for i in (0, 1))
        assert told == pytest.approx(first[name]), caption


def test_the_page_of_preferences_tells_the_first_values_of_the_shop() -> None:
    rows, shop = _rows("Shop"), ShopSettings()
    for caption, held in (
        ("Kerf", [shop.kerf]), ("End trim; End trim, air-dried", [shop.end_trim, shop.end_trim_air]),
        ("Shortest to machine", [shop.shortest_to_machine]), ("Jointing per edge", [shop.jointing]),
        ("Planing, at least; at most", [shop.least_planing, shop.planing]), ("Seams clear by", [shop.seam_margin]),
    ):  # fmt: skip
        assert [parse_length(text, "mm") for text in rows[caption][0].split(";")] == held, caption


def test_the_preferences_offer_the_fractions_of_the_sheets() -> None:
    source = (WORKBENCH / "fields" / "preferences.py").read_text(encoding="utf-8")
    assert f"FRACTIONS = {FRACTIONS}" in source


def test_no_new_document_is_made_to_want_staves() -> None:
    source = (WORKBENCH / "fields" / "preferences.py").read_text(encoding="utf-8")
    (listed,) = re.findall(r"^STAVES = \((.*?)\)", source, re.M | re.S)
    assert set(re.findall(r'"(\w+)"', listed)) == set(shops._OF_STAVES)
