# SPDX-License-Identifier: LGPL-2.1-or-later

"""How a stack is hollowed: what cannot be is refused by the word the maker used."""

from __future__ import annotations

from typing import Any

import pytest

from freecad_stacklam.lamination.options.rows import rows_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.hollow import HollowSettings


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"wall": 0.0}, "“Wall” of the hollow cannot be 0 mm"),
        ({"caps": -1}, "“Solid layers at each end”"),
        ({"caps": 1.5}, "“Solid layers at each end”"),
        ({"vent": float("inf")}, "“Vent”"),
        ({"least": -1.0}, "“Leave voids below”"),
        ({"wall": "thick"}, "“Wall”"),
    ],
)
def test_impossible_hollows(asked: dict[str, Any], says: str) -> None:
    with pytest.raises(Refusal, match=says):
        HollowSettings(**asked)


def test_nothing_may_be_left_out_by_zero_but_the_wall() -> None:
    zero = HollowSettings(caps=0, vent=0.0, margin=0.0, web=0.0, turn=0.0)
    assert zero.wall == 50.0
    with pytest.raises(TypeError):
        HollowSettings(wal=3)  # type: ignore[call-arg]


def test_every_option_has_a_property_of_its_own() -> None:
    names = [row.property for row in rows_of(HollowSettings)]
    assert len(set(names)) == len(names) and all(names)
