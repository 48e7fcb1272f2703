# SPDX-License-Identifier: LGPL-2.1-or-later

"""What was printed, and runs that came to nothing however they ended: by statics."""

from __future__ import annotations

import numpy as np
import pytest
from solverdecks import one_element, printed

from freecad_stacklam.lamination.opinion.results import balance_of, fault_of, read_results


def test_stresses_are_put_in_our_order() -> None:
    """Printed xx yy zz xy xz yz, ours xx yy zz yz xz xy."""
    found = read_results(printed(), one_element())
    assert found.stress.shape == (1, 4, 6)
    assert found.stress[0, 2] == pytest.approx([1, 2, 3, 6, 5, 4])
    assert found.moved[0] == pytest.approx([1e-3, 0, -2e-2])
    assert found.held[0] == pytest.approx([0, 0, 90])


def test_a_sound_run_balances() -> None:
    deck = one_element()
    found = read_results(printed(), deck)
    assert balance_of(found, deck) == pytest.approx(0, abs=1e-9) and fault_of(found, deck) == ""


def test_forces_that_balance_beside_the_load_do_not() -> None:
    """90 N up at a corner 10 mm aside of the load's line leave 900 N·mm."""
    deck = one_element()
    text = printed().replace("         1  0.000000E+00  0.000000E+00  9.000000E+01", "         1  0 0 0").replace(
        "         2  0.000000E+00  0.000000E+00  0.000000E+00", "         2  0 0 9.0E+01"
    )  # fmt: skip
    found = read_results(text, deck)
    assert (deck.forces.sum(axis=0) + found.held.sum(axis=0)) == pytest.approx(np.zeros(3))
    assert balance_of(found, deck) > 1e-3 and "off" in fault_of(found, deck)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "printed no stresses"),
        (printed(0.0), "off"),
        (printed(89.0), "off"),
        (printed(places=3), "not all"),
        (printed().split(" stresses")[0], "printed no stresses"),
        (printed().split(" forces")[0] + " displacements" + printed().split(" displacements")[1], "none of"),
        (printed().replace("9.000000E+01", "NaN"), "none of"),
        (printed().replace("1.000000E+00 2.0", "NaN 2.0"), "printed no stresses"),
        ("a run that ended well, it says\n 1 2 3 4 5 6 7 8\n", "printed no stresses"),
    ],
)
def test_a_broken_run_is_told_by_what_it_printed(text: str, says: str) -> None:
    deck = one_element()
    assert says in fault_of(read_results(text, deck), deck)


def test_zeros_all_over_are_no_answer() -> None:
    deck = one_element()
    text = printed()
    head, tail = text.split(" stresses")
    heading = tail.split("\n", 1)[0]
    nothing = "\n".join(f" 1 {n} 0 0 0 0 0 0" for n in range(1, 5))
    assert fault_of(read_results(f"{head} stresses{heading}\n{nothing}\n", deck), deck) == "every stress is nothing"
