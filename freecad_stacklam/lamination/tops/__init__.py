# SPDX-License-Identifier: LGPL-2.1-or-later

"""What of a piece is sat on, stood on or leant on: one finder for standing, sections and the deep check."""
