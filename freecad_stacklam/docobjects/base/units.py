# SPDX-License-Identifier: LGPL-2.1-or-later

"""A document's job, and the units that its sheets and sentences are written in."""

from __future__ import annotations

from freecad_stacklam.docobjects.base.protocols import Document, JobObject
from freecad_stacklam.objectkinds import kind_of


def job_in(document: Document) -> JobObject | None:
    """The document's job, or None."""
    return next((o for o in document.Objects if kind_of(o) == "job"), None)


def units_in(document: Document) -> str:
    """What a document's sheets and sentences are written in: "mm" or "in"."""
    job = job_in(document)
    return "mm" if job is None else str(job.Units)
