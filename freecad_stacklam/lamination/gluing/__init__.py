# SPDX-License-Identifier: LGPL-2.1-or-later

"""The glue-up: set-ups in their order, each within its clock, its clamps and the arms that lift it."""
