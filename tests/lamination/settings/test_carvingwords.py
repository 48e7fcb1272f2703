# SPDX-License-Identifier: LGPL-2.1-or-later

"""Faces and planes as properties hold them: written and read back without loss."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import PickedPlane
from freecad_stacklam.lamination.settings.carvingwords import face_text, faces_from, hour_text, plane_from, plane_text

place = st.floats(-1e5, 1e5, allow_subnormal=False)
names = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), min_size=1, max_size=12)


@given(names, st.tuples(place, place, place), st.tuples(place, place, st.floats(1e-3, 1e5)))
def test_a_plane_survives_to_the_last_bit(
    name: str, point: tuple[float, float, float], normal: tuple[float, float, float]
) -> None:
    plane = PickedPlane(name, point, normal)
    assert plane_from(plane_text(plane)) == plane


def test_a_name_may_hold_our_own_signs() -> None:
    plane = PickedPlane("Arm: left; normal 1 0 0", (1.0, 2.0, 3.0), (0.0, 1.0, 0.0))
    assert plane_from(plane_text(plane)) == plane


def test_a_plane_written_by_hand_in_other_units() -> None:
    """2 in are 50.8 mm, 6 cm are 60 mm."""
    assert plane_from("Arm: 2in 6cm 0mm; normal 0 1 0").point == pytest.approx((50.8, 60.0, 0.0))


@pytest.mark.parametrize("text", ["", "Arm", "Arm: 1mm 2mm; normal 0 1 0", ": 1mm 2mm 3mm; normal 0 1 0",
                                  "Arm: a b c; normal 0 1 0", "Arm: 1mm 2mm 3mm; normal 0 1"])  # fmt: skip
def test_what_is_no_plane_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(Refusal, match="is no plane: write it as in “Through the arm"):
        plane_from(text)


def test_faces_of_all_and_of_one() -> None:
    texts = [face_text("", "top"), face_text("Seat = left", "both")]
    assert texts == ["top", "Seat = left = both"]
    assert faces_from([*texts, "  "]) == (("", "top"), ("Seat = left", "both"))


def test_hours() -> None:
    assert (hour_text(None), hour_text(3.25)) == ("no rate is given", "3.2 h")
