"""Where saved interviews and the crash log lie on this machine."""

from pathlib import Path


def state_folder() -> Path:
    """Return the folder for what must outlive a run, by the custom of the system."""
    from platformdirs import user_state_path  # comes with the screen library; slow to import

    return user_state_path("whichend", appauthor=False)


def interviews_folder() -> Path:
    """Return the folder of saved interviews."""
    return state_folder() / "interviews"


def interview_path(folder: Path, begun: str, process: int) -> Path:
    """Return a file name for a new interview.

    Args:
        folder: Where interviews are kept.
        begun: When it began, as "2025-03-01T08:30:00".
        process: Number of this process, so that two begun in one second do not meet.
    """
    return folder / f"interview-{begun.replace(':', '').replace('-', '')}-{process}.jsonl"
