# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the maker sees in FreeCAD: commands, task panels, how objects look in the tree and the 3D view."""
