# SPDX-License-Identifier: LGPL-2.1-or-later

from __future__ import annotations

import pytest

from freecad_stacklam.lamination.options.rows import rows_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.usage.finish import FinishSettings
from freecad_stacklam.lamination.usage.rates import RateSettings
from freecad_stacklam.lamination.usage.use import UseSettings


def test_no_rate_is_guessed() -> None:
    rates = RateSettings()
    assert [getattr(rates, row.name) for row in rows_of(RateSettings) if row.name != "markup"] == [None] * 8
    assert rates.markup == 0.0


def test_impossible_rates_are_refused() -> None:
    with pytest.raises(Refusal, match="of your rates cannot be"):
        RateSettings(sawing_rate=0.0)
    with pytest.raises(Refusal):
        RateSettings(markup=-5.0)
    for name in ("sawing_rate", "sanding_rate", "coating_rate"):
        with pytest.raises(Refusal, match="of your rates cannot be"):
            RateSettings(**{name: 1e-300})  # hours without end, and no plan at all
    with pytest.raises(Refusal, match="of your rates cannot be"):
        RateSettings(hour_price=1e300)
    with pytest.raises(Refusal, match="of the finish cannot be"):
        FinishSettings(sheet_price=1e300)


def test_one_object_can_hold_all_that_is_said_of_a_piece() -> None:
    """No two options of use, finish and rates have one property."""
    names = [row.property for record in (UseSettings, FinishSettings, RateSettings) for row in rows_of(record)]
    held = [name for name in names if name]
    assert len(held) == len(set(held))
