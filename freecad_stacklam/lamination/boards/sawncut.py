# SPDX-License-Identifier: LGPL-2.1-or-later

"""How boards were sawn from the log, flat, rift or quarter: what it says of a stack, and panels that mix it.

A flat-sawn stave moves about twice as much in its width as a quarter-sawn one and less in its thickness (FPL-GTR-282
(2021), Ch. 4), so a panel of both gets steps at its seams over the year.
"""

from __future__ import annotations

from freecad_stacklam.lamination.plan.boards import BoardsPlan
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.words import say, say_many

FLAT, QUARTER = "flat", "quarter"


def _cuts(plan: BoardsPlan) -> dict[str, dict[int, set[str]]]:
    """The cuts of the boards that each layer of each stack is made of; "" where a board does not say."""
    staves = {s.id: s for s in plan.staves}
    found: dict[str, dict[int, set[str]]] = {}
    for board in plan.plan:
        for piece in board.pieces:
            stave = staves[piece.stave]
            found.setdefault(stave.stack, {}).setdefault(stave.layer, set()).add(board.cut)
    return found


def stack_cut(plan: BoardsPlan | None, stack: str) -> str:
    """The cut that every board of a stack has; "" where they differ or one does not say."""
    cuts = set().union(*_cuts(plan).get(stack, {}).values()) if plan is not None else set()
    return cuts.pop() if len(cuts) == 1 else ""


def mixed(plan: BoardsPlan) -> list[tuple[str, int]]:
    """Stack and layer of every panel that has both flat and quarter-sawn staves."""
    return [
        (stack, layer)
        for stack, layers in _cuts(plan).items() if stack
        for layer, cuts in sorted(layers.items()) if {FLAT, QUARTER} <= cuts
    ]  # fmt: skip


def cut_checks(plan: BoardsPlan, stack: str) -> list[Check]:
    """A caution where panels of a stack mix flat and quarter; nothing where no board says how it was sawn."""
    layers = [layer for name, layer in mixed(plan) if name == stack]
    if not any(FLAT in cuts or QUARTER in cuts for cuts in _cuts(plan).get(stack, {}).values()):
        return []
    says = (
        say_many(
            "Layer {layers} of {stack} mix flat and quarter-sawn staves, which move differently: add "
            "boards of one cut, or expect steps at the seams.",
            "Layers {layers} of {stack} mix flat and quarter-sawn staves, which move differently: add "
            "boards of one cut, or expect steps at the seams.",
            len(layers),
            layers=", ".join(map(str, layers)),
            stack=stack,
        )
        if layers
        else say("No panel of {stack} mixes flat and quarter-sawn staves.", stack=stack)
    )
    return [
        Check(
            say("{stack}: cut of its staves", stack=stack),
            "caution" if layers else "ok",
            float(len(layers)),
            0.0,
            "panels",
            say("common practice, no source"),
            says,
        )
    ]
