# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Job object: what holds for the whole document, such as its title and units. A document needs no more than one."""

from __future__ import annotations

from typing import Any

from freecad_stacklam.docobjects.base.properties import Property
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.views import kind_of
from freecad_stacklam.lamination.settings.job import Settings

UNITS = ("mm", "in")


class Job(Proxy):
    """Title and paper of a job. The name of this class is written in users' files and never changes."""

    KIND = "job"
    PROPERTIES = (
        Property("String", "Title", "Job", "Title on the drawings and the bill", "Stacked form"),
        Property("String", "Author", "Job", "Who made the drawings"),
        Property("String", "Date", "Job", "Date on the drawings, as you write it; empty: none"),
        Property("Enumeration", "Units", "Job", "Units on the drawings and in the bill", list(UNITS)),
        Property("String", "Paper", "Job", "Paper of the drawings: A4, Letter, A3 …", "A4"),
        Property("String", "PaperFull", "Job", "Paper of full-size templates, such as roll 610mm; empty: the same"),
    )


def job_in(document: Any) -> Any:
    """The document's job, or None."""
    return next((o for o in document.Objects if kind_of(o) == "job"), None)


def make_job(document: Any, settings: Settings) -> Any:
    """The document's job with these settings; made if there is none."""
    job = job_in(document)
    if job is None:
        job = document.addObject("App::FeaturePython", "Job")
        Job(job)
        job.Label = "Job"
    job.Title, job.Author, job.Date = settings.title, settings.author, settings.date
    job.Units, job.Paper, job.PaperFull = settings.units, settings.paper, settings.paper_full
    return job
