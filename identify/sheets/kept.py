"""Sheets on the disk: read as texts by path, and kept as an object that can be gone on with."""

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from identify.errors import RecordError
from identify.files import read_regular, reason
from identify.frozen import NamedTuple
from identify.jobs.folders import folder_path, state_folder
from identify.jobs.handover import lay_in
from identify.knowledge.sheet_file import read_sheet_file

MOST_BYTES_OF_A_SHEET = 500_000


class Texts(NamedTuple):
    """Entries of a file by path, where each stands, and the object, None for a YAML file."""

    texts: dict[str, str]
    places: dict[str, str]
    kept: dict[str, Any] | None


def read_texts(path: Path) -> Texts:
    """Return what a file says, not yet read as values.

    Raises:
        RecordError: The file cannot be read.
        TableError: It is neither; with every fault and its line.
    """
    try:
        data, _ = read_regular(path, MOST_BYTES_OF_A_SHEET)
        text = data.decode("utf-8-sig")
    except OSError as error:
        raise RecordError(f"{path} cannot be read ({reason(error)}). Name a sheet.") from None
    except UnicodeDecodeError:
        raise RecordError(f"{path} is no text in UTF-8. Save it as UTF-8.") from None
    if (kept := _kept(text)) is not None:
        texts = _entered(kept)
        return Texts(texts, dict.fromkeys(texts, str(path)), kept)
    texts, lines = read_sheet_file(text, str(path))
    return Texts(texts, {at: f"{path}:{line}" for at, line in lines.items()}, None)


def _kept(text: str) -> dict[str, Any] | None:
    """Return the object that `--json` printed, None where the text is none."""
    if not text.lstrip().startswith("{"):
        return None
    try:
        found = json.loads(text)
    except (ValueError, RecursionError):
        return None
    return found if isinstance(found, dict) and "entered" in found else None


def _entered(kept: dict[str, Any]) -> dict[str, str]:
    entered = kept["entered"]
    pairs = entered.items() if isinstance(entered, dict) else ()
    return {path: text for path, text in pairs if isinstance(text, str)}


class KeptSheet(NamedTuple):
    """A sheet of no job: its file, what it is called, when it was written last."""

    path: Path
    reference: str
    when: str


def kept_sheets(folder: Path | None) -> list[KeptSheet]:
    """Return the sheets of a folder, those written last first; what is no sheet is passed by."""
    if folder is None or not folder.is_dir():
        return []
    found = []
    for path in folder.glob("*.json"):
        try:
            data, state = read_regular(path, MOST_BYTES_OF_A_SHEET)
        except OSError:
            continue
        kept = _kept(data.decode("utf-8", "replace"))
        if kept is not None:
            at = datetime.fromtimestamp(state.st_mtime, UTC)
            reference = _entered(kept).get("job.reference", "")
            found.append((at, KeptSheet(path, reference, f"{at:%Y-%m-%d at %H:%M} UTC")))
    return [each for _, each in sorted(found, key=lambda pair: pair[0], reverse=True)]


def sheets_folder() -> Path | None:
    """Return the folder of the sheets of no job, None where there is no place for them."""
    folder = folder_path(state_folder())
    return folder / "sheets" if folder else None


def new_sheet_file(folder: Path | None) -> "SheetFile":
    """Return where a new sheet is kept: a file of its own, made with the first entry."""
    if folder is None:
        return SheetFile(None)
    return SheetFile(folder / f"{datetime.now(UTC):%Y-%m-%d-%H%M%S-%f}.json")


class SheetFile:
    """Where a sheet of no job is kept; the file is made with the first entry.

    Args:
        path: The file, None where this machine has no place for one.
    """

    def __init__(self, path: Path | None) -> None:
        self.path = path

    def keep(self, sheet: dict[str, Any]) -> Path:
        """Write the object of the sheet, in place of the one before.

        Raises:
            RecordError: It cannot be written.
        """
        if self.path is None:
            raise RecordError("No home folder is known, so this sheet is not kept; set HOME.")
        text = json.dumps(sheet, ensure_ascii=False, indent=1) + "\n"
        try:
            return lay_in(self.path.parent, self.path.name, text)
        except OSError as error:
            raise RecordError(f"{self.path} cannot be written ({reason(error)}).") from None
