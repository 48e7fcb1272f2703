# SPDX-License-Identifier: LGPL-2.1-or-later

"""Records as rows of text: CSV there and back, units in heads and cells, and what is refused."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.options.rowtable import RowTable
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.presses import PRESS_KINDS, PressSettings

CLAMPS = RowTable(PressSettings, "name")
#: A pipe clamp of 1,050 lbf, a bag and a rod.
OWNED = (
    PressSettings("Pipe clamp 3/4 in", count=12, force=4670.0, opening=900.0, throat=75.0),
    PressSettings("Bag", kind="vacuum", pad=300.0, air=0.08),
    PressSettings("=Rod M12", kind="rod", count=2, force=9000.0, opening=480.0, pad=60.0),
)


def test_heads_come_from_the_rows_and_name_units() -> None:
    assert CLAMPS.heads() == ["name", "kind", "count", "force kN", "opening mm", "throat mm", "pad mm", "air MPa"]
    assert CLAMPS.heads("in")[3:] == ["force lbf", "opening in", "throat in", "pad in", "air psi"]


@pytest.mark.parametrize("units", ["mm", "in"])
def test_what_is_written_reads_back(units: str) -> None:
    back = CLAMPS.read(CLAMPS.write(OWNED, units), "clamps.csv")
    for one, two in zip(OWNED, back, strict=True):
        assert (one.name, one.kind, one.count, one.throat is None) == (
            two.name,
            two.kind,
            two.count,
            two.throat is None,
        )
        assert (one.force, one.opening or 0.0, one.pad, one.air) == pytest.approx(
            (two.force, two.opening or 0.0, two.pad, two.air), rel=1e-6
        )
    if units == "mm":
        assert back == OWNED


def test_the_text_is_csv_that_no_spreadsheet_computes() -> None:
    # RFC 4180: lines end with CRLF; Python's own reader is the judge.
    text = CLAMPS.write(OWNED)
    assert text.count("\r\n") == 4
    rows = list(csv.reader(io.StringIO(text)))
    assert [row[0] for row in rows] == ["name", "Pipe clamp 3/4 in", "Bag", "'=Rod M12"]


def test_units_of_heads_and_cells() -> None:
    # 1 lbf = 4.4482216152605 N, 1 in = 25.4 mm (NIST SP 811, 2008, appendix B.8).
    text = "Name,Count,Force LBF,Opening,throat in,pad\na,4,1050,24 in,3,1-1/2in\nb,1,4.67 kN,600 mm,,40mm\n"
    a, b = CLAMPS.read(text, "clamps.csv")
    assert (a.count, a.force, a.opening) == (4, pytest.approx(1050 * 4.4482216152605), pytest.approx(609.6))
    assert (a.throat, a.pad) == pytest.approx((76.2, 38.1))
    assert b == PressSettings("b", force=4670.0, opening=600.0)
    # Nothing said: the first values of the rows.
    assert CLAMPS.read("name\nc\n", "clamps.csv") == (PressSettings("c"),)


def test_semicolons_where_the_comma_is_the_decimal_sign() -> None:
    text = '\ufeffname;count;force kN;opening mm;pad mm\r\nBar, long;12;3,5;600;\r\n"Pipe; 3/4";1;4.67;;40,5\r\n'
    a, b = CLAMPS.read(text, "clamps.csv")
    assert a == PressSettings("Bar, long", count=12, force=3500.0, opening=600.0)
    assert b == PressSettings("Pipe; 3/4", force=4670.0, pad=40.5)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", r"clamps\.csv is empty: the first line must name the columns, name, kind"),
        ("count\n3", "line 1: the column “name” is missing"),
        ("name,reach\na,1", "line 1: there is no column “reach”"),
        ("name,force kg\na,1", "there is no column “force kg”"),
        ("name,count,count\na,1,1", "the column “count” stands twice"),
        ("name,count\na,2.5", "line 2, count: “2.5” is no whole number"),
        ("name,count\na,0", "line 2, count: “0” is impossible here: give 1 to 999"),
        ("name,count\na,many", "line 2, count: “many” is no number"),
        ("name,force\na,4670", "line 2, force: “4670” has no unit"),
        ("name,force\na,40 kg", "line 2, force: “kg” is no unit of force known here"),
        ("name,opening\na,600", "line 2, opening: “600” has no unit"),
        ("name,opening mm\na,-3", "line 2, opening: “-3” is impossible here"),
        ("name,pad mm\na,1,5", "a decimal comma parts"),
        ("name;pad mm\na;1.250", "line 2, pad: “1.250” may be thousands or thousandths in a file parted by semicolons"),
        ("name;pad mm,count\na;1,2", "parted by commas and by semicolons"),
        ("name,kind\na,mallet", "line 2, kind: “mallet” is not known here: write clamp, rod"),
        ("name,kind\n,rod", "line 2, name: this clamp has no name"),
        ("name,air MPa\na,0.2", r"line 2, air: “0\.2” is impossible here"),
        ("name\na\n\na", "line 4, name: the clamp “a” stands twice"),
        ("name,count\na," + "9" * 400, "count"),
        ("a" * 200_000, r"clamps\.csv"),
    ],
)
def test_nonsense_is_refused_in_a_sentence_with_its_place(text: str, says: str) -> None:
    with pytest.raises(Refusal, match=says) as caught:
        CLAMPS.read(text, "clamps.csv")
    assert caught.value.told("mm").endswith(".")


@given(
    st.lists(
        st.builds(
            PressSettings,
            name=st.text("abc =+,;\"'é", min_size=1, max_size=8).filter(lambda t: t.strip() == t),
            kind=st.sampled_from(PRESS_KINDS),
            count=st.integers(1, 999),
            force=st.floats(1.0, 1e5),
            opening=st.none() | st.floats(1.0, 5000.0),
            throat=st.none() | st.floats(1.0, 500.0),
            pad=st.floats(5.0, 500.0),
            air=st.floats(0.01, 0.1),
        ),
        max_size=4,
        unique_by=lambda press: press.name,
    )
)
def test_any_clamps_read_back(owned: list[PressSettings]) -> None:
    back = CLAMPS.read(CLAMPS.write(owned), "clamps.csv")
    for one, two in zip(owned, back, strict=True):
        figures = {"force": one.force, "opening": one.opening, "throat": one.throat, "pad": one.pad, "air": one.air}
        assert replace(two, **figures) == replace(one, name=two.name)
        assert two.name == one.name or one.name[0] == "'"
        for name, value in figures.items():
            assert getattr(two, name) == (value if value is None else pytest.approx(value, abs=1e-6))
