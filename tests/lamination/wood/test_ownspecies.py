# SPDX-License-Identifier: LGPL-2.1-or-later

"""Woods of the maker's own. Their figures come out as they went in: a row of the bundled table (GTR-190 (2010), Table
5-3a), written as an own wood, is that row."""

from __future__ import annotations

import re
from dataclasses import asdict, replace

import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.options.rows import rows_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.file import read_settings
from freecad_stacklam.lamination.wood.elastic import elastic_of
from freecad_stacklam.lamination.wood.ownspecies import OwnSpecies, species_of, woods_with
from freecad_stacklam.lamination.wood.species import Species, density, find_species
from freecad_stacklam.lamination.wood.strengths import strengths_of

TABLE = species_table()


def own_of(species: Species) -> OwnSpecies:
    """A row of the table as the maker would write it."""
    values = {k: v for k, v in asdict(species).items() if k not in ("printed", "note", "green", "elastic")}
    if species.green is not None:
        values |= {f"green_{k}": v for k, v in asdict(species.green).items() if k != "source"}
    if species.elastic is not None:
        ratios = asdict(species.elastic)
        values |= {"ratio_radial": ratios.pop("radial"), "ratio_tangential": ratios.pop("tangential")}
        values |= {k: v for k, v in ratios.items() if k != "source"}
    return OwnSpecies(**values)


@pytest.mark.parametrize("name", sorted(TABLE))
def test_a_row_of_the_table_written_out_is_that_row(name: str) -> None:
    species = TABLE[name]
    made = species_of(own_of(species))
    green = None if species.green is None else replace(species.green, source=species.source)
    elastic = None if species.elastic is None else replace(species.elastic, source=species.source)
    assert made == replace(species, printed=(), note="", green=green, elastic=elastic)


def test_every_option_reaches_the_species() -> None:
    """Each row is changed, and the species changes with it."""
    oak = own_of(TABLE["white oak"])
    oak = replace(oak, green_gravity=0.6, shear_rt=0.02)
    for row in rows_of(OwnSpecies):
        value = getattr(oak, row.name)
        other = f"{value} two" if isinstance(value, str) else value * 0.97
        assert species_of(replace(oak, **{row.name: other})) != species_of(oak), row.name


def test_a_file_has_woods_of_its_own() -> None:
    """Pear: gravity 0.65 (invented), so 1.12 × 650 = 728 kg/m³ (GTR-282 Eq. 4-14)."""
    settings = read_settings(
        '[[species]]\nname = "pear"\nspecific_gravity = 0.65\ntension_across = 6\n[[stack]]\nspecies = "pear"\n'
    )
    woods = woods_with(TABLE, settings.species)
    pear = find_species(woods.table, "Pear")
    assert density(pear) == pytest.approx(728.0)
    assert pear.source == "the maker's own"
    # What is left out stays unknown.
    assert strengths_of(pear).bending is None
    assert strengths_of(pear).tension_across == 6.0
    assert elastic_of(pear) is None
    assert woods.notes == ()
    assert set(TABLE) < set(woods.table)


def test_an_own_wood_takes_the_place_of_its_namesake_and_that_is_said() -> None:
    woods = woods_with(TABLE, (OwnSpecies("White  Oak", specific_gravity=0.7),))
    assert len(woods.table) == len(TABLE)
    assert find_species(woods.table, "white oak").specific_gravity == 0.7
    assert find_species(woods.table, "white oak").bending is None
    assert woods.notes == ("white oak is taken as your own row says, and not from the table that comes with StackLam.",)
    assert TABLE["white oak"].bending == 105.0


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ('name = " "', "A wood has no name"),
        ("specific_gravity = 0.6", "this wood has no name"),
        ('name = "x"\nspecific_gravity = 6.8', "give 0.05 to 1.5"),
        ('name = "x"\nshrink_radial = 0', r"give 0\.1 % to 40 %|give 0\.1 to 40"),
        ('name = "x"\nbending = "105 MPa"', "a number is needed"),
        ('name = "x"\nratio_radial = 0.16', "give ratio_radial and ratio_tangential, or neither"),
        ('name = "x"\nstiffness = 12\nratio_radial = 0.1\nratio_tangential = 0.05\npoisson_rt = 1.9', "of any body"),
        ('name = "x"\nhardnes = 5', "did you mean “hardness”"),
    ],
)
def test_what_cannot_be_is_refused_with_its_line(row: str, says: str) -> None:
    with pytest.raises(Refusal, match=r"settings, line \d") as caught:
        read_settings(f"[[species]]\n{row}\n")
    assert re.search(says, caught.value.sentence), caught.value.sentence


def test_one_wood_twice_is_refused() -> None:
    with pytest.raises(Refusal, match="the wood “pear” stands twice"):
        read_settings('[[species]]\nname = "pear"\n[[species]]\nname = "pear"\n')
