# SPDX-License-Identifier: LGPL-2.1-or-later

"""Cells that no spreadsheet takes for a formula: the leading signs of the OWASP page "CSV Injection" (from memory)."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.cells import figure_cell, read_table, safe_cell
from freecad_stacklam.lamination.refusal import Refusal

SIGNS = ("=", "+", "-", "@", "\t", "\r")


@pytest.mark.parametrize("sign", [*SIGNS, "＝", "＋", "－", "＠"])
@pytest.mark.parametrize("before", ["", " ", "\u00a0", "\ufeff"])
def test_a_leading_sign_gets_an_apostrophe(sign: str, before: str) -> None:
    assert safe_cell(f"{before}{sign}1+1") == f"'{before}{sign}1+1"


@pytest.mark.parametrize("text", ["", "Oak 3", "3-1/2 in", "a=b", "'quoted", "45 × 200", " "])
def test_harmless_text_stays_as_it_is(text: str) -> None:
    assert safe_cell(text) == text


@given(st.text(st.sampled_from("=+-@\t\r\n ab1\"',;"), max_size=8))
@settings(max_examples=60, deadline=None)
def test_a_cell_read_back_by_another_reader_never_begins_with_a_sign(text: str) -> None:
    """Python's own csv, RFC 4180 quoting."""
    written = io.StringIO(newline="")
    csv.writer(written).writerow([safe_cell(text), "end"])
    cell, end = next(csv.reader(io.StringIO(written.getvalue(), newline="")))
    assert end == "end"
    assert not cell.lstrip(" \n").startswith(SIGNS)
    assert cell.lstrip() == text.lstrip() or cell.lstrip() == f"'{text}".lstrip()


@pytest.mark.parametrize("sign", [",", ";"])
def test_lines_are_counted_and_empty_ones_left_out(sign: str) -> None:
    table = read_table(f"\ufeffa{sign}b\n\n'=x{sign}2\n", "t.csv", ("a", "b"))
    assert (table.lines, table.rows, table.semicolons) == ((1, 3), (("a", "b"), ("=x", "2")), sign == ";")


@pytest.mark.parametrize("text", ["1.25", "12.5000", "0.250", "1234.567", "1.2.3", "1,250", "1.2504"])
def test_figures_that_can_mean_one_thing_pass(text: str) -> None:
    assert figure_cell(text, semicolons=True) == text


@pytest.mark.parametrize("text", ["1.250", "600 40 80.125 35", "2.440 mm"])
def test_a_point_that_may_part_thousands_is_doubtful_among_semicolons_alone(text: str) -> None:
    assert figure_cell(text, semicolons=False) == text
    with pytest.raises(Refusal, match="may be thousands or thousandths"):
        figure_cell(text, semicolons=True)


def test_an_apostrophe_of_the_maker_s_own_reads_back() -> None:
    """Found by a clamp called '= beside one called =."""
    from freecad_stacklam.lamination.cells import _bare, safe_cell

    for name in ("=", "'=", "''=", "=1+1", "'", "' =", "o'clock", "'quoted'"):
        assert _bare(safe_cell(name)) == name
