"""One module a command: `add_arguments(parser)` declares its options, `run(args)` does it.

`run` returns the exit status: 0 done, 2 what was typed or a table is at fault. Errors of the
person are `WhichendError`s and are printed by `entry`.
"""

COMMANDS = {
    "ask": "the interview, which also starts when no command is given",
    "rank": "rank end connections for readings given as name=value",
    "find": "the ends that words of the trade name, such as JIC -8 male",
    "explain": "what a word of the trade means; lessons on families and lookalikes",
    "show": "show one end connection with all its figures",
    "compare": "two end connections side by side, and what happens when they meet",
    "confirm": "does a claimed identity stand against the readings?",
    "practice": "exercises on ends that are confused; progress of a trainee",
    "hose": "what a hose is, by its printed line or by bore, outside and layers",
    "sheet": "the sheet of a hose that is to be made: length, rating, checks, work",
    "jobs": "list, find, open, correct and hand on what was measured before",
    "doctor": "versions, paths, tables and terminal; what is wrong with them",
    "completion": "print what lets a shell complete commands and options",
    "tables": "list families, sizes and sources; check tables",
    "gauges": "write a printable page of pitch combs and seat angles",
}
"""Each is a module of this room, imported only when it is asked for."""


def module_of(name: str, verb: str = "") -> str:
    """Return the module of a command, or of a verb of it, which may be a word Python keeps."""
    if not verb:
        return f"identify.commands.{name}"
    from keyword import iskeyword

    return f"identify.commands.{name}.{verb.replace('-', '_')}{'_' * iskeyword(verb)}"
