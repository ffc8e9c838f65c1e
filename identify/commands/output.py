"""Where output goes: pages to a file or to standard output, and all of it without escapes."""

from __future__ import annotations

import sys

from identify.errors import OutputError, RecordError
from identify.files import reason, write_new
from identify.frozen import TYPE_CHECKING
from identify.light import dumps
from identify.transliterate import inert, tolerate

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path
    from typing import Any, TextIO


class Edge:
    """The one way to a standard stream: what is written is inert, a failure is a sentence.

    All else is the stream's own.
    """

    def __init__(self, stream: TextIO, name: str) -> None:
        tolerate(stream)
        self._stream, self._name = stream, name

    def __getattr__(self, name: str) -> Any:
        return getattr(self._stream, name)

    def write(self, text: str) -> int:
        """Write text, made inert.

        Raises:
            BrokenPipeError: The reader has gone.
            OutputError: It cannot be written.
        """
        try:
            return self._stream.write(inert(text))
        except BrokenPipeError:
            raise
        except (OSError, ValueError) as error:
            raise self._failed(error) from None

    def over(self, text: str, end: str = "") -> None:
        """Write a line over the one that stands there; all but the way back to its start is inert.

        Raises:
            OutputError: It cannot be written.
        """
        try:
            self._stream.write(f"\r{inert(text)}{end}")
        except (OSError, ValueError) as error:
            raise self._failed(error) from None

    def writelines(self, parts: Iterable[str]) -> None:
        """Write text piece by piece; raises as `write`."""
        for part in parts:
            self.write(part)

    def flush(self) -> None:
        """Write what still waits; raises as `write`."""
        try:
            self._stream.flush()
        except BrokenPipeError:
            raise
        except (OSError, ValueError) as error:
            raise self._failed(error) from None

    def _failed(self, error: OSError | ValueError) -> OutputError:
        why = reason(error) if isinstance(error, OSError) else "it is closed"
        return OutputError(f"{self._name} cannot be written ({why}).")


def print_json(value: object) -> None:
    """Print a value as one line of JSON."""
    print(dumps(value))


def deliver(parts: Iterable[str], path: Path, option: str) -> bool:
    """Write text to a new file, or to standard output if the file is called "-".

    Args:
        parts: The text, piece by piece.
        path: Where to.
        option: The option that named the file, for the error message.

    Returns:
        Whether there is a file now, and standard output is free to say so.

    Raises:
        RecordError: The file is there already, or cannot be written.
    """
    if str(path) == "-":
        for part in parts:  # `writelines` of the stream would pass the edge by
            sys.stdout.write(part)
        return False
    try:
        write_new(path, parts)
    except FileExistsError:
        raise RecordError(
            f"{path} is there already. Delete it first, or name another file with {option}."
        ) from None
    except OSError as error:
        raise RecordError(
            f"{path} cannot be written ({reason(error)}). Name another file with {option}."
        ) from None
    return True
