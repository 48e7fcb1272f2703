# SPDX-License-Identifier: LGPL-2.1-or-later

"""JSON as RFC 8259 has it: no NaN and no infinity."""

from __future__ import annotations

import json
from math import inf, nan

from freecad_stacklam.lamination.findings.deep import DeepFindings, SurfaceMap
from freecad_stacklam.lamination.findings.finishing import Quote, QuoteLine
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.job.piecejson import piece_json

KEYS = {"weight", "strength", "strength_deep", "stability", "climate", "finish", "quote", "allowance_budget"}


def test_every_key_is_there_with_and_without_findings() -> None:
    for found in (None, PieceFindings()):
        facts = piece_json(found)
        assert set(facts) == KEYS
        assert set(facts.values()) == {None}


def test_records_are_told_by_their_fields_and_pictures_are_not() -> None:
    drawn = SurfaceMap(((0.0, 0.0, 0.0),), (0.5,))
    found = PieceFindings(
        deep=DeepFindings(influence=drawn, surface=drawn, balance=1 / 3, cells=12, notes=("a",)),
        quote=Quote((QuoteLine("wood", None, "2 rows"),), (), nan, inf),
    )
    facts = piece_json(found)
    assert facts["strength_deep"]["balance"] == 0.333333
    assert facts["strength_deep"]["notes"] == ["a"]
    assert not {"influence", "surface"} & set(facts["strength_deep"])
    assert facts["quote"]["lines"] == [{"what": "wood", "cost": None, "how": "2 rows"}]
    assert (facts["quote"]["markup"], facts["quote"]["total"]) == (None, None)
    json.dumps(facts, allow_nan=False)
