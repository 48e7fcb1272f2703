# SPDX-License-Identifier: LGPL-2.1-or-later

"""Rectangles onto boards: the arithmetic under the cutting plan, free of wood."""
