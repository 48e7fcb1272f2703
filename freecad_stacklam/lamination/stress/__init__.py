# SPDX-License-Identifier: LGPL-2.1-or-later

"""The deep check of strength: the whole piece as an elastic body of small cells, under loads anywhere on it."""
