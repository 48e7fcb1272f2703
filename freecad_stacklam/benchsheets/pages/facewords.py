# SPDX-License-Identifier: LGPL-2.1-or-later

"""From which face a cut is made, as tables say it."""

from __future__ import annotations

from freecad_stacklam.lamination.words import say_of


def face_word(side: str) -> str:
    """From which face a cut is made, as a table says it."""
    faces = {
        "top": say_of("from which face", "top"),
        "below": say_of("from which face", "below"),
        "inside": say_of("from which face", "inside"),
        "bottom": say_of("from which face", "bottom"),
        "underside": say_of("from which face", "underside"),
    }
    return faces.get(side, side)
