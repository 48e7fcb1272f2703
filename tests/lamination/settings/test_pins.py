# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is asked of pins."""

from __future__ import annotations

from typing import Any

import pytest

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.pins import PinSettings


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"count": 1}, "one lets a layer turn"),
        ({"count": 7}, "give 2 to 6"),
        ({"share": 1.0}, "give 0 to 1"),
        ({"diameter": 0.0}, "“Diameter” of the pins"),
        ({"depth": -1.0}, "“Depth in each layer”"),
        ({"ratio": 0.0}, "“Misfit of at least”"),
        ({"skip": (0,)}, "“Layers without, on top”"),
        ({"skip": [1]}, "“Layers without, on top”"),
        ({"loose": 3.0}, "“Hole above looser by”"),
        ({"dowel_room": 12.0}, "leave nothing that holds"),
        ({"bit": "auger"}, "“Bored with”"),
        ({"at": ((1.5, 0.0, 0.0),)}, "glue line as a whole number"),
        ({"at": ((0.0, 0.0, 0.0),)}, "glue line as a whole number"),
        ({"at": ((1.0, 0.0),)}, "give a glue line, x and y"),
        ({"at": ((2.0, 0.0, 0.0),), "skip": (2,)}, "Glue line 2 is to have no pins"),
        ({"waste": 1}, "“Two more in the waste wood”"),
    ],
)
def test_impossible_pins(asked: dict[str, Any], says: str) -> None:
    with pytest.raises(Refusal, match=says):
        PinSettings(**asked)


def test_the_misfit_is_so_many_diameters() -> None:
    assert PinSettings(diameter=8.0, ratio=1.5).misfit == 12.0
    assert PinSettings(share=0.0).share == 0.0  # every other outline shows a wrong way
