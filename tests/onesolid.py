# SPDX-License-Identifier: LGPL-2.1-or-later

"""The one solid or mesh of an object, for tests of forms."""

from __future__ import annotations

from typing import Any


def solid_of(obj: Any, sub: str = "") -> tuple[str, Any]:
    """Its label and the form; fails where there are several."""
    from freecad_stacklam.docobjects.forms.form import solids_of

    (one,) = solids_of(obj, sub)
    return one
