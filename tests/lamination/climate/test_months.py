# SPDX-License-Identifier: LGPL-2.1-or-later

"""Months for the work: near to what the piece settles at, and little ahead. The rule is common practice, no source;
here it is asked of waves of which the answer is plain."""

from __future__ import annotations

from dataclasses import replace
from math import cos, pi

import pytest
from pseudo import Pseudo, plain, unsaid

from freecad_stacklam.lamination.climate.months import advice, best_to_glue, board_year
from freecad_stacklam.lamination.usage.climate import ClimateSettings
from freecad_stacklam.lamination.words import speaking

#: Wettest in July.
ROOM = tuple(9.0 - 2.0 * cos(2 * pi * m / 12) for m in range(12))
SET = ClimateSettings(moisture=9.0)


def test_a_board_follows_the_room_late_and_less_and_a_thick_one_more_so() -> None:
    thin, thick = board_year(ROOM, 20.0, SET), board_year(ROOM, 60.0, SET)
    assert 4.0 > max(thin) - min(thin) > max(thick) - min(thick) > 0.5
    assert ROOM.index(max(ROOM)) <= thin.index(max(thin)) <= thick.index(max(thick))
    assert sum(thick) / 12 == pytest.approx(9.0, abs=0.02)


def test_work_is_best_between_the_extremes_and_worst_at_them_or_before_a_change() -> None:
    board = board_year(ROOM, 45.0, SET)
    found = {one.work: one for one in advice(SET, ROOM, board, 9.0)}
    assert set(found) == {"cut", "glue", "deliver"}
    for one in found.values():
        assert one.best == one.chosen
        assert one.cost[one.best] == min(one.cost)
        assert one.says.endswith("is the worst month.")
    # A piece glued at the mean comes into the room best just before the middle season, when the change ahead is shared.
    assert abs(ROOM[found["deliver"].best] - 9.0) <= 1.1
    assert abs(board[found["glue"].best] - 9.0) < 0.6
    assert best_to_glue(SET, board, 9.0) == found["glue"].best


def test_a_chosen_month_stays_and_is_told_what_it_costs() -> None:
    board = board_year(ROOM, 45.0, SET)
    mine = replace(SET, glue_in="September")
    (glue,) = (one for one in advice(mine, ROOM, board, 9.0) if one.work == "glue")
    assert glue.chosen == 8
    assert "September was chosen" in glue.says
    assert best_to_glue(mine, board, 9.0) == 8


def test_in_an_even_room_any_month_will_do() -> None:
    even = (9.0,) * 12
    for one in advice(SET, even, even, 9.0):
        assert "any month" in one.says


def test_a_room_that_never_comes_near_is_not_called_near() -> None:
    damp = tuple(m + 4.0 for m in ROOM)  # 11 at its driest, four points wetter than it was glued
    says = {one.work: one.says for one in advice(replace(SET, moisture=7.0), damp, board_year(damp, 45.0, SET), 13.0)}
    assert "near to" not in says["deliver"]
    assert "points off the 7.0 % it was glued at" in says["deliver"]


@pytest.mark.parametrize("room", [ROOM, (9.0,) * 12, tuple(m + 4.0 for m in ROOM)])
def test_advice_is_said_whole_in_any_language(room: tuple[float, ...]) -> None:
    mine, board = replace(SET, glue_in="September"), board_year(room, 45.0, SET)
    english = [one.says for one in advice(mine, room, board, 9.0)]
    with speaking("en", Pseudo()):
        marked = [one.says for one in advice(mine, room, board, 9.0)]
    assert list(map(plain, marked)) == english
    assert not [text for text in marked if unsaid(text)]
