"""Simulated parts, the people who measure them, and the best that anybody could make of it.

Practice draws its exercises from here and `tests/benchmark` its measurements of ourselves. For each
kind of value one module says what people type and how often they type it.

With `reasoning` it shares what is drawn: the prevalence of the rows, the mark of an end in no table
and the nominal bores of hoses. What a reading is worth it works out for itself.
"""
