"""What both faces of the interview share, so that neither imports the other.

`snapshot` is what a face shows, `ask` the open question as it is put, `words` and `tools` names in
plain words and the tools asked for, `picture` the half-section in words, `answer` a check against
what was answered before, `keeper` the file of the running interview, `written` the verdict as a
file to take along. Nothing here knows how wide a screen is or how a line is typed.
"""
