"""Going on with an end of a job that is kept, from whichever interview."""

from identify.interview.snapshot import Snapshot
from identify.jobs.course import Course
from identify.jobs.facts import Place, Reopened
from identify.jobs.journal import Kept, interview_of, read_job
from identify.jobs.shelf import weighable, written


def taken(
    course: Course, before: Snapshot, kept: Kept, place: Place, *, finished: bool
) -> Snapshot:
    """Return the interview on an end of a job; the running one is kept, and can be opened again.

    Args:
        course: Leads on.
        before: The running interview.
        kept: The job.
        place: Its end; nothing may have been measured of it yet.
        finished: The running interview need not be offered again.

    Raises:
        RecordError: The job is open elsewhere, or cannot be written on; nothing runs then.
    """
    course.close(before, finished=finished)
    with written(read_job(kept.path) or kept) as journal:
        journal.add(Reopened(), place=place)
    saved = interview_of(read_job(kept.path) or kept, place)
    return course.take_up(weighable(course.engine, saved))
