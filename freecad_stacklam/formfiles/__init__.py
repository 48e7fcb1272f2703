# SPDX-License-Identifier: LGPL-2.1-or-later

"""Files with forms, read without FreeCAD."""
