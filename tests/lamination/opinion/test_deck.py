# SPDX-License-Identifier: LGPL-2.1-or-later

"""The solver's text of one element. Its order of constants is the published one of the keyword *ELASTIC: E1, E2, E3,
ν12, ν13, ν23, G12, G13 and, on a line of its own, G23, ν12 the strain in 2 over that in 1 under a stress in 1."""

from __future__ import annotations

import pytest
from solverdecks import one_element

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.opinion.deck import deck_of
from freecad_stacklam.lamination.stress.materials import elastic_for


def after(text: str, heading: str) -> list[list[float]]:
    """Figures of the lines that follow a heading, to the next one."""
    lines = text.splitlines()
    at = next(i for i, line in enumerate(lines) if line.startswith(heading))
    end = next((i for i in range(at + 1, len(lines)) if lines[i].startswith("*")), len(lines))
    return [[float(v) for v in line.split(",") if v.strip()] for line in lines[at + 1 : end]]


def test_points_and_elements_count_from_one() -> None:
    text = deck_of(one_element())
    nodes = after(text, "*NODE, NSET=ALL")
    assert len(nodes) == 10 and nodes[1] == [2, 10, 0, 0]
    assert after(text, "*ELEMENT, TYPE=C3D10, ELSET=WOOD0") == [[1, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10]]
    assert after(text, "*NSET, NSET=FLOOR") == [[1, 2, 3]] and after(text, "*ELSET, ELSET=READ") == [[1]]


def test_the_wood_and_how_it_lies() -> None:
    text = deck_of(one_element())
    eight, (last,) = after(text, "*ELASTIC, TYPE=ENGINEERING CONSTANTS")
    oak = elastic_for(species_table(), "white oak")
    # Wood Handbook Table 5-1, white oak: E_R .163, E_T .072, G_LR .086 of E_L; Table 5-2: LR .369, LT .428, RT .618.
    # The figures are printed by the handbook; that of G_RT is not, and is the table of species'.
    scaled = [v / eight[0] for v in eight]
    assert scaled[1:3] == pytest.approx([0.163, 0.072]) and scaled[6] == pytest.approx(0.086)
    assert eight[3:6] == pytest.approx([0.369, 0.428, 0.618]) and last == pytest.approx(oak.shear_rt)
    assert after(text, "*ORIENTATION, NAME=LAID0, SYSTEM=RECTANGULAR") == [[0, 1, 0, 0, 0, 1]]
    assert "*SOLID SECTION, ELSET=WOOD0, MATERIAL=WOOD0, ORIENTATION=LAID0" in text


def test_the_floor_holds_and_the_load_stands() -> None:
    text = deck_of(one_element((3.0, 0.0, -90.0)))
    assert "*BOUNDARY\nFLOOR, 1, 3" in text
    assert after(text, "*CLOAD") == [[4, 1, 3.0], [4, 3, -90.0]]
    assert "*EL PRINT, ELSET=READ, GLOBAL=YES\nS\n*END STEP" in text
