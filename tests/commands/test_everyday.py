"""The everyday words of every command, read without `argparse`, against `argparse` itself."""

from importlib import import_module

import pytest

from identify.commands.everyday import Everyday
from identify.commands.parser import parser_of
from identify.entry import COMMANDS, module_of

WORDS = [
    "rank gender=male thread_od=20mm", "rank --json gender=male", "rank gender=male --full", "rank",
    "show flare37:-8:male", "show JIC 8 male --json", "compare a b", "compare a b --json", "ask",
    "ask --plain", "ask --new", "ask --plain --new", "rank --json --full a=b", "find JIC 8",
    "confirm a gender=male", "tables", "tables flare37",
]  # fmt: skip
LEFT = [
    "rank --limit 3 gender=male", "rank -h", "rank --js gender=male", "rank -- a=b", "rank a=b -8",
    "ask --new --resume", "ask --resume --plain --new", "compare a", "compare a b c", "show",
    "ask word", "tables check folder", "rank --prior=even a=b",
]  # fmt: skip


@pytest.mark.parametrize("line", WORDS)
def test_everyday_words_are_read_as_argparse_reads_them(line: str) -> None:
    name, *words = line.split()
    command, everyday = import_module(f"identify.commands.{name}"), Everyday()
    command.add_arguments(everyday)
    told = everyday.read(words)
    if told is None:
        assert name == "tables", "its folder is a path"
        return
    full = parser_of(name, command.add_arguments).parse_intermixed_args(words)
    assert vars(told) == vars(full)


@pytest.mark.parametrize("line", LEFT)
def test_what_is_not_known_at_once_is_left_to_argparse(line: str) -> None:
    name, *words = line.split()
    everyday = Everyday()
    import_module(f"identify.commands.{name}").add_arguments(everyday)
    assert everyday.read(words) is None


def test_every_command_can_be_declared() -> None:
    for name in COMMANDS:
        verbs = getattr(import_module(module_of(name)), "VERBS", None)
        for module in (module_of(name, verb) for verb in verbs) if verbs else [module_of(name)]:
            import_module(module).add_arguments(Everyday())
