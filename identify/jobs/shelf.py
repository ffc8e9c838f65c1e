"""The folder of all jobs: what is in it, and how one of them is written on."""

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from identify.errors import ReadingError, RecordError
from identify.frozen import replace
from identify.interview.session import Event, Observed, conclude, replay
from identify.jobs.anew import write_anew
from identify.jobs.facts import Discarded
from identify.jobs.handover import handover_folder
from identify.jobs.index import Index
from identify.jobs.job import Entry
from identify.jobs.journal import Journal, Kept, Saved, interviews_of, read_job
from identify.jobs.learning import counted
from identify.jobs.listing import Listed, searched
from identify.jobs.locks import InUseError, in_use
from identify.jobs.names import without_names
from identify.jobs.reference import meant_as_reference, reference_said
from identify.jobs.saving import job_path
from identify.model.learnt import Fitted
from identify.model.reading import Trial
from identify.reasoning.engine import Engine


class Shelf:
    """All jobs of a folder; the index is opened with the first question put to it.

    Args:
        folder: Of all jobs; there need be none yet.
        told: As for `Index`.
    """

    def __init__(self, folder: Path, told: Callable[[int], object] = lambda _: None) -> None:
        self.folder, self._told = folder, told
        self._index: Index | None = None

    @property
    def index(self) -> Index:
        """The index, brought up to date when it was first asked for."""
        if self._index is None:
            self._index = Index(self.folder, index_file(self.folder), told=self._told)
        return self._index

    def close(self) -> None:
        """Let go of the index, so that the next question finds what was written since."""
        if self._index is not None:
            self._index.close()
        self._index = None

    def kept(self, listed: Listed) -> Kept:
        """Return a job from its file.

        Raises:
            RecordError: It is gone, or cannot be read any more.
        """
        path = self.folder / listed.job
        found = read_job(path)
        if found is None:
            raise RecordError(f"{path} is gone, or cannot be read.")
        return found

    def called(self, reference: str) -> Kept:
        """Return the job of a reference that was typed or scanned.

        Raises:
            ReadingError: It is no reference.
            RecordError: No job has it.
        """
        name = reference_said(reference)
        found = self.index.referred(name)
        if not found:
            raise RecordError(
                f"No job {name} is kept here. Find it with: whichend jobs find WORDS."
            )
        return self.kept(found[0])

    def search(self, words: str, most: int, *, discarded: bool = False) -> list[Listed]:
        """Return the job of a reference that was typed or scanned, else jobs that words find.

        Args:
            words: Typed; all jobs if empty, the latest first.
            most: How many at most, -1 for all.
            discarded: Discarded jobs too; one that is named by its reference is found anyway.
        """
        if not words.strip():
            return self.index.latest(most, discarded=discarded)
        if meant_as_reference(words):
            with suppress(ReadingError):
                return self.index.referred(reference_said(words))
        return self.index.found(words, most, discarded=discarded)

    def take_in(self, reference: str, begun: str, entries: tuple[Entry, ...]) -> bool:
        """Make the file of a job that was exported; tell whether it was not here already.

        Raises:
            RecordError: Another job has its reference, or it cannot be written.
        """
        for listed in self.index.referred(reference):
            here = self.kept(listed)
            if (here.job.begun, here.entries) == (begun, entries):
                return False
            raise RecordError(f"{reference} is another job here, {here.path}; it stays as it is.")
        try:
            Journal.begin(
                job_path(self.folder, begun, reference), begun, entries, reference
            ).close()
        except FileExistsError:
            raise RecordError(f"{reference} was taken in already.") from None
        return True

    def of_customer(self, name: str) -> list[Kept]:
        """Return the jobs of a customer, those set aside too."""
        wanted = searched(name)
        listed = self.index.found(name, -1, discarded=True)
        paths = [self.folder / each.job for each in listed]
        paths += self.folder.rglob("*.jsonl.kept")
        found = (read_job(path) for path in paths)
        return [each for each in found if each and wanted and searched(each.job.customer) == wanted]

    def forget_customer(self, jobs: Iterable[Kept]) -> None:
        """Write jobs anew without the customer; the index is taken away, since it names him too.

        Raises:
            RecordError: One of them is open in another window, or cannot be written.
        """
        self.close()
        index_file(self.folder).unlink(missing_ok=True)
        for kept in jobs:
            for path in handover_folder(self.folder).glob(f"{kept.job.reference}-*"):
                path.unlink(missing_ok=True)
            write_anew(kept, without_names(kept.entries, shop=False))

    def fitted(self) -> dict[str, Fitted]:
        """Return what was fitted, by id of the end."""
        return counted(self.index.fitted())

    def unfinished(self) -> Iterator[Saved]:
        """Yield interviews that were broken off, latest first; not those open elsewhere."""
        for listed in self.index.unfinished():
            path = self.folder / listed.job
            if not in_use(path) and (kept := read_job(path)):
                yield from (each for each in interviews_of(kept) if not each.finished)


@contextmanager
def written(kept: Kept) -> Iterator[Journal]:
    """Open a job to write on, and close it again.

    Raises:
        RecordError: It is open elsewhere, or cannot be written on.
    """
    try:
        journal = Journal.go_on(kept)
    except InUseError:
        raise RecordError(
            f"{kept.job.reference} is open in another window; close it there first."
        ) from None
    try:
        yield journal
    finally:
        journal.close()


def discard(kept: Kept) -> None:
    """Mark a job as discarded.

    Raises:
        RecordError: As `written`.
    """
    with written(kept) as journal:
        journal.add(Discarded())


def index_file(folder: Path) -> Path:
    """Return where the index of a folder of jobs is kept."""
    return folder / "index" / "jobs.sqlite"


def unfinished(
    folder: Path | None, most: int = -1, told: Callable[[int], object] = lambda _: None
) -> tuple[Saved, ...]:
    """Return interviews that were broken off, latest first; those open elsewhere are left out.

    Args:
        folder: Of all jobs; None where there is none.
        most: How many at most; -1 for all.
        told: As for `Index`.
    """
    if folder is None or not folder.is_dir():
        return ()
    shelf = Shelf(folder, told)
    found: list[Saved] = []
    for saved in shelf.unfinished():
        if len(found) == most:
            break
        found.append(saved)
    shelf.close()
    return tuple(found)


def last_unfinished(
    engine: Engine,
    folder: Path | None,
    resume: bool | None,
    told: Callable[[int], object] = lambda _: None,
) -> Saved | None:
    """Return the last interview that was broken off, None if there is none.

    Args:
        engine: Tables and rules of today.
        folder: Where interviews are kept.
        resume: True if one must be there, False if none is wanted, None if one is to be offered.
        told: As for `Index`.

    Raises:
        RecordError: One must be there and is not.
    """
    found = () if resume is False else unfinished(folder, 1, told)
    if resume and not found:
        raise RecordError("There is no unfinished interview to go on with; leave out --resume.")
    return weighable(engine, found[0]) if found else None


def weighable(engine: Engine, saved: Saved) -> Saved:
    """Return a saved interview without trials on parts that these tables do not name.

    They count as lines that could not be read, so that nothing is written behind them.
    """
    kept = tuple(event for event in saved.events if not _trial(event))
    if len(kept) == len(saved.events):
        return saved
    try:
        conclude(engine, replay(saved.events))
    except ReadingError:
        return replace(saved, events=kept, unread=saved.unread + len(saved.events) - len(kept))
    return saved


def _trial(event: Event) -> bool:
    return isinstance(event, Observed) and isinstance(event.reading.value, Trial)
