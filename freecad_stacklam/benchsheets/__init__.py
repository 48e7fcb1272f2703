# SPDX-License-Identifier: LGPL-2.1-or-later

"""What is drawn for the bench: sheets of lines, arcs and texts in mm. No FreeCAD, no Qt, no files."""
