"""Pictures to measure by: one vector outline in millimetres, several back ends.

`ends` builds a `Sheet` from the dimensions in the tables, `seat_detail` one that lays two
lookalikes over each other; `render` turns a sheet into lines of text, `svg` into a drawing to
scale; `Sheet.described` says the same in sentences.
"""
