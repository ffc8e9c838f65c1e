"""The half-section of an end in words: the same content as the drawing."""

from identify.interview.snapshot import Reference
from identify.model.connection import EndConnection
from identify.model.feature import Feature


def picture_words(reference: Reference, end: EndConnection, ask: Feature | None = None) -> str:
    """Return the picture of an end in words, with the dimension that is asked for."""
    from identify.drawing.ends import half_section  # only where a picture is asked for

    return half_section(end, reference.catalogue.thread_of(end), ask).described
