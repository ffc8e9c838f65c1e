"""Saved interviews: every answer is on the disk before the screen says so."""
