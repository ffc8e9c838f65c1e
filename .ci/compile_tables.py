"""Compiles tables and rules into the wheel, so that nobody's first start reads a thousand rows."""

import sys
import tempfile
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class Compiled(BuildHookInterface):  # type: ignore[type-arg]
    """Adds what `knowledge/compiled.py` would write into the cache of the first user."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Compile, unless the wheel only points to a checkout."""
        if version == "editable":
            return
        sys.path.insert(0, self.root)
        try:
            from identify.knowledge.loading import compiled_knowledge

            self.folder = tempfile.TemporaryDirectory()
            path = Path(self.folder.name, "knowledge.cache")
            path.write_bytes(compiled_knowledge())
            path.chmod(0o644)
        finally:
            sys.path.remove(self.root)
        build_data["force_include"][str(path)] = "identify/_data/knowledge.cache"

    def finalize(self, version: str, build_data: dict[str, Any], artifact_path: str) -> None:
        """Take away what was compiled; it lies in the wheel."""
        if version != "editable":
            self.folder.cleanup()
