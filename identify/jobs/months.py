"""Which files a folder of jobs holds: one folder a month, and files of old beside those."""

import os
from collections.abc import Collection, Iterator
from pathlib import Path

from identify.light import re

_MONTH = re.compile(r"[0-9]{4}-[0-9]{2}")
_JOB = re.compile(r"(?:job|interview)-[A-Za-z0-9-]+\.jsonl")


def folders_in(folder: Path, known: Collection[tuple[str, int]]) -> dict[str, int]:
    """Return the folders that may hold jobs, by name below `folder` ("" for itself).

    Args:
        folder: Of all jobs.
        known: Folders seen before, as they are returned; where `folder` itself is as it was then,
            it has the same months.

    Returns:
        When each was changed [ns]; empty where there is no such folder.
    """
    try:
        own = folder.stat().st_mtime_ns
        if ("", own) in known:
            names = [name for name, _ in known if name]
        else:
            with os.scandir(folder) as entries:
                names = [
                    each.name
                    for each in entries
                    if _MONTH.fullmatch(each.name) and each.is_dir(follow_symlinks=False)
                ]
    except OSError:
        return {}
    found = {"": own}
    for name in names:
        try:
            found[name] = (folder / name).stat().st_mtime_ns
        except OSError:  # gone meanwhile
            continue
    return found


def jobs_in(folder: Path) -> Iterator[tuple[Path, int, int, bool]]:
    """Yield the job files of one folder: path, size, time of change [ns], whether it has a lock.

    What is no regular file has size and time 0: whoever reads it finds nothing.
    """
    try:
        with os.scandir(folder) as entries:
            found = {each.name: each for each in entries}
    except OSError:
        return
    for name, entry in found.items():
        if not _JOB.fullmatch(name):
            continue
        try:
            state = entry.stat()
        except OSError:  # a link that leads nowhere, or gone meanwhile
            continue
        yield folder / name, state.st_size, state.st_mtime_ns, f"{name}.lock" in found
