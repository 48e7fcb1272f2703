# SPDX-License-Identifier: LGPL-2.1-or-later

"""Marks given to a backend, kind by kind."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from freecad_stacklam.benchsheets.drawing.backend import draw
from freecad_stacklam.benchsheets.drawing.sheet import Arc, Circle, FilledRegion, Mark, Polyline, Text
from freecad_stacklam.benchsheets.pages.labels import Shifted

MARKS: tuple[Mark, ...] = (
    Text((10.0, 20.0), "words", turn=90.0, bold=True, fit=8.0),
    Polyline(np.array([[0.0, 0.0], [30.0, 0.0], [30.0, 40.0]]), "cut", closed=True),
    Circle((5.0, 6.0), 2.0, "thin"),
    Arc((1.0, 2.0), 3.0, 45.0, -90.0, "fine"),
    FilledRegion((((0.0, 0.0), (4.0, 0.0), (0.0, 4.0)), ((1.0, 1.0), (2.0, 1.0), (1.0, 2.0)))),
)


class Recorder:
    """Notes which method was called with what."""

    def __init__(self) -> None:
        self.calls: list[tuple[str, Any]] = []

    def __getattr__(self, name: str) -> Any:
        return lambda mark: self.calls.append((name, mark))


def test_every_kind_has_its_method_and_the_order_is_kept() -> None:
    backend = Recorder()
    draw(MARKS, backend)  # type: ignore[arg-type]  # its methods are made when they are asked for
    assert [name for name, _ in backend.calls] == ["text", "polyline", "circle", "arc", "region"]
    assert all(given is mark for (_, given), mark in zip(backend.calls, MARKS, strict=True))


def test_what_is_no_mark_is_an_error() -> None:
    with pytest.raises(TypeError, match="str is no mark"):
        draw(["cut"], Recorder())  # type: ignore[arg-type,list-item]


def test_shifted_marks_keep_all_but_their_place() -> None:
    shifted = Shifted(100.0, -50.0)
    draw(MARKS, shifted)
    text, chain, circle, arc, region = shifted.marks
    assert text == Text((110.0, -30.0), "words", turn=90.0, bold=True, fit=8.0)
    assert isinstance(chain, Polyline)
    assert (chain.pen, chain.closed) == ("cut", True)
    assert [tuple(p) for p in chain.points] == [(100.0, -50.0), (130.0, -50.0), (130.0, -10.0)]
    assert circle == Circle((105.0, -44.0), 2.0, "thin")
    assert arc == Arc((101.0, -48.0), 3.0, 45.0, -90.0, "fine")
    assert isinstance(region, FilledRegion)
    assert region.loops[1] == ((101.0, -49.0), (102.0, -49.0), (101.0, -48.0))
