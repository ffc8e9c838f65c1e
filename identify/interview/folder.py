"""Where saved interviews and the crash log lie on this machine."""

from pathlib import Path


def state_folder() -> Path | None:
    """Return the folder for what must outlive a run, by the custom of the system.

    None where there is none: no home is known, or a variable names a folder that is not absolute.
    """
    from platformdirs import user_state_path  # comes with the screen library; slow to import

    try:
        folder = user_state_path("whichend", appauthor=False)
    except RuntimeError:  # no home, and no entry of this user in the system's list
        return None
    return folder if folder.is_absolute() else None


def interviews_folder() -> Path | None:
    """Return the folder of saved interviews, None where there is no place for them."""
    folder = state_folder()
    return folder / "interviews" if folder else None


def interview_path(folder: Path, begun: str, process: int) -> Path:
    """Return a file name for a new interview.

    Args:
        folder: Where interviews are kept.
        begun: When it began, UTC, as "2025-03-01T08:30:00Z".
        process: Number of this process, so that two begun in one second do not meet.
    """
    return folder / f"interview-{begun.replace(':', '').replace('-', '')}-{process}.jsonl"
