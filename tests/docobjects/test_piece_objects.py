# SPDX-License-Identifier: LGPL-2.1-or-later

"""The finished piece in a document: kept, brought up to date, saved and opened again."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.freecad


@pytest.fixture(autouse=True)
def forgotten() -> None:
    """What is made for one test is not there in the next."""
    from freecad_stacklam.docobjects.reading import piece

    piece._slow.clear()


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
    from freecad_stacklam.docobjects.making.piece import look_and_keep
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
    assert not look_and_keep(document, lambda *_: False)
    assert plan_of(document).piece.seasons is None
    assert look_and_keep(document, lambda *_: True)
    assert list(piece.Pending) == []
    assert plan_of(document).piece.seasons is not None


def test_it_is_saved_and_opened_again(document: Any, asked: Any, tmp_path: Path) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.base.family import piece_in
    from freecad_stacklam.docobjects.reading.whole import settings_of

    block(document, asked)
    before = settings_of(document)
    document.saveCopy(str(tmp_path / "piece.FCStd"))
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


def test_what_was_looked_at_deeper_is_there_when_the_file_is_opened_again(
    document: Any, asked: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.base.family import piece_in
    from freecad_stacklam.docobjects.making.piece import look_and_keep
    from freecad_stacklam.docobjects.reading import piece as reading
    from freecad_stacklam.docobjects.reading.whole import plan_of

    form = block(document, asked)
    piece = piece_in(document)
    assert piece is not None
    assert list(piece.Deeper) == ["year in the room: not made"]
    assert look_and_keep(document, lambda *_: True)
    assert list(piece.Deeper) == ["year in the room: of this plan"]
    assert "Touched" not in piece.State
    found = plan_of(document).piece
    assert found is not None and found.seasons is not None
    document.saveCopy(str(tmp_path / "piece.FCStd"))
    reading._slow.clear()
    monkeypatch.setattr(reading, "check_slowly", lambda *_: pytest.fail("it was made anew"))
    again = FreeCAD.openDocument(str(tmp_path / "piece.FCStd"))
    try:
        opened = plan_of(again).piece
        assert opened is not None and opened.seasons == found.seasons and opened.pending == ()
        kept = piece_in(again)
        assert kept is not None and list(kept.Pending) == []
        assert look_and_keep(again, lambda *_: True)
    finally:
        FreeCAD.closeDocument(again.Name)
    form.Height = 80
    document.recompute()
    assert list(piece.Deeper) == ["year in the room: of an earlier plan"]
    assert list(piece.Pending) == ["year in the room"]
    assert plan_of(document).piece.seasons is None
    form.Height = 120
    document.recompute()
    assert plan_of(document).piece.seasons == found.seasons


def test_a_file_without_what_was_looked_at_or_with_another_release_s_is_read_all_the_same(
    document: Any, asked: Any, tmp_path: Path
) -> None:
    import FreeCAD

    from freecad_stacklam.docobjects.base.family import piece_in

    block(document, asked)
    piece = piece_in(document)
    assert piece is not None
    for text in (
        "",
        "cut short{",
        '{"schema":99}',
        '{"schema":2,"parts":{"year in the room":{"key":"x","seasons":3}}}',
        '{"schema":2,"parts":' + "[" * 100_000,
    ):
        piece.Looked = text
        if not text:
            piece.setPropertyStatus("Looked", "-LockDynamic")
            assert piece.removeProperty("Looked")
        document.saveCopy(str(tmp_path / "piece.FCStd"))
        again = FreeCAD.openDocument(str(tmp_path / "piece.FCStd"))
        try:
            opened = piece_in(again)
            assert opened is not None
            assert list(opened.Pending) == ["year in the room"]
            assert opened.Looked == text
            again.recompute(None, True)
            assert "Invalid" not in opened.State
        finally:
            FreeCAD.closeDocument(again.Name)
        if not text:
            piece.addProperty("App::PropertyString", "Looked")


def test_a_finished_deep_check_is_kept_when_the_year_is_stopped(document: Any, asked: Any) -> None:
    from dataclasses import replace

    from freecad_stacklam.docobjects.base.family import piece_in
    from freecad_stacklam.docobjects.making.piece import look_and_keep
    from freecad_stacklam.docobjects.reading.whole import plan_of

    block(document, replace(asked, use=replace(asked.use, deep="scan")))
    piece = piece_in(document)
    assert piece is not None and list(piece.Pending) == ["deep check of strength", "year in the room"]
    told = []

    def until_the_year(done: float, what: str) -> bool:
        told.append(done)
        return "cells" not in what.lower() or done < 0.5

    assert not look_and_keep(document, until_the_year)
    assert told == sorted(told) and 0.7 < told[-1] < 0.9
    assert list(piece.Pending) == ["year in the room"]
    assert list(piece.Deeper) == ["deep check of strength: of this plan", "year in the room: not made"]
    found = plan_of(document).piece
    assert found is not None and found.deep is not None and found.seasons is None
    told.clear()
    assert look_and_keep(document, lambda done, _: told.append(done) or True)
    assert told[0] == 0.0 and list(piece.Pending) == []
    assert plan_of(document).piece.deep == found.deep
