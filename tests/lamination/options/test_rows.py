# SPDX-License-Identifier: LGPL-2.1-or-later

"""Rows of records: one for each option, and no record holds what its rows refuse."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, dataclass, fields, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.options.kinds import COUNT, SIZE
from freecad_stacklam.lamination.options.rows import NEEDED, Record, option, rows_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.carving import CarvingSettings
from freecad_stacklam.lamination.settings.hollow import HollowSettings
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.settings.stack import StackSettings

WHOLE: list[Record] = [
    Settings(), StackSettings(), HollowSettings(), PinSettings(), ShopSettings(), CarvingSettings(),
    JointSettings("j"), Board("b", 100.0, 1000.0, 45.0),
]  # fmt: skip
NONSENSE = st.one_of(
    st.none(), st.booleans(), st.floats(), st.integers(-3, 3), st.text(max_size=3),
    st.lists(st.integers(), max_size=2), st.dictionaries(st.just("wal"), st.integers(), max_size=1),
)  # fmt: skip


@dataclass(frozen=True)
class Shelf(Record):
    """A record of two options."""

    width: float = option(NEEDED, SIZE, "Width", "How wide it is", group="Sizes")
    count: int = option(2, COUNT, "How many", "How many alike", key="many", property="Alike")

    def who(self) -> str:
        return "the shelf"


def test_a_row_knows_its_field_its_key_and_its_property() -> None:
    width, count = rows_of(Shelf)
    assert (width.name, width.key, width.property, width.first) == ("width", "width", "Width", NEEDED)
    assert (count.name, count.key, count.property, count.first) == ("count", "many", "Alike", 2)
    assert Shelf(900.0) == Shelf(900.0, 2)
    with pytest.raises(TypeError):
        Shelf()
    with pytest.raises(Refusal, match="“Width” of the shelf cannot be -1 mm: give more than 0 mm"):
        Shelf(-1.0)


@pytest.mark.parametrize("record", WHOLE, ids=lambda r: type(r).__name__)
def test_records_are_frozen_hashable_and_have_a_row_for_each_option(record: Record) -> None:
    assert hash(record) == hash(replace(record))  # type: ignore[type-var]
    with pytest.raises(FrozenInstanceError):
        setattr(record, fields(record)[0].name, 1)  # type: ignore[arg-type]
    named = {row.name for row in rows_of(type(record))}
    assert {f.name for f in fields(record)} - named <= {"given"}  # type: ignore[arg-type]
    for row in rows_of(type(record)):
        assert row.caption and row.tip and (row.property or row.by_hand)


@pytest.mark.parametrize("record", WHOLE, ids=lambda r: type(r).__name__)
@given(data=st.data())
def test_nonsense_is_refused_or_is_no_nonsense(record: Record, data: Any) -> None:
    row = data.draw(st.sampled_from(rows_of(type(record))))
    value = data.draw(NONSENSE)
    try:
        held = getattr(replace(record, **{row.name: value}), row.name)  # type: ignore[type-var]
    except Refusal as refusal:
        assert str(refusal).endswith(".")
        return
    assert held == row.first or row.kind is None or row.kind.fault(held) == ""
    hash(held)
