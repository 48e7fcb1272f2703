# SPDX-License-Identifier: LGPL-2.1-or-later

"""The worst word that several checks say."""

from __future__ import annotations

from collections.abc import Iterable

from freecad_stacklam.lamination.plan.checks import Check

ORDER = ("ok", "caution", "stop")


def worst_of(checks: Iterable[Check]) -> str:
    """ "stop", "caution" or "ok"."""
    return max((c.verdict for c in checks), key=ORDER.index, default="ok")
