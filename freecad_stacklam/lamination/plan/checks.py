# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on a plan."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Check:
    """One verdict. `verdict` is "ok", "caution" or "stop"; `says` is one sentence for the maker; `source` names the
    rule."""

    name: str
    verdict: str
    figure: float
    limit: float
    unit: str
    source: str
    says: str
