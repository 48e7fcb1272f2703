# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Job object: what holds for the whole document, such as its title and units. A document needs no more than one."""

from __future__ import annotations

from freecad_stacklam.docobjects.base.properties import Property
from freecad_stacklam.docobjects.base.protocols import JobObject
from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.rowproperties import properties_of
from freecad_stacklam.docobjects.base.woods import own_woods_in
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.words import mark

UNITS = ("mm", "in")


class Job(Proxy):
    """Title and paper of a job. The name of this class is written in users' files and never changes."""

    KIND = "job"
    PROPERTIES = (
        *properties_of(Settings),
        Property(
            "StringList", "Woods", "Woods",
            mark('Woods of your own, one a line: {name = "pear", specific_gravity = 0.65, tension_across = 6}'),
        ),
    )  # fmt: skip

    def compute(self, obj: JobObject) -> None:
        """A line that is no wood is the job's error."""
        own_woods_in(obj.Document)
