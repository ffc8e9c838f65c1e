"""What slip, label and report share: in which form, and where to."""

import argparse
import json
from collections.abc import Callable, Mapping
from pathlib import Path

from identify.commands.jobs.shelves import add_reference, shelf
from identify.commands.options import add_knowledge_options, engine_of, path_of
from identify.commands.output import deliver
from identify.jobs.journal import Kept
from identify.jobs.saving import now_utc
from identify.model.rule import Moment
from identify.pages.blocks import Block, Picture, Table
from identify.pages.handed import Handed, handed
from identify.pages.handed_json import handed_json
from identify.pages.markdown import markdown_of
from identify.reasoning.engine import Engine
from identify.transliterate import inert

FORMS = ("text", "html", "markdown", "json")
ENDINGS = {".html": "html", ".htm": "html", ".md": "markdown", ".json": "json"}
Blocks = list[Block | Table | Picture]


def add_handing_options(parser: argparse.ArgumentParser) -> None:
    """Declare reference, `--as` and `--to`."""
    add_reference(parser)
    parser.add_argument(
        "--as", choices=FORMS, default="",
        help="form of it; not said, the ending of FILE tells, else it is text",
    )  # fmt: skip
    parser.add_argument(
        "--to", type=path_of, metavar="FILE", help="a new file; without it, standard output"
    )
    add_knowledge_options(parser)


def hand_over(
    args: argparse.Namespace,
    blocks: Callable[[Handed, Kept, Engine], Blocks],
    pages: Mapping[str, Callable[[Handed, Kept, Engine], str]],
) -> int:
    """Write a job in the form that is wanted.

    Args:
        args: What was typed.
        blocks: What makes its blocks, for Markdown.
        pages: What makes it as text and as HTML.
    """
    kept, engine = shelf().called(args.reference), engine_of(args)
    sheet = handed(kept.job, engine, args.tables, now_utc())
    form = vars(args)["as"] or ENDINGS.get(args.to.suffix.lower() if args.to else "", FORMS[0])
    if form in pages:
        text = pages[form](sheet, kept, engine)
    elif form == "json":
        cautions = engine.book.cautions_at(Moment.WORKSHOP)
        text = json.dumps(handed_json(sheet, cautions), ensure_ascii=False) + "\n"
    else:
        text = markdown_of(blocks(sheet, kept, engine))
    if deliver([inert(text)], args.to or Path("-"), "--to"):
        print(f"Written: {args.to}")
    return 0
