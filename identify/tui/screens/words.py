"""Words and lessons: a list narrowed by typing, and the pages that its picks open."""

from identify.drawing.style import Style
from identify.interview.snapshot import Snapshot, ask_of
from identify.model.glossary import Glossary
from identify.pages.blocks import Block, Picture
from identify.pages.explain import picked_page
from identify.pages.glossary import list_blocks, terms_in
from identify.reasoning.engine import Engine
from identify.tui.messages import Opened
from identify.tui.screens.paged import PagedScreen
from identify.tui.screens.search import SearchScreen

LEADING = 3  # families whose lessons are offered first


class WordsScreen(SearchScreen):
    """All words and lessons; those of the open question and of what leads come first."""

    heading = "Words and lessons"
    typing = False

    def __init__(self, engine: Engine, snapshot: Snapshot, glossary: Glossary) -> None:
        super().__init__(engine, snapshot)
        self.glossary = glossary

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return what bears the words typed."""
        ask, verdict = ask_of(snapshot, self.engine.book), snapshot.verdict
        said = [ask.text.question, *ask.text.how_to] if ask else []
        said += [f"{each.label} {each.line}" for each in ask.choices] if ask else []
        lead = verdict.ranking if verdict.readings else ()
        keys = dict.fromkeys(each.end.family for each in lead)
        families = [self.engine.catalogue.families[key] for key in [*keys][:LEADING]]
        first = terms_in(self.glossary, " ".join(said))
        return list_blocks(self.engine.catalogue, self.glossary, self.wanted, first, families)

    def picked(self, pick: str) -> None:
        """Open the page."""
        self.post_message(Opened("word", pick))


class WordScreen(PagedScreen):
    """One word, the parts of an end, or one lesson; a digit goes on from there."""

    heading = "Words and lessons"
    about = "1-9 go on   b back   ? help"

    def __init__(
        self, engine: Engine, snapshot: Snapshot, glossary: Glossary, pick: str, style: Style
    ) -> None:
        super().__init__(engine, snapshot)
        self.glossary, self.pick, self.style = glossary, pick, style
        self._made: list[Block | Picture] | None = None

    def blocks(self, snapshot: Snapshot) -> list[Block | Picture]:
        """Return the page, made once: nothing on it changes with the interview."""
        if self._made is None:
            engine = self.engine
            self._made = picked_page(engine.catalogue, engine.book, self.glossary, self.pick)
        return self._made

    def picked(self, pick: str) -> None:
        """Open the next page."""
        self.post_message(Opened("word", pick))
