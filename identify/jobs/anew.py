"""A job file that is replaced, so that what it said is gone: the one way in which it shrinks."""

from identify.errors import RecordError
from identify.files import reason
from identify.jobs.job import Entry
from identify.jobs.journal import Journal, Kept
from identify.jobs.lines import keep_name
from identify.jobs.locks import InUseError, Lock


def write_anew(kept: Kept, entries: tuple[Entry, ...]) -> None:
    """Replace the file of a job by one with other steps; what could not be read in it is gone.

    Raises:
        RecordError: It is open in another window, or cannot be written; it is as it was then.
    """
    path = kept.path
    try:
        lock = Lock(path)
    except InUseError:
        raise RecordError(f"{path} is open in another window; close it there first.") from None
    fresh = path.with_name(f"{path.name}.new")
    try:
        fresh.unlink(missing_ok=True)
        Journal.begin(fresh, kept.job.begun, entries, kept.job.reference).close()
        fresh.replace(path)
        keep_name(path.parent)
    except OSError as error:
        raise RecordError(f"{path} cannot be written anew ({reason(error)}).") from None
    finally:
        lock.release()
