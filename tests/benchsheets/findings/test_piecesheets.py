# SPDX-License-Identifier: LGPL-2.1-or-later

from __future__ import annotations

from freecad_stacklam.benchsheets.book.whole import KINDS
from freecad_stacklam.benchsheets.findings.piecesheets import piece_pages
from freecad_stacklam.lamination.findings.whole import PieceFindings


def test_every_kind_of_page_can_be_left_out_of_the_book() -> None:
    kinds = [kind for kind, _, _ in piece_pages(PieceFindings())]
    assert kinds == [
        "standing",
        "strength",
        "deep check",
        "weight",
        "budget",
        "finish",
        "seasons",
        "owner",
    ]
    assert set(kinds) <= set(KINDS)


def test_without_findings_there_are_no_pages() -> None:
    for none in (None, PieceFindings()):
        assert all(found is None for _, found, _ in piece_pages(none))
