# SPDX-License-Identifier: LGPL-2.1-or-later

"""Finish settings: all first values are common practice without a source, so only that they can be changed, and what
cannot be, is checked here."""

from __future__ import annotations

import pytest

from freecad_stacklam.lamination.options.rows import rows_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.usage.finish import FinishSettings


def test_the_first_values_can_be_changed_one_by_one() -> None:
    assert FinishSettings(coats=2).coats == 2
    assert all(row.tip and row.caption for row in rows_of(FinishSettings))


@pytest.mark.parametrize(
    ("values", "says"),
    [
        ({"finish": " "}, "has no name"),
        ({"grits": (120, 80)}, "must grow finer"),
        ({"grits": (120, 120)}, "must grow finer"),
        ({"coats": 0}, "give a|give 1"),
        ({"coverage": 0.0}, "0.5"),
        ({"end_within": 90.0}, "89"),
        ({"give_or_take": 1.0}, "0.9"),
        ({"litre_price": -1.0}, "give 0 to"),
    ],
)
def test_impossible_finishes_are_refused(values: dict[str, object], says: str) -> None:
    with pytest.raises(Refusal, match=says):
        FinishSettings(**values)  # type: ignore[arg-type]
