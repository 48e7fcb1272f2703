# SPDX-License-Identifier: LGPL-2.1-or-later

"""Records in: what the maker chooses, and the file that says it."""
