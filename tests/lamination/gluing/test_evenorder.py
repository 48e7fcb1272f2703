# SPDX-License-Identifier: LGPL-2.1-or-later

"""Re-facing and evenness among the fewest set-ups, by hand; beside every order tried in test_order."""

from __future__ import annotations

from dataclasses import replace

import pytest
from gluepiles import YELLOW, clamps, pile_with, shop_with

from freecad_stacklam.lamination.gluing.evenorder import even_lines
from freecad_stacklam.lamination.gluing.limits import terms_of
from freecad_stacklam.lamination.gluing.order import cost_of, tree
from freecad_stacklam.lamination.gluing.programme import Programme
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom


@pytest.mark.parametrize(("lines", "squares"), [(4, 8), (5, 13), (6, 18), (7, 25), (10, 34)])
def test_set_ups_are_as_even_as_they_can_be(lines: int, squares: int) -> None:
    # Lines of 10 + 8 + 15 + 30 s, 120 s to close, 10 s before the clock: three at once for up to six lines, else four.
    # So 4 lines are 2 + 2, 5 are 2 + 3, 6 are 3 + 3, 7 are 3 + 4 and 10 are 3 + 3 + 4.
    pile = pile_with([20_000.0] * lines, thickness=10.0)
    limit = 63.0 * (3 if lines <= 6 else 4) + 110.0
    terms = terms_of(pile, shop_with(pile, [clamps(6)], replace(YELLOW, assembly_time=limit)))
    programme = Programme(terms, 0, lines)
    runs = tree(even_lines(programme), 0, lines)
    assert cost_of(terms, runs)[3] == squares  # type: ignore[index]


def test_sub_stacks_that_can_be_refaced_come_before_evenness() -> None:
    # Four lines, three at once at most. Layers 1 to 3 are too wide to be re-faced, so 4 and 5 are glued first, and the
    # rest with three lines: 1 + 9 and not 4 + 4.
    pile = pile_with([20_000.0] * 4, thickness=10.0, widths=[300.0, 300.0, 300.0, 100.0, 100.0])
    room = GluingRoom(caul_thickness=0.0, reface=200.0)
    terms = terms_of(pile, shop_with(pile, [clamps(6)], replace(YELLOW, assembly_time=299.0), room))
    runs = tree(even_lines(Programme(terms, 0, 4)), 0, 4)
    assert [run.lines for run in runs] == [(3,), (0, 1, 2)]
    assert cost_of(terms, runs) == (0, 2, 0, 10, 7)
