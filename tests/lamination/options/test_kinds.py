# SPDX-License-Identifier: LGPL-2.1-or-later

"""What an option may hold: what is written reads back, what cannot be is refused in the file and in the record."""

from __future__ import annotations

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.options.kinds import (
    ANGLE,
    AXIS,
    BOOLEAN,
    COUNT,
    PLACE,
    ROOM,
    SIZE,
    TEXT,
    THREE,
    VOLUME,
    number,
    one_of,
    plain,
    several,
    shown,
)
from freecad_stacklam.lamination.refusal import Refusal, told

figures = st.floats(1e-6, 1e5)


@given(figures)
def test_a_figure_is_read_back_to_the_last_digit(value: float) -> None:
    for kind, figure in ((SIZE, value), (ANGLE, value % 360), (VOLUME, value)):
        assert kind.read(kind.write(figure), "") == figure
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


def test_no_angle_is_more_than_a_whole_turn() -> None:
    """1e308 degrees have no sine."""
    assert ANGLE.fault(-360.0) == ANGLE.fault(360.0) == ""
    assert ANGLE.fault(1e308) == ANGLE.fault(-361.0) == "give -360 ° to 360 °"


@pytest.mark.parametrize(
    "value", [10**5000, -(10**5000), 1e308, -1e308, 10**13], ids=["large", "-large", "far", "-far", "13"]
)
def test_absurd_figures_are_refused_with_the_limit(value: float) -> None:
    """No arithmetic meets them: a float bears no whole number of 5000 digits, and 1e308 squared is infinite."""
    for kind in (number(), COUNT, ANGLE, SIZE, PLACE, number(0, 30), THREE):
        given_ = [value] * 3 if kind is THREE else value
        with pytest.raises(Refusal) as refused:
            kind.read(given_, "mm")
        assert len(str(refused.value)) < 200
    assert COUNT.fault(10_000) == "give at most 9999"
    assert number().fault(value) == "give at most 1000000000000"
    assert several(SIZE).fault((1.0,) * 1001) == "give at most 1000 values, not 1001"


@pytest.mark.parametrize("text", ["9" * 5000 + "mm", "1/" + "9" * 70 + "mm", "9" * 400])
def test_sizes_of_thousands_of_letters_are_refused(text: str) -> None:
    for read in (SIZE.read, ANGLE.read, VOLUME.read):
        with pytest.raises(Refusal) as refused:
            read(text, "mm")
        assert len(str(refused.value)) < 200


def test_texts_are_of_a_readable_length_and_print() -> None:
    assert TEXT.fault("Fuß / Сиденье, 木 № 3 ½″") == ""
    assert TEXT.fault("x" * 30_000) == "give at most 200 letters, not 30000"
    for sign in ("\0", "\n", "\x1b[2J", "\u202e", "\ud800", "\u2028"):
        assert "print" in TEXT.fault(f"A{sign}B")
        assert sign not in shown(f"A{sign}B")
    assert len(shown("x" * 30_000)) < 70


@pytest.mark.parametrize("sign", ["\ue000", "\ue002", "\uf8ff"])
def test_signs_for_private_use_are_refused_and_not_repeated(sign: str) -> None:
    """Sentences keep their lengths in two units between such signs (Unicode 15, 23.5: private use, category Co)."""
    with pytest.raises(Refusal, match="letters and signs that print") as said:
        TEXT.read(f"Bar{sign} 600", "mm")
    assert "“Bar 600”" in said.value.told("in")


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
