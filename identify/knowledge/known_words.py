"""Words that must be among the known ones; a near miss is met with the nearest."""

from collections.abc import Iterable

from identify.knowledge.fields import Fields, nearest
from identify.model.feature import Feature


def some(fields: Fields, key: str, options: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Return one text or a list of texts; with `options`, only those among them."""
    if not fields.has(key):
        return ()
    one = fields.data[key]
    words = (one,) if isinstance(one, str) else fields.texts(key)
    if not options:
        return words
    return tuple(word for word in words if known(fields, key, (word,), options, "answer"))


def known(
    fields: Fields, key: str, words: Iterable[str], options: tuple[str, ...], what: str
) -> bool:
    """Note a fault for every word that is no option; tell whether there was none."""
    unknown = [word for word in words if word not in options]
    for word in unknown:
        near = nearest(word, options) or f"; known: {', '.join(options[:12])}"
        fields.fault(key, f'"{word}" is no known {what}{near}')
    return not unknown


def filled(fields: Fields, key: str, words: tuple[str, ...]) -> tuple[str, ...]:
    """Note a fault if a list that must hold something is empty."""
    if not words:
        fields.fault(key, "is missing or empty")
    return words


def feature_named(fields: Fields, key: str) -> Feature | None:
    """Return the feature standing under `key`; None, with a fault, if there is no such feature."""
    name = fields.text(key)
    if not name or not known(fields, key, (name,), tuple(Feature), "feature"):
        return None
    return Feature(name)
