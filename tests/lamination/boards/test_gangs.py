# SPDX-License-Identifier: LGPL-2.1-or-later

"""Gangs: as long as the machines ask, every stave in one, none narrower than it needs, and little waste."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from woodyard import stave

from freecad_stacklam.lamination.boards.gangs import cut_size, gangings, gangs_of, single

ROOM = [(2400.0, 200.0), (1200.0, 260.0)]


def test_two_short_staves_of_one_width_lie_end_to_end() -> None:
    (gang,) = gangs_of([(stave("a", 131.0, 80.0), 1), (stave("b", 190.0, 80.0), 1)], 1.5, 3.0, 300.0, ROOM)
    assert (gang.length, gang.width) == (131.0 + 3.0 + 190.0, 80.0)
    assert [(p.stave, p.x, p.length) for p in gang.pieces(25.0, 10.0)] == [("b", 25.0, 190.0), ("a", 218.0, 131.0)]


def test_a_stave_alone_gets_waste_and_without_a_rule_none_does() -> None:
    (gang,) = gangs_of([(stave("a", 131.0, 80.0), 1)], 1.5, 3.0, 300.0, ROOM)
    assert gang.length == 300.0
    (gang,) = gangs_of([(stave("a", 131.0, 80.0), 1)], 1.5, 3.0, 0.0, ROOM)
    assert gang.length == 131.0
    # No board is so long: then it is as long as the board gives, and worked by hand.
    (gang,) = gangs_of([(stave("a", 131.0, 80.0), 1)], 1.5, 3.0, 300.0, [(250.0, 100.0)])
    assert gang.length == 250.0


def test_a_stave_between_two_seams_keeps_its_width() -> None:
    """60 + 3 mm with both edges glued never goes with 90; with one glued edge it does where that saves wood."""
    wide, both, one = (
        stave("w", 190.0, 90.0),
        stave("b", 120.0, 60.0, glued_edges=2),
        stave("o", 120.0, 60.0, glued_edges=1),
    )
    assert len(gangs_of([(wide, 1), (both, 1)], 1.5, 3.0, 300.0, ROOM)) == 2
    assert len(gangs_of([(wide, 1), (one, 1)], 1.5, 3.0, 300.0, ROOM)) == 1


def test_the_best_pairs_of_four_are_found() -> None:
    """Against every way to pair four blanks: the areas of the two gangs together are the least of the three."""
    sizes = [(197.0, 185.0), (176.0, 168.0), (164.0, 149.0), (144.0, 135.0)]
    staves = [(stave(f"s{i}", a, b), 1) for i, (a, b) in enumerate(sizes)]
    found = sum(g.length * g.width for g in gangs_of(staves, 0.0, 3.0, 300.0, ROOM))

    def area(pair: tuple[int, ...]) -> float:
        return max(300.0, sum(sizes[i][0] for i in pair) + 3.0) * max(sizes[i][1] for i in pair)

    ways = [area((0, i)) + area(tuple(j for j in (1, 2, 3) if j != i)) for i in (1, 2, 3)]
    assert found == pytest.approx(min(ways))


sizes = st.tuples(st.floats(40, 700), st.floats(30, 240), st.integers(0, 2), st.integers(1, 3))


@settings(max_examples=150, deadline=None)
@given(st.lists(sizes, min_size=1, max_size=40), st.floats(0, 5), st.sampled_from([0.0, 300.0, 350.0]))
def test_every_stave_lies_in_one_gang_that_the_machines_take(pieces: list, kerf: float, shortest: float) -> None:
    staves = [(stave(f"s{i}", a, b, glued_edges=g, copies=n), c) for i, (a, b, g, n) in enumerate(pieces)
              for c in range(1, n + 1)]  # fmt: skip
    made = gangs_of(staves, 1.5, kerf, shortest, ROOM)
    assert Counter(s for g in made for s in g.staves) == Counter(staves)
    alone = sum(g.length * g.width for g in (single(s, 1.5, kerf, shortest, ROOM) for s in staves))
    assert sum(g.length * g.width for g in made) <= alone + 1e-6
    for gang in made:
        assert gang.length >= shortest - 1e-9
        ends = [(p.x, p.x + p.length) for p in gang.pieces(0.0, 0.0)]
        assert ends[-1][1] <= gang.length + 1e-6
        assert all(b[0] - a[1] == pytest.approx(kerf) for a, b in zip(ends, ends[1:]))
        for s, _ in gang.staves:
            needed = cut_size(s, 1.5)[1]
            assert gang.width >= needed - 1e-9
            assert s.glued_edges < 2 or gang.width <= needed + 0.5 + 1e-9
        if len(gang.staves) > 1:
            assert any(gang.length <= a + 1e-6 and gang.width <= b + 1e-6 for a, b in ROOM)


@settings(max_examples=40, deadline=None)
@given(st.lists(sizes, min_size=1, max_size=14), st.sampled_from([0.0, 300.0]))
def test_all_ways_to_gang_hold_every_stave_and_no_two_are_alike(pieces: list, shortest: float) -> None:
    staves = [(stave(f"s{i}", a, b, glued_edges=g), 1) for i, (a, b, g, _) in enumerate(pieces)]
    ways = gangings(staves, 1.5, 3.0, shortest, ROOM, 8)
    assert ways[0] == gangs_of(staves, 1.5, 3.0, shortest, ROOM)
    seen = [tuple(sorted((round(g.length, 3), round(g.width, 3)) for g in made)) for made in ways]
    assert len(set(seen)) == len(seen)
    for made in ways:
        assert Counter(s for g in made for s in g.staves) == Counter(staves)
        assert all(g.length >= shortest - 1e-9 for g in made)
        for gang in made:
            for s, _ in gang.staves:
                needed = cut_size(s, 1.5)[1]
                assert gang.width >= needed - 1e-9
                assert s.glued_edges < 2 or gang.width <= needed + 0.5 + 1e-9
    again = gangings(staves, 1.5, 3.0, shortest, ROOM, 8)
    assert again == ways


def test_without_a_rule_there_is_one_way_to_gang() -> None:
    assert len(gangings([(stave("a", 131.0, 80.0), 1), (stave("b", 90.0, 80.0), 1)], 1.5, 3.0, 0.0, ROOM, 12)) == 1
