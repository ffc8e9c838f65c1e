"""Simulated parts, the people who measure them, and the best that anybody could make of it.

Practice draws its exercises from here and `tests/benchmark` its measurements of ourselves.
"""
