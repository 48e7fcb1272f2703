# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a sheet is made of: lines, arcs, texts and marks in mm, on paper."""
