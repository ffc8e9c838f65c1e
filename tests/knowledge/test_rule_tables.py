"""Shipped rule files against the tables and readings they speak of; one bad file per fault."""

from pathlib import Path

import pytest

from identify.errors import TableError
from identify.knowledge.assembly_tables import read_assembly_rules
from identify.knowledge.codec import Codec
from identify.knowledge.fields import Faults
from identify.knowledge.glossary_tables import read_glossary
from identify.knowledge.rule_tables import (
    read_cautions,
    read_expert_rules,
    read_lookalikes,
    read_questions,
)
from identify.knowledge.source_tables import check_citations, read_sources
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import How
from identify.model.rule import Access, LookalikeNote, Moment, Tool
from identify.model.rulebook import RuleBook
from identify.reading.parse import parse_reading
from tests.shipped import knowledge

RULES = Path(__file__).parents[2] / "rules"


# Shipped files


def test_every_source_that_rules_cite_is_known_and_every_rule_source_is_used():
    faults = Faults()
    own = read_sources((RULES / "sources.yaml").read_text("utf-8"), "rules/sources.yaml", faults)
    for read, name in (
        (read_expert_rules, "expert.yaml"),
        (read_questions, "questions.yaml"),
        (read_lookalikes, "lookalikes.yaml"),
        (read_cautions, "cautions.yaml"),
    ):
        read((RULES / name).read_text("utf-8"), name, faults)
    read_assembly_rules((RULES / "assembly.yaml").read_text("utf-8"), faults)
    tables = knowledge().catalogue.sources
    cited = check_citations(faults, {**tables, **own})
    assert faults.found == []
    assert set(own) - set(tables) <= cited


def test_every_feature_has_one_question():
    asked = [question.feature for question in knowledge().book.questions]
    assert sorted(asked) == sorted(Feature)


QUESTIONS = [pytest.param(one, id=one.feature) for one in knowledge().book.questions]


@pytest.mark.parametrize("one", QUESTIONS)
def test_question_is_complete(one):
    assert one.question.endswith("?")
    assert one.how_to
    assert all(step.endswith(".") for step in (*one.how_to, one.why, one.usual_mistake))
    assert one.access
    assert set(one.taken_as) == set(one.minutes)
    assert [choice.word for choice in one.choices] == list(
        FEATURES[one.feature].choices or [choice.word for choice in one.choices]
    )
    labels = [choice.label for choice in one.choices]
    assert len(set(labels)) == len(labels)


@pytest.mark.parametrize("one", QUESTIONS)
def test_question_example_can_be_typed(one):
    reading = parse_reading(f"{one.feature}={one.example}")
    assert reading.feature is one.feature


@pytest.mark.parametrize("one", QUESTIONS)
def test_quickest_tool_stands_first(one):
    minutes = [one.minutes[tool] for tool in one.tools]
    assert minutes == sorted(minutes)
    assert set(one.tools) <= set(Tool)


def test_lengths_need_a_tool():
    for one in knowledge().book.questions:
        if FEATURES[one.feature].kind is Kind.LENGTH and one.feature not in ("hex", "hose_bore"):
            assert Tool.NONE not in one.tools, one.feature


def test_pitch_without_a_gauge_is_counted():
    (pitch,) = (one for one in knowledge().book.questions if one.feature is Feature.PITCH)
    assert pitch.taken_as["caliper"] is pitch.taken_as["rule"] is How.COUNTED
    assert pitch.taken_as["metric_gauge"] is How.GAUGE


def test_every_bore_with_a_weight_is_the_bore_of_some_end():
    bores = set(knowledge().book.priors.bores) - {"other"}
    assert bores <= {f"{end.hose_dn:g}" for end in knowledge().catalogue.ends if end.hose_dn}


def test_something_can_be_asked_in_every_state_of_the_joint():
    for access in Access:
        assert any(access in one.access for one in knowledge().book.questions)


def test_a_caution_stands_at_every_moment():
    for moment in Moment:
        assert any(moment in one.when for one in knowledge().book.cautions)


def test_lookalike_notes_hold_both_ways():
    ends = knowledge().catalogue.ends
    for note in knowledge().book.lookalikes:
        first = next(end for end in ends if end.id.startswith(note.a + ":"))
        second = next(end for end in ends if end.id.startswith(note.b + ":"))
        book = knowledge().book
        assert note in book.notes_on(first, second)
        assert note in book.notes_on(second, first)
        stranger = next(end for end in ends if end.family not in (first.family, second.family))
        assert note not in book.notes_on(first, stranger)
        assert note not in book.notes_on(stranger, second)


def notes_of(*pair: str) -> list[LookalikeNote]:
    return [one for one in knowledge().book.lookalikes if {one.a, one.b} == set(pair)]


# The nine pairs of families that matter most: common practice, see rules/lookalikes.yaml.
@pytest.mark.parametrize(
    "pair",
    [
        ("flare37", "flare45"),
        ("flare37", "orb_un"),
        ("flare37", "flareless24_inch"),
        ("flare37", "orfs"),
        ("jis30_g", "bspp60"),
        ("cone24_L", "cone24_S"),
        ("orb_metric", "port_metric_flat"),
        ("npt", "bspp60"),
        ("flange61", "flange62"),
        ("flange62", "flange62_thick"),
        ("cone24_L:22L", "orfs:-12"),
        ("flare37:-12", "port_metric_flat:M27x2"),
    ],
)
def test_important_lookalikes_are_noted(pair):
    assert len(notes_of(*pair)) == 1


def shared_threads(one: str, other: str) -> set[str | None]:
    ends = knowledge().catalogue.ends
    threads = [{end.thread for end in ends if end.family == family} for family in (one, other)]
    return threads[0] & threads[1]


# Sentences of the rule files that name threads, held against the tables.
@pytest.mark.parametrize(
    ("one", "other", "threads"),
    [
        ("flare37", "orfs", {"9/16-18 UNF", "1 3/16-12 UN", "2 1/2-12 UN"}),
        ("cone24_L", "cone24_S",
         {"M14x1.5", "M16x1.5", "M18x1.5", "M22x1.5", "M30x2", "M36x2", "M52x2"}),
        ("flare37", "flare45",
         {"5/16-24 UNF", "3/8-24 UNF", "7/16-20 UNF", "1/2-20 UNF", "3/4-16 UNF", "7/8-14 UNF"}),
    ],
)  # fmt: skip
def test_what_notes_say_of_shared_threads(one, other, threads):
    assert shared_threads(one, other) == threads


@pytest.mark.parametrize("family", ["cone24_L", "cone24_S"])
def test_what_notes_say_of_flat_faces_on_cone_threads(family):
    sizes = {thread.partition("x")[0] for thread in shared_threads("orfs_metric", family)}
    assert sizes <= {"M22", "M26", "M36", "M42", "M45", "M52"}


def test_m30_and_m27_stand_beside_inch_threads_as_the_rules_say():
    threads = knowledge().catalogue.threads
    assert threads["1 3/16-12 UN"].major_mm - threads["M30x2"].major_mm == pytest.approx(0.1625)
    assert threads["M27x2"].major_mm - threads["1 1/16-12 UN"].major_mm == pytest.approx(0.0125)


@pytest.mark.parametrize(
    ("key", "pitches_mm"),
    [
        ("pitch-18-19", (25.4 / 18, 25.4 / 19)),
        ("pitch-27-28", (25.4 / 27, 25.4 / 28)),
        ("pitch-half-16-18", (1.5, 25.4 / 16)),
        ("pitch-12-or-2", (2.0, 25.4 / 12, 25.4 / 11.5)),
        ("pitch-1-or-24", (1.0, 25.4 / 24)),
    ],
)
def test_pitch_rules_hold_the_pitches_they_name_and_say_them_right(key, pitches_mm):
    (rule,) = (one for one in knowledge().book.rules if one.key == key)
    for pitch in pitches_mm:
        assert rule.when.reading.low <= pitch <= rule.when.reading.high
        over = rule.when.reading.fewer_pitches * pitch
        shown = (f"{over:.2f}", f"{over:.1f}")
        assert any(figure in rule.sentence for figure in shown), pitch


def test_rule_book_survives_the_cache():
    codec = Codec(RuleBook)
    book = knowledge().book
    assert codec.decode(codec.encode(book)) == book


# Bad files: each breaks one rule; the whole message stands beside it.

BAD = Path(__file__).parents[1] / "bad_rules"
CASES = sorted(BAD.glob("*.yaml"))


def faults_in(text: str) -> list[str]:
    faults, tables = Faults(), knowledge().catalogue
    try:
        match text.partition("schema: ")[2].partition("/")[0]:
            case "expert_rules":
                read_expert_rules(text, "bad.yaml", faults, tables)
            case "question_table":
                read_questions(text, "bad.yaml", faults)
            case "lookalike_table":
                read_lookalikes(text, "bad.yaml", faults, tables)
            case "caution_table":
                read_cautions(text, "bad.yaml", faults)
            case "glossary_table":
                read_glossary(text, "bad.yaml", faults, tables)
            case other:
                pytest.fail(f"{other} is no rule file")
    except TableError as error:
        faults.found += error.faults
    return faults.found


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_bad_file_says_what_and_where(path):
    expected = path.with_suffix(".txt").read_text("utf-8").splitlines()
    assert expected
    assert faults_in(path.read_text("utf-8")) == expected


def test_all_faults_come_out_at_once():
    rules = "schema: expert_rules/1\nrules:\n"
    for key in ("one", "two"):
        rules += f"  {key}:\n    when: {{missing: picth}}\n    effect: shout\n"
    found = faults_in(rules)
    assert [fault.split(":")[1] for fault in found if "picth" in fault] == ["4", "7"]
    assert len([fault for fault in found if "shout" in fault]) == 2
    assert len([fault for fault in found if "is missing" in fault]) == 10


def test_names_are_free_where_no_tables_are_given():
    text = (BAD / "rule_family_unknown.yaml").read_text("utf-8")
    faults = Faults()
    assert len(read_expert_rules(text, "bad.yaml", faults)) == 1
    assert faults.found == []


def test_every_rule_file_but_those_of_observation_has_bad_files():
    for kind in ("rule", "question", "lookalike", "caution", "glossary"):
        assert any(path.stem.startswith(kind) for path in CASES)
