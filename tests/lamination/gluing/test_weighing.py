# SPDX-License-Identifier: LGPL-2.1-or-later

"""Orders weighed by what pads reach, beside every order tried (gluepiles.by_trying); what a line breaks by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from gluepiles import by_trying, clamps, pile_with, random_job, shop_with
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.gluing.limits import Terms, terms_of
from freecad_stacklam.lamination.gluing.order import cost_of, order_of
from freecad_stacklam.lamination.gluing.programme import Run
from freecad_stacklam.lamination.gluing.weighing import Trial, faults, levels, most_force, told_apart, weighed
from freecad_stacklam.lamination.plan.gluing import LinePressure
from freecad_stacklam.lamination.refusal import told


def line(lower: int = 1, reached: float = 1.0, mean: float = 1.2, **more: float) -> LinePressure:
    area = more.pop("area", 10_000.0)
    return LinePressure(lower, area, mean, mean, mean, reached, MultiPolygon(), (1.2, 1.8), **more)


def test_how_badly_a_share_is_missed() -> None:
    assert [levels(share) for share in (1.0, 0.9, 0.89, 0.5, 0.0)] == [0, 0, 1, 2, 3]


def test_what_a_line_breaks() -> None:
    assert faults(line(), 1e6) == 0
    assert faults(line(reached=0.35), 1e6) == 2
    assert faults(line(mean=0.6), 1e6) == 2  # half of what it wants
    assert faults(line(mean=0.6), 6_000.0) == 0  # all that there is: 6 kN on 10,000 mm²
    assert faults(line(mean=1.9), 1e6) == 0  # above its most, as hands tighten
    assert faults(line(mean=2.8), 1e6) == 1  # 1.5 times its most are 2.7 MPa
    assert faults(line(crush=1.1), 1e6) == 1
    assert faults(replace(line(), fifth=0.0), 1e6) == 1
    assert faults(line(mean=0.0, reached=0.0), 1e6) == 3


def test_what_would_be_lost_together() -> None:
    apart = {1: line(1), 2: line(2)}
    assert told_apart([line(1), line(2, reached=0.357)], apart, 1e6) == "the clamps would reach only 35 % of line 2"
    assert told(told_apart([line(1, mean=3.0), line(2)], apart, 1e6)) == (
        "line 1 would get 3.00 MPa and starve, for it wants 1.80 MPa at most"
    )
    assert told(told_apart([line(1, mean=0.5), line(2)], apart, 1e6), "in") == "line 1 would get 73 psi of 174 psi"
    assert told_apart([line(1), line(2)], apart, 1e6) == ""


# --- the order --------------------------------------------------------------------------------------------------------


def unreached(terms: Terms, seed: int) -> Terms:
    """Half of the runs with lines that their pads miss, some of them by much."""
    dice = np.random.default_rng(seed)
    n, share = terms.layers, (0.1, 0.3, 0.7)[seed % 3]
    found = {}
    for a in range(n):
        for b in range(a + 1, n):
            if dice.random() < 0.5:
                missed = np.zeros(n - 1, dtype=np.int64)
                missed[a:b] = (dice.random(b - a) < share) * dice.integers(1, 4, b - a)
                found[a, b] = missed
    return replace(terms, missed=found)


def disagrees(seed: int) -> tuple[object, ...] | None:
    terms = unreached(terms_of(*random_job(seed)), seed)
    order = order_of(terms)
    cost, best = cost_of(terms, order.runs), by_trying(terms)
    if best is None:
        return None
    same = cost == best if not best[0] else cost is not None and cost[:2] == best[:2]
    return None if same else (seed, cost, best)


def test_the_order_is_the_best_of_all_where_runs_miss_lines() -> None:
    assert [found for found in map(disagrees, range(120)) if found] == []


@pytest.mark.slow
def test_the_order_is_the_best_of_all_of_many_where_runs_miss_lines() -> None:
    assert [found for found in map(disagrees, range(1000, 2500)) if found] == []


def pile_terms(lines: int = 5) -> Terms:
    """Equal lines of 10,000 mm²: three clamps each, and time for all of them."""
    pile = pile_with([10_000.0] * lines)
    return terms_of(pile, shop_with(pile, [clamps(12)]))


def tried(runs: dict[tuple[int, int], Sequence[float]], pressed: list[Run]) -> Trial:
    """Pads reach all, but for shares of the lines of some runs; those that were pressed are noted."""

    def shares(a: int, b: int) -> Sequence[float]:
        return runs.get((a, b), (1.0,) * (b - a))

    def press(run: Run) -> list[LinePressure]:
        pressed.append(run)
        return [line(i + 1, shares(run.a, run.b)[i - run.a]) for i in run.lines]

    return Trial(shares, press)


def test_an_order_that_reaches_all_stays_and_is_pressed_once() -> None:
    pressed: list[Run] = []
    found = weighed(pile_terms(), tried({}, pressed), 1)
    assert not found.changed and found.left == 0 and found.order.proven
    assert [run.lines for run in found.order.runs] == [(0, 1, 2, 3, 4)] == [run.lines for run in pressed]


def test_the_line_that_the_whole_run_misses_is_glued_before() -> None:
    found = weighed(pile_terms(), tried({(0, 5): (1, 1, 1, 0.3, 1)}, []), 1)
    assert found.changed and found.left == 0 and found.plain == 1
    assert len(found.order.runs) == 2 and found.order.runs[-1].lines != (0, 1, 2, 3, 4)
    assert 3 in found.order.runs[0].lines and 3 not in found.order.runs[-1].lines


def test_where_no_order_does_better_the_first_stays() -> None:
    # Every run that holds line 3, as far as it is glued in it, misses it alike.
    runs = {
        (a, b): [0.5 if i == 2 else 1.0 for i in range(a, b)] for a in range(6) for b in range(a + 1, 6) if a <= 2 < b
    }
    found = weighed(pile_terms(), tried(runs, []), 1)
    assert not found.changed and len(found.order.runs) == 1
    assert found.left == 2


def test_pads_that_reach_less_than_their_seats_mark_a_run() -> None:
    """By the seats alone two runs would do; pressed, the run of layers 4 to 6 misses a line, and another is found."""
    pressed: list[Run] = []
    seats = tried({(0, 5): (0.2,) * 3 + (1.0,) * 2}, pressed)

    def press(run: Run) -> list[LinePressure]:
        found = [*seats.pressed(run)]
        return [replace(p, reached=0.4) if (run.a, run.b) == (0, 3) else p for p in found]

    found = weighed(pile_terms(), Trial(seats.shares, press), 1)
    assert found.left == 0 and (0, 3) not in {(run.a, run.b) for run in found.order.runs}


def test_what_all_presses_give() -> None:
    assert most_force(pile_terms()) == 12 * 4670.0
