# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on a plan."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from freecad_stacklam.lamination.form.frame import to_model

#: A point of the model, mm.
Place = tuple[float, float, float]
#: Rules by which a panel or another check asks for a verdict, whatever the language that its name is told in.
COVER, WALL, WEIGHT = "cover of the pins", "wall around the voids", "weight to lift"
#: Where no place of a glue line is known; a glue line goes by its stack and the number of the layer under it.
NO_PLACES: Mapping[tuple[str, int], Place] = MappingProxyType({})


@dataclass(frozen=True)
class Check:
    """One verdict. `verdict` is "ok", "caution" or "stop"; `says` is one sentence for the maker; `source` names the
    rule; `place` is where in the model it was found, mm, None where it has no one place; `rule` is one of those
    above where others ask for it."""

    name: str
    verdict: str
    figure: float
    limit: float
    unit: str
    source: str
    says: str
    place: Place | None = None
    rule: str = ""


def is_of(check: Check, rule: str) -> bool:
    """Whether a verdict is the one of a rule; one that was written by hand goes by the end of its name."""
    return rule in (check.rule, check.name.rpartition(": ")[2])


def in_model(frame: Sequence[float], point: Sequence[float]) -> Place:
    """A point of a stack (x, y, height), mm, as a place of the model. frame: the stack's, see StackPlan."""
    x, y, z = to_model(frame, np.array([point], dtype=np.float64))[0]
    return float(x), float(y), float(z)


def about(check: Check, names: Iterable[str]) -> str:
    """Which of these stacks or joints a verdict names: the one before its colon, else the one at its end; "" for
    none."""
    known = list(names)
    head = [name for name in known if check.name.startswith(f"{name}: ")]
    return max(head or [name for name in known if check.name.endswith(f" in {name}")], key=len, default="")
