# SPDX-License-Identifier: LGPL-2.1-or-later

"""The settings file. TOML itself is read by Python's tomllib (TOML 1.0), which is also the judge of what is written."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st
from settingstext import write_settings

from freecad_stacklam.data import example_settings, wedged_settings
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import Knot
from freecad_stacklam.lamination.settings.file import facts_of, read_settings, read_with_notes, record_given
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.shop import BandSaw, Bit
from freecad_stacklam.lamination.settings.stack import StackSettings

EVERYTHING = """# every key there is
title = "Plant: \\"stand\\" / * ?"
units = "mm"
paper = "A4"
paper_full = "roll 610mm"
date = 2025-03-01
author = "Workshop"

[[stack]]
form = "Pedestal"
stock = ["45mm", "1-3/4in"]
thicknesses = ["44.6mm"]
copies = 2
glue_line_worth = "0.3 l"
pick = "least wood"
axis = [0, 1, 1]
allowance = "4mm"
species = "white oak"
grain = "15deg"
fill_holes = true
hollow = {wall = "50mm", caps = 2}
pins = {diameter = "10mm", depth = "1/2in", margin = "8mm"}

[[stack]]
form = "Top"
stock = "27mm"

[[joint]]
name = "Pedestal to top"
through = ["0mm", "-20mm", "1in"]
axis = "z"
section = "square"
size = ["40mm"]
embed = {Pedestal = "75mm", Top = "through"}
clearance = "0.1mm"
end_room = "2mm"

[shop]
kerf = "1/8in"
end_trim = "25mm"
jointing = "1mm"
stave_trim = "6mm"
stagger = "25mm"
max_stave = "140mm"
band_saw = {blade = "1/2in", radius = "2-1/2in", smallest_part = "80mm", height = "8in", throat = "13-1/2in"}
bits = [{diameter = "8mm"}, {diameter = "1in"}]

[[board]]
name = "A"
species = "white oak"
thickness = "45mm"
width = "180mm"
length = "2400mm"
cost = 38.5
count = 3
knots = [["100mm", "20mm", "30mm", "30mm"]]
"""


def test_every_key_is_read_into_mm() -> None:
    read = read_settings(EVERYTHING)
    assert (read.title, read.date, read.paper_full) == ('Plant: "stand" / * ?', "2025-03-01", "roll 610mm")
    first, second = read.stacks
    assert first.stock == pytest.approx((45.0, 44.45)) and second.stock == (27.0,)
    assert first.thicknesses == (44.6,) and first.copies == 2 and first.grain == 15.0 and first.fill_holes
    assert first.glue_line_worth == pytest.approx(300_000) and first.axis == (0.0, 1.0, 1.0)
    assert first.hollow == HollowSettings(50.0, 2) and first.pins == PinSettings(10.0, 12.7, 8.0)
    joint = read.joints[0]
    assert joint.through == pytest.approx((0.0, -20.0, 25.4)) and joint.embed == (("Pedestal", 75.0), ("Top", None))
    assert read.shop.kerf == pytest.approx(3.175) and read.shop.end_trim == 25.0
    assert read.shop.band_saw == BandSaw(12.7, 63.5, 80.0, 203.2, 342.9) and read.shop.bits == (Bit(8.0), Bit(25.4))
    assert read.boards[0].knots == (Knot(100.0, 20.0, 30.0, 30.0),) and read.boards[0].cost == 38.5
    assert hash(read) == hash(read_settings(EVERYTHING))


def test_written_settings_read_back_the_same() -> None:
    for read in (read_settings(EVERYTHING), Settings(), read_settings("")):
        text = write_settings(read)
        tomllib.loads(text)
        assert read_settings(text) == read


def test_the_bundled_example_reads() -> None:
    read = read_settings(Path(example_settings()).read_text(encoding="utf-8"))
    assert [s.form for s in read.stacks] == ["Pedestal", "Top"] and len(read.joints) == 1
    assert read_settings(write_settings(read)) == read


def test_both_bundled_examples_are_glued_alike() -> None:
    plain, wedged = (read_settings(path().read_text(encoding="utf-8")) for path in (example_settings, wedged_settings))
    assert plain.presses and plain.glue is not None and plain.room is not None
    assert (plain.glue, plain.room, plain.presses) == (wedged.glue, wedged.room, wedged.presses)


@pytest.mark.parametrize(
    ("old", "new", "hint"),
    [
        ('title = "Plant', 'titel = "Plant', "did you mean “title”"),
        ('allowance = "4mm"', 'alowance = "4mm"', "did you mean “allowance”"),
        ('allowance = "4mm"', 'allowance = "4kg"', "is not a length"),
        ('allowance = "4mm"', 'allowance = "1,500mm"', "may be thousands or thousandths"),
        ('allowance = "4mm"', 'allowance = "-4mm"', "0 mm to 200 mm"),
        ('units = "mm"', 'units = "furlong"', "write mm or in"),
        ('stock = ["45mm", "1-3/4in"]', 'stock = ["45mm", "0mm"]', "more than 0 mm"),
        ('stock = ["45mm", "1-3/4in"]', "stock = []", "No stock thickness"),
        ("copies = 2", "copies = 0", "1 to 999"),
        ("copies = 2", 'copies = "2"', "whole number"),
        ("copies = 2", "copies = 2.5", "whole number"),
        ('"0.3 l"', '"0.3"', "is not a volume"),
        ('"least wood"', '"most wood"', "least wood or fewest layers"),
        ("axis = [0, 1, 1]", "axis = [0, 0, 0]", "has no length"),
        ("axis = [0, 1, 1]", 'axis = "w"', "is not an axis"),
        ('"15deg"', '"15mm"', "is not an angle"),
        ("fill_holes = true", 'fill_holes = "yes"', "true or false"),
        ('{wall = "50mm", caps', '{wal = "50mm", caps', "did you mean “wall”"),
        ('hollow = {wall = "50mm", caps = 2}', "hollow = true", "table of keys"),
        ('name = "Pedestal to top"', "# nameless", "has no name"),
        ('["0mm", "-20mm", "1in"]', '["0mm", "-20mm"]', "list of 3"),
        ('Top = "through"', 'Top = "0mm"', "more than 0 mm"),
        ('section = "square"', 'section = "oval"', "square, rectangle or round"),
        ('kerf = "1/8in"', 'kerf = "-1mm"', "0 mm to 20 mm"),
        ('kerf = "1/8in"', 'clamps = []', r"write \[\[clamp\]\] for each"),
        ('kerf = "1/8in"', 'open_time = "10min"', r"belongs to \[glue\]"),
        ('throat = "13-1/2in"', 'throat = "0mm"', "more than 0 mm"),
        ('{blade = "1/2in", radius', "{radius", "says nothing without the blade"),
        ('{diameter = "1in"}', '{diameter = "1in", name = "best"}', "by its diameter"),
        ('{diameter = "1in"}', "{}", "has no diameter"),
        ("[[board]]", "[board]", r"write \[\[board\]\]"),
        ("cost = 38.5", "cost = -1", "0 or more"),
        ("[shop]", "[shop", "not TOML"),
        ("count = 3", "count = 3\ncount = 4", "not TOML"),
    ],
)  # fmt: skip
def test_faults_are_refused_with_their_line(old: str, new: str, hint: str) -> None:
    text = EVERYTHING.replace(old, new, 1)
    assert text != EVERYTHING
    line = text[: text.index(new) + len(new)].count("\n") + 1
    # What a table lacks is told at its head: the first [[stack]] stands on line 9, [[joint]] on line 28.
    line = {"No stock thickness": 9, "has no name": 28}.get(hint, line)
    with pytest.raises(Refusal, match=hint) as refused:
        read_settings(text, "settings.toml")
    told = str(refused.value)
    assert told.startswith(f"settings.toml, line {line}: ") and "\n" not in told, told


def test_bare_numbers_are_mm_or_refused() -> None:
    assert read_settings("[[stack]]\nallowance = 4").stacks[0].allowance == 4.0
    for bare in ("4", '"4"'):
        with pytest.raises(Refusal, match="line 3: allowance: “4” has no unit"):
            read_settings(f'units = "in"\n[[stack]]\nallowance = {bare}')


def test_lines_are_found_past_strings_comments_and_lists() -> None:
    text = 'title = """a\n[[stack]]\nkerf = 1"""  # [shop]\n[shop]\nbits = [\n  {diameter = "8mm"},\n]\nkerff = "1mm"\n'
    with pytest.raises(Refusal, match=r"line 8: kerff: .*“kerf”"):
        read_settings(text)
    dotted = '[[stack]]\nform = "a"\n[[stack]]\nform = "b"\n[stack.hollow]\nwall = "5mm"\nsolid_end = 2\n'
    with pytest.raises(Refusal, match=r"line 7: solid_end: .*“solid_ends”"):
        read_settings(dotted)


def test_nothing_is_executed() -> None:
    text = "title = \"__import__('os').abort()\""
    assert read_settings(text).title == "__import__('os').abort()"
    with pytest.raises(Refusal):
        read_settings("[[stack]]\nallowance = \"__import__('os').abort()\"")


@pytest.mark.parametrize(
    ("line", "says"),
    [
        (f"title = '{'x' * 30_000}'", "title: .* at most 200 letters, not 30000"),
        ('title = "A\\u0000B"', "title: .*letters and signs that print"),
        (f"copies = {'9' * 5000}", ".*thousands of digits"),
        (f"copies = 0x{'f' * 5000}", "copies: .*1 to 999"),
        ("station_step = 1e308", "station_step: "),
        (f"station_step = '{'9' * 5000}mm'", "station_step: .*5002 letters"),
        (f"station_step = '{'9' * 300}mm'", "station_step: .*too large a number"),
    ],
)
def test_absurd_values_are_refused_with_their_line(line: str, says: str) -> None:
    table = "[[stack]]\n" if line.startswith("copies") else ""
    with pytest.raises(Refusal, match=rf"settings, line {3 if table else 2}: {says}") as refused:
        read_settings(f"# made to harm\n{table}{line}\n")
    assert len(str(refused.value)) < 300


_JOINT = '[[joint]]\nname = "A"\nsize = "20mm"\nembed = {A = "10mm", B = "10mm"}\n'


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (_JOINT + _JOINT, "line 5: the joint “A” stands twice, first in line 1: keep one, or rename one"),
        (
            '[[stack]]\nform = "A"\n[[stack]]\nform = "B"\n[[stack]]\nform = "A"',
            "line 5: .*“A” stands twice, first in line 1",
        ),
        ("[[stack]]\n[[stack]]", "line 2: .*without form stands twice"),
    ],
)
def test_two_tables_of_one_thing_are_refused(text: str, says: str) -> None:
    with pytest.raises(Refusal, match=f"settings, {says}"):
        read_settings(text)


def test_what_is_known_outside_is_said_with_its_line() -> None:
    def judge(record: object) -> None:
        if getattr(record, "species", "") == "unobtainium":
            raise Refusal("There is no such wood.")

    with pytest.raises(Refusal, match=r"job, line 3: There is no such wood\."):
        read_with_notes('[[stack]]\nform = "A"\n[[stack]]\nspecies = "unobtainium"', "job", judge)


SIZES = st.floats(0.01, 5000)


@hypothesis_settings(max_examples=50, deadline=None)
@given(
    st.text(st.characters(exclude_categories=["C", "Zl", "Zp"]), max_size=200),
    st.lists(SIZES, min_size=1, max_size=4), st.floats(0.01, 200),
    st.tuples(SIZES, SIZES, SIZES), st.dictionaries(st.text("abc .é\"", min_size=1), st.none() | SIZES, max_size=3),
)  # fmt: skip
def test_any_settings_come_back(
    title: str, stock: list[float], allowance: float, axis: tuple[float, float, float], embed: dict[str, float | None]
) -> None:
    depths = tuple(embed.items())
    made = Settings(
        title=title,
        stacks=(StackSettings(stock=tuple(stock), allowance=allowance, axis=axis),),
        joints=(JointSettings("J", through=(-axis[0], 0.0, axis[1]), size=(allowance + 1,), embed=depths),),
    )
    assert read_settings(write_settings(made)) == made


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("[[stack]]\npins = {share = 0.2, ratio = 2.0}", "[[stack]]\npins = {outline_differs = 0.2, least_miss = 2.0}"),
        (
            '[[stack]]\nhollow = {caps = 1, turn = "20mm", least = 900}',
            '[[stack]]\nhollow = {solid_ends = 1, saw_radius = "20mm", least_void = 900}',
        ),
        (
            '[[stack]]\npick = "least wood"\nforced = ["90mm"]\nforbidden = [["10mm", "20mm"]]',
            '[[stack]]\nchoose = "least wood"\nglue_lines_at = ["90mm"]\nno_glue_line = [["10mm", "20mm"]]',
        ),
        (
            '[carving]\nleave = "3mm"\nmargin = "30mm"\nangle = "135deg"',
            '[carving]\nleave_over = "3mm"\ngauge_margin = "30mm"\npoint_angle = "135deg"',
        ),
    ],
)
def test_keys_of_an_earlier_release_are_read_with_a_note_for_each(old, new):
    read = read_with_notes(old, "bench.toml")
    assert read.settings == read_settings(new) != read_settings("")
    assert read_with_notes(new).notes == ()
    keys = [word for word in re.findall(r"(\w+) =", new) if word not in ("pins", "hollow")]
    assert len(read.notes) == len(keys)
    assert all(
        f"read as “{key}”" in note and note.startswith("bench.toml, line ") for key, note in zip(keys, read.notes)
    )


def test_an_old_key_beside_its_new_one_is_refused():
    with pytest.raises(Refusal, match="line 3: pick: this is the earlier name of “choose”, which is given too"):
        read_settings('[[stack]]\nchoose = "least wood"\npick = "least wood"')


def test_the_settings_that_the_help_page_shows_are_read() -> None:
    page = Path(__file__).resolve().parents[3] / "docs" / "help" / "settings-file.md"
    (shown,) = re.findall(r"```toml\n(.*?)```", page.read_text(encoding="utf-8"), re.DOTALL)
    found = read_settings(shown)
    assert found.glue is not None and found.glue.open_time == 480.0
    assert found.room is not None and found.room.helpers == 1
    assert found.presses[0].force == 4670.0 and found.carving is not None and found.boards


def test_options_that_stand_in_no_file_are_read_as_those_of_one() -> None:
    one = read_settings('[[stack]]\nstock = ["45mm", "1-3/4in"]\nspecies = "walnut"\n[stack.pins]\ndiameter = "8mm"\n')
    asked = {"stock": [45, "1-3/4 in"], "species": "walnut", "pins": {"diameter": "8 mm"}}
    assert record_given(StackSettings, asked) == one.stacks[0]
    # And the way back, as plan.json has it.
    assert record_given(StackSettings, facts_of(one.stacks[0])) == one.stacks[0]


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"stok": [45]}, "stok: there is no such key; did you mean “stock”?"),
        ({"stock": ["45 furlong"]}, "stock: "),
        ({"pins": {"depth": "a lot"}}, "pins.depth: "),
        ({"tabs": [{"width": "60 mm"}]}, "tabs.0: this tab has no layers: add one, as in layers = "),
    ],
)
def test_options_that_cannot_be_are_refused_by_their_names(asked: dict[str, Any], says: str) -> None:
    with pytest.raises(Refusal) as refused:
        record_given(StackSettings, asked)
    assert str(refused.value).startswith(says)
