"""Words that must be among the known ones; a near miss is met with the nearest."""

from collections.abc import Iterable

from identify.knowledge.fields import Fields, nearest
from identify.model.feature import Feature


def some(
    fields: Fields, key: str, options: tuple[str, ...] = (), what: str = ""
) -> tuple[str, ...]:
    """Return one text or a list of texts; with `options`, only those among them.

    `what` says in messages what the options are, by default `key`.
    """
    if not fields.has(key):
        return ()
    one = fields.data[key]
    words = (one,) if isinstance(one, str) else fields.texts(key)
    if not options:
        return words
    return tuple(word for word in words if known(fields, key, (word,), options, what or key))


def known(
    fields: Fields, key: str, words: Iterable[str], options: tuple[str, ...], what: str
) -> bool:
    """Note a fault for every word that is no option; tell whether there was none.

    A word that is itself the key, or names the entry (no key), is not said twice.
    """
    unknown = [word for word in words if word not in options]
    for word in unknown:
        near = nearest(word, options) or f"; known: {', '.join(options[:12])}"
        said = "" if key in ("", word) else f'"{word}" '
        fields.fault(key, f"{said}is no known {what}{near}")
    return not unknown


def filled(fields: Fields, key: str, words: tuple[str, ...]) -> tuple[str, ...]:
    """Return `words`; a fault if the list they were read from holds nothing."""
    if not fields.data.get(key):
        fields.fault(key, "is missing or empty")
    return words


def feature_named(fields: Fields, key: str) -> Feature | None:
    """Return the feature standing under `key`; None, with a fault, if there is no such feature."""
    name = fields.text(key)
    if not name or not known(fields, key, (name,), tuple(Feature), "feature"):
        return None
    return Feature(name)
