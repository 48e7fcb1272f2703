# SPDX-License-Identifier: LGPL-2.1-or-later

"""The shop's settings, and the cutting plan for the stacks of a document as they are."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import fields, is_dataclass
from hashlib import sha256
from typing import Any

from freecad_stacklam.docobjects.base.family import cutting_in, shop_in
from freecad_stacklam.docobjects.base.memory import Memory
from freecad_stacklam.docobjects.base.protocols import Document, ShopObject
from freecad_stacklam.docobjects.base.rowproperties import read
from freecad_stacklam.docobjects.base.units import units_in
from freecad_stacklam.docobjects.spreadsheets.rack import boards_in
from freecad_stacklam.lamination.boards.boardplan import plan_boards
from freecad_stacklam.lamination.boards.cutting import LOOK_LONGER
from freecad_stacklam.lamination.boards.keptplan import read_plan
from freecad_stacklam.lamination.options.rows import Record, rows_of
from freecad_stacklam.lamination.plan.boards import BoardsPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.shop import BandSaw, Bit, ShopSettings
from freecad_stacklam.lamination.words import say

_FIRST = ShopSettings()


def settings_of_shop(shop: ShopObject | None) -> ShopSettings:
    """What the maker chose; the first values without a shop. Raises Refusal when a value cannot be."""
    if shop is None:
        return _FIRST
    return ShopSettings(**read(shop, ShopSettings), **_rest(shop), given=tuple(shop.Given))


def _rest(shop: ShopObject) -> dict[str, Any]:
    """Band saw and bits. What other rooms may once have kept there is left alone: nothing ever read it."""
    if not shop.Rest:
        return {}
    try:
        told = json.loads(shop.Rest)
    except ValueError:
        raise Refusal(
            say("The further settings of “{label}” cannot be read: empty its hidden property Rest.", label=shop.Label)
        ) from None
    rest: dict[str, Any] = {}
    if "band_saw" in told:
        rest["band_saw"] = BandSaw(**_known(BandSaw, told["band_saw"]))
    if "bits" in told:
        rest["bits"] = tuple(Bit(**_known(Bit, bit)) for bit in told["bits"])
    return rest


def _known(record: type[Record], facts: dict[str, Any]) -> dict[str, Any]:
    names = [row.name for row in rows_of(record)]
    return {name: value for name, value in facts.items() if name in names}


#: Plans that were made, by what they were made for; and those that were looked for longer.
_made: Memory[BoardsPlan] = Memory(24)
_longer: Memory[BoardsPlan] = Memory(8)


def wood_settings(document: Document) -> Settings:
    """The boards and the shop of a document. Raises Refusal."""
    return Settings(shop=settings_of_shop(shop_in(document)), boards=boards_in(document), units=units_in(document))


def key_of(stacks: Sequence[StackPlan], settings: Settings) -> str:
    """What a cutting plan is made for, in few characters: it changes when anything does that the plan depends on."""
    told = [
        (s.name, s.copies, [(n.number, n.bottom, n.top, n.species, n.grain, n.blank, n.cuts) for n in s.layers])
        for s in stacks
    ]
    inches = ("in",) if settings.units == "in" else ()  # its sentences are written in them
    return sha256(repr(_plain((told, settings.boards, settings.shop, *inches))).encode()).hexdigest()[:32]


def _plain(value: Any) -> Any:
    """Records, lists and numbers of any kind as plain ones; figures to 1e-6, so that a last bit changes nothing."""
    if value is None or isinstance(value, (str, bool)):
        return value
    if is_dataclass(value):
        return [_plain(getattr(value, f.name)) for f in fields(value)]
    if isinstance(value, Mapping):
        return [(k, _plain(v)) for k, v in sorted(value.items())]
    if isinstance(value, (list, tuple)):
        return [_plain(v) for v in value]
    return f"{float(value):.6f}"


def boards_for(document: Document, stacks: Sequence[StackPlan], settings: Settings) -> BoardsPlan:
    """The plan that the document keeps for these stacks and this wood, else a quick one. Raises Refusal."""
    key = key_of(stacks, settings)
    kept = cutting_in(document)
    text = kept.Kept if kept is not None and kept.KeptFor == key else ""
    known = key, sha256(text.encode()).hexdigest() if text else ""

    def made() -> BoardsPlan:
        found = read_plan(text, settings.boards, settings.shop) if text else None
        return found or plan_boards(stacks, settings)

    return _made.get(known, made)


def longer_for(stacks: Sequence[StackPlan], settings: Settings) -> BoardsPlan:
    """A cheaper plan than the quick one, if there is one, and how good any can be. Raises Refusal."""
    key = key_of(stacks, settings)
    return _longer.get(key, lambda: plan_boards(stacks, settings, rounds=LOOK_LONGER, lp_bound=True))


def found_longer(stacks: Sequence[StackPlan], settings: Settings, plan: BoardsPlan) -> None:
    """Keep a plan that somebody watched being found, as longer_for gives it from then on."""
    _longer.put(key_of(stacks, settings), plan)
