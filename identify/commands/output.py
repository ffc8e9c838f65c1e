"""Where a page goes that a command makes: to a file, or to standard output."""

import sys
from pathlib import Path

from identify.errors import RecordError


def deliver(page: str, path: Path, option: str, *, replace: bool = False) -> bool:
    """Write a page to a file, or to standard output if the file is called "-".

    Args:
        page: The whole text.
        path: Where to.
        option: The option that named the file, for the error message.
        replace: Whether a file of that name may be replaced.

    Returns:
        Whether there is a file now, and standard output is free to say so.

    Raises:
        RecordError: The file is there already, or cannot be written.
    """
    if str(path) == "-":
        sys.stdout.write(page)
        return False
    try:
        with path.open("w" if replace else "x", encoding="utf-8") as file:
            file.write(page)
    except FileExistsError:
        raise RecordError(
            f"{path} is there already. Delete it first, or name another file with {option}."
        ) from None
    except OSError as error:
        raise RecordError(
            f"{path} cannot be written ({error.strerror}). Name another file with {option}."
        ) from None
    return True
