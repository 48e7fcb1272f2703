# SPDX-License-Identifier: LGPL-2.1-or-later

"""A whole piece as small cells: how much of each is wood, whose layer it is, and where the tenons are."""
