# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is asked of the carving guide."""

from __future__ import annotations

import pytest

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.carving import FACES_BORED, CarvingSettings, PickedPlane


def test_directions_of_the_offsets() -> None:
    assert CarvingSettings(azimuth_step=90.0).angles() == (0.0, 90.0, 180.0, 270.0)
    assert len(CarvingSettings(azimuth_step=15.0).angles()) == 24
    assert CarvingSettings(azimuth_step=100.0).angles() == (0.0, 100.0, 200.0, 300.0)
    assert CarvingSettings(azimuth_step=1.0).angles()[-1] == 359.0
    assert CarvingSettings(azimuths=(12.5,)).angles() == (12.5,)


def test_which_face_is_bored() -> None:
    every = CarvingSettings(depth_holes=(("", "both"), ("Top", "bottom")))
    assert (every.face_of("Post"), every.face_of("Top")) == (("top", "bottom"), ("bottom",))
    assert (every.asked_face("Post"), CarvingSettings().face_of("Post")) == ("both", ())


def test_steps_of_the_stop_follow_the_rule() -> None:
    """3/32 in is 2.38125 mm, by 1 in = 25.4 mm."""
    assert (CarvingSettings().step("mm"), CarvingSettings().step("in")) == (2.0, pytest.approx(2.38125))
    assert CarvingSettings(stop_step=1.0).step("in") == 1.0


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"pitch": 6.0, "bit": 8.0}, "6 mm apart run into each other"),
        ({"point": "twist", "angle": 20.0}, "point of 20°"),
        ({"point": "brad point", "depth_holes": (("", "top"),)}, "must be measured"),
        ({"azimuth_step": 0.5}, "carving guide"),
        ({"depth_holes": (("", "side"),)}, "choose top, bottom, both"),
        ({"depth_holes": (("A", "top"), ("A", "bottom"))}, "one face for each stack"),
        ({"gauges": ("inside",)}, "“Gauges”.*right, left, above or below"),
        ({"rate": 0.0}, "more than 0"),
    ],
)
def test_impossible_guides_are_refused(asked: dict[str, object], says: str) -> None:
    with pytest.raises(Refusal, match=says):
        CarvingSettings(**asked)  # type: ignore[arg-type]


def test_an_unmeasured_point_matters_only_where_holes_are_bored() -> None:
    assert CarvingSettings(point="brad point").point_length is None
    assert CarvingSettings(point="brad point", point_length=3.0, depth_holes=(("", "top"),)).point_length == 3.0


@pytest.mark.parametrize(
    ("written", "held"),
    [("top", (("", "top"),)), ({"Top": "both", "Post": "bottom"}, (("Top", "both"), ("Post", "bottom")))],
)
def test_faces_are_read_and_written_back(written: object, held: tuple) -> None:
    assert FACES_BORED.read(written, "mm") == held
    assert FACES_BORED.write(held) == written
    with pytest.raises(Refusal, match="face is needed"):
        FACES_BORED.read({"Top": "left"}, "mm")


def test_a_plane_needs_a_direction() -> None:
    with pytest.raises(Refusal, match="plane “Arm”"):
        PickedPlane("Arm", (0.0, 0.0, 0.0), (0.0, 0.0, 0.0))
