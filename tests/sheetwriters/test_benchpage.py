# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bench page as a file: it holds everything, loads nothing, and knows its plan.

What may be loaded is read by the rules of W3C Content Security Policy Level 3: a hash source is the base64 of the
SHA-256 of the text between the tags.
"""

from __future__ import annotations

import re
from base64 import b64decode, b64encode
from dataclasses import replace
from functools import cache
from hashlib import sha256
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pytest
from glued import glue_up, glued_stand
from plans import plant_stand
from sheetsof import all_layer_sheets

from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.marks import is_ours
from freecad_stacklam.sheetwriters.benchpage import bench_page, fingerprint, write_bench_page


@cache
def page(units: str = "mm") -> str:
    return bench_page(glued_stand(), all_layer_sheets(glued_stand(), paper_named("A4"), units), units)


class Reader(HTMLParser):
    """Tags that are left open, addresses, and the words of a page."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.addresses: list[str] = []
        self.ids: list[str] = []
        self.handlers: list[str] = []
        self.words: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in ("meta", "img", "input", "br", "link"):
            self.open.append(tag)
        self.addresses += [value or "" for name, value in attrs if name in ("src", "href", "action", "data")]
        self.ids += [value or "" for name, value in attrs if name == "id"]
        self.handlers += [name for name, _ in attrs if name.startswith("on") or name == "style"]

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if not self.open or self.open[-1] not in ("script", "style"):
            self.words.append(data)


def test_it_loads_nothing_and_runs_only_its_own_script() -> None:
    text, read = page(), Reader(page())
    assert read.open == [] and read.handlers == [] and len(set(read.ids)) == len(read.ids)
    assert all(a.startswith(("data:image/svg+xml;base64,", "#")) for a in read.addresses)
    inside = {a[1:] for a in read.addresses if a.startswith("#")}
    assert inside <= set(read.ids) and {f"set-up-{i}" for i in range(1, 7)} <= inside
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]+)"', text)
    assert policy is not None
    rules = dict(rule.strip().split(" ", 1) for rule in policy[1].split(";"))
    assert rules["default-src"] == "'none'" and rules["img-src"] == "data:"
    assert not any("http" in rule or "unsafe" in rule or "*" in rule for rule in rules.values())
    for tag in ("script", "style"):
        (found,) = re.findall(rf"<{tag}>(.*?)</{tag}>", text, re.DOTALL)
        digest = b64encode(sha256(found.encode()).digest()).decode()
        assert rules[f"{tag}-src"] == f"'sha256-{digest}'"
        assert not re.search(r"https?:|\bfetch\b|XMLHttp|import\s*\(|@import|url\(", found)


def test_it_says_all_that_is_needed_without_its_script() -> None:
    words = " ".join(" ".join(Reader(page()).words).split())
    for s in glue_up().set_ups:
        for told in (*(limit.says for limit in s.limits), *s.before, *s.helps, *s.cautions, s.why):
            assert told in words
        for pressure in s.pressures:
            assert f"{pressure.mean:.2f} MPa" in words
    for condition in glue_up().conditions:
        assert condition.says in words
    assert "The alarm cannot ring while the phone is locked" in words
    assert "Scripts do not run here" in words
    assert "feeler of 0.1 mm" in words and "x 70, y 0; bar clamp 1200, 4.67 kN" in words
    inches = " ".join(" ".join(Reader(page("in")).words).split())
    assert "1050 lbf" in inches and "2-3/4" in inches and "psi" in inches and "4.67 kN" not in inches


def test_pictures_are_svg_and_every_layer_has_its_sheet() -> None:
    pictures = [b64decode(a.split(",")[1]) for a in Reader(page()).addresses if a.startswith("data:")]
    titles = []
    for picture in pictures:
        root = ElementTree.fromstring(picture)
        assert root.tag == "{http://www.w3.org/2000/svg}svg"
        titles.append(root.findtext("{http://www.w3.org/2000/svg}title") or "")
    for stack, count in (("Pedestal", 10), ("Top", 2)):
        for number in range(1, count + 1):
            assert f"{stack}, layer {number}, layer sheet" in titles
    assert titles.count("Clamps, from above") == 6 and titles.count("What goes on what") == 5
    assert len(page()) < 4e6, "a phone loads it at once"


def test_every_picture_keeps_its_place_and_what_all_lines_want_is_told_once() -> None:
    pictures = re.findall(r"<img [^>]*>", page())
    assert pictures and all(re.search(r'width="\d+" height="\d+"', one) for one in pictures)
    assert re.search(r"Pressure reached; [\d.]+ to [\d.]+\s(MPa|psi) wanted", page())


def test_names_are_written_as_text() -> None:
    sly = '<img src="http://x/"> & "quoted"'
    plan = replace(glued_stand(), title=sly, glue_up=replace(glue_up(), glue_name=sly))
    read = Reader(bench_page(plan, ()))
    assert any(sly in word for word in read.words)
    assert all(a.startswith(("data:", "#")) for a in read.addresses)


def test_the_fingerprint_is_the_plan_s() -> None:
    mine = fingerprint(glued_stand())
    assert re.fullmatch(r"[0-9a-f]{16}", mine) and f'data-plan="{mine}"' in page()
    assert mine == fingerprint(replace(glued_stand(), date="2031-01-01")) and f'data-plan="{mine}"' in page("in")
    others = [replace(glued_stand(), title="Another"), replace(glued_stand(), stacks=glued_stand().stacks[:1])]
    first, *rest = glue_up().set_ups
    others.append(replace(glued_stand(), glue_up=replace(glue_up(), set_ups=(replace(first, places=()), *rest))))
    assert len({mine, *map(fingerprint, others)}) == 4


def test_the_file_is_ours_until_it_is_changed_at_its_head(tmp_path: Path) -> None:
    path = tmp_path / "bench.html"
    write_bench_page(glued_stand(), (), path)
    assert is_ours(path)
    path.write_text("<!DOCTYPE html><p>mine", encoding="utf-8")
    assert not is_ours(path)
    with pytest.raises(ValueError, match="has no glue-up"):
        bench_page(plant_stand(), ())
