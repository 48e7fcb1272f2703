# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a document gets of the maker's preferences when its first form is sliced: units and paper, and the shop."""

from __future__ import annotations

from freecad_stacklam.docobjects.base.family import shop_in, stacks_in
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.making.project import begin_job
from freecad_stacklam.workbench.fields import preferences
from freecad_stacklam.workbench.recorded import options_of, run


def begin_document(document: Document) -> None:
    """Give a document that holds nothing of ours yet the maker's units, paper and shop; part of the caller's undo
    step. A shop at its first values needs no object."""
    new = not stacks_in(document) and shop_in(document) is None
    begin_job(document, preferences.units(), preferences.paper())
    asked = options_of(preferences.shop())
    if new and asked:
        run("shop", "shop", document, **asked)
