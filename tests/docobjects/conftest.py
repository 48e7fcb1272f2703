# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the tests of document objects begin with."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest


@pytest.fixture
def document() -> Iterator[Any]:
    """An empty document that can undo; closed after the test, unless the test has closed it."""
    import FreeCAD

    found = FreeCAD.newDocument("Bench")
    found.UndoMode = 1
    name = found.Name
    yield found
    if name in FreeCAD.listDocuments():
        FreeCAD.closeDocument(name)
