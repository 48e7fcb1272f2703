# SPDX-License-Identifier: LGPL-2.1-or-later

"""The drawing front: lines, arcs, texts and marks in mm, on paper."""
