# SPDX-License-Identifier: LGPL-2.1-or-later

"""A year in the room: how moisture moves in the finished piece, what moves with it, when to cut, glue and deliver."""
