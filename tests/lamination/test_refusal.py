# SPDX-License-Identifier: LGPL-2.1-or-later

"""Every refusal that the computation writes, read from its source: one sentence that says what to do."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

import freecad_stacklam.lamination
from freecad_stacklam.lamination.refusal import Refusal

ROOM = Path(freecad_stacklam.lamination.__file__).parent


def sentence(node: ast.expr) -> str | None:
    """The text of a string or f-string, its figures as …; None where it is made elsewhere."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    if isinstance(node, ast.JoinedStr):
        return "".join(str(v.value) if isinstance(v, ast.Constant) else "…" for v in node.values)
    return None


def refusals() -> list[tuple[str, str]]:
    found = []
    for path in sorted(ROOM.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Refusal":
                text = sentence(node.args[0])
                if text is not None:
                    found.append((f"{path.relative_to(ROOM)}:{node.lineno}", text))
    return found


def test_a_refusal_is_a_value_error_with_its_sentence() -> None:
    """So that code which knows nothing of this package can catch it."""
    with pytest.raises(ValueError, match=r"^Plane the boards thinner\.$"):
        raise Refusal("Plane the boards thinner.")


def test_every_refusal_is_one_sentence_for_a_maker() -> None:
    found = refusals()
    assert len(found) > 80
    for place, text in found:
        assert "\n" not in text and "  " not in text, place
        assert ". " not in text.replace("No. ", ""), f"{place}: more than one sentence"
        assert text.endswith((".", "…")), f"{place}: {text}"
        for word in ("Traceback", "None", "Error", "kwargs", "dict"):
            assert word not in text, f"{place} speaks of {word}"
