# SPDX-License-Identifier: LGPL-2.1-or-later

"""The verdicts' words, spot by spot. The rule is the house's own: no source outside."""

from __future__ import annotations

from dataclasses import replace

from freecad_stacklam.lamination.findings.deep import DeepFindings, WeakSpot
from freecad_stacklam.lamination.stress.checks import deep_checks

SPOT = WeakSpot((30.0, 0.0, 200.0), "Post", 5, "across the grain", 0.3, 1.65, 5.5, False, "sitting down hard",
                (100.0, 0.0, 450.0), (0.0, 0.0, -1300.0), "R up")  # fmt: skip
STRONG = replace(SPOT, kind="along the grain", scatter_known=True, strength=105.0)


def test_across_the_grain_is_never_better_than_a_caution() -> None:
    (check,) = deep_checks(DeepFindings(spots=(SPOT,)), "mm")
    assert check.verdict == "caution" and "30 %" in check.says and "layer 5 of Post" in check.says
    assert "holds" not in check.says


def test_it_holds_only_below_half_of_a_strength_whose_scatter_is_known() -> None:
    assert deep_checks(DeepFindings(spots=(STRONG,)), "mm")[0].verdict == "ok"
    assert deep_checks(DeepFindings(spots=(replace(STRONG, index=0.5),)), "mm")[0].verdict == "caution"
    short, told = deep_checks(DeepFindings(spots=(STRONG,), untried="It was late."), "mm")
    assert short.verdict == told.verdict == "caution" and told.says == "It was late." and "holds" not in short.says
    stopped, unfinished = deep_checks(DeepFindings(spots=(STRONG,), stopped=True), "mm")
    assert stopped.verdict == "caution" and "stopped" in unfinished.says


def test_more_than_it_can_hold_is_said_in_plain_words() -> None:
    (check,) = deep_checks(DeepFindings(spots=(replace(SPOT, index=1.2),)), "mm")
    assert check.verdict == "stop" and check.limit == 0.25 and "do not let anyone sit" in check.says
    # What is read in a sharp inner corner is no strength, and asks for care only.
    (check,) = deep_checks(DeepFindings(spots=(replace(SPOT, index=1.2, corner=True),)), "mm")
    assert check.verdict == "caution" and "inner corner" in check.says
    assert "1.7 times as thick" in check.says  # (1.2 / 0.25)^(1/3) = 1.687


def test_both_kinds_are_told_and_the_worse_rings_count() -> None:
    findings = DeepFindings(spots=(SPOT, STRONG), other_rings=replace(SPOT, index=0.6, rings="T up"),
                            without_tenon=replace(SPOT, index=0.9))  # fmt: skip
    across, along = deep_checks(findings, "mm")
    assert across.figure == 0.6 and along.figure == 0.3
    assert "Without its tenons it would be 90 %" in across.says
    assert findings.worst is not None and findings.worst.rings == "T up"


def test_what_was_refused_is_told_in_the_makers_units() -> None:
    (check,) = deep_checks(DeepFindings(refused="No wood there."), "in")
    assert check.verdict == "caution" and check.says == "No wood there."
    assert " in" in deep_checks(DeepFindings(spots=(SPOT,)), "in")[0].says


def test_more_than_a_quarter_of_a_strength_of_unknown_scatter_is_weak() -> None:
    """As the sections judge it: one of them must not call a place weak where the other finds nothing."""
    (weak,) = deep_checks(DeepFindings(spots=(replace(SPOT, index=0.49),)), "mm")
    assert weak.verdict == "caution" and weak.limit == 0.25
    assert weak.says.startswith("Weak ") and "Nothing weak" not in weak.says
    (quiet,) = deep_checks(DeepFindings(spots=(replace(SPOT, index=0.24),)), "mm")
    assert quiet.says.startswith("Nothing weak found")
