# SPDX-License-Identifier: LGPL-2.1-or-later

"""The rack as a sheet that makers type in, the shop, and the cutting plan that a document keeps."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from freecad_stacklam.lamination.settings.board import Board, Knot
from freecad_stacklam.lamination.settings.shop import BandSaw, Bit, ShopSettings

pytestmark = pytest.mark.freecad


OAK = Board("Oak 1", 190.0, 2440.0, 48.0, "white oak", count=2)
YARD = Board("Yard", 200.0, 2400.0, 50.0, "white oak", 12.5, "board foot", 0, for_sale=True, grade="FAS")
KNOTTY = Board(
    "=cmd", 150.0, 1830.0, 47.123456, cost=26.0, knots=(Knot(100.0, 20.0, 60.0, 45.5), Knot(900.0, 0.0, 80.0, 30.0))
)


def box_job(**changes: Any) -> Any:
    from freecad_stacklam.lamination.settings.job import Settings
    from freecad_stacklam.lamination.settings.stack import StackSettings

    settings = Settings(
        title="Block", stacks=(StackSettings(form="Block", stock=(45.0,)),),
        shop=ShopSettings(max_stave=120.0, given=("kerf",)), boards=(OAK, YARD),
    )  # fmt: skip
    return replace(settings, **changes)


@pytest.fixture
def block(document: Any) -> Any:
    """A block of 400 × 300 × 90 in two layers, and a rack."""
    from freecad_stacklam.docobjects.making.project import fill_document

    box = document.addObject("Part::Box", "Block")
    box.Length, box.Width, box.Height = 400, 300, 90
    document.recompute()
    fill_document(document, [box], box_job())
    return document


# --- the sheet ------------------------------------------------------------------------------------------------------


def test_boards_survive_the_way_into_the_sheet_and_back(document: Any) -> None:
    from freecad_stacklam.docobjects.spreadsheets.rack import boards_in, rack_in, write_rack

    own = document.addObject("Spreadsheet::Sheet", "Rack")
    own.set("A1", "mine")
    boards = (OAK, YARD, KNOTTY)
    sheet = write_rack(document, boards)
    assert boards_in(document) == boards
    assert (sheet.get("A2"), sheet.get("C1"), sheet.get("C2")) == ("Oak 1", "thickness mm", 48)
    # A second writing takes the same sheet, and leaves no row of the first.
    assert write_rack(document, boards[:1]).Name == sheet.Name == rack_in(document).Name
    assert boards_in(document) == boards[:1]
    document.recompute()
    assert own.get("A1") == "mine"
    write_rack(document, boards, "in")
    # 190 mm / 25.4 mm per inch (exact, 1959)
    assert (sheet.get("D1"), sheet.get("D2")) == ("width in", pytest.approx(190 / 25.4, abs=1e-6))
    for read, given in zip(boards_in(document), boards, strict=True):
        sizes = ("thickness", "width", "length")
        assert [getattr(read, s) for s in sizes] == pytest.approx([getattr(given, s) for s in sizes], abs=1e-4)
        assert sum(read.knots, ()) == pytest.approx(sum(given.knots, ()), abs=1e-4)
        assert replace(read, knots=(), **{s: getattr(given, s) for s in sizes}) == replace(given, knots=())


def test_undo_brings_the_boards_back(document: Any) -> None:
    from freecad_stacklam.docobjects.spreadsheets.rack import boards_in, rack_in, write_rack

    document.UndoMode = 1
    for name, boards in (("first", (OAK,)), ("second", (YARD, OAK, KNOTTY))):
        document.openTransaction(name)
        write_rack(document, boards)
        document.recompute()
        document.commitTransaction()
    for turn, boards in ((document.undo, (OAK,)), (document.redo, (YARD, OAK, KNOTTY)), (document.undo, (OAK,))):
        turn()
        document.recompute()
        assert boards_in(document) == boards
    document.openTransaction("not meant")
    write_rack(document, ())
    document.abortTransaction()
    document.recompute()
    assert boards_in(document) == (OAK,)
    document.undo()
    assert rack_in(document) is None


@pytest.mark.parametrize(
    ("typed", "millimetres"),
    [
        ("45", 45.0),
        ("45 mm", 45.0),
        ("4.5cm", 45.0),
        ("1.75 in", 44.45),
        ("1-3/4 in", 44.45),
        ("1-3/4in", 44.45),
        ("3/4in", 19.05),
        ("=2 * 22.5mm", 45.0),
        ("=C3 + 1", 49.0),
        ("'45", 45.0),
    ],
)
def test_a_size_is_read_as_it_was_typed(document: Any, typed: str, millimetres: float) -> None:
    from freecad_stacklam.docobjects.spreadsheets.rack import boards_in, write_rack

    sheet = write_rack(document, (replace(OAK, name="First"), OAK))
    sheet.set("C2", typed)
    document.recompute()
    assert boards_in(document)[0].thickness == pytest.approx(millimetres, abs=1e-9)


@pytest.mark.parametrize("typed", ["8.5", "8.5 %", "'8.5 %", "=8 + 0.5"])
def test_the_moisture_of_a_board_is_read_as_it_was_typed(document: Any, typed: str) -> None:
    from freecad_stacklam.docobjects.spreadsheets.rack import boards_in, write_rack

    sheet = write_rack(document, (OAK, replace(OAK, name="Second", moisture=9.25)))
    sheet.set("O2", typed)
    document.recompute()
    assert [board.moisture for board in boards_in(document)] == [8.5, 9.25]


@pytest.mark.parametrize(
    ("cell", "typed", "says"),
    [
        ("C2", "thick", "Rack, cell C2: “thick” is not a length"),
        ("C2", "", "Rack, cell C2: this size is missing"),
        ("D2", "0", "Rack, cell D2: “0” is no size"),
        ("D2", "=-5mm", "Rack, cell D2: “-5mm” is no size"),
        ("E2", "3 kg", "Rack, cell E2:"),
        ("E2", "=1/0", "Rack, cell E2:"),
        ("F2", "1.5", "Rack, cell F2: “1.5” is no count"),
        ("F2", "many", "Rack, cell F2: “many” is no count"),
        ("G2", "-3", "Rack, cell G2: “-3” is impossible for a cost"),
        ("G2", "'3,500", "Rack, cell G2: “3,500” may be thousands or thousandths: write 3500, or 3.500."),
        ("D2", "'1,445 mm", "Rack, cell D2: “1,445 mm” may be thousands or thousandths: write 1445 mm, or 1.445 mm."),
        ("H2", "yard", "Rack, cell H2: “yard” is not known here"),
        ("I2", "perhaps", "Rack, cell I2: “perhaps” says neither yes nor no"),
        ("J2", "finest", "Rack, cell J2: “finest” is not known here"),
        ("K2", "'600 40 80", "Rack, cell K2: the knot “600 40 80” needs four sizes"),
        ("K2", "'600 40 80 500", "Rack, cell A2: Board “Oak 1”: a knot at 600"),
        ("C1", "'thickness ells", "Rack, cell C1: there is no column “thickness ells”"),
        ("C1", "", "Rack, cell C1: there is no column “”"),
        ("B1", "'name", "Rack, cell B1: the column “name” stands twice"),
        ("O2", "damp", "Rack, cell O2: “damp” is no number"),
        ("O2", "90", "Rack, cell A2: “Moisture” of board “Oak 1” cannot be 90 %"),
        ("P2", "note", "Rack, cell P2: this column has no name"),
    ],
)
def test_a_cell_that_cannot_be_is_named_in_one_sentence(document: Any, cell: str, typed: str, says: str) -> None:
    from freecad_stacklam.docobjects.spreadsheets.rack import boards_in, write_rack
    from freecad_stacklam.lamination.refusal import Refusal

    sheet = write_rack(document, (OAK,))
    sheet.set(cell, typed)
    document.recompute()
    with pytest.raises(Refusal) as refusal:
        boards_in(document)
    assert str(refusal.value).startswith(says)
    assert "\n" not in str(refusal.value)


def test_rows_and_columns_may_be_left_out_and_moved(document: Any) -> None:
    from freecad_stacklam.docobjects.spreadsheets.rack import boards_in, write_rack

    sheet = write_rack(document, ())
    assert boards_in(document) == ()
    sheet.clearAll()
    if "StackLamRack" not in sheet.PropertiesList:  # up to 1.0 the clearing takes our mark along
        sheet.addProperty("App::PropertyBool", "StackLamRack", "StackLam", "", 4, True, True)
    for cell, text in {"A1": "length", "B1": "width in", "C1": "thickness", "A4": "8ft", "B4": "7", "C4": "48"}.items():
        sheet.set(cell, text)
    document.recompute()
    # A foot is 304.8 mm exactly (international yard and pound agreement, 1959).
    (board,) = boards_in(document)
    assert (board.name, board.thickness) == ("Board 1", 48.0)
    assert (board.length, board.width) == (pytest.approx(2438.4), pytest.approx(177.8))


def test_csv_of_the_example_comes_through_the_sheet(document: Any) -> None:
    from freecad_stacklam.data import example_rack
    from freecad_stacklam.docobjects.spreadsheets.rack import boards_in, write_rack
    from freecad_stacklam.lamination.boards.rack import read_rack

    rack = read_rack(example_rack().read_text(encoding="utf-8"))
    write_rack(document, rack.boards)
    assert boards_in(document) == rack.boards


# --- shop, plan and document -------------------------------------------------------------------------------------


def test_shop_and_boards_survive_the_way_through_the_document(block: Any) -> None:
    from freecad_stacklam.docobjects.base.family import shop_in
    from freecad_stacklam.docobjects.making.boards import make_shop
    from freecad_stacklam.docobjects.reading.whole import settings_of
    from freecad_stacklam.docobjects.reading.wood import settings_of_shop

    assert settings_of(block).shop == box_job().shop
    assert settings_of(block).boards == box_job().boards
    shop = shop_in(block)
    shop.EndTrim = 40
    assert settings_of_shop(shop) == ShopSettings(max_stave=120.0, end_trim=40.0, given=("kerf",))
    given = ShopSettings(first_cut="rip", band_saw=BandSaw(12.7, smallest_part=80.0), bits=(Bit(12.0), Bit(25.4)))
    assert make_shop(block, given).Name == shop.Name
    assert settings_of_shop(shop) == given
    shop.MinStave = 900
    with pytest.raises(Exception, match="Staves cannot be at least 900 mm"):
        settings_of_shop(shop)


def test_boards_are_planned_only_where_there_is_a_rack(document: Any) -> None:
    from freecad_stacklam.docobjects.base.family import cutting_in, shop_in
    from freecad_stacklam.docobjects.making.project import fill_document
    from freecad_stacklam.docobjects.reading.whole import plan_of
    from freecad_stacklam.docobjects.spreadsheets.rack import rack_in

    box = document.addObject("Part::Box", "Block")
    box.Length, box.Width, box.Height = 400, 300, 90
    document.recompute()
    fill_document(document, [box], box_job(shop=ShopSettings(), boards=()))
    assert plan_of(document).boards is None
    assert (rack_in(document), shop_in(document), cutting_in(document)) == (None, None, None)


def test_the_document_plans_as_the_job_does_without_one(block: Any) -> None:
    from jobs import plan_job

    from freecad_stacklam.data import species_table
    from freecad_stacklam.docobjects.base.family import stacks_in
    from freecad_stacklam.docobjects.reading.stacks import form_of_stack
    from freecad_stacklam.docobjects.reading.whole import plan_of
    from freecad_stacklam.lamination.job.planjson import as_dict, dumps

    plan = plan_of(block)
    other = plan_job([form_of_stack(s) for s in stacks_in(block)], box_job(), species_table())
    assert plan == other
    assert plan.boards is not None
    # 300 mm wide, and boards of 190 and 200: two layers of at least two staves.
    assert len(plan.boards.staves) >= 4
    assert '"pieces"' in dumps(as_dict(plan, box_job()))
    assert {"board on hand", "board to buy"} & {row.item for row in plan.bill}
    assert plan_of(block).boards is plan.boards, "nothing is planned twice"


def test_a_kept_plan_is_the_document_s_until_something_changes(block: Any, tmp_path: Path) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.base.family import cutting_in
    from freecad_stacklam.docobjects.making.boards import keep_cutting
    from freecad_stacklam.docobjects.reading import wood as reading
    from freecad_stacklam.docobjects.reading.insides import finished_stacks
    from freecad_stacklam.docobjects.reading.whole import plan_of
    from freecad_stacklam.docobjects.spreadsheets.rack import rack_in
    from freecad_stacklam.lamination.boards.boardplan import plan_boards

    stacks, wood = finished_stacks(block), reading.wood_settings(block)
    better = replace(plan_boards(stacks, wood, rounds=20, lp_bound=True), method="by hand")
    kept = keep_cutting(block, better, reading.key_of(stacks, wood))
    assert kept.State == ["Up-to-date"]
    assert plan_of(block).boards == better
    assert kept.StaveCount == len(better.staves)
    assert kept.BoardsOnHand + kept.BoardsToBuy == len(better.plan) == len(kept.Boards)
    assert kept.Cost == f"{better.cost:.2f}" if better.cost is not None else kept.Cost.startswith("not known")
    path = str(tmp_path / "kept.FCStd")
    block.saveAs(path)
    FreeCAD.closeDocument(block.Name)
    reading._made.clear()
    opened = FreeCAD.openDocument(path)
    try:
        assert plan_of(opened).boards == better
        opened.recompute()
        kept = cutting_in(opened)
        assert (kept.Method, kept.KeptFor) == ("by hand", kept.ShownFor)
        # A plan that cannot be cut as drawn is never shown: move a piece off its board.
        whole = kept.Kept
        kept.Kept = whole.replace('"x": 25.0', '"x": 9025.0', 1)
        assert kept.Kept != whole
        assert plan_of(opened).boards.method != "by hand"
        kept.Kept = whole
        assert plan_of(opened).boards == better
        # Another board: the plan is made anew, in the same recompute.
        rack_in(opened).set("D2", "180")
        opened.recompute()
        assert (kept.Method, kept.Kept) == ("first fit", "")
        assert plan_of(opened).boards.method == "first fit"
        # A rack that cannot be read puts the plan in error, with the cell; mended, it is well again.
        rack_in(opened).set("D2", "wide")
        opened.recompute()
        assert "Invalid" in kept.State
        rack_in(opened).set("D2", "180")
        opened.recompute()
        assert kept.State == ["Up-to-date"]
        rack_in(opened).set("D2", "190")
        opened.recompute()
        assert kept.State == ["Up-to-date"]
        assert kept.StaveCount == len(better.staves)
    finally:
        FreeCAD.closeDocument(opened.Name)


def test_no_board_that_will_do_is_said_with_the_stave(block: Any) -> None:
    from freecad_stacklam.docobjects.reading.whole import plan_of
    from freecad_stacklam.docobjects.spreadsheets.rack import write_rack

    def stop() -> str:
        plan = plan_of(block)
        assert plan.boards is None and plan.bill and not plan.proven
        return next(c.says for c in plan.checks if c.name == "boards left out")

    write_rack(block, (replace(OAK, thickness=30.0),))
    assert "Block 1 needs 45 mm white oak, but the thickest board is 30 mm, 15 mm short" in stop()
    write_rack(block, (replace(OAK, length=300.0),))
    assert "Block 1" in stop()
