# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Job object: what holds for the whole document, such as its title and units. A document needs no more than one."""

from __future__ import annotations

from freecad_stacklam.docobjects.base.proxy import Proxy
from freecad_stacklam.docobjects.base.rowproperties import properties_of
from freecad_stacklam.lamination.settings.job import Settings

UNITS = ("mm", "in")


class Job(Proxy):
    """Title and paper of a job. The name of this class is written in users' files and never changes."""

    KIND = "job"
    PROPERTIES = properties_of(Settings)
