"""Pure functions from a snapshot to lines of text; nothing here knows the terminal."""
