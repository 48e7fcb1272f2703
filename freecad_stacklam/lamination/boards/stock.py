# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which boards a layer may be planed from, and how much of a board's ends is lost."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from freecad_stacklam.lamination.boards.seams import Stock
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.board import Board
from freecad_stacklam.lamination.settings.shop import ShopSettings
from freecad_stacklam.lamination.tolerances import SAME_THICKNESS
from freecad_stacklam.lamination.words import say


def same_wood(board: Board, species: str) -> bool:
    """Whether a board is of a species; a board or a layer that names none goes with every one."""
    return not board.species or not species or board.species.strip().lower() == species.strip().lower()


def comes_flat(board: Board, thickness: float) -> bool:
    """Whether a board may be used as it is for a layer of this thickness, mm: it is surfaced, or says neither and is as
    thick as the layer, for nobody writes down a rough board so."""
    as_thick = abs(board.thickness - thickness) <= SAME_THICKNESS
    return board.surface == "surfaced" or (board.surface == "" and as_thick)


def least_planing(board: Board, thickness: float, shop: ShopSettings) -> float:
    """How much must be planed off a board before it is a layer of this thickness, mm.

    A rough one is not flat until the least planing is off.
    """
    return 0.0 if comes_flat(board, thickness) else shop.least_planing


def suits(board: Board, thickness: float, species: str, shop: ShopSettings) -> bool:
    """Whether a layer of this thickness (mm) and species may be planed from the board."""
    off = board.thickness - thickness
    least = least_planing(board, thickness, shop)
    return same_wood(board, species) and least - SAME_THICKNESS <= off <= shop.planing + SAME_THICKNESS


def trim_of(board: Board, shop: ShopSettings) -> float:
    """What is lost at each end of a board, mm: more where it was dried in the air and its ends have checks."""
    return shop.end_trim_air if board.dried == "air" else shop.end_trim


def stock_for(boards: Sequence[Board], thickness: float, species: str, shop: ShopSettings, who: str) -> Stock:
    """The boards that suit a layer; without any boards at all, the shop's widest stave in any length. thickness: of
    the layer, mm. Raises Refusal that names the stave `who` and what is missing."""
    if not boards:
        return Stock((shop.max_stave + 2 * shop.jointing,), (inf,), thickness)
    fitting = [b for b in boards if suits(b, thickness, species, shop)]
    if fitting:
        return Stock(
            tuple(b.width for b in fitting), tuple(b.length - 2 * trim_of(b, shop) for b in fitting), thickness
        )
    named = f"{size(thickness)} {species}".strip()
    wood = [b for b in boards if same_wood(b, species)]
    if not wood:
        raise Refusal(
            say("{layer} needs {wood}, but no board on the rack is of that species: add one.", layer=who, wood=named)
        )
    thick = [b for b in wood if b.thickness >= thickness - SAME_THICKNESS]
    if not thick:
        most = max(b.thickness for b in wood)
        raise Refusal(
            say(
                "{layer} needs {wood}, but the thickest board is {thickest}, {short} short: add a thicker board "
                "or choose thinner stock.",
                layer=who,
                wood=named,
                thickest=size(most),
                short=size(thickness - most),
            )
        )
    scant = [b for b in thick if b.thickness - thickness <= shop.planing + SAME_THICKNESS]
    if scant:
        most = max(b.thickness for b in scant)
        raise Refusal(
            say(
                "{layer} needs {wood}; the rough board of {thickest} leaves {over} to plane away, and "
                "{asked} are asked to make it flat: add a thicker board, choose thinner stock, or say "
                "surfaced where it is.",
                layer=who,
                wood=named,
                thickest=size(most),
                over=size(most - thickness),
                asked=size(shop.least_planing),
            )
        )
    least = min(b.thickness for b in thick)
    raise Refusal(
        say(
            "{layer} needs {wood}; the thinnest board that reaches it is {thinnest}, {over} to plane away and "
            "more than the {allowed} allowed: add a thinner board or allow more planing.",
            layer=who,
            wood=named,
            thinnest=size(least),
            over=size(least - thickness),
            allowed=size(shop.planing),
        )
    )
