"""Bring the README's outputs up to date: `python .ci/readme.py` writes, `--check` only compares."""

import argparse
import asyncio
import contextlib
import io
import re
import shlex
import sys
import tempfile
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING

ANSWERS = ("enter", "1", "1", "20.9", "enter", "10", "space", "18.1", "enter", "2")
# tools, access, male, thread OD, ten pitches, cone in
ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

if TYPE_CHECKING:
    from identify.reasoning.engine import Engine


def output_of(words: list[str]) -> str:
    """Return what a whichend command prints; "| head -n N" at its end is understood."""
    from identify.entry import main

    lines = None
    if "|" in words:
        bar = words.index("|")
        words, lines = words[:bar], int(words[-1])
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        main(words)
    return "\n".join(printed.getvalue().rstrip("\n").split("\n")[:lines])


def with_output(match: re.Match[str]) -> str:
    """Return a console block with the present output of its command."""
    command = match["command"]
    return f"<!-- run -->\n```console\n$ {command}\n{output_of(shlex.split(command)[1:])}\n```\n"


def twins() -> str:
    """Return the table of ends of different families that no measurement of the end separates."""
    from identify.commands.options import engine_of

    engine = engine_of(argparse.Namespace(tables=None, prior="usual", care=""))
    ends = engine.catalogue.ends
    found: dict[tuple[str, str, str], list[tuple[int, int]]] = {}
    for a, b in combinations(range(len(ends)), 2):
        families = ends[a].family, ends[b].family
        if families[0] != families[1] and engine.twins.same(a, b):
            found.setdefault((*families, ends[a].gender), []).append((a, b))
    lines = ["| ends | gender | sizes | what decides instead |", "|---|---|---|---|"]
    for (one, other, gender), pairs in sorted(found.items()):
        names = " and ".join(engine.catalogue.families[key].name for key in (one, other))
        sizes = dict.fromkeys(" = ".join(dict.fromkeys((ends[a].size, ends[b].size)))
                              for a, b in pairs)  # fmt: skip
        lines.append(f"| {names} | {gender} | {', '.join(sizes)} | {deciding(engine, pairs)} |")
    return "\n".join(lines)


def deciding(engine: "Engine", pairs: list[tuple[int, int]]) -> str:
    """Return what tells such ends apart, worked out from forms, mates, regions and sizes."""
    catalogue, weights = engine.catalogue, engine.book.priors.regions
    row_of = {end.id: row for row, end in enumerate(catalogue.ends)}
    ends = [(catalogue.ends[a], catalogue.ends[b]) for a, b in pairs]
    one, other = ends[0]
    if one.refuse or other.refuse:  # a hint is no ground to handle such an end
        return "where it was fitted; if nobody knows, leave it alone"
    ways = []
    if all(("nut" in a.form) != ("nut" in b.form) for a, b in ends):
        ways.append("the eye: a loose nut, or not")
    mates = [[[row_of[mate.id] for mate in catalogue.mates_of(end)] for end in pair]
             for pair in ends]  # fmt: skip
    if all(a and b and not any(engine.twins.same(x, y) for x in a for y in b) for a, b in mates):
        ways.append("the mating part")
    if any(_lopsided(region, one.family, other.family) for region in weights.values()):
        ways.append("the origin of the machine, a weak hint")
    if all(a.size != b.size for a, b in ends):
        ways.append("a mark, if there is one")
    return "; ".join(ways) or "nothing: take the lower rating of the two"


def _lopsided(region: dict[str, float], one: str, other: str) -> bool:
    low, high = sorted((region.get(one, 1.0), region.get(other, 1.0)))
    return high >= 3 * low


def screen() -> str:
    """Return the interview as it looks at 80x24 after a few answers."""
    from identify.commands.options import engine_of
    from identify.jobs.saving import Autosave
    from identify.tui.app import Interview
    from tests.tui.stage import settle, text_of

    engine = engine_of(argparse.Namespace(tables=None, prior="usual", care=""))

    async def play(folder: str) -> str:
        app = Interview(engine, Autosave(Path(folder), draw=lambda: 20_000_000))
        async with app.run_test(size=(80, 24)) as pilot:
            for key in ANSWERS:
                await pilot.press(*(key if key[0].isdigit() and len(key) > 1 else (key,)))
                await settle(pilot)
            return text_of(app)

    with tempfile.TemporaryDirectory() as folder:
        return f"```text\n{asyncio.run(play(folder))}```"


def renewed(text: str) -> str:
    """Return the README with every generated part made anew."""
    text = re.sub(
        r"<!-- run -->\n```console\n\$ (?P<command>[^\n]*)\n.*?```\n", with_output, text, flags=re.S
    )
    for name, make in (("twins", twins), ("screen", screen)):
        end = f"<!-- end of {name} -->\n"
        block = f"<!-- {name} -->\n{make()}\n{end}"
        old = rf"<!-- {name} -->\n(?:.*?{end})?"
        text = re.sub(old, lambda _match, block=block: block, text, flags=re.S)
    return text


def main() -> int:
    """Write or check README and DEVELOPERS."""
    stale = 0
    for name in ("README.md", "DEVELOPERS.md"):
        path = ROOT / name
        old = path.read_text(encoding="utf-8")
        new = renewed(old)
        if new == old:
            continue
        if "--check" in sys.argv:
            print(f"{name} shows outputs that are no longer true; run: python .ci/readme.py")
            stale = 1
        else:
            path.write_text(new, encoding="utf-8")
    return stale


if __name__ == "__main__":
    sys.exit(main())
