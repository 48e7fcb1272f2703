# SPDX-License-Identifier: LGPL-2.1-or-later

"""The finished piece of a document: made, changed, and brought up to date."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from freecad_stacklam.docobjects.base.family import piece_in, settling
from freecad_stacklam.docobjects.base.properties import set_result
from freecad_stacklam.docobjects.base.protocols import Document, PieceObject
from freecad_stacklam.docobjects.base.rowproperties import fill
from freecad_stacklam.docobjects.making.single import the_one
from freecad_stacklam.docobjects.piece import Piece
from freecad_stacklam.docobjects.reading.gluing import zeros_of
from freecad_stacklam.docobjects.reading.piece import RECORDS, Runner, plainly, record_of
from freecad_stacklam.docobjects.reading.pieces import key_now, look_deeper
from freecad_stacklam.lamination.options.recordlines import record_line
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.usage.climate import month_lines


def put_piece(document: Document, settings: Settings) -> PieceObject:
    """The document's finished piece with what these settings say of it, made where there is none; what they leave out
    keeps what was set of it, or has its first values. Part of the caller's undo step if one is open."""
    new = piece_in(document) is None
    piece = the_one(document, piece_in, Piece, "Finished piece")
    records: list[Any] = []
    for name, (record, wanted) in RECORDS.items():
        told = getattr(settings, name)
        setattr(piece, wanted, told is not None)
        if told is None and not new:
            told = record_of(piece, name)  # what was set stays, for when it is wanted again
        records.append(record() if told is None else told)
        fill(piece, records[-1])
    piece.Zeros = zeros_of(*records)
    by_name = dict(zip(RECORDS, records))
    piece.Loads = [record_line(one) for one in by_name["use"].loads]
    piece.Months = month_lines(by_name["climate"].months)
    piece.Suppressed = False
    return piece


def match_piece(document: Document) -> None:
    """Bring the finished piece up to date when anything that it depends on has changed."""
    piece = piece_in(document)
    if settling(document) or piece is None or piece.Suppressed:
        return
    try:
        outdated = key_now(document) != piece.ShownFor
    except Refusal:
        outdated = piece.ShownFor != ""  # what is wrong is said by the object itself
    if outdated:
        refresh_piece(piece)


def look_and_keep(document: Document, tell: Callable[[float, str], bool], run: Runner = plainly) -> bool:
    """Make the slow figures (see look_deeper) and keep in the document what was finished, so that it is there when the
    file is opened again; False where `tell` stopped them. Raises Refusal."""
    finished, text = look_deeper(document, tell, run)
    piece = piece_in(document)
    if piece is not None:
        set_result(piece, "Looked", text)
        refresh_piece(piece)
    return finished


def refresh_piece(piece: PieceObject) -> None:
    """Find its figures anew."""
    piece.recompute()
    if "Invalid" not in piece.State:
        piece.purgeTouched()
