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


def test_a_blank_is_measured_as_volume() -> None:
    assert blank_board_feet(25.4, 304.8, 304.8) == 1.0
    assert blank_board_feet(19, 304.8, 304.8) == 1.0
    assert blank_board_feet(45, 400, 300) == pytest.approx(2.59)  # 2 × 15.748 × 11.811 / 144 = 2.5833, upwards


@given(st.floats(1, 200), st.floats(1, 3000), st.floats(1, 900))
def test_a_blank_is_never_counted_short(thickness: float, length: float, width: float) -> None:
    assert blank_board_feet(thickness, length, width) >= thickness * length * width / BOARD_FOOT - 1e-6


@pytest.mark.parametrize("sizes", [(0, 1, 1), (1, -1, 1), (1, 1, float("nan"))])
def test_impossible_sizes_are_refused(sizes: tuple[float, float, float]) -> None:
    with pytest.raises(Refusal):
        tally(*sizes)
    with pytest.raises(Refusal):
        blank_board_feet(*sizes)
