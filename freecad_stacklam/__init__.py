# SPDX-License-Identifier: LGPL-2.1-or-later

"""StackLam: sculpted furniture by stacked lamination, planned inside FreeCAD."""

__version__ = "0.1.0"
