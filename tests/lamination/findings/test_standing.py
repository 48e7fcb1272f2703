# SPDX-License-Identifier: LGPL-2.1-or-later

from __future__ import annotations

from freecad_stacklam.lamination.findings.standing import DIRECTIONS, TOUCHING, Foot


def test_the_polar_plot_goes_round_in_steps_of_five_degrees() -> None:
    assert DIRECTIONS[0] == 0.0
    assert DIRECTIONS[-1] == 355.0
    assert len(DIRECTIONS) == 72


def test_a_foot_touches_as_nearly_as_a_form_is_drawn() -> None:
    assert Foot(1, (), (0.0, 0.0), TOUCHING, True).touches
    assert not Foot(1, (), (0.0, 0.0), 2 * TOUCHING, True).touches
