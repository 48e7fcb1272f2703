# SPDX-License-Identifier: LGPL-2.1-or-later

"""The room, the hands and the moves."""

from __future__ import annotations

import pytest

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.gluingroom import GluingRoom


def test_the_first_values_are_a_room_that_can_be_glued_in() -> None:
    """A glue maker's guide: 40 to 50 % of humidity, wood at 6 to 8 %, above 13 °C for the glue that minds most."""
    room = GluingRoom()
    assert room.humidity is None and room.temperature > 13 and room.helpers == 0


@pytest.mark.parametrize(
    "values", [{"humidity": 0.0}, {"humidity": 100.0}, {"helpers": -1}, {"temperature": 99.0}, {"clamp": 0.0}]
)
def test_impossible_rooms_are_refused(values: dict) -> None:  # type: ignore[type-arg]
    with pytest.raises(Refusal, match="of the room cannot be"):
        GluingRoom(**values)
