# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sheets of what is found about the finished piece."""
