"""Sheets onto paper or into files. Qt is reached through qt_binding alone."""
