# SPDX-License-Identifier: LGPL-2.1-or-later

"""Bits as makers list them."""

from __future__ import annotations

import pytest

from freecad_stacklam.lamination.joints.bitlist import bits_text, read_bits
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.shop import Bit


def test_metric_and_inch_bits_in_one_list() -> None:
    bits = read_bits("35 mm; 1-3/8 in, 25 mm spade; 12 mm brad point")
    assert [b.kind for b in bits] == ["rim", "rim", "spade", "brad point"]
    assert [b.diameter for b in bits] == pytest.approx([35.0, 34.925, 25.0, 12.0])  # 11/8 × 25.4
    assert bits_text(bits) == "35 mm; 1-3/8 in; 25 mm spade; 12 mm brad point"
    assert read_bits(bits_text(bits)) == bits
    assert read_bits("") == read_bits(" ; ") == () and bits_text(()) == ""
    assert read_bits("1-3/8", "in")[0].diameter == pytest.approx(34.925)


def test_what_is_known_of_a_bit_stays() -> None:
    shop = (Bit(35.0, "rim", length=55.0), Bit(25.0, "twist", angle=135.0))
    assert read_bits("25 mm twist; 35 mm; 35 mm spade", "mm", shop) == (shop[1], shop[0], Bit(35.0, "spade"))


@pytest.mark.parametrize("text", ["wide", "0 mm", "spade", "35 mm blunt"])
def test_what_is_no_bit_is_refused(text: str) -> None:
    with pytest.raises(Refusal):
        read_bits(text)
