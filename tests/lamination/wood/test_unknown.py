# SPDX-License-Identifier: LGPL-2.1-or-later

"""The words are the house's own."""

from __future__ import annotations

from freecad_stacklam.lamination.wood.unknown import not_judged


def test_one_and_several_woods_not_there_or_lacking_a_figure() -> None:
    one = not_judged("The strength of Foot", "plum")
    assert one.startswith("The strength of Foot is not judged: plum is not in the table of woods; give the wood")
    assert "plum and pear are not in" in not_judged("It", ["plum", "pear"])
    assert "plum, pear and elm have no shear strength in" in not_judged("It", ["plum", "pear", "elm"], "shear strength")
