"""One module a command: `add_arguments(parser)` declares its options, `run(args)` does it.

`run` returns the exit status: 0 done, 2 what was typed or a table is at fault. Errors of the
person are `WhichendError`s and are printed by `entry`.
"""
