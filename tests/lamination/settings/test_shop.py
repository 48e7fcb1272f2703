# SPDX-License-Identifier: LGPL-2.1-or-later

"""The shop: what was asked for counts, also where it is the first value."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import pytest

from freecad_stacklam.lamination.options.rows import rows_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.shop import BandSaw, Bit, ShopSettings


def test_who_asks_for_a_staves_option_wants_staves() -> None:
    assert not ShopSettings().wants_staves
    assert not ShopSettings(kerf=4.0, glue_spread=200.0).wants_staves
    for name in ("max_stave", "min_stave", "stave_trim", "stagger", "seam_worth", "spare_staves"):
        first = getattr(ShopSettings(), name)
        assert ShopSettings(given=(name,)).wants_staves, name
        assert ShopSettings(**{name: first + 1}).wants_staves, name


def test_given_names_options_only_and_each_once_in_their_order() -> None:
    shop = ShopSettings(stagger=30.0, given=("kerf", "nonsense", "stagger", "kerf"))
    assert shop.given == tuple(row.name for row in rows_of(ShopSettings) if row.name in ("kerf", "stagger"))
    assert replace(shop, stagger=25.0).given == shop.given  # asked for is asked for
    assert {f.name for f in fields(ShopSettings)} - {row.name for row in rows_of(ShopSettings)} == {"given"}


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: ShopSettings(min_stave=200.0), "at least 200 mm and at most 150 mm"),
        (lambda: ShopSettings(kerf=-1.0), "“Kerf” of the shop"),
        (lambda: ShopSettings(first_cut="diagonal"), "write crosscut, rip or better"),
        (lambda: ShopSettings(bits=(25.0,)), "Bits"),
        (lambda: ShopSettings(band_saw={"blade": 6}), "Band saw"),
        (lambda: BandSaw(radius=20.0), "without the blade"),
        (lambda: Bit(0.0), "“Diameter” of a bit"),
    ],
)
def test_impossible_shops(make: Any, says: str) -> None:
    with pytest.raises(Refusal, match=says):
        make()


def test_options_that_nothing_reads_yet_are_named_with_what_to_do() -> None:
    for record in (ShopSettings, BandSaw, Bit):
        assert set(record.UNREAD).isdisjoint(row.key for row in rows_of(record))
        assert all(
            says.endswith(("leave this out.", "write it there.", "write [[clamp]] for each."))
            for says in record.UNREAD.values()
        )


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"kerf": 500.0}, "“Kerf” of the shop cannot be 500 mm: give 0 mm to 20 mm"),
        ({"stagger": 1e9}, "“Stagger” of the shop cannot be 1000000000 mm: give 0 mm to 500 mm"),
        ({"jointing": 25.0}, "give 0 mm to 20 mm"),
        ({"planing": 101.0}, "give 0 mm to 100 mm"),
        ({"end_trim": 1500.0}, "give 0 mm to 1000 mm"),
    ],
)
def test_a_slip_of_the_finger_is_stopped_at_a_limit(asked: dict[str, Any], says: str) -> None:
    """No saw takes half a metre; the limits are ours and far beyond any practice (no source)."""
    with pytest.raises(Refusal, match=says):
        ShopSettings(**asked)
