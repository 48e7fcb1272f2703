# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cutting plan as it stands in plan.json."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from woodyard import BARE, for_sale, stave

from freecad_stacklam.lamination.boards.cutting import plan_cutting
from freecad_stacklam.lamination.job.boardsjson import boards_json
from freecad_stacklam.lamination.plan.boards import SeamConflict
from freecad_stacklam.lamination.settings.board import Rack


def test_without_boards_every_key_is_there_and_nothing_is_claimed() -> None:
    told = boards_json(None)
    assert told["staves"] == told["plan"] == told["short"] == []
    assert told["kerf"] is told["yield"] is told["cost"] is told["objective"] is None
    assert told["bound"] == {"area": None, "lp": None}


def test_what_is_told_is_the_plan() -> None:
    """Three pieces 600 × 100 from boards 100 × 1230: two on one board and one on another."""
    plan = plan_cutting([stave(n, 600.0, 100.0) for n in "abc"], Rack((for_sale(100.0, 1230.0, 21.0),)), BARE)
    plan = replace(plan, seam_conflicts=(SeamConflict("Top", 2, 1 / 3, "near a mortise"),))
    told = json.loads(json.dumps(boards_json(plan)))
    assert len(told["plan"]) == 2
    assert (told["cost"], told["objective"]["value"]) == (42.0, pytest.approx(plan.objective))
    assert told["yield"] == pytest.approx(3 * 600.0 / (2 * 1230.0), abs=1e-6)
    assert sorted(p["stave"] for b in told["plan"] for p in b["pieces"]) == ["a", "b", "c"]
    assert [s["id"] for s in told["staves"]] == ["a", "b", "c"]
    assert told["seam_conflicts"] == [{"stack": "Top", "layer": 2, "across": 0.333333, "says": "near a mortise"}]
    for board, cut in zip(told["plan"], plan.plan, strict=True):
        assert (board["length"], board["width"], board["on_hand"]) == (1230.0, 100.0, cut.on_hand)
        done = board["operations"]
        assert [o["at"] for o in done] == [None if o.at is None else round(o.at, 6) for o in cut.operations]
        # As thick as wanted and surfaced: only the ends are trimmed and the pieces parted, at 45 mm.
        assert {o["machine"] for o in done} == {"crosscut saw"}
        assert done[0]["piece"] == [1230.0, 100.0, 45.0] and done[0]["gang"]
        assert done[0]["corner"] == [0.0, 0.0]


def test_steps_tell_the_thickness_that_the_piece_has_then() -> None:
    """A rough board of 50 mm planed to 45: what comes before the planer is 50 thick, what comes after 45."""
    rough = replace(for_sale(100.0, 1230.0, 21.0), thickness=50.0)
    plan = plan_cutting([stave("a", 600.0, 95.0, glued_edges=2)], Rack((rough,)), replace(BARE, kerf=3.0))
    done = boards_json(plan)["plan"][0]["operations"]
    assert [(o["machine"], o["piece"][2]) for o in done] == [
        ("crosscut saw", 50.0), ("jointer", 50.0), ("planer", 50.0), ("table saw", 45.0), ("jointer", 45.0)
    ]  # fmt: skip


def test_a_plan_without_prices_tells_no_cost() -> None:
    plan = plan_cutting([stave("a", 600.0, 100.0)], Rack((for_sale(100.0, 1230.0, None),)), BARE)
    assert boards_json(plan)["cost"] is None
    assert boards_json(plan)["plan"][0]["cost"] is None
