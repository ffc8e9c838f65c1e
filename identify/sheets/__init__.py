"""The sheet of a hose that is to be made: entries -> values -> what follows -> what does not fit.

Pure: whoever has the texts (a file, a dialogue, a job) gets a sheet and its page. `entries` is the
one list of what can be entered, `filling` reads it, `working` reckons, `belonging` checks.
"""
