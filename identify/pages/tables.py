"""What the tables hold: families, the rows of one, sources, and what a search finds."""

from collections import Counter

from identify.errors import WhichendError, near_misses
from identify.light import Callable, Iterable, Iterator, Sequence
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Family
from identify.model.feature import FEATURES, SIZES
from identify.model.rulebook import RuleBook
from identify.model.source import Confidence, Source, Support
from identify.pages.blocks import BLANK, Block, Table, Tone, labelled
from identify.pages.words import end_words, several
from identify.reading.names import understand

MOST_LISTED = 90
Page = list[Block | Table]


def overview_blocks(catalogue: Catalogue) -> Page:
    """Return all families with counts, and how far the rows are supported."""
    rows = []
    for one in catalogue.families.values():
        ends = rows_of(catalogue, one)
        counts = len({end.size for end in ends}), len(ends), checked(ends)
        rows.append((one.key, *map(str, counts), _named(one)))
    return [
        Table(("family", "sizes", "rows", "checked", "name"), tuple(rows)),
        BLANK,
        Block(f"{counted(catalogue)}."),
        BLANK,
        *_support(catalogue.ends),
        BLANK,
        Block(
            '"checked": rows for which a second source was seen. '
            '"whichend tables FAMILY" lists its sizes, "whichend tables --sources" the sources.'
        ),
    ]


def counted(catalogue: Catalogue) -> str:
    """Return how much the tables hold."""
    return (
        f"{several(len(catalogue.families), 'family', 'families')}, "
        f"{several(len(catalogue.ends), 'row')}, {several(len(catalogue.threads), 'thread')}, "
        f"{several(len(catalogue.sources), 'source')}"
    )


def _named(family: Family) -> str:
    return f"{family.name} (do not handle)" if family.refuse else family.name


def rows_of(catalogue: Catalogue, family: Family) -> list[EndConnection]:
    """Return the rows of a family, in table order."""
    return [end for end in catalogue.ends if end.family == family.key]


def family_of(catalogue: Catalogue, words: str) -> Family:
    """Return a family by its key or by what the trade calls it.

    Raises:
        WhichendError: There is none, or the words name several; names them or the nearest.
    """
    if words in catalogue.families:
        return catalogue.families[words]
    try:
        meant = understand(catalogue, words)
    except WhichendError:
        meant = None
    if meant and meant.families and not meant.size and not meant.gender:
        if len(meant.families) == 1:
            return catalogue.families[meant.families[0]]
        choices = " or ".join(meant.families)
        raise WhichendError(f'"{words}" may be {choices}; write one of these.')
    near = near_misses(words.lower(), catalogue.families, 3, 0.4)
    hint = f" Nearest: {', '.join(near)}." if near else ""
    raise WhichendError(f'"{words}" is no family.{hint} "whichend tables" lists them.')


def family_blocks(catalogue: Catalogue, one: Family) -> Page:
    """Return one family: what it is, its forms, its rows."""
    ends = rows_of(catalogue, one)
    blocks: Page = [Block(f"{one.name} ({one.key})", Tone.HEAD)]
    refused = f"Do not handle this as a hydraulic end: {one.refuse}" if one.refuse else ""
    for text in (", ".join(one.standards), one.about, refused):
        if text:
            blocks += [BLANK, Block(text)]
    forms = dict.fromkeys(f"{end.form_key}: {end.form}; {end.seal}." for end in ends)
    blocks += [BLANK, *map(Block, forms)]
    sizes = [FEATURES[each].label.replace(" ", "\n") for each in SIZES]
    header = ("size", "form", "thread", "dash", "DN", *sizes, "bar", "support")
    return [
        *blocks,
        BLANK,
        Table(header, tuple(map(_row, ends))),
        BLANK,
        *_support(ends),
        BLANK,
        Block(f'All figures of one: "whichend show {ends[0].id}"'),
    ]


def _row(end: EndConnection) -> tuple[str, ...]:
    numbers = [end.hose_dn, *(end.sizes.get(each) for each in SIZES), end.rating.bar]
    cells = ["" if number is None else f"{number:.4g}" for number in numbers]
    return end.size, end.form_key, end.thread or "", end.dash or "", *cells, end.provenance.basis


def _support(ends: Sequence[EndConnection]) -> list[Block]:
    """Return in words what the rows rest on, strongest first."""
    found = bases(ends)
    recalled = [end for end in ends if end.provenance.basis is Support.FROM_MEMORY]
    alone = [end for end in recalled if not end.provenance.checked_against]
    high = sum(end.confidence is Confidence.HIGH for end in recalled)
    own = [figure for end in ends for figure in end.figures]
    second = sum(bool(figure.provenance.checked_against) for figure in own)
    rated = sum(end.rating.bar is not None for end in ends)
    seen = sum(len(end.also_seen) for end in ends)
    unrated = len(ends) - rated
    return [
        labelled("Support", ", ".join(f"{count} {basis}" for basis, count in found.items())),
        labelled(
            "Checked", f"{checked(ends)} of {several(len(ends), 'row')}, against a second source"
        ),
        labelled(
            "Memory",
            f"{several(len(alone), 'row')} on memory alone; of all recalled, high: {high}",
        ),
        labelled("Figures", f"with support of their own: {len(own)}; of these checked: {second}"),
        labelled("Also seen", f"other values than ours, shown beside them: {seen}"),
        labelled("Ratings", f"pressure stated: {several(rated, 'row')}; unknown: {unrated}"),
    ]


def bases(ends: Iterable[EndConnection]) -> dict[str, int]:
    """Return how many rows rest on what, strongest first."""
    found = Counter(end.provenance.basis for end in ends)
    return {str(basis): found[basis] for basis in Support if found[basis]}


def checked(ends: Iterable[EndConnection]) -> int:
    """Return how many rows a second source was seen for."""
    return sum(bool(end.provenance.checked_against) for end in ends)


def source_blocks(catalogue: Catalogue, book: RuleBook, more: Iterable[str]) -> Page:
    """Return every source with its kind, its note and how often tables and rules cite it.

    `more` are the keys that hoses, and what they are made by, cite.
    """
    cited = Counter([*citations(catalogue, book), *more])
    blocks: Page = []
    for source in every_source(catalogue, book):
        uses = f"{source.kind}; cited {several(cited[source.key], 'time')}"
        blocks += [Block(source.key), Block(f"{source.title} ({uses}).", mark="  ")]
        if source.note:
            blocks.append(Block(source.note, mark="  "))
    return blocks


def every_source(catalogue: Catalogue, book: RuleBook) -> tuple[Source, ...]:
    """Return the sources of the tables, then those that only rules cite."""
    return (*catalogue.sources.values(), *book.sources)


def citations(catalogue: Catalogue, book: RuleBook) -> Iterator[str]:
    """Yield the key of a source once for every time a thread, an end or a rule cites it."""
    for told in (book.questions, book.rules, book.lookalikes, book.cautions):
        yield from (each.source for each in told)
    supports = [thread.provenance for thread in catalogue.threads.values()]
    for end in catalogue.ends:
        supports.append(end.provenance)
        supports += [figure.provenance for figure in end.figures]
        supports += [hexagon.provenance for hexagon in end.hexagons]
        yield from (seen.source for seen in end.also_seen)
    for support in supports:
        yield support.source
        yield from support.checked_against


# ---- the list that is searched


def search(catalogue: Catalogue, wanted: str) -> tuple[EndConnection, ...]:
    """Return the ends that the words name, then those that bear every word typed; all for no word.

    Of the latter an end that has the words whole ("12" in 12L) stands before one that has them
    inside others ("12" in M12x1.5); an end to be left alone stands behind the hydraulic ones, and
    otherwise the common family first.
    """
    words = wanted.lower().replace(",", " ").split()
    found = [end for end in catalogue.ends if all(word in _names(end) for word in words)]
    place = by_family(catalogue)

    def rank(end: EndConnection) -> tuple[bool, int, int]:
        whole = set(_names(end).replace(":", " ").split())
        guarded, family = place(end)
        return guarded, -sum(word in whole for word in words), family

    try:
        named = understand(catalogue, wanted).ends if words else ()
    except WhichendError:
        named = ()  # letters in the middle of a word, as they are typed
    ends = sorted(named, key=place)
    return tuple(dict.fromkeys((*ends, *sorted(found, key=rank))))


def by_family(catalogue: Catalogue) -> Callable[[EndConnection], tuple[bool, int]]:
    """Return what to sort ends by: those to be left alone last, the common family first."""
    place = {key: number for number, key in enumerate(catalogue.families)}
    return lambda end: (bool(end.refuse), place[end.family])


def _names(end: EndConnection) -> str:
    parts = (end.id, end.family_name, end.size, end.gender, end.form, end.thread or "")
    return " ".join((*parts, *end.standards)).lower()


def search_blocks(catalogue: Catalogue, wanted: str) -> list[Block]:
    """Return the ends found, each to be chosen; families first while nothing is typed."""
    if not wanted.strip():
        blocks = [Block("Type part of a family, a size, a thread or a standard.", Tone.HEAD)]
        for family in catalogue.families.values():
            count = len(rows_of(catalogue, family))
            blocks.append(
                Block(f"{_named(family)}: {several(count, 'row')}", pick=f"family {family.key}")
            )
        return blocks
    found = search(catalogue, wanted)
    if not found:
        return [Block(f'No end matches "{wanted.strip()}". Try fewer letters.')]
    blocks = [Block(f"{len(found)} found", Tone.HEAD)]
    blocks += [Block(f"{end_words(end)}: {end.form}", pick=end.id) for end in found[:MOST_LISTED]]
    if len(found) > MOST_LISTED:
        blocks.append(Block(f"and {len(found) - MOST_LISTED} more: type another word"))
    return blocks
