# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is set of a document's finished piece, and what is found about it: quick figures with every plan, the slow ones
when they are asked for."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from hashlib import sha256
from typing import Any

from freecad_stacklam.data import climate_table
from freecad_stacklam.docobjects.base.family import piece_in
from freecad_stacklam.docobjects.base.memory import Memory
from freecad_stacklam.docobjects.base.protocols import Document, PieceObject
from freecad_stacklam.docobjects.base.rowproperties import read
from freecad_stacklam.docobjects.reading.wood import key_of
from freecad_stacklam.lamination.findings.kept import Unreadable, plain
from freecad_stacklam.lamination.findings.kept import record_from as found_from
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.job.piece import DEEP, OPINION, YEAR, Slow, check_quickly, check_slowly, pending_of
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
from freecad_stacklam.lamination.words import spoken

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

#: Quick figures that were made, and each slow part, by what they were made for.
_quick: Memory[PieceFindings] = Memory(24)
_slow: Memory[Slow] = Memory(48)
_counted = [0]
#: The slow parts: its share of the work, and what of the settings the other asks for.
_SHARES = {DEEP: 0.8, YEAR: 0.2}
_OTHER: dict[str, dict[str, Any]] = {DEEP: {"climate": None}, YEAR: {"use": None}}
#: What is pending until a slow part is made: a second opinion comes with the deep check that it is on.
_PARTS = {DEEP: (DEEP, OPINION), YEAR: (YEAR,)}
#: Version of the text that the slow figures are kept in; 2: loads stand on arms, and slopes end at 30°.
_WRITTEN = 2
#: How a slow part stands to the plan as it is now.
NOW, EARLIER, NEVER = "of this plan", "of an earlier plan", "not made"
#: Does a long work, and gives its answer back.
Runner = Callable[[Callable[[], Slow | None]], Slow | None]


def plainly(work: Callable[[], Slow | None]) -> Slow | None:
    """A Runner that does the work then and there."""
    return work()


def slow_made() -> int:
    """How many slow figures were made so far: a plan that was kept before the last of them lacks it."""
    return _counted[0]


def piece_for(
    plan: Plan, meshes: Mapping[str, Mesh], settings: Settings, table: Mapping[str, Species]
) -> PieceFindings:
    """What is found about the piece: the quick figures made once, and those of the slow parts that were made."""
    found = _quick.get(piece_key(plan, settings), lambda: check_quickly(plan, meshes, settings, table))
    for what, key in slow_keys(plan, settings).items():
        slow = _slow.there(key)
        if slow is not None:
            found = replace(
                found,
                deep=slow.deep if what == DEEP else found.deep,
                seasons=slow.seasons if what == YEAR else found.seasons,
                pending=tuple(one for one in found.pending if one not in _PARTS[what]),
                left_out=(*found.left_out, *slow.left_out),
            )
    return found


def look_slowly(
    plan: Plan,
    meshes: Mapping[str, Mesh],
    settings: Settings,
    table: Mapping[str, Species],
    tell: Callable[[float, str], bool],
    run: Runner = plainly,
    programs: Programs | None = None,
) -> bool:
    """Make the slow parts that are asked for and not made yet, and keep each as soon as it is finished. tell: told the
    share done and of what; it says whether to go on. run: how each is done; programs:
    for a second opinion. False where it was stopped."""
    wanted = {what: key for what, key in slow_keys(plan, settings).items() if _wanting(_slow.there(key), programs)}
    whole = sum(_SHARES[what] for what in wanted)
    before = 0.0
    for what, key in wanted.items():
        share = _SHARES[what] / whole
        told = partial(_tell_share, tell, before, share)
        only = replace(settings, **_OTHER[what])
        found = run(partial(check_slowly, plan, meshes, only, table, climate_table(), told, programs))
        if found is None:
            return False
        _keep(key, found)
        before += share
    return True


def _wanting(slow: Slow | None, programs: Programs | None) -> bool:
    """Whether a slow part is still to be made: also where a second opinion was refused, and its programs are there."""
    if slow is None:
        return True
    opinion = None if slow.deep is None else slow.deep.second_opinion
    return opinion is not None and bool(opinion.refused) and programs is not None and not programs.lacking()


def _tell_share(tell: Callable[[float, str], bool], before: float, share: float, done: float, what: str) -> bool:
    return tell(before + share * done, what)


def _keep(key: str, found: Slow) -> None:
    _slow.put(key, found)
    _counted[0] += 1


# --- kept in the document -------------------------------------------------------------------------------------------
def slow_text(plan: Plan, settings: Settings, before: str) -> str:
    """The slow parts as text to be kept in the document: those made for this plan, and of the others what `before`, an
    earlier such text, holds of an earlier plan."""
    parts = _parts(before)
    for what, key in slow_keys(plan, settings).items():
        slow = _slow.there(key)
        if slow is not None:
            parts[what] = {"key": key, **plain(slow)}
    return json.dumps({"schema": _WRITTEN, "parts": parts}, separators=(",", ":")) if parts else ""


def take_kept(text: str) -> None:
    """Take in the slow parts that a document keeps, without making any; what cannot be read is none."""
    for part in _parts(text).values():
        key = part.get("key")
        if isinstance(key, str) and _slow.there(key) is None:
            try:
                _keep(key, found_from(Slow, {name: one for name, one in part.items() if name != "key"}))
            except Unreadable:  # of another release: made anew when it is asked for
                continue


def slow_standing(plan: Plan, settings: Settings, text: str) -> dict[str, str]:
    """How each slow part that is asked for stands: NOW, EARLIER or NEVER."""
    kept = _parts(text)
    return {
        what: NOW if _slow.there(key) is not None else EARLIER if what in kept else NEVER
        for what, key in slow_keys(plan, settings).items()
    }


def _parts(text: str) -> dict[str, Any]:
    """The parts of a kept text; none where it is no such text."""
    try:
        found = json.loads(text) if text else {}
    except (ValueError, RecursionError):
        return {}
    if not isinstance(found, dict) or found.get("schema") != _WRITTEN or not isinstance(found.get("parts"), dict):
        return {}
    return {what: part for what, part in found["parts"].items() if what in _SHARES and isinstance(part, dict)}


# --- what figures are made for --------------------------------------------------------------------------------------
def piece_key(plan: Plan, settings: Settings) -> str:
    """What the piece's figures are made for, in few characters: the stacks and where they stand, the joints, the
    boards, and all that is set of the piece."""
    asked = replace(settings, rates=None)  # a quote is the bill's alone
    return _short(_made_of(plan, settings), *(getattr(asked, name) for name in RECORDS))


def slow_keys(plan: Plan, settings: Settings) -> dict[str, str]:
    """The slow parts that are asked for, and what each is made for; the same in every session."""
    told = {DEEP: settings.use, YEAR: settings.climate}
    made_of = _made_of(plan, settings)
    asked = pending_of(settings)
    parts = [what for what, of in _PARTS.items() if any(one in asked for one in of)]
    # Their sentences are kept with them, in the language they were made in; English keys are those of older files.
    language = () if spoken() == "en" else (spoken(),)
    return {what: _short(what, made_of, told[what], *language) for what in parts}


def _made_of(plan: Plan, settings: Settings) -> tuple[Any, ...]:
    """Of the plan. Figures are rounded: a file that is read again may differ in the last bit."""
    frames = [[f"{v:.6f}" for v in s.frame] for s in plan.stacks]
    forms = [
        (f"{s.form.volume:.2f}", f"{s.form.height:.5f}", [f"{layer.finished_volume:.2f}" for layer in s.layers])
        for s in plan.stacks
    ]
    return key_of(plan.stacks, settings), frames, forms, settings.joints, settings.species, settings.units


def _short(*parts: Any) -> str:
    return sha256(repr(parts).encode()).hexdigest()[:32]
