"""The line dialogue: numbered questions on standard input and output, for any terminal or script.

It says the same as the full screen and takes every sentence from `pages`.
"""
