"""Laws of pages, panes and colours."""

import re

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from identify.drawing.ends import bench_view
from identify.interview.bare import unit_of
from identify.interview.snapshot import Snapshot, ask_of
from identify.model.verdict import Danger, Hazard
from identify.pages.blocks import Block, Picture, Tone
from identify.pages.text import HELD
from identify.pages.words import bar, likely_words
from identify.reasoning.engine import Engine
from identify.tui.lines import MOST_PICKS, cut, fit, paginate, wrapped
from identify.tui.pane import tone_style
from identify.tui.panes import notice_lines, ranking_lines, readings_lines
from identify.tui.question_pane import Typing, entry_hint, question_lines
from identify.tui.themes import DARK, NAMES, SUNLIGHT, TERMINAL, after
from identify.tui.title import title_line
from tests.shipped import end_of, knowledge
from tests.tui.world import CONE, ENGINE, GRAVE, HALFWAY, SNAPSHOTS, verdict

WORDS = st.text("abc defgh", min_size=1, max_size=120)
BLOCKS = st.lists(
    st.builds(
        Block,
        WORDS,
        st.sampled_from((Tone.PLAIN, Tone.HEAD)),
        st.sampled_from(("", "pick")),
        st.lists(WORDS, max_size=2).map(tuple),
        st.just(""),
    ),
    max_size=30,
)


@settings(deadline=None)
@example([Block(" aaaaaaaaaaaaaaaaaa", pick="pick")], 21, 6)
@given(BLOCKS, st.integers(20, 100), st.integers(6, 40))
def test_pages_hold_everything_and_no_more_than_fits(
    blocks: list[Block], width: int, height: int
) -> None:
    pages = paginate(blocks, width, height)
    lines = [line.text for page in pages for line in page.lines]
    assert all(len(page.lines) <= height for page in pages)
    assert all(len(page.picks) <= MOST_PICKS for page in pages)
    assert all(len(line) <= width for line in lines)
    assert sum(len(page.picks) for page in pages) == sum(bool(block.pick) for block in blocks)
    letters = "".join(block.text + "".join(block.under) for block in blocks)
    assert re.sub(r"[\s\d]", "", "".join(lines)) == re.sub(r"\s", "", letters)


def test_a_heading_stays_with_what_it_heads() -> None:
    blocks = [*(Block(str(n)) for n in range(5)), Block("Head", Tone.HEAD), Block("text")]
    first, second = paginate(blocks, 20, 6)
    assert [line.text for line in first.lines] == ["0", "1", "2", "3", "4"]
    assert [line.text for line in second.lines] == ["Head", "text"]


def test_a_tenth_pick_goes_to_the_next_page() -> None:
    first, second = paginate([Block("x", pick=str(n)) for n in range(10)], 20, 40)
    assert len(first.picks) == 9
    assert second.picks == ("9",)
    assert second.lines[0].text == "1  x"


@pytest.mark.parametrize("name", SNAPSHOTS)
@pytest.mark.parametrize("width", [36, 42, 60, 100])
@pytest.mark.parametrize("height", [3, 9, 20])
def test_no_line_of_a_pane_leaves_it(name: str, width: int, height: int) -> None:
    snapshot = SNAPSHOTS[name]
    panes = (
        question_lines(snapshot, ENGINE.book, None, width, height),
        ranking_lines(snapshot, ENGINE, width, height),
        notice_lines(snapshot, width, height),
        title_line(snapshot, width),
        readings_lines(snapshot, width),
    )
    for lines in panes:
        assert len(lines) <= max(height, 1)
        assert max((len(line.text) for line in lines), default=0) <= width


@pytest.mark.parametrize(("width", "height"), [(42, 20), (45, 19), (40, 11), (36, 10)])
def test_every_answer_stands_however_small_the_window(
    engine: Engine, width: int, height: int
) -> None:
    for text, tool in ((each, tool) for each in engine.book.questions for tool in each.tools):
        snapshot = Snapshot(asking=text.feature, tool=tool)
        ask = ask_of(snapshot, engine.book)
        assert ask is not None
        unit = unit_of(snapshot, ask)
        typing = Typing(unit=unit.label if unit else "", hint=entry_hint(ask, unit))
        line = typing if ask.measured or ask.worded else None
        lines = question_lines(snapshot, engine.book, line, width, height)
        said = " ".join(line.text.strip().replace(HELD, " ") for line in lines)
        assert lines[-1].text != "…", (text.feature, tool)
        for choice in ask.choices:
            assert choice.label in said, (text.feature, tool)
        assert "annot tell" in said, (text.feature, tool)


def test_what_must_not_be_missed_says_how_much_is_left_out() -> None:
    shown = notice_lines(Snapshot(HALFWAY, verdict(warnings=(GRAVE,) * 4)), 60, 2)
    assert shown[0].text.startswith("!!! A 30 degree flare")
    assert shown[-1].text.endswith("… 3 more, press v")


def test_a_danger_that_stands_comes_before_warnings() -> None:
    danger = Danger(CONE, 0.03, Hazard.HIGH, ("taper: tapered, not parallel",), "", "")
    snapshot = Snapshot(HALFWAY, verdict(dangers=(danger,), warnings=(GRAVE,)))
    lines = notice_lines(snapshot, 80, 4)
    assert lines[0].text.startswith("!!! Still standing: G1/2 male")
    assert "(3 %). Taper: tapered, not parallel" in " ".join(line.text.strip() for line in lines)


@pytest.mark.parametrize(
    ("probability", "words"),
    [(0.99, "nearly sure"), (0.95, "nearly sure"), (0.7, "likely"), (0.3, "possible"),
     (0.05, "unlikely"), (0.01, "very unlikely")],
)  # fmt: skip
def test_a_probability_is_said_in_words(probability: float, words: str) -> None:
    assert likely_words(probability) == words


@pytest.mark.parametrize(
    ("share", "drawn"), [(0, "    "), (0.5, "██  "), (1, "████"), (1e-9, "▏   "), (0.34, "█▍  ")]
)
def test_a_bar_fills_its_share(share: float, drawn: str) -> None:
    assert bar(share, 4) == drawn


def test_text_that_is_cut_says_so() -> None:
    assert cut("abcdef", 4) == "abc…"
    assert cut("ab", 4) == "ab  "
    assert [line.text for line in fit(wrapped("a b c d", 8) * 3, 2)] == ["a b c d", "…"]


def _contrast(ink: str, paper: str) -> float:
    """Return the contrast ratio of two colours after WCAG 2.1, relative luminance."""

    def light(colour: str) -> float:
        parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    bright, dark = sorted((light(ink), light(paper)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)


@pytest.mark.parametrize(("theme", "least"), [(SUNLIGHT, 20.99), (DARK, 7)])
def test_every_tone_can_be_read(theme: object, least: float) -> None:
    for tone in Tone:
        style = tone_style(theme.variables, tone)
        ink = style.foreground.hex if style.foreground else theme.foreground
        paper = style.background.hex if style.background else theme.background
        assert _contrast(ink, paper) >= least, tone


def test_the_terminal_keeps_its_own_colours() -> None:
    for tone in Tone:
        style = tone_style(TERMINAL.variables, tone)
        assert style.foreground is None
        assert style.background is None


def test_colours_go_round() -> None:
    assert [after(name) for name in NAMES] == [*NAMES[1:], NAMES[0]]


def test_a_picture_stands_under_its_heading_and_grows_with_the_window() -> None:
    end = end_of("flare37:-8:male")
    sheet = bench_view(end, knowledge().catalogue.thread_of(end))
    blocks = [Block("Before"), Block("An end", Tone.HEAD), Picture(sheet)]
    tall = {}
    for height in (22, 38):
        (page,) = paginate(blocks, 78, height, "braille")
        texts = [line.text for line in page.lines]
        assert len(texts) <= height
        assert texts[1] == "An end"
        tall[height] = len(texts)
    assert tall[38] > tall[22] > 0


def test_a_picture_is_told_in_words_where_there_is_no_room_for_it() -> None:
    end = end_of("flare37:-8:male")
    sheet = bench_view(end, knowledge().catalogue.thread_of(end))
    (page,) = paginate([Picture(sheet)], 34, 30, "braille")
    assert "nose to the left" in " ".join(line.text for line in page.lines)
