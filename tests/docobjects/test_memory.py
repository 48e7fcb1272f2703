# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is kept in the process is kept by the language that was spoken: a plan holds sentences."""

from __future__ import annotations

import pytest

from freecad_stacklam.lamination.words import speaking

pytestmark = pytest.mark.freecad


def test_what_was_made_in_another_language_is_made_again() -> None:
    from freecad_stacklam.docobjects.base.memory import Memory

    kept: Memory[str] = Memory(4)
    assert kept.get("plan", lambda: "English") == "English"
    with speaking("de"):
        assert kept.there("plan") is None
        assert kept.get("plan", lambda: "German") == "German"
    assert kept.get("plan", lambda: "made anew") == "English"
