# SPDX-License-Identifier: LGPL-2.1-or-later

"""Loads of a kind of piece: figures of EN 1022:2018 and EN 12520 as a secondary guide and memory have them."""

from __future__ import annotations

import pytest

from freecad_stacklam.lamination.findings.loads import PLACES
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.usage.use import KINDS, LOADS, LoadSettings, UseSettings, load_cases


def test_every_kind_has_loads_that_tip_and_loads_that_break() -> None:
    assert set(LOADS) == set(KINDS)
    for loads in LOADS.values():
        assert any(one.tips for one in loads)
        assert any(one.bends for one in loads)
        assert all(one.place in PLACES and one.source for one in loads)


def test_a_stool_is_sat_on_at_its_edge_as_the_standard_has_it() -> None:
    edge = next(one for one in load_cases(UseSettings("stool")) if one.name == "sitting on the edge")
    assert (edge.down, edge.push, edge.inset) == (600.0, 20.0, 60.0)  # EN 1022:2018, by a secondary guide


def test_the_makers_own_loads_come_after_those_of_the_kind_or_alone() -> None:
    own = LoadSettings("two children", down=500.0, at=(0.0, 120.0, 440.0))
    cases = load_cases(UseSettings("stool", loads=(own,)))
    assert cases[:-1] == LOADS["stool"]
    assert (cases[-1].place, cases[-1].at) == ("point", (0.0, 120.0, 440.0))
    assert load_cases(UseSettings("stool", own_loads=True, loads=(own,))) == cases[-1:]


def test_impossible_uses_are_refused() -> None:
    with pytest.raises(Refusal, match="presses nowhere"):
        LoadSettings("nothing")
    with pytest.raises(Refusal, match="no name"):
        LoadSettings(" ", down=1.0)
    with pytest.raises(Refusal, match="Only your own loads"):
        UseSettings(own_loads=True)
    with pytest.raises(Refusal):
        UseSettings("throne")
