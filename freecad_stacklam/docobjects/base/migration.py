# SPDX-License-Identifier: LGPL-2.1-or-later

"""Objects saved by earlier releases, brought to today's properties one step at a time.

A release that renames or reinterprets a property raises CURRENT and adds a step for every kind of object it touches;
properties that are merely new need no step, they are added with their first value. The first file kept
under the tests is of version 1.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from freecad_stacklam.docobjects.base.properties import Property, add_properties
from freecad_stacklam.docobjects.base.woods import AS_STACK
from freecad_stacklam.lamination.words import mark

#: The version that this release writes.
CURRENT = 3


def joint_step_1_to_2(joint: Any) -> None:
    """Mortises had no relief on their end-grain walls; what was cut without it stays without it."""
    add_properties(
        joint,
        (
            Property(
                "Bool", "OwnRelief", "Season", mark("Cut the relief given here instead of what the movement calls for")
            ),
            Property("Length", "Relief", "Season", mark("Relief on each end-grain wall, where given")),
        ),
    )
    joint.OwnRelief, joint.Relief = True, 0.0


def stack_step_2_to_3(stack: Any) -> None:
    """A wood was a text; it is chosen from a list that holds what was written."""
    _choice_of_wood(stack, "Boards", "The wood, as named in the species table", [stack.Species], stack.Species)


def joint_step_2_to_3(joint: Any) -> None:
    """The same of a tenon's wood, which was left empty where it was the first stack's."""
    offered = [AS_STACK, *([joint.Species] if joint.Species else [])]
    _choice_of_wood(joint, "Tenon", "Wood of the tenon", offered, offered[-1])


def _choice_of_wood(obj: Any, group: str, text: str, offered: list[str], held: str) -> None:
    obj.removeProperty("Species")
    add_properties(obj, (Property("Enumeration", "Species", group, text, offered),))
    obj.Species = held


#: (class name, version) → the function that takes such an object to the next version, named step_1_to_2 and so on.
STEPS: dict[tuple[str, int], Callable[[Any], None]] = {
    ("Joint", 1): joint_step_1_to_2,
    ("Stack", 2): stack_step_2_to_3,
    ("Joint", 2): joint_step_2_to_3,
}


def migrate(obj: Any, kind: str) -> None:
    """Take `obj` step by step to CURRENT. Objects of a newer release are left as they are."""
    version = obj.SchemaVersion
    while version < CURRENT:
        step = STEPS.get((kind, version))
        if step is not None:
            step(obj)
        version += 1
        obj.SchemaVersion = version
