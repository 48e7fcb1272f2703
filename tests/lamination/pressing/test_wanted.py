# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pressure by glue and wood: FPL-GTR-282 (2021), chapter 10, gives 0.7 MPa (100 psi) for the lightest and 1.7 MPa (247
psi) for the densest woods; a glue maker's guide 100 to 150 psi for soft, 150 to 200 for medium and 200 to 300 for hard
woods."""

from __future__ import annotations

from dataclasses import replace

import pytest

from freecad_stacklam.data import glue_table, species_table
from freecad_stacklam.lamination.pressing.wanted import FLOOR, crush_share, thin_line_pressure, wanted_pressure
from freecad_stacklam.lamination.quantities import PSI
from freecad_stacklam.lamination.wood.species import Species

YELLOW, EPOXY = glue_table()["yellow glue"], glue_table()["epoxy"]
TABLE = species_table()


def test_the_handbooks_two_ends() -> None:
    assert thin_line_pressure(0.35) == pytest.approx(0.7) and pytest.approx(100 * PSI, rel=0.02) == 0.7
    assert thin_line_pressure(0.72) == pytest.approx(1.7) and pytest.approx(247 * PSI, rel=0.01) == 1.7
    assert thin_line_pressure(0.15) == FLOOR


@pytest.mark.parametrize(
    ("wood", "low", "high"),
    [
        ("eastern white pine", 100, 150),
        ("yellow-poplar", 100, 200),
        ("black cherry", 150, 200),
        ("white oak", 200, 300),
    ],
)
def test_within_the_makers_guide(wood: str, low: float, high: float) -> None:
    least, most = wanted_pressure(YELLOW, [wood], TABLE)
    assert low * PSI * 0.98 <= least <= high * PSI and most == pytest.approx(1.5 * least)


def test_the_denser_wood_of_a_line_rules() -> None:
    assert wanted_pressure(YELLOW, ["white oak", "yellow-poplar"], TABLE) == wanted_pressure(
        YELLOW, ["white oak"], TABLE
    )
    assert wanted_pressure(YELLOW, ["unheard of"], TABLE)[0] == pytest.approx(thin_line_pressure(0.6))


def test_the_makers_own_figures_win() -> None:
    assert wanted_pressure(replace(YELLOW, least_pressure=1.2), ["white oak"], TABLE) == pytest.approx((1.2, 1.8))
    assert wanted_pressure(replace(YELLOW, most_pressure=1.0), ["white oak"], TABLE) == (1.0, 1.0)
    both = replace(YELLOW, least_pressure=0.9, most_pressure=1.1)
    assert wanted_pressure(both, ["white oak"], TABLE) == (0.9, 1.1)


def test_a_glue_that_fills_gaps_wants_contact_only() -> None:
    assert wanted_pressure(EPOXY, ["white oak"], TABLE) == (0.01, 0.2)
    assert wanted_pressure(replace(EPOXY, least_pressure=None, most_pressure=None), ["white oak"], TABLE) == (
        0.0,
        FLOOR,
    )


def test_crushing_by_the_softer_wood() -> None:
    # FPL-GTR-190 (2010), Table 5-3a: white oak 7.4 MPa across the grain.
    assert crush_share(3.7, ["white oak"], TABLE) == pytest.approx(0.5)
    pine = TABLE["eastern white pine"].compression_across or 0.0
    assert crush_share(pine, ["white oak", "eastern white pine"], TABLE) == pytest.approx(1.0)
    assert crush_share(1.0, ["white oak", "unheard of"], TABLE) is None
    assert crush_share(1.0, ["bare"], {"bare": Species("bare", 0.5)}) is None
