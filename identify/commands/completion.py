"""`whichend completion SHELL`: what lets a shell complete commands and options."""

import argparse
from collections.abc import Mapping
from importlib import import_module

from identify.commands import COMMANDS, module_of
from identify.commands.parser import Declare, parser_of, whole

SHELLS = ("bash", "zsh", "tcsh")
_WHERE = """\
bash: whichend completion bash > ~/.local/share/bash-completion/completions/whichend
zsh:  whichend completion zsh > DIR/_whichend, where DIR is a folder of $fpath
tcsh: whichend completion tcsh > FILE, and "source FILE" in ~/.tcshrc"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.description = (
        "Print what lets a shell complete the commands and options of whichend, made from what the "
        "commands declare themselves."
    )
    parser.add_argument("shell", choices=SHELLS)
    parser.set_defaults(more_help=lambda: _WHERE)


def run(args: argparse.Namespace) -> int:
    """Print it."""
    import shtab

    parser = whole(parser_of("", lambda _: None), COMMANDS, declared)
    parser.prog = "whichend"
    print(shtab.complete(parser, shell=args.shell))
    return 0


def declared(name: str, verb: str = "") -> Declare | Mapping[str, str]:
    """Return what declares the options of a command, or the verbs that it has."""
    module = import_module(module_of(name))
    verbs: Mapping[str, str] = getattr(module, "VERBS", {})
    if verbs and not verb:
        return verbs
    found: Declare = import_module(module_of(name, verb)).add_arguments
    return found
