# SPDX-License-Identifier: LGPL-2.1-or-later

"""Fit of dowels: TRADE figures are common practice without a source, the arithmetic is shown."""

from __future__ import annotations

from math import radians, tan

import pytest

from freecad_stacklam.lamination.inside.pinfit import fit_of
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.shop import Bit


def test_holes_and_length_of_a_dowel() -> None:
    """Hole below as wide as the dowel, above 0.4 mm looser, length 12 + 12 - 3 = 21 mm."""
    pin = fit_of(PinSettings()).fitted(PinPlan(1, (0.0, 0.0), 10.0, 12.0, 12.0, 0.0))
    assert (pin.hole_below, pin.hole_above, pin.dowel) == pytest.approx((10.0, 10.4, 21.0))
    assert (pin.bit, pin.point) == ("brad point", 4.0)


def test_a_twist_bit_leads_by_its_angle() -> None:
    """118°: (10.4 / 2) / tan 59° = 3.12 mm."""
    fit = fit_of(PinSettings(bit="twist"))
    assert fit.lead == pytest.approx(5.2 / tan(radians(59.0)))
    assert fit.lead == pytest.approx(3.12, abs=0.01)


def test_the_shops_own_bit_of_that_size_bores_it() -> None:
    fit = fit_of(PinSettings(), (Bit(10.0, "rim", point=2.0), Bit(10.5, "spade", point=9.0), Bit(8.0, "twist")))
    assert (fit.below.kind, fit.below.lead, fit.above.kind, fit.above.lead) == ("rim", 2.0, "spade", 9.0)
    assert fit.above.diameter == pytest.approx(10.4)
    assert (fit.lead, fit.floor) == (9.0, 10.0)
