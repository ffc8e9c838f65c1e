"""Lines are wrapped as the standard library wraps them, a figure kept with its unit."""

import re
import textwrap

from hypothesis import example, given, settings
from hypothesis import strategies as st

from identify.pages.text import HELD, wrap

FIGURE = re.compile(r"(?<=\d) (?=(?:mm|deg|bar|tpi|in|min)\b|%)")
WORDS = st.sampled_from(
    ("a", "thread", "20.9", "12", "mm", "min", "minutes", "%", "in", "into", "deg.", "bar_1", "mm,",
     "7/16-20", "a-very-long-designation-that-fills-more-than-a-row", "3/4", "tpi)", "½", "é")
)  # fmt: skip
GAPS = st.sampled_from((" ",) * 12 + ("  ", "\n", "\t", " \n"))


@st.composite
def texts(draw: st.DrawFn) -> str:
    pairs = draw(st.lists(st.tuples(WORDS, GAPS), max_size=30))
    return "".join(f"{word}{gap}" for word, gap in pairs).rstrip()


@settings(max_examples=400)
@given(texts(), st.integers(9, 80), st.sampled_from(("", "  ", "12  ", "! ")), st.booleans())
@example("12 minutes 12 min", 9, "", False)
def test_as_the_standard_library_wraps(text: str, width: int, head: str, part: bool) -> None:
    plain = textwrap.wrap(
        FIGURE.sub(HELD, re.sub("[\n\t]", " ", text.expandtabs())),
        width,
        initial_indent=head,
        subsequent_indent=" " * len(head),
        break_long_words=part,
        break_on_hyphens=False,
    )
    expected = [row.replace(HELD, " ") for row in plain] or [head.rstrip()]
    found = wrap(text, width, head, part_words=part)
    assert [row.rstrip() for row in found] == [row.rstrip() for row in expected]
