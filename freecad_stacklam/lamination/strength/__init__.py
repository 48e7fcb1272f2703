# SPDX-License-Identifier: LGPL-2.1-or-later

"""Whether a neck, a rim, an arm or a joint is weak: sections through the piece, what they carry, and what breaks."""
