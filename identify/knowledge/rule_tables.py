"""Read expert rules, questions, lookalike notes and cautions; every fault with file and line."""

from collections.abc import Iterable, Iterator

from identify.errors import ReadingError
from identify.knowledge.condition_tables import read_condition
from identify.knowledge.fields import Faults, Fields, feature_named, filled, known, some
from identify.knowledge.source_tables import SUPPORTS, cite, open_table
from identify.model.catalogue import Catalogue, slug
from identify.model.feature import FEATURES, SEEN, Feature, Kind
from identify.model.reading import How, Outcome
from identify.model.rule import (
    HOW_TAKEN,
    Access,
    Caution,
    ChoiceText,
    ExpertRule,
    LookalikeNote,
    Moment,
    QuestionText,
    Tool,
    Wording,
)
from identify.model.source import Support
from identify.model.verdict import Effect, Hazard
from identify.reading.parse import reading_from


def read_expert_rules(
    text: str, file: str, faults: Faults, catalogue: Catalogue | None = None
) -> tuple[ExpertRule, ...]:
    """Return the rules of an `expert_rules/1` file in file order.

    Args:
        text: The YAML document.
        file: Its name for messages.
        faults: Collects what is wrong.
        catalogue: If given, families, sizes, forms and threads must be in it.

    Raises:
        TableError: Not YAML at all.
    """
    rules = []
    for key, entry in _entries(text, file, faults, "expert_rules/1", "rules"):
        effect = Effect(entry.choice("effect", tuple(Effect)))
        ask = feature_named(entry, "ask") if entry.has("ask") else None
        if effect is Effect.ASK_FIRST and not entry.has("ask"):
            entry.fault("ask", "is missing; an ask_first rule names the feature to ask for")
        rules.append(
            ExpertRule(
                key=key,
                when=read_condition(entry.section("when"), catalogue),
                effect=effect,
                hazard=Hazard(entry.choice("hazard", tuple(Hazard))),
                sentence=entry.text("sentence"),
                because=entry.text("because"),
                source=cite(entry, "source"),
                basis=_basis(entry),
                ask=ask,
            )
        )
        entry.close()
    return tuple(rules)


def read_questions(text: str, file: str, faults: Faults) -> tuple[QuestionText, ...]:
    """Return the questions of a `question_table/1` file in file order."""
    questions = []
    for name, entry in _entries(text, file, faults, "question_table/1", "questions"):
        if not known(entry, "", (name,), tuple(Feature), "feature"):
            continue
        minutes = entry.section("minutes")
        for tool in minutes.data:
            known(minutes, tool, (tool,), tuple(Tool), "tool")
        times = {tool: minutes.number(tool, low=0.05, high=60) for tool in minutes.data}
        if not times:
            entry.fault("minutes", "names no tool; the bare eye is none")
        questions.append(
            QuestionText(
                feature=Feature(name),
                question=entry.text("question"),
                why=entry.text("why"),
                how_to=filled(entry, "how_to", entry.texts("how_to")),
                usual_mistake=entry.text("usual_mistake"),
                example=entry.text("example"),
                minutes=times,
                taken_as=_taken_as(entry, times),
                access=tuple(
                    Access(word)
                    for word in filled(entry, "access", some(entry, "access", tuple(Access)))
                ),
                choices=_choices(entry, Feature(name)),
                source=cite(entry, "source"),
                basis=_basis(entry),
                wordings=tuple(_wordings(entry, Feature(name), tuple(times))),
            )
        )
        entry.close()
    return tuple(questions)


def read_lookalikes(
    text: str, file: str, faults: Faults, catalogue: Catalogue | None = None
) -> tuple[LookalikeNote, ...]:
    """Return the notes of a `lookalike_table/1` file in file order; a pair stands once."""
    notes: dict[frozenset[str], LookalikeNote] = {}
    top = open_table(text, file, faults, "lookalike_table/1")
    for entry in top.sections("lookalikes", "entry"):
        note = LookalikeNote(
            a=_end_name(entry, "a", catalogue),
            b=_end_name(entry, "b", catalogue),
            what_goes_wrong=entry.text("what_goes_wrong"),
            tell_apart=entry.text("tell_apart"),
            source=cite(entry, "source"),
            basis=_basis(entry),
        )
        entry.close()
        pair = frozenset((note.a, note.b))
        if len(pair) == 1:
            entry.fault("b", f'is "{note.b}" like a; an end is no lookalike of itself')
        if pair in notes:
            entry.fault("", f"names {note.a} and {note.b} a second time; keep one entry")
        notes[pair] = note
    top.close()
    return tuple(notes.values())


def read_cautions(text: str, file: str, faults: Faults) -> tuple[Caution, ...]:
    """Return the cautions of a `caution_table/1` file in file order."""
    cautions = []
    for key, entry in _entries(text, file, faults, "caution_table/1", "cautions"):
        when = filled(entry, "when", some(entry, "when", tuple(Moment), "moment"))
        cautions.append(
            Caution(
                key=key,
                sentence=entry.text("sentence"),
                when=tuple(Moment(word) for word in when),
                source=cite(entry, "source"),
                basis=_basis(entry),
            )
        )
        entry.close()
    return tuple(cautions)


def _entries(
    text: str, file: str, faults: Faults, schema: str, key: str
) -> Iterator[tuple[str, Fields]]:
    """Yield name and fields of each entry of a file, and close the file after the last."""
    top = open_table(text, file, faults, schema)
    yield from top.keyed(key)
    top.close()


def _choices(entry: Fields, feature: Feature) -> tuple[ChoiceText, ...]:
    info = FEATURES[feature]
    expected = info.choices or (tuple(Outcome) if info.kind is Kind.TRIAL else ())
    out = []
    for word, choice in entry.keyed("choices"):
        if known(choice, "", (word,), expected, "answer"):
            out.append(ChoiceText(word, choice.text("label"), choice.text("line")))
            choice.close()
    for word in expected:
        if word not in (choice.word for choice in out):
            entry.fault("choices", f'lacks the answer "{word}"; give it a label and a line')
    return tuple(out)


def _wordings(entry: Fields, feature: Feature, tools: tuple[str, ...]) -> Iterator[Wording]:
    """Yield what differs by tool or gender; a numbered answer there must be one that is read."""
    for wording in entry.sections("wordings", "wording"):
        choices = []
        for word, choice in wording.keyed("choices"):
            try:
                reading_from(feature, word)
            except ReadingError as error:
                choice.fault("", f"is no answer: {error.problem}")
            choices.append(ChoiceText(word, choice.text("label"), choice.text("line")))
            choice.close()
        yield Wording(
            tools=tuple(Tool(each) for each in some(wording, "with", tools, "tool")),
            gender=wording.choice("gender", tuple(SEEN), "") if wording.has("gender") else "",
            question=wording.text("question", ""),
            how_to=wording.texts("how_to"),
            usual_mistake=wording.text("usual_mistake", ""),
            example=wording.text("example", ""),
            choices=tuple(choices),
        )
        wording.close()


def _taken_as(entry: Fields, minutes: Iterable[str]) -> dict[str, How]:
    """Return how a reading counts, by tool: what the entry says, else the tool's own way."""
    said = entry.section("taken_as")
    for tool in said.data:
        known(said, tool, (tool,), tuple(minutes), "tool of this question")
    return {
        tool: How(said.choice(tool, tuple(How), HOW_TAKEN[Tool(tool)]))
        for tool in minutes
        if tool in set(Tool)
    }


def _end_name(entry: Fields, key: str, catalogue: Catalogue | None) -> str:
    name = entry.text(key)
    if catalogue:
        sized = (f"{end.family}:{slug(end.size)}" for end in catalogue.ends)
        known(entry, key, (name,), tuple(dict.fromkeys((*catalogue.families, *sized))), "end")
    return name


def _basis(entry: Fields) -> Support:
    return Support(entry.choice("basis", SUPPORTS))
