# SPDX-License-Identifier: LGPL-2.1-or-later

"""A cutting plan kept as text."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from woodyard import cut_apart, for_sale

from freecad_stacklam.lamination.boards.cutting import plan_cutting
from freecad_stacklam.lamination.boards.keptplan import plan_text, read_plan
from freecad_stacklam.lamination.plan.boards import BoardsPlan, SeamConflict
from freecad_stacklam.lamination.settings.board import Board, Knot, Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings

SHOP = ShopSettings()
RACK = (
    Board("Eiche „lang“", 190.0, 1900.0, 48.0, "", knots=(Knot(1700.0, 0.0, 60.0, 80.0),)),
    for_sale(190.0, 2400.0),
)


def read(text: str) -> BoardsPlan | None:
    return read_plan(text, RACK, SHOP)


def made() -> BoardsPlan:
    staves = cut_apart(np.random.default_rng(3), 2, 1800.0, 180.0, 3.0)
    plan = plan_cutting(staves, Rack(RACK), SHOP)
    return replace(plan, seam_conflicts=(SeamConflict("Top", 2, 1 / 3, "the seam lies 4 mm from another"),))


PLAN = made()


def test_every_figure_comes_back_to_the_last_bit() -> None:
    assert read(plan_text(PLAN)) == PLAN
    assert read(plan_text(BoardsPlan(staves=()))) == BoardsPlan(staves=())


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**6), st.integers(1, 400))
def test_a_torn_text_is_no_plan(at: int, count: int) -> None:
    text = plan_text(PLAN)
    at %= len(text)
    torn = text[:at] + text[at + count :]
    found = read(torn)
    assert found is None or found.plan  # what still reads as a plan has passed the judge


def _changed(change: Any) -> str:
    facts = json.loads(plan_text(PLAN))
    change(facts)
    return json.dumps(facts)


@pytest.mark.parametrize(
    "change",
    [
        lambda f: f["plan"][0]["pieces"][0].update(x=f["plan"][0]["pieces"][0]["x"] + 7.0),
        lambda f: f["plan"][0]["pieces"].append(f["plan"][0]["pieces"][0]),
        lambda f: f["plan"][0].update(length=100.0),
        lambda f: f["plan"].pop(),
        lambda f: f.pop("staves"),
        lambda f: f.update(more=1),
        lambda f: f["plan"][0]["pieces"][0].update(x="far"),
    ],
    ids=["moved", "twice", "a short board", "a board less", "no staves", "an unknown key", "no figure"],
)
def test_a_plan_that_cannot_be_cut_as_drawn_is_none(change: Any) -> None:
    assert read(_changed(change)) is None


def test_a_plan_from_another_rack_or_shop_is_none() -> None:
    assert read_plan(plan_text(PLAN), RACK[1:], SHOP) is None
    assert read_plan(plan_text(PLAN), RACK, replace(SHOP, end_trim=40.0)) is None


@pytest.mark.parametrize("text", ["", "null", "[]", "3", "{}", "no JSON", '{"staves": null}'])
def test_other_texts_hold_no_plan(text: str) -> None:
    assert read(text) is None
