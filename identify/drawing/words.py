"""The same content as a drawing, in words: for screen readers, line mode and small windows."""

from identify.drawing.outline import Sheet


def describe(sheet: Sheet) -> str:
    """Return what a sheet shows, in sentences."""
    return " ".join(sentence.strip() for sentence in sheet.words if sentence.strip())
