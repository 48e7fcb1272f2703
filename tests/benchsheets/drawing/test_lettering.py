# SPDX-License-Identifier: LGPL-2.1-or-later

"""Lengths as makers read them."""

from __future__ import annotations

import pytest

from freecad_stacklam.benchsheets.drawing.lettering import (
    Units,
    bit_number,
    fine_number,
    fine_text,
    least_text,
    length_text,
    most_text,
    number,
    range_text,
    size_text,
    text_width,
    unit_name,
    units_of,
    wrapped,
)
from freecad_stacklam.lamination.refusal import Refusal


@pytest.mark.parametrize(
    ("mm", "inches"),
    # Exact by 1 in = 25.4 mm; 11.11 mm is 7/16 in to the nearest 1/32.
    [
        (19.05, "3/4"),
        (12.7, "1/2"),
        (11.11, "7/16"),
        (25.4, "1"),
        (44.45, "1-3/4"),
        (0.0, "0"),
        (0.8, "1/32"),
        (-19.05, "-3/4"),
    ],
)
def test_fractions_of_an_inch(mm: float, inches: str) -> None:
    assert number(mm, units_of("in")) == inches


def test_millimetres() -> None:
    assert [number(v, units_of("mm")) for v in (45.0, 44.64, -0.01, 1200.06)] == ["45", "44.6", "0", "1200.1"]
    assert length_text(45.0, units_of("mm")) == "45 mm"
    assert range_text(45.0, 90.0, units_of("mm")) == "45 to 90 mm"
    assert range_text(25.4, 50.8, units_of("in")) == "1 to 2 in"


@pytest.mark.parametrize(
    ("mm", "sixteenths", "thirty_seconds", "sixty_fourths"),
    # Exact by 1 in = 25.4 mm: 12.7 is 1/2, 19.05 is 3/4; 11.11 is 27.993/64, 10 is 25.197/64, 0.3 is 0.756/64.
    [
        (12.7, "1/2", "1/2", "1/2"),
        (19.05, "3/4", "3/4", "3/4"),
        (11.11, "7/16", "7/16", "7/16"),
        (10.0, "3/8", "13/32", "25/64"),
        (0.3, "0", "0", "1/64"),
        (-44.45, "-1-3/4", "-1-3/4", "-1-3/4"),
    ],
)
def test_rules_divided_more_or_less_finely(mm: float, sixteenths: str, thirty_seconds: str, sixty_fourths: str) -> None:
    assert [number(mm, units_of(f"in/{n}")) for n in (16, 32, 64)] == [sixteenths, thirty_seconds, sixty_fourths]


def test_both_units_at_once() -> None:
    assert length_text(19.05, units_of("mm+in")) == "19.1 mm [3/4 in]"
    assert length_text(19.05, Units("in", 16, both=True)) == "3/4 in [19.1 mm]"
    assert range_text(25.4, 50.8, units_of("in+mm")) == "1 to 2 in [25.4 to 50.8 mm]"
    assert size_text(25.4, 12.7, units_of("mm+in")) == "25.4 × 12.7 mm [1 × 1/2 in]"
    assert (number(10.0, units_of("mm+in/64")), unit_name(units_of("mm+in"))) == ("10 [25/64]", "mm [in]")
    assert (units_of("in/16+mm"), units_of("mm")) == (Units("in", 16, both=True), Units())


@pytest.mark.parametrize("name", ["cm", "in/10", "mm+mm", "", "inches"])
def test_units_that_are_not_known(name: str) -> None:
    with pytest.raises(Refusal, match="choose"):
        units_of(name)


def test_lines_are_broken_at_blanks() -> None:
    text = "Measure the check scales at the foot of every page"
    lines = wrapped(text, 2.5, 40.0)
    assert " ".join(lines) == text
    assert len(lines) > 2
    assert all(text_width(line, 2.5) <= 40.0 for line in lines)


@pytest.mark.parametrize(
    ("mm", "units", "said"),
    # 10.96 mm is not 11; 0.43 in is 27.5/64, and 13/32 is the last 32nd below it; 23 mm stay 23 mm.
    [(10.96, "mm", "10.9 mm"), (10.96, "in", "13/32 in"), (23.0, "mm", "23 mm"), (22.99999999, "mm", "23 mm"),
     (25.4, "in/16+mm", "1 in [25.4 mm]"), (25.39, "in/16+mm", "15/16 in [25.3 mm]"), (-0.04, "mm", "-0.1 mm")],
)  # fmt: skip
def test_wood_that_is_left_is_never_overstated(mm: float, units: str, said: str) -> None:
    assert least_text(mm, units_of(units)) == said


def test_fits_are_told_in_hundredths_and_thousandths() -> None:
    """0.1 mm is 0.0039 in: no rule shows it, and 0 would be wrong."""
    assert [fine_text(0.1, units_of(u)) for u in ("mm", "in", "mm+in")] == ["0.1 mm", "0.004 in", "0.1 mm [0.004 in]"]
    assert [fine_number(v, units_of("mm")) for v in (0.54, 0.0, 2.25, -0.001)] == ["0.54", "0", "2.25", "0"]
    assert fine_number(12.7, units_of("in")) == "0.500"


@pytest.mark.parametrize(
    ("diameter", "unit", "shown"),
    [(35.0, "mm", "35"), (35.0, "in", "35 mm"), (34.925, "mm", "1-3/8 in"), (34.925, "in", "1-3/8"),
     (10.4, "mm", "10.4"), (10.4, "in", "0.409")],
)  # fmt: skip
def test_a_bit_keeps_the_name_it_was_sold_under(diameter: float, unit: str, shown: str) -> None:
    """1-3/8 in = 34.925 mm, and 1-25/64 in = 35.32 mm is no 35 mm bit; 10.4 / 25.4 = 0.409."""
    assert bit_number(diameter, Units(unit)) == shown


def test_an_allowance_is_told_up_and_wood_that_is_left_down() -> None:
    """4 mm are 5.04 of 1/32 in."""
    assert (most_text(4.0, Units("in")), least_text(4.0, Units("in"))) == ("3/16 in", "5/32 in")
    assert most_text(4.0, Units("mm", both=True)) == "4 mm [3/16 in]"


def test_no_line_ends_between_a_figure_and_its_unit() -> None:
    text = "The voids take 3 % of it, 0.6 lb, 26.32 in² and leave 1-3/16 in of wood beside Ø 8 mm or 12.5 [1/2] in"
    for width in range(8, 90):
        lines = wrapped(text, 2.5, float(width))
        assert " ".join(lines) == text
        assert not any(line.endswith(("Ø", "3", "0.6", "26.32", "3/16", "8", "]")) for line in lines)
        assert not any(line.split()[0] in ("%", "lb", "in²", "in", "mm") for line in lines)
