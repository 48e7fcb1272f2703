# SPDX-License-Identifier: LGPL-2.1-or-later

"""Scatter against FPL-GTR-190 (2010) Table 5-6, and against the normal distribution of Python's own library."""

from __future__ import annotations

from statistics import NormalDist

import pytest

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.wood.scatter import Scatter, scatter, twentieth


@pytest.mark.parametrize(
    ("name", "percent"),
    [("bending", 16), ("stiffness", 22), ("shear", 14), ("compression_across", 28), ("hardness", 20), ("gravity", 10)],
)
def test_the_variation_is_the_printed_one(name: str, percent: float) -> None:
    """GTR-190 Table 5-6."""
    assert scatter(name, 100.0).spread == pytest.approx(percent)


def test_transverse_shrinkage_varies_by_fifteen_percent() -> None:
    """GTR-282 chapter 4. 3.5 mm ± 0.525."""
    found = scatter("movement", -3.5)
    assert (found.low, found.high) == (pytest.approx(-4.025), pytest.approx(-2.975))


def test_one_in_twenty_lies_below_the_fifth() -> None:
    found = Scatter(105.0, 0.16)
    assert found.fifth == pytest.approx(NormalDist(105.0, 0.16 * 105.0).inv_cdf(0.05), rel=1e-4)
    assert Scatter(10.0, 0.9).fifth == 0.0


def test_what_no_table_has_stays_unknown() -> None:
    found = scatter("tension_across", 5.5)
    assert (found.figure, found.cov, found.spread, found.low, found.high, found.fifth) == (5.5, *[None] * 5)
    assert scatter("rolling_shear", 2.5).low is None


def test_a_name_that_no_table_has_is_refused() -> None:
    with pytest.raises(Refusal, match="how “colour” varies"):
        scatter("colour", 1.0)


def test_what_one_piece_in_twenty_does_not_reach() -> None:
    """1 − 1.645 COV, the normal distribution's lower twentieth: 0.737 of 16 %, 0.539 of 28 %, the widest there is."""
    assert twentieth(0.16) == pytest.approx(1 - 1.645 * 0.16)
    assert twentieth(None) == pytest.approx(0.5394)
    assert twentieth(0.9) == 0.0
