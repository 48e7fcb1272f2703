# SPDX-License-Identifier: LGPL-2.1-or-later

"""Words that stand as keys: the bundled tables hold no other names, and a maker's own stays as it is."""

from __future__ import annotations

from pseudo import Pseudo

from freecad_stacklam.data import climate_table, glue_table, species_table
from freecad_stacklam.lamination.climate.months import MONTHS
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.plan.verdicts import ORDER
from freecad_stacklam.lamination.settings.presses import PRESS_KINDS
from freecad_stacklam.lamination.words import speaking


def test_all_names_of_the_bundled_tables_are_said() -> None:
    with speaking("de", Pseudo()):
        for word in (*species_table(), *glue_table(), *climate_table(), *ORDER, *MONTHS, *PRESS_KINDS):
            assert shown(word) == f"⟦{word}⟧"


def test_a_makers_own_name_stays_whatever_it_holds() -> None:
    with speaking("de", Pseudo()):
        assert shown("Old {oak} of 1.5") == "Old {oak} of 1.5"
        assert shown("") == ""
    assert shown("white oak") == "white oak"
