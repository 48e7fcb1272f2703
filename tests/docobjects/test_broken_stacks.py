# SPDX-License-Identifier: LGPL-2.1-or-later

"""One stack that cannot be planned keeps nothing from the others: checks, drawings and bill are there, and say so."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad


@pytest.fixture
def three(document: Any) -> Any:
    """Foot, Post and Lid, one above the other, all joined."""
    from freecad_stacklam import api

    stacks = []
    for name, level, high in (("Foot", 0, 90), ("Post", 90, 135), ("Lid", 225, 90)):
        form = document.addObject("Part::Box", name)
        form.Length, form.Width, form.Height = 120, 120, high
        form.Placement.Base.z = level
        document.recompute()
        stacks.append(api.slice_form(form))
    for one, other in zip(stacks, stacks[1:]):
        api.add_joint([one, other], through=(60, 60, 0), size="30 mm", embed={one.Piece: "40 mm", other.Piece: "40 mm"})
    document.recompute()
    return document


def stops(document: Any) -> dict[str, str]:
    from freecad_stacklam import api

    return {check.name: check.says for check in api.checks(document) if check.verdict == "stop"}


def test_a_form_that_is_gone_is_told_and_the_rest_is_planned(three: Any, tmp_path: Path) -> None:
    from freecad_stacklam import api

    assert stops(three) == {}
    three.removeObject("Lid")
    three.recompute()
    lid = three.getObject("Stack002")
    assert lid.Verdict == "stop"
    assert lid.Notes == ["The form of “Lid stack” is gone: choose another, or delete the stack."]
    assert "Invalid" in lid.State
    plan = api.plan(three)
    assert [s.name for s in plan.stacks] == ["Foot", "Post"]
    assert [j.name for j in plan.joints] == ["Foot to Post"]
    told = stops(three)
    assert told["Lid left out"] == "The form of “Lid stack” is gone: choose another, or delete the stack."
    assert told["Post to Lid left out"] == "It joins “Lid”, which cannot be planned: mend that stack first."
    assert not plan.proven
    assert {row.name.split()[0] for row in plan.bill if row.item == "blank"} == {"Foot", "Post"}
    assert api.drawings(three, tmp_path / "rest.pdf", kinds=("overview", "layer")) > 4
    api.bill(three)


def test_a_value_that_cannot_be_is_told_and_the_rest_is_planned(three: Any) -> None:
    from freecad_stacklam import api

    three.getObject("Stack").MoreStock = ["a plank"]
    three.recompute()
    assert [s.name for s in api.plan(three).stacks] == ["Post", "Lid"]
    assert "a plank" in stops(three)["Foot left out"]
    three.getObject("Stack").MoreStock = []
    three.recompute()
    assert stops(three) == {}
    assert three.getObject("Stack").Verdict == "ok"


def test_a_document_with_nothing_whole_says_why(three: Any) -> None:
    from freecad_stacklam import api

    for name in ("Foot", "Post", "Lid"):
        three.removeObject(name)
    three.recompute()
    with pytest.raises(api.Refusal, match="The form of “Foot stack” is gone"):
        api.plan(three)
