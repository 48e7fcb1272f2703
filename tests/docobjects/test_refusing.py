# SPDX-License-Identifier: LGPL-2.1-or-later

"""While a refusal is on its way Python writes no way to it, and afterwards as before; Python's own manual ("sys",
tracebacklimit) says what the limit does."""

from __future__ import annotations

import sys
import traceback

import pytest

from freecad_stacklam.lamination.refusal import Refusal

pytestmark = pytest.mark.freecad


def _refused(label: str) -> Refusal:
    from freecad_stacklam.docobjects.base.refusing import refused

    return refused(label, "Give the boards a thickness.")


def test_a_refusal_bears_the_objects_label_and_no_way() -> None:
    try:
        raise _refused("Gate post")
    except Refusal as refusal:
        assert str(type(refusal)) == "Gate post"
        assert traceback.format_tb(refusal.__traceback__) == []
        assert str(refusal) == "Give the boards a thickness."
    assert not hasattr(sys, "tracebacklimit")


def test_other_exceptions_are_told_as_before(monkeypatch) -> None:
    monkeypatch.setattr(sys, "tracebacklimit", 7, raising=False)
    held = [_refused("One"), _refused("Two")]
    assert sys.tracebacklimit == 0
    held.pop(0)
    assert sys.tracebacklimit == 0
    held.clear()
    assert sys.tracebacklimit == 7


def test_an_object_that_refuses_is_invalid_and_leaves_no_limit() -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.stack import Stack

    document = FreeCAD.newDocument()
    try:
        stack = document.addObject("App::FeaturePython", "Stack")
        Stack(stack)
        document.recompute()
        assert "Invalid" in stack.State
        assert not hasattr(sys, "tracebacklimit")
        with pytest.raises(Refusal):
            stack.Proxy.execute(stack)
    finally:
        FreeCAD.closeDocument(document.Name)
    assert not hasattr(sys, "tracebacklimit")
