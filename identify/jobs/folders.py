"""Where what must outlive a run is kept, by the custom of the system."""

from __future__ import annotations

import os
import sys

from identify.frozen import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path


def state_folder() -> str:
    """Return the folder for what must outlive a run, "" where no home is known.

    A variable that names no absolute folder is passed over, as its standard says.
    """
    told, home = (os.environ.get(name, "") for name in ("XDG_STATE_HOME", "HOME"))
    usual = sys.platform not in ("win32", "darwin") and "ANDROID_ROOT" not in os.environ
    if usual and told.startswith("/"):
        return f"{told.rstrip('/')}/whichend"
    if usual and home.startswith("/"):
        return f"{home.rstrip('/')}/.local/state/whichend"
    from platformdirs import user_state_path  # takes longer to import than a ranking takes

    try:
        folder = user_state_path("whichend", appauthor=False)
    except RuntimeError:  # no home, and no entry of this user in the system's list
        return ""
    return str(folder) if folder.is_absolute() else ""


def interviews_folder() -> str:
    """Return the folder of all jobs; "" where there is no place for them."""
    folder = state_folder()
    return os.path.join(folder, "interviews") if folder else ""  # noqa: PTH118


def folder_path(folder: str) -> Path | None:
    """Return a folder as a path, None for ""."""
    from pathlib import Path

    return Path(folder) if folder else None
