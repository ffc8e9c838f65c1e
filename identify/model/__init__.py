"""Frozen nouns: what is measured, what the standards say, what was concluded.

Nothing here computes a probability, opens a file or knows a screen. Lengths are millimetres and
end in `_mm`, angles degrees and end in `_deg`.
"""
