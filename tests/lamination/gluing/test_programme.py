# SPDX-License-Identifier: LGPL-2.1-or-later

"""The fewest set-ups of each run, by hand; beside every order tried in test_order."""

from __future__ import annotations

from dataclasses import replace

from gluepiles import YELLOW, clamps, pile_with, shop_with

from freecad_stacklam.lamination.gluing.limits import Terms, terms_of
from freecad_stacklam.lamination.gluing.programme import NEVER, Programme, Run


def terms_with(seconds: float, **pile: float) -> Terms:
    """Five lines of 63 s each, closed by 6 clamps in 120 s, the first 10 s before the clock."""
    made = pile_with([20_000.0] * 5, **pile)  # type: ignore[arg-type]
    return terms_of(made, shop_with(made, [clamps(6, opening=200.0)], replace(YELLOW, assembly_time=seconds)))


def test_a_run_wants_as_many_set_ups_as_its_lines_ask_for() -> None:
    # Two lines take 236 s: three set-ups for five lines, two for up to four, one for up to two.
    programme = Programme(terms_with(236.0, thickness=10.0), 0, 5)
    assert [int(programme.cost[0, b]) for b in range(6)] == [0, 1, 1, 2, 2, 3]
    assert [int(programme.cost[b, 5]) for b in range(6)] == [3, 2, 2, 1, 1, 0]


def test_the_tables_hold_the_least_time_by_cost() -> None:
    programme = Programme(terms_with(236.0, thickness=10.0), 0, 5)
    # Layers 0 to 2: three layers with two lines, or a run made before and one more line; or all made before.
    assert programme.low[0, 2, :3, 0].tolist() == [126.0, 0.0, float("inf")]
    # The parts of layers 0 to 4 with one set-up before: it held two of four lines.
    assert programme.low[0, 4, 1, 0] == 126.0


def test_what_breaks_a_limit_costs_more_than_any_number_of_set_ups() -> None:
    terms = terms_with(900.0, thickness=45.0)  # five layers are 225 mm between jaws of 200 mm; the whole is waived
    assert Programme(terms, 0, 5).cost[0, 5] == 1
    assert Programme(terms, 0, 5).cost[0, 4] == NEVER
    programme = Programme(terms, 1, 5)
    assert divmod(int(programme.cost[0, 4]), programme.stride) == (1, 1)
    assert Programme(terms, 2, 0, step=0).cost[0, 4] == 1


def test_parts_of_a_run() -> None:
    assert Run(0, 4, (1, 2)).parts == ((0, 1), (2, 2), (3, 4))
