# SPDX-License-Identifier: LGPL-2.1-or-later

"""Records out: what a plan is made of."""
