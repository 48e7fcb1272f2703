# SPDX-License-Identifier: LGPL-2.1-or-later

"""The finished piece in a document: kept, brought up to date, saved and opened again."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad


@pytest.fixture
def asked() -> Any:
    from freecad_stacklam.lamination.settings.job import Settings
    from freecad_stacklam.lamination.settings.stack import StackSettings
    from freecad_stacklam.lamination.usage.budget import BudgetSettings
    from freecad_stacklam.lamination.usage.climate import ClimateSettings
    from freecad_stacklam.lamination.usage.finish import FinishSettings
    from freecad_stacklam.lamination.usage.rates import RateSettings
    from freecad_stacklam.lamination.usage.use import LoadSettings, UseSettings

    return Settings(
        title="Block",
        stacks=(StackSettings(stock=(40.0,), species="white oak"),),
        use=UseSettings("table", deep="none", soft_floor=3.0, loads=(LoadSettings("A cat", 50.0, at=(1.0, 2.0, 3.0)),)),
        climate=ClimateSettings(months=tuple((20.0, 40.0 + m) for m in range(12)), fineness="coarse", moisture=9.0),
        finish=FinishSettings(finish="wax", coats=2, grits=(120, 240), litre_price=30.0),
        rates=RateSettings(hour_price=40.0, layer_hours=0.5),
        budget=BudgetSettings(slip=0.8),
    )


def block(document: Any, settings: Any, high: float = 120.0) -> Any:
    from freecad_stacklam.docobjects.making.project import fill_document

    form = document.addObject("Part::Box", "Block")
    form.Length, form.Width, form.Height = 200, 200, high
    document.recompute()
    fill_document(document, [form], settings)
    return form


def test_all_that_is_set_comes_back_from_the_document(document: Any, asked: Any) -> None:
    from freecad_stacklam.docobjects.reading.whole import settings_of

    block(document, asked)
    there = settings_of(document)
    for name in ("use", "climate", "finish", "rates", "budget"):
        assert getattr(there, name) == getattr(asked, name), name


def test_what_is_left_out_stays_out_and_a_suppressed_piece_says_nothing(document: Any, asked: Any) -> None:
    from dataclasses import replace

    from freecad_stacklam.docobjects.base.family import piece_in
    from freecad_stacklam.docobjects.reading.whole import plan_of, settings_of

    block(document, replace(asked, climate=None, rates=None))
    there = settings_of(document)
    assert (there.climate, there.rates) == (None, None)
    piece = piece_in(document)
    assert piece is not None and piece.Verdict in ("ok", "caution")
    piece.Suppressed = True
    document.recompute()
    assert piece.Verdict == "suppressed"
    assert plan_of(document).piece is None


def test_what_is_no_longer_wanted_keeps_what_was_set_of_it(document: Any, asked: Any) -> None:
    from dataclasses import replace

    from freecad_stacklam.docobjects.making.piece import put_piece
    from freecad_stacklam.docobjects.reading.piece import record_of

    block(document, asked)
    piece = put_piece(document, replace(asked, use=None, climate=None, finish=None))
    for name in ("use", "climate", "finish"):
        assert record_of(piece, name) == getattr(asked, name)


def test_the_figures_follow_the_form_and_the_slow_ones_are_told_to_be_wanting(document: Any, asked: Any) -> None:
    from freecad_stacklam.docobjects.base.family import piece_in
    from freecad_stacklam.docobjects.making.piece import refresh_piece
    from freecad_stacklam.docobjects.reading.pieces import look_deeper
    from freecad_stacklam.docobjects.reading.whole import plan_of

    form = block(document, asked)
    piece = piece_in(document)
    assert piece is not None
    # 761.6 kg/m³ (FPL-GTR-282 (2021), Eq. 4-14).
    assert piece.Mass == pytest.approx(0.2 * 0.2 * 0.12 * 761.6, abs=0.002)
    assert list(piece.Pending) == ["year in the room"]
    form.Height = 80
    document.recompute()
    assert piece.Mass == pytest.approx(0.2 * 0.2 * 0.08 * 761.6, abs=0.002)
    assert plan_of(document).piece.seasons is None
    assert not look_deeper(document, lambda *_: False)
    assert plan_of(document).piece.seasons is None
    assert look_deeper(document, lambda *_: True)
    refresh_piece(piece)
    assert list(piece.Pending) == []
    assert plan_of(document).piece.seasons is not None


def test_it_is_saved_and_opened_again(document: Any, asked: Any, tmp_path: Path) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.base.family import piece_in
    from freecad_stacklam.docobjects.reading.whole import settings_of

    block(document, asked)
    before = settings_of(document)
    document.saveAs(str(tmp_path / "piece.FCStd"))
    again = FreeCAD.openDocument(str(tmp_path / "piece.FCStd"))
    try:
        assert settings_of(again) == before
        piece = piece_in(again)
        assert piece is not None and piece.Mass > 0
    finally:
        FreeCAD.closeDocument(again.Name)


def test_a_line_that_is_no_load_is_the_pieces_error(document: Any, asked: Any) -> None:
    from freecad_stacklam.docobjects.base.family import piece_in
    from freecad_stacklam.docobjects.reading.whole import settings_of
    from freecad_stacklam.lamination.refusal import Refusal

    block(document, asked)
    piece = piece_in(document)
    assert piece is not None
    piece.Loads = ["two children"]
    document.recompute()
    assert "Invalid" in piece.State
    with pytest.raises(Refusal, match="is no load"):
        settings_of(document)
    piece.Loads = []
    document.recompute()
    assert "Invalid" not in piece.State
