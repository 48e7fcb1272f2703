# SPDX-License-Identifier: LGPL-2.1-or-later

"""The timeline of a set-up, by arithmetic shown; the times of the moves are common practice without a source."""

from __future__ import annotations

from dataclasses import replace

import pytest

from freecad_stacklam.data import glue_table
from freecad_stacklam.lamination.joining.timeline import (
    Spread,
    closing_seconds,
    late,
    pin_seconds,
    spread_seconds,
    timeline,
)
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom

GLUE = glue_table()["yellow glue"]
ROOM = GluingRoom()
SEAMS = (Spread(1, 27_000.0), Spread(2, 27_000.0))


def test_the_timeline_of_two_seams() -> None:
    """By hand: 27,000 mm² at 400 s/m² are 10.8 s. Spread, lay 30 s, begin 10 s, spread, lay; 2 cauls and 5 clamps of 20
    s: 231.6 s; a helper halves the spreading and leaves 1 caul and 3 clamps to one hand: 160.8 s."""
    alone = timeline(GLUE, ROOM, SEAMS, 2, 5)
    assert alone.to_pressure == pytest.approx(10.8 + 30 + 10 + 10.8 + 30 + 40 + 100)
    assert alone.to_contact == pytest.approx(40.8)
    assert [m.what for m in alone.moves] == ["spread", "lay", "spread", "lay", "cauls", "clamps"]
    assert all(a.end <= b.start + 1e-9 for a, b in zip(alone.moves[:-1], alone.moves[1:]))
    helped = timeline(GLUE, replace(ROOM, helpers=1), SEAMS, 2, 5)
    assert helped.to_pressure == pytest.approx(5.4 + 30 + 10 + 5.4 + 30 + 20 + 60)


def test_pins_pieces_and_wedges_take_their_time() -> None:
    """By hand: two pins of 15 s, three pieces laid of 30 s, two wedges of 20 s each, and no time for glue on a face of
    a square millimetre."""
    clock = timeline(GLUE, ROOM, [Spread(4, 1.0, pins=2, laid=3)], 0, 0, wedges=2)
    assert clock.to_pressure == pytest.approx(2 * 15 + 3 * 30 + 2 * 20, abs=0.01)
    assert clock.to_contact == pytest.approx(2 * 15 + 3 * 30, abs=0.01)
    assert {m.line for m in clock.moves} == {4, None}


def test_helpers_share_what_can_be_shared() -> None:
    two = GluingRoom(caul_thickness=0.0, helpers=1)
    assert spread_seconds(two, 0.1e6, 1) == 20.0  # half of 400 s/m² × 0.1 m²
    assert spread_seconds(two, 0.1e6, 2) == 40.0  # both faces
    assert pin_seconds(two, 3) == 30.0  # two of 15 s, one beside
    assert closing_seconds(two, 5, 1) == 20.0 + 60.0  # one caul is not halved, five clamps are three and two


def test_a_late_clock_says_by_how_much() -> None:
    """40.8 s to the contact and 231.6 s in all, as above, of a glue that gives 30 s and 200 s."""
    clock = timeline(GLUE, ROOM, SEAMS, 2, 5)
    assert late(clock, "It", "clamp", "a", "b") == []
    waits, whole = late(replace(clock, open_limit=30.0, assembly_limit=200.0), "It", "clamp", "hurry", "halve it")
    assert (waits.name, waits.needed, waits.there) == ("open time", pytest.approx(40.8), 30.0)
    assert (whole.name, whole.needed, whole.there) == ("clock", pytest.approx(231.6), 200.0)
    assert "41 s from glue to contact" in waits.says and waits.says.endswith(": hurry.")
    assert "the last clamp and the glue allows 3 min 20 s: halve it." in whole.says
