# SPDX-License-Identifier: LGPL-2.1-or-later

"""Lengths against the inch of 25.4 mm (international yard and pound agreement, 1959) and the litre (SI Brochure)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.lengths import (
    fine_figure,
    format_area,
    format_bit,
    format_bore,
    format_figure,
    format_fine,
    format_length,
    format_mass,
    format_spread,
    format_thickness,
    format_volume,
    parse_angle,
    parse_length,
    parse_lengths,
    parse_number,
    parse_volume,
    rounded_down,
    rounded_up,
    size,
    size_up,
)
from freecad_stacklam.lamination.refusal import Refusal, told


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


def test_a_key_held_down_is_refused_and_is_no_error() -> None:
    """309 digits are more than the largest number of a computer, about 1.8e308."""
    held = "9" * 350
    for text in (held, held + " mm", "1-" + held + "/4 in", "1/" + held + " in", held + "ft 3in", "9" * 16 + ".5 mm"):
        with pytest.raises(Refusal, match="is too large a number: write at most 15 digits"):
            parse_length(text)
    for read, text in ((parse_number, held), (parse_volume, held + " l"), (parse_angle, held + "°")):
        with pytest.raises(Refusal, match="is too large a number: write at most 15 digits"):
            read(text)
    with pytest.raises(Refusal, match="has 402 letters"):
        parse_length("0." + "1" * 400)
    assert parse_length("9" * 15 + " mm") == 10.0**15 - 1
    assert parse_length("44.449999999999996 mm") == 44.449999999999996


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


@pytest.mark.parametrize(
    ("text", "mm"),
    [("44,5mm", 44.5), ("44,5", 44.5), (",5 in", 12.7), ("0,125 in", 3.175), ("4,5 cm", 45.0), ("1 1/8 in", 28.575),
     ("250 µm", 0.25), ("4 thou", 0.1016), ("2' 3,5\"", 698.5), ("1' + 3/4\"", 323.85), ("1+3/4 in", 44.45)],
)  # fmt: skip
def test_both_decimal_signs_and_all_units_that_a_length_is_shown_in(text: str, mm: float) -> None:
    assert parse_length(text) == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize("text", ["1,250 mm", "12,500", "1.250,5", "1,2,3 mm", "1,234,567"])
def test_a_comma_that_may_part_thousands_is_refused(text: str) -> None:
    with pytest.raises(Refusal, match="thousands"):
        parse_length(text)


def test_where_a_comma_is_the_decimal_sign_three_places_are_no_thousands() -> None:
    assert parse_length("3,175 mm", comma=True) == 3.175
    assert parse_length("3.175 mm", comma=True) == 3.175
    with pytest.raises(Refusal, match="several decimal signs"):
        parse_length("1.250,5 mm", comma=True)


@pytest.mark.parametrize(
    ("text", "sizes"),
    [("45mm, 27mm", (45, 27)), ("45mm,27mm", (45, 27)), ("45; 27", (45, 27)), ("44,5; 27", (44.5, 27)), ("", ()),
     ("1-3/4in; 1in", (44.45, 25.4)), ("45, 27", (45, 27)), (" ; 45mm;", (45,)), ("44,5mm; 1,75in", (44.5, 44.45))],
)  # fmt: skip
def test_several_lengths_in_one_text(text: str, sizes: tuple[float, ...]) -> None:
    assert parse_lengths(text) == pytest.approx(sizes)


@pytest.mark.parametrize("text", ["44,5", "45,27mm", "25,4mm", "45mm, 27,5mm"])
def test_one_length_or_two_is_asked_and_not_guessed(text: str) -> None:
    with pytest.raises(Refusal, match="may be one size or two: part sizes with a semicolon"):
        parse_lengths(text)


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


def test_a_bit_is_named_by_the_measure_it_is_sold_in():
    assert [format_bit(b) for b in (35.0, 12.5, 34.925, 25.4, 38.1)] == [
        "35 mm", "12.5 mm", "1-3/8 in", "1 in", "1-1/2 in"
    ]  # fmt: skip
    assert format_bit(35.0, "in") == "35 mm" and format_bit(33.3) == "33.3 mm"
    assert format_bit(33.3, "in") == "1-5/16 in"  # 33.3 mm is 1.311 in, 1-5/16 is 1.3125


def test_areas_volumes_and_glue_rates_follow_the_units():
    """180 g/m²: 28.3495 g to the ounce and 10.7639 ft² to the m² make 180 / 28.3495 / 10.7639 = 0.590."""
    assert (format_spread(180.0), format_spread(180.0, "in")) == ("180 g/m²", "0.59 oz/ft²")
    assert (format_area(1e6), format_area(1e6, "in")) == ("1.000 m²", "10.76 ft²")
    assert (format_volume(2.5e6), format_volume(2.5e6, "in")) == ("2.50 l", "153 in³")


def test_fits_are_rounded_by_one_function():
    assert [fine_figure(0.1, "in", to) for to in ("down", "nearest", "up")] == ["0.003", "0.004", "0.004"]
    assert [fine_figure(v) for v in (0.54, 0.0, 2.25, -0.001, 0.5)] == ["0.54", "0", "2.25", "0", "0.5"]


def test_fine_lengths_never_flatter():
    # 0.1 mm is 0.003 937 in, 3.239 mm are 0.127 52 in: divided by 25.4 by hand.
    assert format_fine(0.1, "in") == "0.003 in" and format_fine(0.1, "in", up=True) == "0.004 in"
    assert format_fine(3.239) == "3.23 mm" and format_fine(3.239, "in") == "0.127 in"
    assert format_fine(3.231, up=True) == "3.24 mm" and format_fine(3.23) == "3.23 mm" == format_fine(3.23, up=True)
    assert format_fine(-0.001, up=True) == "0 mm"


def test_weights_are_told_in_pounds_with_inches():
    # 1 lb = 0.453 592 37 kg (international yard and pound agreement, 1959): 10 kg are 22.046 lb.
    assert format_mass(10.0) == "10.0 kg" and format_mass(10.0, "in") == "22.0 lb"


def test_a_bore_in_inches_is_a_bit_s_size_or_told_to_a_thousandth():
    # 25/64 in = 9.922 mm; 10.4 / 25.4 = 0.4094; 6 / 25.4 = 0.2362, which is no 1/4 in.
    assert [format_bore(d, "in") for d in (9.525, 9.925, 10.4, 6.0)] == ["3/8 in", "25/64 in", "0.409 in", "0.236 in"]
    assert format_bore(10.4) == "10.4 mm"


@pytest.mark.parametrize(("text", "value"), [("92,50", 92.5), ("92.50", 92.5), (" 7 ", 7.0), (",5", 0.5), ("-3", -3.0)])
def test_numbers_with_either_decimal_sign(text: str, value: float) -> None:
    assert parse_number(text) == value


@pytest.mark.parametrize("text", ["1,250", "1.250,00", "1,2,3", "nan", "inf", "12 mm", "1/2", "1e3", ""])
def test_what_is_no_plain_number_is_refused(text: str) -> None:
    with pytest.raises(Refusal):
        parse_number(text)


def test_room_that_is_needed_is_rounded_up_and_room_that_is_there_down():
    """4 mm are 5.04 of 1/32 in: 3/16 are 4.76 mm, 5/32 are 3.97 mm. 3/16 in stay 3/16 in."""
    assert [format_length(rounded_up(mm, "in"), "in") for mm in (4.0, 4.7625)] == ["3/16 in", "3/16 in"]
    assert format_length(rounded_down(4.0, "in"), "in") == "5/32 in"
    assert [format_length(rounded_up(mm)) for mm in (4.0, 4.01)] == ["4 mm", "4.1 mm"]


def test_layers_planed_as_told_add_up():
    """45 mm are 1.77165 in; ten planed to 1-25/32 in = 45.244 mm would stand 2.44 mm too high, to 1.772 in 0.09 mm."""
    assert [format_thickness(mm, "in") for mm in (45.0, 44.45, 27.0)] == ["1.772 in", "1-3/4 in", "1-1/16 in"]
    assert format_thickness(45.0) == "45 mm"
    for tenths in range(60, 800):
        said = format_thickness(tenths / 10, "in")
        assert abs(parse_length(said) - tenths / 10) <= 25.4 / 1000 + 1e-9, said


@pytest.mark.parametrize(
    ("value", "unit", "inches"),
    [
        (50.8, "mm", "2 in"),
        (1290.32, "mm²", "2 in²"),  # 1 in² = 645.16 mm²
        (16387.064, "mm³", "1 in³"),
        (0.45359237, "kg", "1 lb"),
        (1.0, "l", "61.02 in³"),  # 1e6 / 16387.064
        (0.34, "", "0.34"),
        (1.0, "closed", "1 closed"),
    ],
)
def test_a_check_s_figure_follows_the_units(value: float, unit: str, inches: str) -> None:
    assert format_figure(value, unit, "in") == inches
    assert format_figure(value, unit) == f"{value:.4g} {unit}".strip()


def test_no_figure_of_a_check_is_a_power_of_ten() -> None:
    assert format_figure(0.01, "mm³", "in") == "0.0000006 in³"  # 0.01 / 16387.064 = 6.1e-7
    assert format_figure(-3.6e-5, "") == "-0.00004"


def test_a_figure_beyond_all_sizes_is_told_in_few_digits() -> None:
    # Twenty times the first is more than the largest number that a computer holds, 1.797e308.
    assert told(size(8.98846567431158e306)) == "1000000000 km"
    assert told(size(-2.54e200), "in") == "-621371192 miles"
    assert told(size(1e9)) == "1000000000 mm"


def test_what_is_wanted_at_the_least_is_brought_up() -> None:
    # 54.28 mm are 2.137 in: 68.4 / 32, so 69 / 32.
    told = Refusal(size_up(54.28))
    assert (told.told("mm"), told.told("in")) == ("54.3 mm", "2-5/32 in")
