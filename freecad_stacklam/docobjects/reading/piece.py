# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is set of a document's finished piece, and what is found about it: quick figures with every plan, the slow ones
when they are asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from hashlib import sha256
from typing import Any

from freecad_stacklam.data import climate_table
from freecad_stacklam.docobjects.base.family import piece_in
from freecad_stacklam.docobjects.base.memory import Memory
from freecad_stacklam.docobjects.base.protocols import Document, PieceObject
from freecad_stacklam.docobjects.base.rowproperties import read
from freecad_stacklam.docobjects.reading.wood import key_of
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.job.piece import Slow, check_quickly, check_slowly, with_slow
from freecad_stacklam.lamination.opinion.second import Programs
from freecad_stacklam.lamination.options.recordlines import record_from
from freecad_stacklam.lamination.options.rows import Record, rows_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.usage.budget import BudgetSettings
from freecad_stacklam.lamination.usage.climate import CLIMATE, ClimateSettings
from freecad_stacklam.lamination.usage.finish import FinishSettings
from freecad_stacklam.lamination.usage.rates import RateSettings
from freecad_stacklam.lamination.usage.use import LoadSettings, UseSettings
from freecad_stacklam.lamination.wood.species import Species

#: What the piece's object holds: the name in the job's settings, the record, and the property that says it is wanted.
RECORDS: dict[str, tuple[type[Record], str]] = {
    "use": (UseSettings, "CheckUse"),
    "climate": (ClimateSettings, "CheckYear"),
    "finish": (FinishSettings, "CountFinish"),
    "rates": (RateSettings, "CountHours"),
    "budget": (BudgetSettings, "CheckAllowance"),
}


def record_of(piece: PieceObject, name: str) -> Any:
    """One of RECORDS as it is set, wanted or not. Raises Refusal when a value cannot be."""
    record, _ = RECORDS[name]
    held = read(piece, record)
    meant = [row.name for row in rows_of(record) if row.property in piece.Zeros and held[row.name] is None]
    held |= dict.fromkeys(meant, 0.0)
    if name == "use":
        held["loads"] = tuple(record_from(text, LoadSettings) for text in piece.Loads if text.strip())
    if name == "climate":
        lines = [text for text in piece.Months if text.strip()]
        held["months"] = CLIMATE.read(lines, "mm") if lines else ClimateSettings().months
    return record(**held)


def piece_settings_in(document: Document) -> dict[str, Any]:
    """What of a job's settings is about the finished piece, by the names of their fields; nothing without a piece, or
    where it is suppressed. Raises Refusal."""
    piece = piece_in(document)
    if piece is None or piece.Suppressed:
        return {}
    return {name: record_of(piece, name) for name, (_, wanted) in RECORDS.items() if getattr(piece, wanted)}


# --- what is found --------------------------------------------------------------------------------------------------

#: Findings that were made, by what they were made for.
_quick: Memory[PieceFindings] = Memory(24)
_slow: Memory[Slow] = Memory(24)
_counted = [0]


def slow_made() -> int:
    """How many slow figures were made so far: a plan that was kept before the last of them lacks it."""
    return _counted[0]


def piece_for(
    plan: Plan, meshes: Mapping[str, Mesh], settings: Settings, table: Mapping[str, Species]
) -> PieceFindings:
    """What is found about the piece: the quick figures made once, and the slow ones where they were asked for."""
    key = piece_key(plan, settings)
    found = _quick.get(key, lambda: check_quickly(plan, meshes, settings, table))
    slow = _slow.there(key)
    return found if slow is None else with_slow(found, slow)


def look_slowly(
    plan: Plan,
    meshes: Mapping[str, Mesh],
    settings: Settings,
    table: Mapping[str, Species],
    tell: Callable[[float, str], bool],
    programs: Programs | None = None,
) -> bool:
    """Make the slow figures of a plan, and keep them. programs: for a second opinion. tell: told the share
    done and of what; it says whether to go on. False where it was stopped."""
    key = piece_key(plan, settings)
    if _slow.there(key) is None:
        found = check_slowly(plan, meshes, settings, table, climate_table(), tell, programs)
        if found is None:
            return False
        _slow.put(key, found)
        _counted[0] += 1
    return True


def piece_key(plan: Plan, settings: Settings) -> str:
    """What the piece's figures are made for, in few characters: the stacks and where they stand, the joints, the
    boards, and all that is set of the piece."""
    frames = [[f"{v:.6f}" for v in s.frame] for s in plan.stacks]
    forms = [(s.form.volume, s.form.height, [layer.finished_volume for layer in s.layers]) for s in plan.stacks]
    asked = replace(settings, rates=None)  # a quote is the bill's alone
    told = tuple(getattr(asked, name) for name in RECORDS)
    parts = key_of(plan.stacks, settings), frames, forms, settings.joints, settings.species, settings.units, *told
    return sha256(repr(parts).encode()).hexdigest()[:32]
