"""What both faces of the interview share, so that neither imports the other.

`snapshot` is what a face shows, `ask` the open question as it is put, `words` and `tools` names in
plain words and the tools asked for, `picture` the half-section in words, `keeper` the file of the
running interview. Nothing here knows how wide a screen is or how a line is typed.
"""
