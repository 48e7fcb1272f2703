# SPDX-License-Identifier: LGPL-2.1-or-later

"""The finished piece as a whole. A block of white oak weighs its volume times 762 kg/m³ at 12 % (FPL-GTR-282 (2021),
Eq. 4-14 from a gravity of 0.68: 1000 × 0.68 × 1.12 = 761.6)."""

from __future__ import annotations

from dataclasses import replace

import pytest
import solids
from jobs import plan_job

from freecad_stacklam.data import climate_table, species_table
from freecad_stacklam.lamination.elastic.multigrid import Stopped
from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot
from freecad_stacklam.lamination.job import piece
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.job.piece import (
    DEEP,
    OPINION,
    YEAR,
    check_quickly,
    check_slowly,
    pending_of,
    piece_wanted,
    with_slow,
)
from freecad_stacklam.lamination.job.piececheck import piece_checks
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.usage.budget import BudgetSettings
from freecad_stacklam.lamination.usage.climate import ClimateSettings
from freecad_stacklam.lamination.usage.finish import FinishSettings
from freecad_stacklam.lamination.usage.rates import RateSettings
from freecad_stacklam.lamination.usage.use import UseSettings

BLOCK = Form("Block", solids.box(200.0, 200.0, 120.0))
ASKED = Settings(
    title="Block",
    stacks=(StackSettings(form="Block", stock=(40.0,), species="white oak"),),
    use=UseSettings(deep="none"),
)


def planned(settings: Settings = ASKED) -> Plan:
    return plan_job((BLOCK,), settings, species_table())


def test_what_is_asked_for_is_found_and_nothing_else() -> None:
    found = planned(replace(ASKED, finish=FinishSettings(), budget=BudgetSettings())).piece
    assert found is not None
    assert found.mass == pytest.approx(0.2 * 0.2 * 0.12 * 761.6, rel=1e-3)
    assert found.standing is not None and found.strength is not None
    assert found.finish is not None and len(found.budgets) == 1
    # 2 × 0.2 × 0.2 + 4 × 0.2 × 0.12 m²
    assert found.finish.area == pytest.approx(176_000.0, rel=1e-6)
    assert (found.deep, found.seasons, found.pending, found.quote) == (None, None, (), None)


def test_nothing_is_looked_at_where_nothing_is_asked() -> None:
    assert planned(replace(ASKED, use=None)).piece is None
    assert not piece_wanted(Settings())
    assert piece_wanted(replace(Settings(), climate=ClimateSettings()))


def test_the_quote_counts_the_whole_bill() -> None:
    plan = planned(replace(ASKED, rates=RateSettings(hour_price=40.0, layer_hours=0.5)))
    assert plan.piece is not None and plan.piece.quote is not None
    assert plan.piece.quote.total == pytest.approx(3 * 0.5 * 40.0)
    assert {row.item for row in plan.bill} >= {"work", "quote"}


def test_what_takes_long_is_pending_until_it_is_asked_for() -> None:
    settings = replace(ASKED, use=UseSettings(), climate=ClimateSettings(fineness="coarse"))
    assert pending_of(settings) == (DEEP, YEAR)
    plan = planned(replace(settings, use=None))
    assert plan.piece is not None and plan.piece.pending == (YEAR,)
    assert {c.name for c in plan.checks if c.verdict == "caution"} >= {YEAR}
    told: list[float] = []

    def tell(done: float, _: str) -> bool:
        told.append(done)
        return True

    asked = replace(settings, use=None)
    slow = check_slowly(plan, {"Block": BLOCK.mesh}, asked, species_table(), climate_table(), tell)
    assert slow is not None and slow.seasons is not None and slow.deep is None
    assert told == sorted(told) and told[0] >= 0.0 and told[-1] <= 1.0
    found = with_slow(check_quickly(plan, {"Block": BLOCK.mesh}, asked, species_table()), slow)
    assert found.pending == () and found.seasons is slow.seasons


def test_what_is_broken_off_gives_nothing() -> None:
    asked = replace(ASKED, use=None, climate=ClimateSettings(fineness="coarse"))
    plan = planned(asked)
    assert check_slowly(plan, {"Block": BLOCK.mesh}, asked, species_table(), climate_table(), lambda *_: False) is None


def test_a_part_that_cannot_be_found_takes_no_other_down() -> None:
    asked = replace(ASKED, use=None, climate=ClimateSettings(months="the moon"))
    plan = planned(asked)
    slow = check_slowly(plan, {"Block": BLOCK.mesh}, asked, species_table(), climate_table(), lambda *_: True)
    assert slow is not None and slow.seasons is None
    ((what, says),) = slow.left_out
    assert what == YEAR and "no climate “the moon”" in says


class Echo:
    """Programs that are not there; `told` hears what was asked of them."""

    def __init__(self) -> None:
        self.asked = 0

    def lacking(self) -> str:
        self.asked += 1
        return "Not on this machine."


def test_a_second_opinion_is_made_with_the_deep_check_and_takes_nothing_down(monkeypatch: pytest.MonkeyPatch) -> None:
    settings = replace(ASKED, use=UseSettings(second_opinion="worst"))
    assert pending_of(settings) == (DEEP, OPINION)
    spot = WeakSpot((0.0, 0.0, 0.0), "Block", 1, "across the grain", 0.3, 1.65, 5.5, False, "a guest", (0.0, 0.0, 0.0),
                    (0.0, 0.0, -1.0), "R up")  # fmt: skip
    monkeypatch.setattr(piece, "check_deep", lambda *_: DeepFindings(spots=(spot,)))
    plan = planned(replace(settings, use=None))
    rest = plan, {"Block": BLOCK.mesh}, settings, species_table(), climate_table()
    programs = Echo()
    slow = check_slowly(*rest, lambda *_: True, programs)  # type: ignore[arg-type]
    assert slow is not None and slow.deep is not None and slow.deep.second_opinion is not None
    assert slow.deep.second_opinion.refused == "Not on this machine." and programs.asked == 1
    found = with_slow(check_quickly(plan, {"Block": BLOCK.mesh}, settings, species_table()), slow)
    assert any(c.says == "Not on this machine." and c.verdict == "caution" for c in piece_checks(found))
    without = check_slowly(*rest, lambda *_: True)
    assert without is not None and without.deep is not None and without.deep.second_opinion is None

    def stopped(*_: object) -> None:
        raise Stopped

    monkeypatch.setattr(piece, "second_opinion", stopped)
    assert check_slowly(*rest, lambda *_: True, programs) is None  # type: ignore[arg-type]
