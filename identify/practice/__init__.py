"""Exercises made from the tables and judged by the engine, and when each pair comes again.

The item is the pair of ends that is confused. What a trainee does is kept in a file that only
grows; all else (what is due, how hard it is, progress) is worked out from that file.
"""
