# SPDX-License-Identifier: LGPL-2.1-or-later

"""The help pages of docs/help, shown inside FreeCAD by What's This, by F1 and by a command; no network is asked."""
