"""One sheet at work: what was typed, what follows from it now, and where it is kept."""

from collections.abc import Mapping
from functools import cached_property
from pathlib import Path
from typing import Any, Protocol

from identify.errors import RecordError
from identify.sheets.belonging import findings
from identify.sheets.filling import Filled, fill, read_entry
from identify.sheets.finding import Finding, Grade
from identify.sheets.known import SheetKnowledge
from identify.sheets.results import changes, made_with_other, sheet_object
from identify.sheets.working import Worked, work_out

_NAMES_A_PART = {
    "a.end": "a.known", "b.end": "b.known", "a.port": "a.port_known", "b.port": "b.port_known",
}  # fmt: skip


class Keeper(Protocol):
    """Keeps the object of a sheet."""

    def keep(self, sheet: dict[str, Any]) -> Path:
        """Write it and say where; a `RecordError` says why it could not be."""


class Draft:
    """Texts by path, with all that follows from them, worked out when it is first asked for."""

    def __init__(self, texts: Mapping[str, str], known: SheetKnowledge) -> None:
        self.texts, self.known = texts, known

    @cached_property
    def filled(self) -> Filled:
        """The sheet, and what could not be read."""
        return fill(self.texts, self.known)

    @cached_property
    def worked(self) -> Worked:
        """What follows from it."""
        return work_out(self.filled.sheet, self.known)

    @cached_property
    def found(self) -> tuple[Finding, ...]:
        """What does not belong together or is open."""
        return findings(self.worked, self.known)


class Desk:
    """The running sheet; every entry is kept as it is made, so that nothing typed is lost.

    Where it cannot be kept the work goes on: `trouble` then says why. `path` is where it was kept.

    Args:
        known: Tables and rules.
        texts: What was entered before.
        keeper: Keeps it.
        kept: The object as it was kept last, None for a sheet that nobody kept; `since` holds what
            comes out otherwise, `other_tables` tells whether tables or rules are others.
    """

    def __init__(
        self,
        known: SheetKnowledge,
        texts: Mapping[str, str],
        keeper: Keeper,
        kept: Mapping[str, Any] | None = None,
    ) -> None:
        self.known, self.keeper = known, keeper
        self.draft = Draft(dict(texts), known)
        self.trouble = ""
        self.path: Path | None = None
        now = self.object
        self.since = changes(kept, now, self.draft.worked) if kept else ()
        self.other_tables = made_with_other(kept, now) if kept else False

    @property
    def object(self) -> dict[str, Any]:
        """The sheet as it is kept, as plain values."""
        return sheet_object(self.draft.worked, self.draft.found, self.known.made_with)

    def tell(self, path: str, text: str) -> tuple[Finding, ...]:
        """Take an entry, "" takes it back; return the findings that were not there before.

        Who names another end has not said how that one is known.

        Raises:
            WhichendError: The text cannot be read; nothing is changed then.
        """
        text = text.strip()
        if text:
            read_entry(path, text, self.known)
        texts = {at: each for at, each in self.draft.texts.items() if at != path}
        if path in _NAMES_A_PART and text != self.draft.texts.get(path):
            texts.pop(_NAMES_A_PART[path], None)
        if text:
            texts[path] = text
        before = set(map(_told_by, self.draft.found))
        self.draft = Draft(texts, self.known)
        self.keep()
        return tuple(each for each in self.draft.found if _told_by(each) not in before)

    def keep(self) -> None:
        """Keep the sheet as it is."""
        try:
            self.path = self.keeper.keep(self.object)
            self.trouble = ""
        except RecordError as error:
            self.trouble = str(error)


def _told_by(finding: Finding) -> str:
    """Return by what a finding is known again; what is open stays so while its list shortens."""
    return finding.key if finding.grade is Grade.OPEN else finding.what
