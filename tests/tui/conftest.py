"""Screens must look the same whatever the tester's own terminal is set to."""

import os

for name in list(os.environ):
    if name in ("NO_COLOR", "FORCE_COLOR", "COLORTERM") or name.startswith("TEXTUAL"):
        del os.environ[name]  # read by the screen library when it is imported
os.environ["TERM"] = "xterm-256color"
