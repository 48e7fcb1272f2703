# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sheets onto paper or into files. Qt is reached through qt_binding alone."""
