"""Screens: which lines, which keys."""
