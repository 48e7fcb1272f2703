# SPDX-License-Identifier: LGPL-2.1-or-later

"""The finished piece of a document: made, changed, and brought up to date."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.docobjects.base.protocols import Document, PieceObject
from freecad_stacklam.docobjects.base.rowproperties import fill
from freecad_stacklam.docobjects.family import piece_in, settling
from freecad_stacklam.docobjects.making.single import the_one
from freecad_stacklam.docobjects.piece import Piece
from freecad_stacklam.docobjects.reading.gluing import zeros_of
from freecad_stacklam.docobjects.reading.piece import RECORDS
from freecad_stacklam.docobjects.reading.pieces import key_now
from freecad_stacklam.lamination.options.recordlines import record_line
from freecad_stacklam.lamination.options.rows import Record
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.job import Settings


def put_piece(document: Document, settings: Settings) -> PieceObject:
    """The document's finished piece with what these settings say of it, made where there is none; what they leave out
    has its first values. Part of the caller's undo step if one is open."""
    piece = the_one(document, piece_in, Piece, "Finished piece")
    records: list[Any] = [getattr(settings, name) or record() for name, record in RECORDS.items()]
    for record in records:
        fill(piece, record)
    piece.Zeros = zeros_of(*records)
    piece.Loads = _lines(getattr(settings.use, "loads", ()))
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


def refresh_piece(piece: PieceObject) -> None:
    """Find its figures anew."""
    piece.recompute()
    if "Invalid" not in piece.State:
        piece.purgeTouched()


def _lines(records: tuple[Record, ...]) -> list[str]:
    return [record_line(one) for one in records]
