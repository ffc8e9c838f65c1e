"""What more rows cost: a folder of one's own that holds the shipped families again and again."""

import re
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from identify.knowledge.table_files import data_dir
from identify.model.catalogue import Catalogue
from tests.benchmark.starts import SAMPLE, Figure, ms
from tests.benchmark.stopwatch import COMMAND, python

EDITED = 2_900  # rows of the tables in which one row is edited
FIGURES = 2  # of one number of rows


def growth(rows: int, catalogue: Catalogue) -> Iterator[Figure]:
    """Yield what an edit and a start cost with so many rows, and a start when nothing was edited.

    Args:
        rows: How many, those of the tables included.
        catalogue: The shipped tables.
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
    what = f"with {total} rows"
    aim = "under 2 s" if rows == EDITED else ""
    yield f"edit a row and start {what}", ms(edited.processor), f"{edited.memory:.0f} MB", aim
    yield f"start again {what}", ms(again.processor), f"{again.memory:.0f} MB", ""


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
