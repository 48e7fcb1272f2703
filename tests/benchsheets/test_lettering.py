"""Lengths as makers read them."""

from __future__ import annotations

import pytest

from freecad_stacklam.benchsheets.lettering import length_text, number, range_text, text_width, wrapped


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
    assert number(mm, "in") == inches


def test_millimetres() -> None:
    assert [number(v, "mm") for v in (45.0, 44.64, -0.01, 1200.06)] == ["45", "44.6", "0", "1200.1"]
    assert length_text(45.0, "mm") == "45 mm"
    assert range_text(45.0, 90.0, "mm") == "45 to 90 mm"
    assert range_text(25.4, 50.8, "in") == "1 to 2 in"


def test_lines_are_broken_at_blanks() -> None:
    text = "Measure the check square at the foot of every page"
    lines = wrapped(text, 2.5, 40.0)
    assert " ".join(lines) == text
    assert len(lines) > 2
    assert all(text_width(line, 2.5) <= 40.0 for line in lines)
