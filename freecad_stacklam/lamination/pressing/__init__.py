# SPDX-License-Identifier: LGPL-2.1-or-later

"""What presses on what: seats of pads, what reaches a glue line, and what helps where too little does."""
