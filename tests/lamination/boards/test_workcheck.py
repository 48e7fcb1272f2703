# SPDX-License-Identifier: LGPL-2.1-or-later

"""The judge of the work on a board finds every step that would spoil wood or hurt a hand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from woodyard import stave

from freecad_stacklam.lamination.boards.cutting import plan_cutting
from freecad_stacklam.lamination.boards.workcheck import work_faults
from freecad_stacklam.lamination.plan.boards import BoardCut, Operation
from freecad_stacklam.lamination.settings.board import Board, Rack
from freecad_stacklam.lamination.settings.shop import ShopSettings

STAVES = {s.id: s for s in (stave("a", 180.0, 80.0, glued_edges=1), stave("b", 150.0, 80.0, glued_edges=1))}
ROW = Board("A", 120.0, 1000.0, 50.0, "oak")


def board() -> BoardCut:
    (cut,) = plan_cutting([*STAVES.values()], Rack((ROW,)), ShopSettings()).plan
    return cut


def faults(cut: BoardCut, shortest: float = 300.0, **more: float) -> list[str]:
    return work_faults(cut, ROW, STAVES, ShopSettings(shortest_to_machine=shortest, **more))


def numbered(steps: list[Operation]) -> tuple[Operation, ...]:
    return tuple(replace(step, number=i) for i, step in enumerate(steps, 1))


def changed(change: Callable[[list[Operation]], object]) -> BoardCut:
    cut = board()
    steps = list(cut.operations)
    change(steps)
    return replace(cut, operations=numbered(steps))


def swap(steps: list[Operation], i: int, **more: object) -> None:
    steps[i] = replace(steps[i], **more)  # type: ignore[arg-type]


def test_a_sound_board_has_no_faults() -> None:
    assert faults(board()) == []


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda s: s.pop(6), "is not parted from the others"),
        (lambda s: s.pop(5), "the glued edges of a on A are not jointed"),
        (lambda s: (s.pop(4), swap(s, 4, part=(25.0, 0.0, 333.0, 120.0)),
                    swap(s, 5, part=(25.0, 0.0, 333.0, 120.0))), "is not ripped to its width"),
        (lambda s: s.pop(3), "is not planed"),
        (lambda s: s.pop(2), "planes a part that lies on no flat face"),
        (lambda s: s.pop(1), "works on a part that is not there"),
        (lambda s: swap(s, 6, at=206.5), "the cuts run through b on A"),
        (lambda s: swap(s, 4, at=80.0), "works on a part that is not there"),
        (lambda s: swap(s, 4, at=None), "does not say where it cuts"),
        (lambda s: swap(s, 4, machine="planer"), "sends “rip” to the planer"),
        (lambda s: swap(s, 0, what="saw"), "sends “saw” to the crosscut saw"),
        (lambda s: s.insert(2, s.pop(4)), "rips a part that has no straight edge"),
    ],
    ids=["not parted", "not jointed", "not ripped", "not planed", "not flattened", "a cut missing", "through b",
         "narrow", "nowhere", "on a planer", "unknown", "before the jointer"],
)  # fmt: skip
def test_every_kind_of_fault_is_found(change: Callable[[list[Operation]], object], says: str) -> None:
    found = faults(changed(change))
    assert any(says in fault for fault in found), found


def test_short_work_at_a_machine_is_a_fault() -> None:
    assert faults(board(), shortest=350.0) == [
        "step 3 on A sends a part of 333 mm to the jointer, which takes 350 mm and more"
    ]


def test_numbers_stand_in_their_order() -> None:
    cut = board()
    wrong = replace(cut, operations=(replace(cut.operations[0], number=2), *cut.operations[1:]))
    assert faults(wrong) == ["step 1 on A is numbered 2"]


def test_planed_to_the_layer_and_no_other_thickness() -> None:
    cut = replace(board(), planed=44.0)
    assert any("is planed to 44 mm, not to 45" in fault for fault in faults(cut))


def test_no_face_wider_than_the_knives_goes_over_them() -> None:
    """The board is 120 mm wide."""
    assert faults(board(), jointer_width=120.0, planer_width=120.0) == []
    assert "120 mm wide to the jointer, which takes 110 mm" in faults(board(), jointer_width=110.0)[0]
    assert "120 mm wide to the planer, which takes 110 mm" in faults(board(), planer_width=110.0)[0]
