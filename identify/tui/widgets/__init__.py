"""Widgets that put lines of text on the terminal."""
