# SPDX-License-Identifier: LGPL-2.1-or-later

"""A second opinion on the deep check: the same piece and load, reckoned by another program on another mesh."""
