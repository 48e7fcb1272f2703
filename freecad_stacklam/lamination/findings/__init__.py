# SPDX-License-Identifier: LGPL-2.1-or-later

"""Records of what is found about the finished piece: loads, strength, standing, seasons, finish."""
