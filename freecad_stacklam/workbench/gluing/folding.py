# SPDX-License-Identifier: LGPL-2.1-or-later

"""The fold of the glue-up's panel, which all panels have now."""

from __future__ import annotations

from freecad_stacklam.workbench.panelparts.folding import Folding

__all__ = ["Folding"]
