"""Before the first question: an interview broken off, the tools at hand, the state of the end."""

from identify.interview.journal import Saved
from identify.interview.session import replay
from identify.interview.tools import ASKED
from identify.model.rule import Access, Tool
from identify.plain import wording
from identify.plain.voice import Voice


def choose(voice: Voice, saved: Saved) -> bool:
    """Tell whether to go on with a saved interview.

    A script is not asked, because its first line is meant for a new interview.
    """
    if not voice.typed:
        voice.say(wording.kept(saved.begun))
        return False
    for line in wording.broken_off(saved.begun, replay(saved.events)):
        voice.say(line)
    voice.say("1  Go on where it stopped.")
    voice.say("2  Begin a new one; the old one is kept.")
    while (line := voice.hear()) not in ("1", "2"):
        voice.say("Type 1 or 2.")
    return line == "1"


def ask_tools(voice: Voice, tools: frozenset[Tool]) -> frozenset[Tool]:
    """Ask what is to hand; Enter keeps `tools`."""
    for line in wording.tools_asked(tools):
        voice.say(line)
    while True:
        numbers = voice.hear().replace(",", " ").split()
        if not numbers:
            return tools
        if all(each in _numbers(len(ASKED)) or each == "0" for each in numbers):
            return frozenset(ASKED[int(each) - 1] for each in numbers if each != "0")
        voice.say(f"Type numbers from 0 to {len(ASKED)} with a space between, or Enter.")


def ask_access(voice: Voice, access: Access) -> Access:
    """Ask how much of the end can be reached; Enter keeps `access`."""
    for line in wording.access_asked(access):
        voice.say(line)
    every = list(Access)
    while (line := voice.hear()) not in _numbers(len(every)):
        if not line:
            return access
        voice.say(f"Type a number from 1 to {len(every)}, or Enter.")
    return every[int(line) - 1]


def _numbers(count: int) -> list[str]:
    return [str(number) for number in range(1, count + 1)]
