# SPDX-License-Identifier: LGPL-2.1-or-later

"""The buying list against board-foot rules worked by hand, and the whole wood plan through the job."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace

import plans
import pytest
import solids
from jobs import plan_job
from planschema import check_schema

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.bill.csvtext import csv_text
from freecad_stacklam.lamination.bill.rows import bill_of
from freecad_stacklam.lamination.boards import cutcheck
from freecad_stacklam.lamination.boards.boardplan import boards_for
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.job.planjson import as_dict, dumps
from freecad_stacklam.lamination.plan.bill import BillRow
from freecad_stacklam.lamination.plan.boards import BoardCut, BoardPiece, BoardsPlan, Stave
from freecad_stacklam.lamination.plan.gluing import GlueUpPlan
from freecad_stacklam.lamination.plan.outline import area_polygon
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.board import Board, Rack
from freecad_stacklam.lamination.settings.file import read_settings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.settings.stack import StackSettings

IN = 25.4


def yard(name: str, width: float, length: float, thickness: float, cost: float, grade: str = "") -> Board:
    """A board for sale, sizes in inches, priced by the board foot."""
    return Board(name, width * IN, length * IN, thickness * IN, "white oak", cost, "board foot", 0, (), True, grade)


def plan_with(boards: BoardsPlan) -> Plan:
    return replace(plans.plant_stand(), boards=boards)


def rows_of(boards: BoardsPlan, item: str) -> list[BillRow]:
    return [r for r in bill_of(plan_with(boards), species_table()) if r.item == item]


def test_glue_is_left_to_the_glue_up_where_one_is_planned() -> None:
    boards = BoardsPlan(plans.worked_stand().boards.staves)  # type: ignore[union-attr]
    times = (480.0, 900.0, 3600.0, 86_400.0)
    planned = replace(plan_with(boards), glue_up=GlueUpPlan("yellow glue", times, 20.0, (), (0, 0), True))
    assert [r.item for r in bill_of(plan_with(boards), species_table())].count("glue") == 1
    assert all(r.item != "glue" for r in bill_of(planned, species_table()))


def test_present_rows_stay_as_they_are_and_boards_come_after() -> None:
    plan = plans.plant_stand()
    before = bill_of(plan, species_table())
    rack = Rack((yard("8/4", 8.0, 96.0, 2.0, 12.0), yard("5/4", 8.0, 96.0, 1.25, 9.0)))
    after = bill_of(plan_with(boards_for(plan.stacks, rack, ShopSettings())), species_table())
    assert after[: len(before)] == before
    assert {r.item for r in after[len(before) :]} >= {"board to buy", "total", "waste", "glue"}
    assert all(r.how for r in after)
    heads = next(csv.reader(io.StringIO(csv_text(before))))
    priced = next(csv.reader(io.StringIO(csv_text(after))))
    assert priced == [*heads, "cost each", "price", "cost"]


def test_boards_are_counted_in_board_feet_as_sold() -> None:
    """Examples of surface measure from the hardwood trade's teaching: 6-1/4 in × 8 ft is 4-1/6, counted 4, in 2 in
    stock 8 board feet; 10 in × 13 ft is 10-10/12, counted 11."""
    pieces = (BoardPiece("Body 1 a", 1, 25.0, 0.0, 300.0, 100.0),)
    boards = BoardsPlan(
        staves=(Stave("Body 1 a", "Body", 1, ((0, 0), (300, 0), (300, 100), (0, 100)), 100, 300, 45, 0, "white oak"),),
        plan=(
            BoardCut("8/4 #1", 6.25 * IN, 96 * IN, 2 * IN, "white oak", 96.0, False, pieces),
            BoardCut("8/4 #2", 6.25 * IN, 96 * IN, 2 * IN, "white oak", 96.0, False, ()),
            BoardCut("Mine", 10 * IN, 156 * IN, 1 * IN, "white oak", None, True, ()),
        ),
    )
    buy, hand = rows_of(boards, "board to buy"), rows_of(boards, "board on hand")
    assert [(r.name, r.count, r.board_feet, r.cost) for r in buy] == [("8/4", 2, 8.0, 96.0)]
    assert [(r.name, r.count, r.board_feet, r.cost) for r in hand] == [("Mine", 1, 11.0, None)]
    totals = {r.name: r for r in rows_of(boards, "total")}
    assert totals["Boards to buy"].board_feet == 16.0
    assert totals["Boards to buy"].cost == 192.0
    assert totals["Boards to buy"].volume == pytest.approx(2 * 6.25 * 96 * 2 * IN**3)
    assert totals["Boards on hand"].cost is None and totals["All boards"].cost is None
    assert totals["All boards"].board_feet == 27.0
    assert "price is missing" in totals["Boards on hand"].how


def test_a_grade_sets_a_floor_under_the_waste() -> None:
    """No. 1 common is two thirds clear (NHLA: 8/12): pieces of 90 % of a board need 1.35 boards, so one more."""
    board = BoardCut("4/4", 200.0, 1000.0, 45.0, "white oak", 10.0, False,
                     (BoardPiece("a", 1, 0.0, 0.0, 900.0, 200.0),), grade="No. 1 common")  # fmt: skip
    stave = Stave("a", "Body", 1, ((0, 0), (900, 0), (900, 200), (0, 200)), 200, 900, 45, 0, "white oak")
    more = rows_of(BoardsPlan(staves=(stave,), plan=(board,)), "board for its grade")
    assert [(r.name, r.count) for r in more] == [("4/4", 1)]
    assert "50 %" in more[0].how
    fas = replace(board, grade="FAS", pieces=(BoardPiece("a", 1, 0.0, 0.0, 800.0, 200.0),))
    assert rows_of(BoardsPlan(staves=(stave,), plan=(fas,)), "board for its grade") == []


def test_glue_is_the_area_of_all_lines_at_the_spread() -> None:
    """By shapely: faces where neighbouring blanks overlap; one seam of 300 mm in 45 mm stock."""
    plan = plans.plant_stand()
    strips = [((0, 0), (300, 0), (300, 100), (0, 100)), ((0, 100), (300, 100), (300, 160), (0, 160))]
    staves = tuple(Stave(f"s{i}", "Pedestal", 1, r, 100, 300, 45, 0, "white oak") for i, r in enumerate(strips))
    row = rows_of(BoardsPlan(staves=staves, glue_spread=200.0), "glue")[0]
    faces = 0.0
    for stack in plan.stacks:
        blanks = [area_polygon(n.blank) for n in stack.layers]
        faces += sum(a.intersection(b).area for a, b in zip(blanks, blanks[1:]))
    assert row.area == pytest.approx(faces + 300 * 45, rel=1e-3)
    assert row.mass == pytest.approx(row.area * 1e-6 * 0.2)


def test_spares_are_listed() -> None:
    plan = plans.plant_stand()
    rack = Rack((yard("8/4", 8.0, 96.0, 2.0, 12.0), yard("5/4", 8.0, 96.0, 1.25, 9.0)))
    boards = boards_for(plan.stacks, rack, ShopSettings(spare_staves=2))
    assert len(rows_of(boards, "spare stave")) == 4


def test_what_the_boards_cost_is_told_by_kind_and_in_all() -> None:
    """Two boards of 8 board feet at 12 and one of the shop's own at 30: 192 + 30."""
    boards = BoardsPlan(
        staves=(),
        plan=(
            BoardCut(
                "8/4 #1", 6.25 * IN, 96 * IN, 2 * IN, "white oak", 96.0, False, (), priced="12 per board foot × 8"
            ),
            BoardCut(
                "8/4 #2", 6.25 * IN, 96 * IN, 2 * IN, "white oak", 96.0, False, (), priced="12 per board foot × 8"
            ),
            BoardCut("Mine", 10 * IN, 156 * IN, 1 * IN, "white oak", 30.0, True, (), priced="30 per board"),
        ),
    )
    (buy,) = rows_of(boards, "board to buy")
    assert (buy.count, buy.cost, buy.per) == (2, 96.0, "12 per board foot × 8")
    assert {r.name: r.cost for r in rows_of(boards, "total") if "oards" in r.name} == {
        "Boards to buy": 192.0, "Boards on hand": 30.0, "All boards": 222.0
    }  # fmt: skip


SETTINGS = """
[[stack]]
form = "Cone"
stock = ["45mm"]
copies = 2
[shop]
kerf = "3mm"
first_cut = "better"
[[board]]
name = "Wide"
species = "white oak"
thickness = "50mm"
width = "240mm"
length = "2400mm"
cost = 80
knots = [["300mm", "40mm", "90mm", "60mm"]]
[[board]]
name = "Yard"
species = "white oak"
thickness = "48mm"
width = "200mm"
length = "2440mm"
cost = 12.5
per = "board foot"
for_sale = true
"""


def test_the_job_plans_boards_when_a_rack_is_given_and_not_otherwise() -> None:
    form = Form("Cone", solids.cone(180.0, 200.0, 120))
    bare = plan_job([form], Settings(stacks=(StackSettings(form="Cone"),)), species_table())
    assert bare.boards is None
    settings = read_settings(SETTINGS)
    plan = plan_job([form], settings, species_table())
    assert plan.boards is not None
    assert cutcheck.faults_of(plan.boards, settings.boards, settings.shop) == []
    assert {b.board for b in plan.boards.plan if b.on_hand} == {"Wide"}
    for layer in plan.stacks[0].layers:
        mine = [s for s in plan.boards.staves if s.layer == layer.number]
        assert cutcheck.blank_faults(mine, area_polygon(layer.blank), "layer") == []
    facts = json.loads(dumps(as_dict(plan, settings)))
    assert check_schema(facts) == []
    room = facts["boards"]
    assert {s["id"] for s in room["staves"]} == {s.id for s in plan.boards.staves}
    assert sum(len(b["pieces"]) for b in room["plan"]) == 2 * len(room["staves"])
    assert room["yield"] == pytest.approx(
        sum(s["length"] * (s["width"] + 1.5 * s["glued_edges"]) * s["copies"] for s in room["staves"])
        / sum(b["length"] * b["width"] for b in room["plan"])
    )
    assert room["cost"] == pytest.approx(sum(b["cost"] for b in room["plan"]))
    assert 0 < room["bound"]["area"] <= room["objective"]["value"]


def test_without_boards_the_staves_alone_are_planned_when_the_shop_asks() -> None:
    form = Form("Cone", solids.cone(180.0, 200.0, 120))
    settings = read_settings('[shop]\nmax_stave = "120mm"\n')
    plan = plan_job([form], settings, species_table())
    assert plan.boards is not None
    assert plan.boards.plan == ()
    assert max(s.width for s in plan.boards.staves) <= 120.0
    assert "no boards on the rack" in plan.boards.short[0]


def test_staves_are_made_narrower_when_the_few_wide_boards_run_out() -> None:
    """One wide board on hand takes two blanks of a piece whole; twenty copies need staves from the yard's boards."""
    plan = plans.plant_stand()
    wide = Board("Wide", 300.0, 3000.0, 48.0, "white oak", 60.0)
    rack = Rack((wide, yard("8/4", 6.0, 96.0, 2.0, 12.0)))
    once = boards_for(plan.stacks[:1], rack, ShopSettings())
    assert max(s.width for s in once.staves) > 152.4
    many = boards_for([replace(plan.stacks[0], copies=20)], rack, ShopSettings())
    assert max(s.width for s in many.staves) <= 152.4
    assert cutcheck.faults_of(many, rack.boards, ShopSettings()) == []
