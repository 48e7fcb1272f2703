# SPDX-License-Identifier: LGPL-2.1-or-later

"""What every document object stands on: proxy, properties, migration, rows as properties, what is kept."""
