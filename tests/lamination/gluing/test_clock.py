# SPDX-License-Identifier: LGPL-2.1-or-later

"""The clock of a set-up, by arithmetic shown; the times of the moves are common practice without a source."""

from __future__ import annotations

import pytest
from gluepiles import YELLOW

from freecad_stacklam.lamination.gluing.clock import clock_of, contact_seconds, line_seconds, set_up_seconds
from freecad_stacklam.lamination.gluing.pile import PileLine
from freecad_stacklam.lamination.joining.timeline import closing_seconds
from freecad_stacklam.lamination.settings.glue import times_of
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom

BARE = GluingRoom(caul_thickness=0.0)


@pytest.mark.parametrize(
    ("temperature", "area", "clamps", "lines"),
    [
        # (900 − 6 · 20) / (10 + 400 · 0.0125 + 30 + 15) = 780 / 60 = 13
        (20.0, 0.0125, 6, 13), (20.0, 0.06, 12, 8), (20.0, 0.10, 20, 5),
        (10.0, 0.0125, 6, 28), (10.0, 0.06, 12, 19), (10.0, 0.10, 20, 14),
        # Twenty clamps take 400 of 450 s: not one line of 10 + 40 + 30 + 15 = 95 s is left.
        (30.0, 0.0125, 6, 5), (30.0, 0.06, 12, 2), (30.0, 0.10, 20, 0),
    ],
)  # fmt: skip
def test_lines_that_fit_a_clock(temperature: float, area: float, clamps: int, lines: int) -> None:
    line = line_seconds(BARE, PileLine(1, 45.0, area * 1e6, 1), 1)
    closing = closing_seconds(BARE, clamps, 0)
    assembly = times_of(YELLOW, temperature)[1]
    fit = [n for n in range(40) if set_up_seconds([line] * n, closing, BARE.start) <= assembly]
    assert max(fit) == lines
    # The clock begins with the first glue, so the first line's 10 s are before it; here that changes no count.
    assert int((assembly - closing) // line) == lines


def test_beginning_and_laying_are_not_shared() -> None:
    two = GluingRoom(caul_thickness=0.0, helpers=1)
    # 10 + 20 + 15 + 30, of 400 s/m² × 0.1 m² and two pins of 15 s half.
    assert line_seconds(two, PileLine(1, 45.0, 0.1e6, 2), 1) == 75.0


def test_a_timeline_runs_from_the_first_glue_to_the_last_clamp() -> None:
    room = GluingRoom(caul_thickness=36.0)
    lines = [PileLine(1, 45.0, 50_000.0, 2), PileLine(2, 90.0, 25_000.0)]
    clock = clock_of(YELLOW, room, lines, 4)
    # 20 + 30 + 30 = 80; 10 to begin; 10 + 30 = 40; one caul 20, four clamps 80: 230.
    assert [(m.what, m.line, m.start, m.takes) for m in clock.moves] == [
        ("spread", 1, 0.0, 20.0), ("pins", 1, 20.0, 30.0), ("lay", 1, 50.0, 30.0),
        ("spread", 2, 90.0, 10.0), ("lay", 2, 100.0, 30.0),
        ("cauls", None, 130.0, 20.0), ("clamps", None, 150.0, 80.0),
    ]  # fmt: skip
    assert (clock.to_contact, clock.to_pressure) == (80.0, 230.0)
    assert clock.to_contact == contact_seconds(room, lines[0], 1)
    assert clock.to_pressure == set_up_seconds([line_seconds(room, k, 1) for k in lines], 100.0, room.start)
    assert clock.held


def test_no_lines_want_no_time_but_the_closing() -> None:
    assert set_up_seconds([], 40.0, 10.0) == 40.0
