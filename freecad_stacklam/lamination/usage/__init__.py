# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a piece goes through once it is made, as its maker sets it: use, climate, finish, cost."""
