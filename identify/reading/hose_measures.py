"""What a person measures and counts on a hose: bore, outside, layers."""

from identify.errors import ReadingError, near_miss, quoted
from identify.light import re
from identify.model.hose import HoseMeasures, LayerKind, Measured
from identify.model.reading import How
from identify.reading.manner import split_how
from identify.reading.numbers import clean
from identify.reading.units import parse_length

LAYER_WORDS = {
    "wire braid": LayerKind.WIRE_BRAID, "braid": LayerKind.WIRE_BRAID,
    "braids": LayerKind.WIRE_BRAID, "wire braids": LayerKind.WIRE_BRAID,
    "wire": LayerKind.WIRE_BRAID, "spiral": LayerKind.WIRE_SPIRAL,
    "spirals": LayerKind.WIRE_SPIRAL, "wire spiral": LayerKind.WIRE_SPIRAL,
    "wire spirals": LayerKind.WIRE_SPIRAL, "textile": LayerKind.TEXTILE,
    "textiles": LayerKind.TEXTILE, "fabric": LayerKind.TEXTILE,
    "wire under cloth": LayerKind.WIRE_UNDER_CLOTH, "cloth": LayerKind.WIRE_UNDER_CLOTH,
    "bare braid": LayerKind.BARE_BRAID, "stainless braid": LayerKind.BARE_BRAID,
    "helix": LayerKind.OPEN_HELIX, "open helix": LayerKind.OPEN_HELIX,
}  # fmt: skip
_FORMS = '"2 wire braid", "4 spiral", "1 textile", "bare braid", "cloth" or "helix"'
MOST_LAYERS = 8
WIDEST_MM = 150.0


def parse_measures(bore: str = "", outside: str = "", layers: str = "") -> HoseMeasures:
    """Read what was measured on a hose, each empty where it was not.

    Args:
        bore: Such as "12.7 mm", "1/2 in by rule".
        outside: The same, over the cover.
        layers: Such as "2 wire braid", "4 spiral", "2", "textile".

    Raises:
        ReadingError: No length, no such layer, or an outside that is not above the bore.
    """
    inner = _length(bore, "bore") if bore else None
    outer = _length(outside, "outside") if outside else None
    if inner and outer and not outer.length.mm > inner.length.mm:
        raise ReadingError(
            f"The outside ({outer.entered}) is not above the bore ({inner.entered}); measure both "
            "again."
        )
    count, kind = parse_layers(layers) if layers else (None, None)
    return HoseMeasures(inner, outer, count, kind)


def _length(text: str, what: str) -> Measured:
    value, how = split_how(text)
    length = parse_length(value)
    if not 2 <= length.mm <= WIDEST_MM:
        raise ReadingError(
            f"{quoted(text)} is no {what} of a hose: those lie from 2 to {WIDEST_MM:g} mm."
        )
    return Measured(length, how or How.CALIPER, text.strip())


def parse_layers(text: str) -> tuple[int | None, LayerKind | None]:
    """Read number and kind of the layers: "2 wire braid", "4", "textile".

    Raises:
        ReadingError: Neither a number of layers nor a kind.
    """
    found = re.fullmatch(r"([0-9]+)?[ -]*([a-z -]+?)?(?: layers?)?", clean(text).lower())
    if not found or not (found[1] or found[2]):
        raise ReadingError(f"{quoted(text)} is no reinforcement; write {_FORMS}.")
    count = int(found[1]) if found[1] else None
    if count is not None and not 1 <= count <= MOST_LAYERS:
        raise ReadingError(f"{quoted(text)}: a hose has 1 to {MOST_LAYERS} layers.")
    word = (found[2] or "").replace("-", " ").strip()
    if word in ("", "layer", "layers", "ply", "plies"):
        return count, None
    if word not in LAYER_WORDS:
        raise ReadingError(
            f"{quoted(word)} is no kind of layer{near_miss(word, LAYER_WORDS)}; write {_FORMS}."
        )
    return count, LAYER_WORDS[word]
