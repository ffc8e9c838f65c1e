"""A sheet in a YAML file -> its entries as texts, each with its line."""

from collections.abc import Mapping as Texts

from identify.errors import TableError
from identify.knowledge.yaml_reader import Mapping, Sequence, read_yaml, short

SCHEMA = "hose_sheet/1"


def read_sheet_file(text: str, name: str) -> tuple[dict[str, str], dict[str, int]]:
    """Return the entries of a sheet by path ("a.cut_off"), and the lines they stand on.

    A number counts as the text it is written as, a list as its entries with semicolons.

    Args:
        text: The file.
        name: Its name, for messages.

    Raises:
        TableError: No YAML, another schema, or a part that holds no entries; with every fault.
    """
    top = read_yaml(text, name)
    faults: list[str] = []
    if top.get("schema") != SCHEMA:
        line = top.lines.get("schema", top.line)
        faults.append(f'{name}:{line}: schema must be "{SCHEMA}".')
    texts: dict[str, str] = {}
    lines: dict[str, int] = {}
    for part in top:
        entries, at = top[part], top.lines[part]
        if part == "schema" or entries is None:
            continue
        if not isinstance(entries, Mapping):
            faults.append(
                f"{name}:{at}: {part} is {short(entries)}; write its entries indented below it."
            )
            continue
        for field, value in entries.items():
            path = f"{part}.{field}"
            lines[path] = entries.lines[field]
            said = _said(value)
            if said is None:
                faults.append(f"{name}:{lines[path]}: {path} is {short(value)}; write one text.")
            else:
                texts[path] = said
    if faults:
        raise TableError(*faults)
    return texts, lines


def _said(value: object) -> str | None:
    if value is None:
        return ""
    if isinstance(value, Sequence):
        parts = [_said(each) for each in value if not isinstance(each, Sequence)]
        known = [each for each in parts if each is not None]
        return "; ".join(known) if len(known) == len(value) else None
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return None
    return value if isinstance(value, str) else f"{value:g}"


def sheet_file(texts: Texts[str, str]) -> str:
    """Return entries by path as the YAML that `read_sheet_file` reads."""
    parts: dict[str, list[str]] = {}
    for path, text in texts.items():
        part, _, field = path.partition(".")
        parts.setdefault(part, []).append(f"  {field}: {_quoted(text)}")
    body = "".join(f"{part}:\n" + "\n".join(rows) + "\n" for part, rows in parts.items())
    return f"schema: {SCHEMA}\n{body}"


def _quoted(text: str) -> str:
    """Return a text in double quotes of YAML; what cannot be printed by its number."""
    signs = (f"\\{c}" if c in '"\\' else c if c.isprintable() else f"\\U{ord(c):08x}" for c in text)
    return f'"{"".join(signs)}"'
