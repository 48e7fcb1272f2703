# SPDX-License-Identifier: LGPL-2.1-or-later

"""Gaps and pressure: p = 6.4·E·t³·δ/b⁴, worked by hand for white oak, E = 0.072 · 12 300 = 885.6 MPa."""

from __future__ import annotations

import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.pressing.flatness import WIDEST, gap_closed, stiffness_across

OAK = 0.072 * 12_300


def test_stiffness_across_the_grain() -> None:
    table = species_table()
    assert stiffness_across("white oak", table) == pytest.approx(OAK)
    assert stiffness_across("unheard of", table) is None
    beech = table["American beech"].stiffness or 0.0
    assert stiffness_across("American beech", table) == pytest.approx(0.065 * 1000 * beech)


@pytest.mark.parametrize(("width", "pressure"), [(300.0, 0.0128), (100.0, 1.03), (60.0, 7.97)])
def test_a_gap_of_two_tenths_in_45_mm(width: float, pressure: float) -> None:
    # 6.4 · 885.6 · 91 125 · 0.2 / 100⁴ = 1.033
    assert gap_closed(pressure, 45.0, width, OAK) == pytest.approx(0.2, rel=0.01)


def test_it_is_the_beam_formula() -> None:
    # δ = 5·w·L⁴/(384·E·I) with w = p·1 mm, I = t³/12.
    bend = 5 * 1.2 * 100**4 / (384 * OAK * 27**3 / 12)
    assert gap_closed(1.2, 27.0, 100.0, OAK) == pytest.approx(min(WIDEST, bend), rel=1e-12)
    assert gap_closed(1.2, 27.0, 90.0, OAK) == pytest.approx(bend * 0.9**4, rel=1e-12)


def test_no_more_is_promised_than_a_millimetre() -> None:
    assert gap_closed(1.2, 19.0, 300.0, OAK) == WIDEST
