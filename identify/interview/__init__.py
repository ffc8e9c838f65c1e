"""What both faces of the interview share, so that neither imports the other.

`session` is the interview as events, `snapshot` what a face shows with the open question, `answer`
what was typed as a reading, `habits` what need not be asked. Nothing here knows how wide a screen
is or how a line is typed.
"""
