# SPDX-License-Identifier: LGPL-2.1-or-later

"""The form as FreeCAD knows it, and as arrays."""
