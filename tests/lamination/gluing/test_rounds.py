# SPDX-License-Identifier: LGPL-2.1-or-later

"""Waits for the glue: bounds beside every way of laying small piles into rounds."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace

import pytest
from gluepiles import YELLOW, clamps, pile_with, random_job, shop_with

from freecad_stacklam.lamination.gluing.limits import Shop, Terms, judge, terms_of
from freecad_stacklam.lamination.gluing.order import order_of
from freecad_stacklam.lamination.gluing.pile import MORTISE, Channel, Pile
from freecad_stacklam.lamination.gluing.programme import Run
from freecad_stacklam.lamination.gluing.rounds import Rounds, least_by_clamps, rounds_of, scheduled


def one_line_each(count: int, layers: int) -> tuple[Terms, Shop]:
    """A clock of one line at a time (53 + 120 s), six clamps for each, `count` clamps."""
    pile = pile_with([20_000.0] * (layers - 1), thickness=10.0)
    shop = shop_with(pile, [clamps(count)], replace(YELLOW, assembly_time=180.0))
    return terms_of(pile, shop), shop


def test_clamps_for_two_runs_save_a_wait() -> None:
    runs = (Run(0, 1, (0,)), Run(2, 3, (2,)), Run(0, 3, (1,)))
    assert scheduled(*one_line_each(12, 4), runs) == (1, 1, 2)
    assert scheduled(*one_line_each(11, 4), runs) == (1, 2, 3)


def test_the_longest_chain_goes_first() -> None:
    # Three runs at once are one too many: the pair that a later join waits for longest goes before.
    runs = (Run(0, 1, (0,)), Run(2, 3, (2,)), Run(4, 5, (4,)), Run(2, 5, (3,)), Run(0, 5, (1,)))
    assert scheduled(*one_line_each(12, 6), runs) == (2, 1, 1, 2, 3)


def test_eight_layers_one_line_at_a_time() -> None:
    # Seven set-ups of one line. A chain of joins is log2(8) = 3 waits at least; with clamps for two at once
    # 1 + ⌈6 / 2⌉ = 4, for one 7, for four 3.
    for owned, least in ((24, 3), (12, 4), (6, 7)):
        terms, shop = one_line_each(owned, 8)
        found = rounds_of(terms, shop, order_of(terms))
        assert found.least == max(3, least_by_clamps(terms, shop)) == least
        assert found.taken >= least
    terms, shop = one_line_each(6, 8)
    assert rounds_of(terms, shop, order_of(terms)).told == "7, proven"


@pytest.mark.parametrize("seed", [57, 130, 144])
def test_a_shortest_chain_that_no_chisel_allows_is_no_order(seed: int) -> None:
    # Found by random piles: the chain's bound looks at no reach, and its order was taken for one that can be glued.
    pile, shop = random_job(seed, 6)
    terms = terms_of(pile, shop)
    order = order_of(terms)
    found = rounds_of(terms, shop, order)
    assert found.other is None
    assert found.least <= found.taken


def test_what_is_told() -> None:
    assert Rounds((1, 2, 3), 3).told == "3, proven"
    assert Rounds((1, 2, 3, 4, 5, 6), 3).told == "between 3 and 6"
    assert Rounds((1, 2, 3, 4, 5, 6), 3, (7, 4)).told == "between 3 and 4"
    assert Rounds((), 0).taken == 0


def test_an_order_that_breaks_limits_has_no_bound() -> None:
    pile = pile_with([20_000.0] * 5)
    shop = shop_with(pile, [clamps(6, opening=100.0)], replace(YELLOW, assembly_time=180.0))
    terms = terms_of(pile, shop)
    found = rounds_of(terms, shop, order_of(terms))
    assert found.least == 1
    assert found.taken >= 1


def fewest_rounds(terms: Terms, owned: int) -> int | None:
    """By trying: breadth first over the sets of closed lines, a round closing any runs apart from each other whose
    clamps suffice."""
    everything = frozenset(range(terms.layers - 1))
    seen, edge, rounds = {frozenset[int]()}, [frozenset[int]()], 0
    while edge:
        if everything in edge:
            return rounds
        rounds += 1
        after = {closed | new for closed in edge for new in _one_round(terms, closed, owned, 0)}
        edge = [state for state in after if state not in seen]
        seen |= set(edge)
    return None


def _one_round(terms: Terms, closed: frozenset[int], owned: int, start: int) -> Iterator[frozenset[int]]:
    """Sets of lines that one round can close, in runs from layer `start` up."""
    yield frozenset()
    n = terms.layers
    for a in range(start, n):
        if a and a - 1 in closed:
            continue
        for b in range(a + 1, n):
            if b in closed:
                continue
            lines = tuple(i for i in range(a, b) if i not in closed)
            if not lines or any(terms.heavy[p] for p in Run(a, b, lines).parts[1:]):
                continue
            count = max(int(terms.level[0, i]) for i in lines)
            judged = judge(terms, a, b, lines)
            if judged is not None and not judged.broken and count <= owned:
                for more in _one_round(terms, closed, owned - count, b + 1):
                    yield frozenset(lines) | more


def random_rounds(seed: int) -> tuple[Pile, Shop]:
    """One kind of clamps that open as wide as they must, half of the piles with a mortise."""
    dice = random.Random(seed)
    n = dice.randint(3, 7)
    channels = (Channel(MORTISE, "joint", 1, n, True, True),) if dice.random() < 0.5 else ()
    pile = pile_with([dice.uniform(5e3, 6e4) for _ in range(n - 1)], channels=channels)
    glue = replace(YELLOW, assembly_time=dice.uniform(300.0, 700.0))
    return pile, shop_with(pile, [clamps(dice.randint(8, 40))], glue, reach=dice.choice([None, 60.0, 100.0]))


def bounds_miss(seed: int) -> tuple[object, ...] | None:
    pile, shop = random_rounds(seed)
    terms = terms_of(pile, shop)
    order = order_of(terms)
    if order.broken or not order.proven or any(terms.waived):
        return None
    best = fewest_rounds(terms, shop.presses[0].count)
    found = rounds_of(terms, shop, order)
    above = min(found.taken, found.other[1]) if found.other else found.taken
    return None if best is not None and found.least <= best <= above else (seed, best, found)


def test_the_bounds_hold() -> None:
    assert [found for found in map(bounds_miss, range(80)) if found] == []


@pytest.mark.slow
def test_the_bounds_hold_in_many() -> None:
    assert [found for found in map(bounds_miss, range(1000, 2000)) if found] == []
