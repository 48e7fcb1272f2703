# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the air asks for, against Table 4-2 of the Wood Handbook, FPL-GTR-190 (2010), as printed there."""

from __future__ import annotations

import numpy as np
import pytest

from freecad_stacklam.lamination.climate.surface import (
    beyond_the_table,
    month_equilibria,
    month_equilibrium,
    over_the_year,
)

HUMIDITIES = (20, 30, 40, 50, 60, 65, 70, 80, 90)
TABLE = {
    4.4: (4.6, 6.3, 7.9, 9.5, 11.3, 12.3, 13.5, 16.5, 21.0),
    21.1: (4.5, 6.2, 7.7, 9.2, 11.0, 12.0, 13.1, 16.0, 20.5),
    26.7: (4.4, 6.1, 7.6, 9.1, 10.8, 11.7, 12.9, 15.7, 20.2),
}


@pytest.mark.parametrize("celsius", sorted(TABLE))
def test_every_month_comes_to_what_the_table_prints(celsius: float) -> None:
    found = month_equilibria([(celsius, float(h)) for h in HUMIDITIES])
    assert found == pytest.approx(TABLE[celsius], abs=0.06)  # the table is printed to 0.1


def test_frost_and_wet_air_are_taken_at_the_end_of_the_table_and_told() -> None:
    assert month_equilibrium(-20.0, 40.0) == month_equilibrium(-1.2, 40.0)
    assert month_equilibrium(20.0, 100.0) == month_equilibrium(20.0, 99.0) < 30.0
    months = [(-5.0, 40.0), *[(20.0, 45.0)] * 10, (20.0, 100.0)]
    frost, wet = beyond_the_table(months)
    assert "January" in frost
    assert "December" in wet
    assert beyond_the_table(months[1:-1]) == ()


def test_between_the_middles_of_months_runs_a_straight_line_round_the_year() -> None:
    values = [float(v) for v in range(12)]
    year = over_the_year(values, 24)  # ends of half months: the odd ones are month ends
    assert year[0] == pytest.approx(0.0)
    assert year[1] == pytest.approx(0.5)
    assert year[-1] == pytest.approx(5.5)  # between December's 11 and January's 0
    assert np.mean(over_the_year([7.0] * 12, 192)) == pytest.approx(7.0)
