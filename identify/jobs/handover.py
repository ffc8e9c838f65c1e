"""The folder of what is handed over of jobs, where no file was named for it."""

from pathlib import Path

from identify.files import write_new


def handover_folder(folder: Path) -> Path:
    """Return where slips, labels, reports and sheets of a folder of jobs are laid."""
    return folder / "handover"


def lay_down(folder: Path, name: str, text: str) -> Path:
    """Write a file of a job, in place of the one before.

    Args:
        folder: Of all jobs.
        name: Begins with the reference of the job and a hyphen, so that it goes with the customer.
        text: Its content.

    Raises:
        OSError: It cannot be written; the one before is still there.
    """
    return lay_in(handover_folder(folder), name, text)


def lay_in(place: Path, name: str, text: str) -> Path:
    """Write a file of a folder that is made if it is not there, in place of the one before.

    Raises:
        OSError: It cannot be written; the one before is still there.
    """
    place.mkdir(parents=True, exist_ok=True, mode=0o700)
    fresh = place / f"{name}.new"
    fresh.unlink(missing_ok=True)
    write_new(fresh, [text])
    return fresh.replace(place / name)
