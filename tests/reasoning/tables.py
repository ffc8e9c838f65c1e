"""The shipped catalogue, read once for the tests of mating and lookalikes."""

from functools import cache

from identify.knowledge.build import build_catalogue
from identify.knowledge.table_files import data_dir
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.thread import Thread


@cache
def shipped() -> Catalogue:
    return build_catalogue([data_dir("thread_tables")])


def end(name: str) -> EndConnection:
    return shipped().by_id[name]


def thread(designation: str) -> Thread:
    return shipped().threads[designation]
