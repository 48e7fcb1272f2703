# SPDX-License-Identifier: LGPL-2.1-or-later

"""Board feet against the worked examples of the hardwood grading rules as taught (surface measure, tally)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.wood.tally import (
    BOARD_FOOT,
    FOOT,
    INCH,
    blank_board_feet,
    counted_thickness,
    rough_size,
    surface_measure,
    tally,
)


def test_board_foot() -> None:
    """144 in³ with the inch of 25.4 mm: NIST Handbook 44, Appendix C."""
    assert pytest.approx(2_359_737.216, abs=1e-9) == BOARD_FOOT


@pytest.mark.parametrize(("width", "length", "measure"), [(6.5, 8, 4), (8, 12, 8), (10, 13, 11), (6.25, 8, 4)])
def test_surface_measure_examples(width: float, length: float, measure: int) -> None:
    """Worked examples of surface measure in the grading rules: 6½ × 8, 8 × 12, 10 × 13, 6¼ × 8."""
    assert surface_measure(width, length) == measure


def test_two_inch_board_example() -> None:
    """6¼ in × 8 ft × 2 in is 8 board feet, not the unrounded 8⅓ (grading rules)."""
    assert tally(2 * INCH, 6.25 * INCH, 8 * FOOT) == 8


def test_the_odd_part_of_a_foot_is_dropped() -> None:
    """Grading rules: 8½ ft is tallied as 8 ft."""
    assert surface_measure(6.5, 8.99) == surface_measure(6.5, 8)
    assert tally(25.4, 6.5 * INCH, 8.5 * FOOT) == 4


def test_under_an_inch_counts_as_an_inch() -> None:
    assert tally(19, 8 * INCH, 12 * FOOT) == tally(25.4, 8 * INCH, 12 * FOOT) == 8


@pytest.mark.parametrize(
    ("mm", "counted"), [(10, 1), (25.4, 1), (25.5, 1.25), (27, 1.25), (31.75, 1.25), (45, 2), (44.45, 1.75), (50.8, 2)]
)
def test_thickness_is_counted_up_to_the_quarter(mm: float, counted: float) -> None:
    assert counted_thickness(mm) == counted


@pytest.mark.parametrize(
    ("planed", "rough"),
    [(19, "4/4"), (22.4, "4/4"), (22.5, "5/4"), (25, "5/4"), (30, "6/4"), (38, "8/4"), (45, "8/4"), (50, "10/4"),
     (60, "10/4"), (61, "12/4"), (74, "16/4"), (98, "16/4"), (99, "over 16/4"), (140, "over 16/4")],
)  # fmt: skip
def test_the_rough_size_holds_what_is_planed_off(planed: float, rough: str) -> None:
    """Sizes sold 4, 5, 6, 8, 10, 12, 16/4 and 3 mm of planing (common practice, no source). By hand: 4/4 is 25.4 mm,
    22.4 + 3; 25 + 3 = 28 ≤ 31.75 (5/4); 30 + 3 = 33 ≤ 38.1 (6/4); 38 + 3 = 41 > 38.1, so 8/4; 50 + 3 = 53 > 50.8, so
    10/4 (63.5); 61 + 3 > 63.5, so 12/4 (76.2); 74 + 3 > 76.2, so 16/4 (101.6), which 99 + 3 passes."""
    assert rough_size(planed, 3.0).name == rough


def test_what_is_thicker_than_is_sold_is_counted_by_whole_quarters() -> None:
    """99 + 3 mm are 16.06 quarters of an inch: 17."""
    size = rough_size(99.0, 3.0)
    assert (size.quarters, size.sold) == (17, False)


def test_a_blank_is_measured_as_volume() -> None:
    """A foot square of 22 mm is from 4/4; one of 25.4 mm with 3 mm to plane from 5/4; 45 × 400 × 300 mm from 8/4:
    2 × 15.748 × 11.811 / 144 = 2.5833, upwards."""
    assert blank_board_feet(22, 304.8, 304.8, 3.0) == 1.0
    assert blank_board_feet(25.4, 304.8, 304.8, 3.0) == 1.25
    assert blank_board_feet(25.4, 304.8, 304.8, 0.0) == 1.0
    assert blank_board_feet(45, 400, 300, 3.0) == pytest.approx(2.59)


@given(st.floats(1, 200), st.floats(1, 3000), st.floats(1, 900), st.floats(0, 20))
def test_a_blank_is_never_counted_short(thickness: float, length: float, width: float, planing: float) -> None:
    counted = blank_board_feet(thickness, length, width, planing)
    assert counted >= (thickness + planing) * length * width / BOARD_FOOT - 1e-6


@pytest.mark.parametrize("sizes", [(0, 1, 1), (1, -1, 1), (1, 1, float("nan"))])
def test_impossible_sizes_are_refused(sizes: tuple[float, float, float]) -> None:
    with pytest.raises(Refusal):
        tally(*sizes)
    with pytest.raises(Refusal):
        blank_board_feet(*sizes, 3.0)
