# SPDX-License-Identifier: LGPL-2.1-or-later

"""Lengths against the inch of 25.4 mm (international yard and pound agreement, 1959) and the litre (SI Brochure)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.lengths import format_length, parse_angle, parse_length, parse_volume
from freecad_stacklam.lamination.refusal import Refusal


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("45mm", 45), ("45 mm", 45), ("4.5cm", 45), ("0.045 m", 45), ("0.5in", 12.7), ("1-3/4in", 44.45),
        ("1 3/4 in", 44.45), ('3/4"', 19.05), ('1-3/4"', 44.45), ("2ft 3in", 685.8), ("2' 3-1/2\"", 698.5),
        ("6 ft", 1828.8), ("1'", 304.8), ("-20mm", -20), ("-1-3/4in", -44.45), (".5 in", 12.7), ("45", 45),
        ("45MM", 45), (45, 45), (45.5, 45.5), ("0mm", 0),
    ],
)  # fmt: skip
def test_lengths_are_read(text: str | float, mm: float) -> None:
    assert parse_length(text) == pytest.approx(mm, abs=1e-9)


def test_a_bare_number_is_in_the_unit_given() -> None:
    assert parse_length("1-3/4", "in") == pytest.approx(44.45)
    assert parse_length(2, "in") == pytest.approx(50.8)
    with pytest.raises(Refusal, match="has no unit"):
        parse_length("45", "")
    with pytest.raises(Refusal, match="has no unit"):
        parse_length(45, "")


@pytest.mark.parametrize(
    "text", ["", "mm", "forty", "45 miles", "45kg", "4 5mm", "1--3/4in", "3/0 in", "1e3mm", "nan", "inf mm", "=1+1",
             "45mm;", "__import__('os')", float("nan"), float("inf"), True]
)  # fmt: skip
def test_anything_else_is_refused(text: str | float) -> None:
    with pytest.raises(Refusal):
        parse_length(text)


def test_a_decimal_comma_is_answered_with_a_point() -> None:
    with pytest.raises(Refusal, match=r"write a point, as in 4\.5cm"):
        parse_length("4,5cm")


def test_angles_and_volumes() -> None:
    assert parse_angle("15deg") == 15 == parse_angle("15°") == parse_angle(15)
    assert parse_angle("-7.5 deg") == -7.5
    assert parse_volume("0.3 l") == pytest.approx(300_000)
    assert parse_volume("300ml") == parse_volume("300 cm3") == 300_000
    assert parse_volume("144in3") == pytest.approx(2_359_737.216)  # the board foot, NIST Handbook 44 App. C
    for wrong in ("0.3", "0.3 kg", "big"):
        with pytest.raises(Refusal, match="is not a volume"):
            parse_volume(wrong)
    for wrong in ("15mm", "a bit", ""):
        with pytest.raises(Refusal, match="is not an angle"):
            parse_angle(wrong)


@pytest.mark.parametrize(
    ("mm", "inches"),
    [(19.05, "3/4 in"), (12.7, "1/2 in"), (11.11, "7/16 in"), (44.45, "1-3/4 in"), (25.4, "1 in"), (0, "0 in"),
     (-0.01, "0 in"), (-19.05, "-3/4 in"), (25.3, "1 in"), (685.8, "27 in")],
)  # fmt: skip
def test_inches_are_shown_as_reduced_fractions(mm: float, inches: str) -> None:
    assert format_length(mm, "in") == inches


@pytest.mark.parametrize(
    ("mm", "text"),
    [(45, "45 mm"), (45.25, "45.3 mm"), (45.349, "45.3 mm"), (44.96, "45 mm"), (-0.04, "0 mm"), (-0.0, "0 mm"),
     (-3.25, "-3.3 mm")],
)  # fmt: skip
def test_millimetres_are_shown_to_a_tenth(mm: float, text: str) -> None:
    assert format_length(mm) == text


@given(st.integers(-50_000, 50_000))
def test_tenths_of_a_millimetre_come_back(tenths: int) -> None:
    assert parse_length(format_length(tenths / 10)) == pytest.approx(tenths / 10, abs=1e-9)


@given(st.integers(-5000, 5000), st.sampled_from([2, 4, 8, 16, 32, 64]))
def test_fractions_of_an_inch_come_back(steps: int, denominator: int) -> None:
    mm = steps * 25.4 / denominator
    shown = format_length(mm, "in", denominator)
    assert parse_length(shown) == pytest.approx(mm, abs=1e-9)
    assert not shown.startswith("-0")


@given(st.floats(-1e5, 1e5))
def test_what_is_shown_is_near(mm: float) -> None:
    assert abs(parse_length(format_length(mm)) - mm) <= 0.05 + 1e-6
    assert abs(parse_length(format_length(mm, "in")) - mm) <= 25.4 / 64 + 1e-6
