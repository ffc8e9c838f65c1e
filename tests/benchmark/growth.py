"""What more rows cost: a folder of one's own that holds the shipped families again and again."""

import os
import re
import tempfile
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from unittest import mock

from identify.knowledge.loading import load_knowledge
from identify.knowledge.table_files import data_dir
from identify.model.catalogue import Catalogue
from identify.model.reading import Reading
from identify.reasoning.engine import Engine, Situation
from identify.reasoning.lockstep import alone
from tests.benchmark.starts import SAMPLE, Figure, ms
from tests.benchmark.stopwatch import COMMAND, EMPTY_APP, each, first_frame, interleaved, python

EDITED = 2_900  # rows of the tables in which one row is edited
Sheet = tuple[Reading, ...]
FIGURES = 5  # of one number of rows
SHEETS = 41  # samples ranked with them


def growth(rows: int, catalogue: Catalogue, sheets: Sequence[Sheet]) -> Iterator[Figure]:
    """Yield what so many rows cost: an edit and a start, a start, a first frame, a verdict.

    Args:
        rows: How many, those of the tables included.
        catalogue: The shipped tables.
        sheets: Samples to be ranked.
    """
    with tempfile.TemporaryDirectory() as home:
        folder = Path(home, "own")
        shipped = len(catalogue.ends)
        total = shipped + copied(folder, catalogue, rows - shipped)
        start = (*COMMAND, "rank", "--tables", str(folder), *SAMPLE)
        python(*start, XDG_CACHE_HOME=home)
        family = next((folder / "ends").iterdir())
        family.write_text(family.read_text(encoding="utf-8") + "# edited\n", encoding="utf-8")
        edited = python(*start, XDG_CACHE_HOME=home)
        again = python(*start, XDG_CACHE_HOME=home)
        with mock.patch.dict(os.environ, {"XDG_CACHE_HOME": home}):
            ours = (*COMMAND, "ask", "--tables", str(folder))
            empty, frame = interleaved(
                3, lambda: first_frame(*EMPTY_APP), lambda: first_frame(*ours)
            )
            verdict, question = _ranked(folder, sheets[:SHEETS])
    what = f"with {total} rows"
    aim = "under 2 s" if rows == EDITED else ""
    yield f"edit a row and start {what}", ms(edited.processor), f"{edited.memory:.0f} MB", aim
    yield f"start again {what}", ms(again.processor), f"{again.memory:.0f} MB", ""
    against = f"{frame / empty:.2f} times an empty Textual app ({ms(empty)})"
    yield f"first frame {what}", ms(frame), against, "under 1.3 times, and what they take to load"
    yield f"one verdict {what}", ms(verdict), "with its next question", ""
    yield f"next question {what}", ms(question), "", ""


def _ranked(folder: Path, sheets: Sequence[Sheet]) -> tuple[float, float]:
    """Return the median time of a verdict, and of the choice of the next question in it [s]."""
    known = load_knowledge(folder)
    engine = Engine(known.catalogue, known.book, known.hazards, layout=known.layout)
    states = [engine.posterior(sheet) for sheet in sheets]
    first = each(
        lambda state: alone(engine.openings(state, Situation()).first(), engine.chooser.gains),
        states,
    )
    return each(engine.conclude, sheets), first


def copied(folder: Path, catalogue: Catalogue, rows: int) -> int:
    """Write the shipped families under other names, and return how many rows that makes.

    Args:
        folder: Is made, with `ends/` in it.
        catalogue: The shipped tables.
        rows: At least so many are written.
    """
    (folder / "ends").mkdir(parents=True)
    sizes = Counter(end.family for end in catalogue.ends)
    files = sorted(
        (file.name.removesuffix(".yaml"), file.read_text(encoding="utf-8"))
        for file in data_dir("thread_tables").joinpath("ends").iterdir()
        if file.name.endswith(".yaml")
    )
    written = copy = 0
    while written < rows:
        copy += 1
        for family, text in files:
            if written >= rows:
                break
            own = f"{family}_{copy}"
            text = re.sub(rf"^family: {family}$", f"family: {own}", text, flags=re.MULTILINE)
            text = re.sub(rf"\b{family}:(?=[a-zA-Z0-9])", f"{own}:", text)
            (folder / "ends" / f"{own}.yaml").write_text(text, encoding="utf-8")
            written += sizes[family]
    return written
