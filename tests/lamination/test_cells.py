# SPDX-License-Identifier: LGPL-2.1-or-later

"""Cells that no spreadsheet takes for a formula: the leading signs of the OWASP page "CSV Injection" (from memory)."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from freecad_stacklam.lamination.cells import safe_cell

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
    assert cell.removeprefix("'").lstrip() == text.removeprefix("'").lstrip()
