# SPDX-License-Identifier: LGPL-2.1-or-later

"""Set-ups and rounds of the glue-up, their clocks and limits, the conditions of room and wood."""
