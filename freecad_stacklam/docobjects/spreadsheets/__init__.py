# SPDX-License-Identifier: LGPL-2.1-or-later

"""Spreadsheets of a document: the rack and the bill."""
