"""One window an interview: a lock beside its file, held as long as it is open."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING
from identify.light import suppress

if TYPE_CHECKING:
    from pathlib import Path
    from typing import Any


class InUseError(Exception):
    """Another window, or another program, holds the lock."""


class Lock:
    """A lock on one file, free again when the process ends in whatever way.

    `trouble` says why there is none where the drive cannot lock, as some network drives; the
    interview goes on without.
    """

    def __init__(self, path: Path) -> None:
        """Take the lock.

        Raises:
            InUseError: It is held elsewhere.
        """
        from filelock import FileLock, Timeout  # slow to import, needed with the first answer

        self.path = _beside(path)
        self.trouble = ""
        self._held: Any = None
        lock = FileLock(str(self.path), timeout=0)
        try:
            lock.acquire()
        except Timeout:
            raise InUseError from None
        except (OSError, NotImplementedError, RuntimeError) as error:
            self.trouble = str(getattr(error, "strerror", None) or error)
        else:
            self._held = lock

    def release(self) -> None:
        """Let go of it, and take the lock file away."""
        if self._held is not None:
            self._held.release()
            with suppress(OSError):
                self.path.unlink()
        self._held = None


def in_use(path: Path) -> bool:
    """Tell whether a file is open in another window."""
    if not _beside(path).exists():
        return False
    try:
        Lock(path).release()
    except InUseError:
        return True
    return False


def _beside(path: Path) -> Path:
    return path.with_name(f"{path.name}.lock")
