# SPDX-License-Identifier: LGPL-2.1-or-later

"""Work that takes longer than a blink, while the window goes on hearing the maker."""
