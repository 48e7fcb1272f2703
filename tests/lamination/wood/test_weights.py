# SPDX-License-Identifier: LGPL-2.1-or-later

"""What wood weighs, against the printed densities of the Wood Handbook: USDA FPL-GTR-282 (2021), Table 4-6a."""

from __future__ import annotations

import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.wood.weights import mass_of, weight_of

LITRE = 1e6
TABLE = {"plank wood": Species("plank wood", 0.60), "unknown gravity": Species("unknown gravity", None)}


def test_a_cubic_metre_of_gravity_sixty_weighs_what_the_table_prints() -> None:
    """Table 4-6a: specific gravity 0.60 at 12 % moisture, 672 kg/m³."""
    assert weight_of(TABLE, "plank wood") == pytest.approx(672e-9)
    assert mass_of(TABLE, [("plank wood", 1000 * LITRE)]) == pytest.approx(672.0)


def test_parts_of_several_species_add_up() -> None:
    """White oak 0.68, black walnut 0.55 (FPL-GTR-190 (2010), Table 5-3a) by Eq. 4-14: 1.12 × 0.68 × 2 l and
    1.12 × 0.55 × 3 l are 1.5232 and 1.848 kg."""
    found = mass_of(species_table(), [("white oak", 2 * LITRE), ("Black Walnut", 3 * LITRE)])
    assert found == pytest.approx(1.5232 + 1.848)
    assert mass_of(species_table(), []) == 0.0


@pytest.mark.parametrize("name", ["driftwood", "unknown gravity", ""])
def test_one_unknown_wood_leaves_the_mass_unsaid(name: str) -> None:
    assert weight_of(TABLE, name) is None
    assert mass_of(TABLE, [("plank wood", LITRE), (name, LITRE)]) is None


def test_wood_weighs_by_its_moisture() -> None:
    """GTR-282 Table 4-6a: specific gravity 0.40 at 100 % would be 800 kg/m³; here within 0 to 30 %: green gravity 0.55
    at 30 % is 1.30 × 550 = 715 kg/m³ (Eq. 4-14)."""
    table = {"teak": species_table()["teak"]}
    assert weight_of(table, "teak", 30.0) == pytest.approx(715e-9)
    assert weight_of(table, "teak", 31.0) is None
