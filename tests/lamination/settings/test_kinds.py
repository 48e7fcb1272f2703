# SPDX-License-Identifier: LGPL-2.1-or-later

"""What an option may hold: what is written reads back, what cannot be is refused in the file and in the record."""

from __future__ import annotations

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.refusal import Refusal, told
from freecad_stacklam.lamination.settings.kinds import (
    ANGLE,
    AXIS,
    BOOLEAN,
    COUNT,
    PLACE,
    ROOM,
    SIZE,
    VOLUME,
    number,
    one_of,
    plain,
    several,
    shown,
)

figures = st.floats(1e-6, 1e5)


@given(figures)
def test_a_figure_is_read_back_to_the_last_digit(value: float) -> None:
    for kind in (SIZE, ANGLE, VOLUME):
        assert kind.read(kind.write(value), "") == value
    assert float(plain(value)) == value
    assert "e" not in plain(value)


@given(st.lists(figures, max_size=4))
def test_lists_are_read_back_as_tuples(values: list[float]) -> None:
    kind = several(SIZE)
    assert kind.read(kind.write(tuple(values)), "") == tuple(values)
    assert kind.fault(tuple(values)) == ""
    assert kind.fault(values) != ""  # a list can be changed by others, and has no hash


@pytest.mark.parametrize("value", [nan, inf, -inf, True, None, "3", [], (1.0,)])
def test_no_figure_is_no_figure(value: object) -> None:
    for kind in (SIZE, ROOM, COUNT, number(), ANGLE):
        assert kind.fault(value), kind.says


def test_bounds_are_held_at_their_ends() -> None:
    assert ROOM.fault(0.0) == "" and told(SIZE.fault(0.0)) == "give more than 0 mm"
    assert COUNT.fault(1) == "" and COUNT.fault(0) == "give 1 or more" and COUNT.fault(1.5) == "give a whole number"
    share = number(0, 30)
    assert share.fault(30) == "" and share.fault(30.5) == "give 0 to 30"
    with pytest.raises(Refusal, match="impossible here"):
        SIZE.read("0mm", "")


def test_words_are_those_that_are_known() -> None:
    kind = one_of("rip", "crosscut")
    assert kind.read("rip", "") == "rip"
    assert kind.fault("saw") == "write rip or crosscut"
    with pytest.raises(Refusal, match="not known here"):
        kind.read("saw", "")
    with pytest.raises(Refusal, match="true or false"):
        BOOLEAN.read("yes", "")


def test_an_axis_is_a_letter_or_a_direction() -> None:
    assert AXIS.read("x", "") == (1.0, 0.0, 0.0)
    assert AXIS.read([0, 2, 0], "") == (0.0, 2.0, 0.0)
    assert AXIS.write((0.0, 0.0, 1.0)) == "z"
    for bad in ("up", [0, 0, 0], [1, 2], 3):
        with pytest.raises(Refusal, match="axis"):
            AXIS.read(bad, "")
    assert "no length" in AXIS.fault((0.0, 0.0, 0.0))


def test_values_are_said_as_a_maker_would() -> None:
    assert told(shown(45.0, "mm")) == "45 mm"
    assert told(shown((0.0, 12.5), "mm")) == "0 mm, 12.5 mm"
    assert (shown(True), shown("oak"), shown(())) == ("true", "“oak”", "nothing")


@pytest.mark.parametrize("value", [1e6, 1.7976931348623157e308, -200_001.0])
def test_no_length_and_no_place_is_longer_than_two_hundred_metres(value: float) -> None:
    """FreeCAD turns an infinite length into the largest number there is: no computation bears that."""
    assert ROOM.fault(abs(value)) == SIZE.fault(abs(value)) == PLACE.fault(value)
    assert told(PLACE.fault(value)) == "give at most 200 m" and told(PLACE.fault(value), "in") == "give at most 656 ft"
    assert SIZE.fault(200_000.0) == ROOM.fault(12_000.0) == PLACE.fault(-12_000.0) == ""
    with pytest.raises(Refusal, match="impossible here: give at most 200 m"):
        SIZE.read("200001mm", "mm")
    assert "a shorter direction" in AXIS.fault((value, 0.0, 1.0))
