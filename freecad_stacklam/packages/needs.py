# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which Python packages are needed, from which version on, and for what."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Need:
    """One package: the name it is imported by, the name pip knows, and the least version that will do."""

    module: str
    package: str
    least: tuple[int, ...]
    #: Whether it comes with FreeCAD: another one beside it would break what FreeCAD was built with.
    is_freecads: bool = False

    @property
    def requirement(self) -> str:
        """As pip reads it, such as shapely>=2.1."""
        return f"{self.package}>={number(self.least)}"


def number(version: tuple[int, ...]) -> str:
    """A version as it is written, such as 2.1."""
    return ".".join(map(str, version))


#: Without these nothing can be sliced.
PLANNING = (
    Need("numpy", "numpy", (1, 24), is_freecads=True),
    Need("shapely", "shapely", (2, 1)),
)
#: Without these no DXF is written; the last three because ezdxf itself does not load without them.
DXF = (
    Need("typing_extensions", "typing_extensions", (4, 6)),
    Need("pyparsing", "pyparsing", (3, 0)),
    Need("fontTools", "fonttools", (4, 38)),
    Need("ezdxf", "ezdxf", (1, 1)),
)
