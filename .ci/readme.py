"""Bring the README's outputs up to date: `python .ci/readme.py` writes, `--check` only compares."""

import contextlib
import io
import re
import shlex
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))


def output_of(words: list[str]) -> str:
    """Return what a whichend command prints."""
    from identify.entry import main

    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        main(words)
    return printed.getvalue().rstrip("\n")


def with_output(match: re.Match[str]) -> str:
    """Return a console block with the present output of its command."""
    command = match["command"]
    return f"<!-- run -->\n```console\n$ {command}\n{output_of(shlex.split(command)[1:])}\n```\n"


def families() -> str:
    """Return the table of families: rows, support, second sources, rating."""
    from identify.knowledge.everything import load_knowledge

    catalogue = load_knowledge().catalogue
    lines = ["| family | ends | rows | best support | checked | pressure known |",
             "|---|---|--:|---|--:|--:|"]  # fmt: skip
    for family in catalogue.families.values():
        rows = [end for end in catalogue.ends if end.family == family.key]
        support = min((end.provenance.basis for end in rows), key=list(type(rows[0].provenance.basis)).index)
        checked = sum(bool(end.provenance.checked_against) for end in rows)
        rated = sum(end.rating.bar is not None for end in rows)
        guard = " (refused)" if family.refuse else ""
        lines.append(f"| `{family.key}` | {family.name}{guard} | {len(rows)} | {support} | {checked} | {rated} |")
    return "\n".join(lines)


def screen() -> str:
    """Return the interview as it looks at 80x24 after three answers."""
    from tests.tui.pictures import readme_screen

    return readme_screen()


def renewed(text: str) -> str:
    """Return the README with every generated part made anew."""
    text = re.sub(
        r"<!-- run -->\n```console\n\$ (?P<command>[^\n]*)\n.*?```\n", with_output, text, flags=re.S
    )
    for name, make in (("families", families), ("screen", screen)):
        block = f"<!-- {name} -->\n{make()}\n<!-- end -->\n"
        text = re.sub(rf"<!-- {name} -->\n(?:.*?<!-- end -->\n)?", lambda _m, b=block: b, text, flags=re.S)
    return text


def main() -> int:
    """Write or check the README."""
    path = ROOT / "README.md"
    old = path.read_text(encoding="utf-8")
    new = renewed(old)
    if "--check" in sys.argv:
        if new != old:
            print("README.md shows outputs that are no longer true; run: python .ci/readme.py")
        return int(new != old)
    path.write_text(new, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
