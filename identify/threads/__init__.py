"""Limits of size from the standards' own formulas, one module a thread system.

Pure functions of numbers; nothing here opens a file. Each module states the standard, what was
computed from its formulas and what is a printed value. Results are millimetres.
"""
