# SPDX-License-Identifier: LGPL-2.1-or-later

"""The Python packages that StackLam needs: whether they load, why not, and how they get into FreeCAD's own folder.

Nothing here needs any of them. `needs`, `looking`, `host` and `pipline` know no FreeCAD and no Qt.
"""
