# SPDX-License-Identifier: LGPL-2.1-or-later

"""The rack: its CSV file there and back, its prices, and what it refuses."""

from __future__ import annotations

import csv
import io
from importlib.resources import files

import pytest
from settingstext import write_settings

from freecad_stacklam.data import example_rack
from freecad_stacklam.lamination.boards.rack import read_rack, write_rack
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import Board, Knot, Rack
from freecad_stacklam.lamination.settings.file import read_settings
from freecad_stacklam.lamination.settings.shop import ShopSettings

HEAD = "name,species,thickness mm,width mm,length mm,count,cost,per,for sale,grade,knots\n"


def bundled() -> Rack:
    return read_rack(files("freecad_stacklam.data").joinpath("rack.csv").read_text(encoding="utf-8"))


@pytest.mark.parametrize("text", ["a" * 200_000, "name,width,length,thickness\nx,100mm,1m," + "9" * 400])
def test_nonsense_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(Refusal, match=r"rack\.csv"):
        read_rack(text)
    with pytest.raises(Refusal, match="count"):
        read_rack("name,width,length,thickness,count\nx,100mm,1m,45mm," + "9" * 400)


def test_the_bundled_rack_reads_and_writes_back_in_both_units() -> None:
    rack = bundled()
    assert {b.for_sale for b in rack.boards} == {True, False}
    assert any(b.knots for b in rack.boards)
    assert read_rack(write_rack(rack)) == rack
    again = read_rack(write_rack(rack, "in"))
    for one, two in zip(rack.boards, again.boards):
        assert (one.width, one.length, one.thickness) == pytest.approx((two.width, two.length, two.thickness), abs=1e-4)
        for k, m in zip(one.knots, two.knots):
            assert k.box == pytest.approx(m.box, abs=1e-4)


def test_the_moisture_of_a_board_is_read_with_and_without_its_sign_and_written_back() -> None:
    text = "name,thickness mm,width mm,length mm,moisture\na,30,100,900,8.5\nb,30,100,900,9 %\nc,30,100,900,\n"
    rack = read_rack(text)
    assert [b.moisture for b in rack.boards] == [8.5, 9.0, None]
    assert read_rack(write_rack(rack)) == rack == read_rack(write_rack(rack, "mm"))


def test_a_rack_as_spreadsheets_write_it_where_the_comma_is_the_decimal_sign() -> None:
    """RFC 4180 knows commas alone; the other way is common practice, no source. The bundled rack, turned over by hand:
    every point of a figure a comma, every comma between cells a semicolon, knots between quotes."""
    text = (
        "\ufeffname;species;thickness mm;width mm;length mm;count;cost;per;for sale;grade;knots;moisture\r\n"
        'Wide, old;white oak;44,5;265;2480;1;92,75;board;no;;"1420,5 60 90 55; 10 20 30 40,5";9,2\r\n'
        "Yard;white oak;51;190,25;2440;;13.5;board foot;yes;FAS;;\r\n"
    )
    wide, yard = read_rack(text).boards
    assert (wide.name, wide.thickness, wide.cost, wide.moisture) == ("Wide, old", 44.5, 92.75, 9.2)
    assert [k.box for k in wide.knots] == [(1420.5, 60, 90, 55), (10, 20, 30, 40.5)]
    assert (yard.width, yard.cost, yard.count, yard.for_sale) == (190.25, 13.5, 0, True)
    bundled_text = example_rack().read_text(encoding="utf-8")
    rows = csv.reader(io.StringIO(bundled_text))
    turned = io.StringIO()
    csv.writer(turned, delimiter=";").writerows(
        [c.replace(".", ",") if c[:1].isdigit() else c for c in r] for r in rows
    )
    assert read_rack(turned.getvalue()) == read_rack(bundled_text)


def test_prices_by_board_board_foot_and_volume() -> None:
    """6-1/4 in × 8 ft × 2 in is 8 board feet by surface measure (4-1/6 counts as 4), an example of the hardwood trade's
    grading rules; a cubic metre is its volume."""
    size = {"width": 6.25 * 25.4, "length": 96 * 25.4, "thickness": 50.8}
    assert Board("a", **size, cost=10.0, per="board foot").price == pytest.approx(80.0)
    assert Board("a", **size, cost=10.0).price == 10.0
    volume = 6.25 * 96 * 2 * 16387.064e-9  # 1 in³ = 16.387064 cm³ (NIST SP 811, app. B)
    assert Board("a", **size, cost=1000.0, per="m3").price == pytest.approx(1000 * volume)
    assert Board("a", **size).price is None


def test_formula_cells_are_neutralised_and_read_back() -> None:
    rack = Rack((Board("=1+1", 100.0, 1000.0, 30.0, "oak"),))
    text = write_rack(rack)
    assert "\n'=1+1," in text
    assert read_rack(text) == rack


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "is empty"),
        ("name;width mm;length mm,thickness mm\n", "line 1: the columns are parted by commas and by semicolons"),
        ("name;width mm;length mm;thickness mm\na;100;1.250;30\n", "line 2, length: “1.250” may be thousands or"),
        ("name;width mm;length mm;thickness mm\na;100;1,250;30\n", "line 2, length: “1,250” may be thousands or"),
        ("name;width mm;length mm;thickness mm\na;100;1250;30;\n", "line 2: there are 5 cells for 4 columns: put"),
        ("name;width mm;length mm;thickness mm\na,100,1250,30\n", "line 2, thickness: this size is missing"),
        ("name,width mm,length mm\n", "line 1: the column “thickness” is missing"),
        ("name,width mm,breadth,length mm,thickness mm\n", "line 1: there is no column “breadth”"),
        ("name,width mm,width in,length mm,thickness mm\n", "line 1: the column “width” stands twice"),
        ("name,width furlong,length mm,thickness mm\n", "line 1: there is no column “width furlong”"),
        ("name,thickness mm,width,length mm\na,30,100,1000\n", "line 2, width: “100” has no unit"),
        ("name,thickness mm,width mm,length mm\na,30,44,5,1000\n", "line 2: there are 5 cells for 4 columns"),
        (
            'name,thickness mm,width mm,length mm\na,30,100,"2,400"\n',
            "line 2, length: “2,400” may be thousands or thousandths: write 2400",
        ),
        (
            'name,thickness mm,width mm,length mm,cost\na,30,44,1000,"1,250"\n',
            "line 2, cost: “1,250” may be thousands or thousandths: write 1250, or 1.250",
        ),
        ('name,thickness mm,width mm,length mm,cost\na,30,44,1000,"1.250,00"\n', "“1.250,00” has several decimal"),
        ("name,thickness mm,width mm,length mm,cost\na,30,44,1000,nan\n", "line 2, cost: “nan” is no cost"),
        ("name,thickness mm,width mm,length mm,cost\n\na,30,44,1000,dear\n", "line 3, cost: “dear” is no cost"),
        ("name,thickness mm,width mm,length mm\na,30,-44,1000\n", "line 2, width: “-44” is no size"),
        ("name,thickness mm,width mm,length mm\na,,44,1000\n", "line 2, thickness: this size is missing"),
        (HEAD + "a,oak,30,100,900,1,,,,,0 0 950 20\n", "line 2: Board “a”: a knot at 0 mm, 0 mm of 950 mm × 20 mm"),
        (HEAD + "a,oak,30,100,900,1,,,,,5 5 20\n", "line 2, knots: the knot “5 5 20” needs four sizes"),
        (HEAD + "a,oak,30,100,900,0,,,no,,\n", "0 boards on hand is impossible"),
        (HEAD + "a,oak,30,100,900,1.5,,,no,,\n", "line 2, count: “1.5” is no count"),
        (HEAD + "a,oak,30,100,900,1,,,maybe,,\n", "line 2, for sale: “maybe” says neither yes nor no"),
        (HEAD + "a,oak,30,100,900,1,9,each,,,\n", "per: “each” is not known here"),
        (HEAD + "a,oak,30,100,900,1,-9,,,,\n", "cost: “-9” is impossible"),
        (HEAD + "a,oak,30,100,900,1,9,,,prime,\n", "grade: “prime” is not known here"),
        ("name,thickness mm,width mm,length mm,moisture\na,30,100,900,dry\n", "moisture: “dry” is no number"),
        (
            "name,thickness mm,width mm,length mm,moisture\na,30,100,900,85\n",
            "line 2: “Moisture” of board “a” cannot be 85 %",
        ),
    ],
)
def test_a_bad_rack_file_is_refused_on_its_line(text: str, says: str) -> None:
    with pytest.raises(Refusal) as refused:
        read_rack(text)
    assert says in str(refused.value)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    ("shop", "says"),
    [
        ({"kerf": -1.0}, "“Kerf” of the shop cannot be -1 mm: give 0 mm to 20 mm"),
        ({"end_trim": -0.5}, "“End trim” of the shop cannot be -0.5 mm"),
        ({"jointing": float("nan")}, "“Jointing per edge” of the shop cannot be nan"),
        ({"min_stave": 200.0}, "at least 200 mm and at most 150 mm"),
        ({"first_cut": "mitre"}, "cannot be “mitre”: write crosscut, rip or better"),
        ({"spare_staves": -1}, "“Spare staves” of the shop cannot be -1"),
    ],
)
def test_impossible_shop_settings_are_refused(shop: dict[str, object], says: str) -> None:
    with pytest.raises(Refusal, match=says):
        ShopSettings(**shop)


def test_settings_file_fills_the_rack() -> None:
    text = (
        '[shop]\nkerf = "3.2mm"\nfirst_cut = "rip"\nspare_staves = 2\n'
        '[[board]]\nname = "A"\nspecies = "oak"\nthickness = "2in"\nwidth = "200mm"\nlength = "2.4m"\ncost = 40\n'
        'knots = [["10cm", "2cm", "80mm", "30mm"]]\n'
        '[[board]]\nname = "B"\nthickness = "48mm"\nwidth = "200mm"\nlength = "2.4m"\nfor_sale = true\ncost = 12\n'
        'per = "board foot"\ngrade = "FAS"\n'
    )
    settings = read_settings(text)
    knot = Knot(100.0, 20.0, 80.0, 30.0)
    assert settings.boards[0] == Board("A", 200.0, 2400.0, 2 * 25.4, "oak", 40.0, "board", 1, (knot,))
    assert settings.boards[1].count == 0
    assert settings.shop == ShopSettings(kerf=3.2, first_cut="rip", spare_staves=2)
    assert read_settings(write_settings(settings)) == settings


def test_a_board_without_a_size_is_refused() -> None:
    with pytest.raises(Refusal, match="line 1: this board has no width"):
        read_settings('[[board]]\nname = "A"\nthickness = "50mm"\n')


def test_a_decimal_comma_in_a_cell_is_read() -> None:
    text = 'name,thickness mm,width mm,length mm,cost,per\na,"31,5","144,5",2400,"92,50",board foot\n'
    (board,) = read_rack(text).boards
    assert (board.thickness, board.width, board.cost) == (31.5, 144.5, 92.5)
