"""`whichend tables` and `whichend show`: what they print, and that every line fits 80 columns."""

import argparse
from pathlib import Path

import pytest

from identify.commands import show as show_command
from identify.commands import tables as tables_command
from identify.commands.tables import check, more_citations
from identify.errors import WhichendError
from identify.knowledge.build import build_catalogue
from identify.knowledge.table_files import data_dir
from identify.model.catalogue import Catalogue
from identify.pages.blocks import Table
from identify.pages.end import A_STANDARD
from identify.pages.tables import (
    family_blocks,
    family_of,
    overview_blocks,
    search,
    source_blocks,
)
from identify.pages.text import text_of
from identify.reading.names import one_end
from tests.pages.told import end_text
from tests.shipped import knowledge

BAD = Path(__file__).parent.parent / "bad_tables"
CATALOGUE: Catalogue = build_catalogue([data_dir("thread_tables")])


def run(command: str, *words: str) -> int:
    module = {"tables": tables_command, "show": show_command}[command]
    parser = argparse.ArgumentParser()
    module.add_arguments(parser)
    return module.run(parser.parse_args(words))


def too_wide(text: str) -> list[str]:
    return [line for line in text.splitlines() if len(line) > 80]


def flowing(text: str) -> str:
    """Return text with every run of space made one blank."""
    return " ".join(text.split())


def test_overview_names_every_family_and_counts_support() -> None:
    text = text_of(overview_blocks(CATALOGUE))
    assert too_wide(text) == []
    words = text.split()
    assert [key for key in CATALOGUE.families if key not in words] == []
    assert f"{len(CATALOGUE.ends)} rows" in text
    known = sum(end.rating.bar is not None for end in CATALOGUE.ends)
    unknown = len(CATALOGUE.ends) - known
    assert f"pressure stated: {known} rows; unknown: {unknown}" in flowing(text)


@pytest.mark.parametrize("key", CATALOGUE.families)
def test_family_lists_every_size_in_80_columns(key: str) -> None:
    text = text_of(family_blocks(CATALOGUE, family_of(CATALOGUE, key)))
    assert too_wide(text) == []
    one = CATALOGUE.families[key]
    assert one.name in text
    if one.refuse:
        assert "Do not handle this as a hydraulic end" in text
    lines = text.splitlines()
    for end in CATALOGUE.ends:
        if end.family == key:
            assert any(line.startswith(end.size) for line in lines), end.id


def test_unknown_family_is_named_with_the_nearest() -> None:
    with pytest.raises(WhichendError) as error:
        family_of(CATALOGUE, "flare73")
    assert str(error.value).startswith('"flare73" is no family. Nearest: flare37')


def test_a_family_answers_to_what_the_trade_calls_it() -> None:
    for words, key in (("JIC", "flare37"), ("bonded seal", "bonded_washer"), ("DKOL", "cone24_L")):
        assert family_of(CATALOGUE, words).key == key
    with pytest.raises(WhichendError) as error:
        family_of(CATALOGUE, "BSPT")
    assert str(error.value) == '"BSPT" may be jis_pt or r_taper; write one of these.'


def test_the_searched_list_answers_to_trade_words_and_to_parts_of_words() -> None:
    assert search(CATALOGUE, "JIC 8 male")[0].id == "flare37:-8:male"
    assert {end.family for end in search(CATALOGUE, "flar")} > {"flare37", "flare45"}
    assert len(search(CATALOGUE, "")) == len(CATALOGUE.ends)
    assert search(CATALOGUE, "no such end") == ()


def test_sources_are_all_listed_with_their_kind() -> None:
    book = knowledge().book
    text = text_of(source_blocks(CATALOGUE, book, more_citations(None)))
    assert too_wide(text) == []
    keys = [*CATALOGUE.sources, *(source.key for source in book.sources)]
    assert [key for key in keys if key not in text.splitlines()] == []
    assert "cited 0 times" not in text
    assert "cited 1 times" not in flowing(text)
    assert "cited 1 time)" in flowing(text)
    assert "(standard;" in flowing(text)


@pytest.mark.parametrize("key", CATALOGUE.families)
def test_show_tells_all_of_every_end(key: str) -> None:
    for end in CATALOGUE.ends:
        if end.family != key:
            continue
        text = end_text(CATALOGUE, end)
        flat = flowing(text)
        assert too_wide(text) == []
        assert end.id in text
        assert A_STANDARD in flat
        assert end.seal in flat
        assert flowing(CATALOGUE.sources[end.provenance.source].title)[:40] in flat
        assert f"({end.provenance.basis})" in flat
        assert flowing(end.provenance.caveat) in flat
        if end.rating.bar is None:
            assert "Rating unknown" in flat
        else:
            assert f"Rating {end.rating.bar:g} bar at most ({end.rating.basis})" in flat
        if end.refuse:
            assert "REFUSED" in text
        for seen in end.also_seen:
            assert flowing(seen.value) in flat
        if end.thread:
            assert end.thread in flat


def test_show_gives_the_limits_a_caliper_meets() -> None:
    """9/16-18 UNF 2A major diameter 0.5611 to 0.5524 in: ASME B1.1 table of limits of size."""
    text = end_text(CATALOGUE, one_end(CATALOGUE, "flare37:-6:male"))
    assert "outside diameter over the crests 14.03 to 14.25 mm (0.5524 to 0.5611 in)" in flowing(
        text
    )


def test_commands_print_and_succeed(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("tables") == 0
    assert "families" in capsys.readouterr().out
    assert run("tables", "flare37") == 0
    assert "37 deg flare (flare37)" in capsys.readouterr().out
    assert run("tables", "--sources") == 0
    assert "iso-965-1" in capsys.readouterr().out
    assert run("show", "flare37:-6:male") == 0
    assert "9/16-18 UNF" in capsys.readouterr().out


def test_check_of_the_shipped_tables_finds_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("tables", "check") == 0
    assert capsys.readouterr().out.startswith("thread_tables and rules: no fault in ")


def test_check_shows_every_fault_of_a_folder_and_returns_2(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "ends").mkdir()
    sources_yaml = (BAD / "base/sources.yaml").read_text(encoding="utf-8")
    (tmp_path / "sources.yaml").write_text(sources_yaml, encoding="utf-8")
    for name in ("shares", "confidence"):
        text = (BAD / f"{name}.yaml").read_text(encoding="utf-8")
        text = text.replace("family: demo", f"family: {name}")
        (tmp_path / f"ends/{name}.yaml").write_text(text, encoding="utf-8")
    assert run("tables", "check", str(tmp_path)) == 2
    assert capsys.readouterr().out.splitlines() == [
        f'{tmp_path}/ends/confidence.yaml:5: end table: confidence is "fair", '
        "not one of high, medium, low.",
        f'{tmp_path}/ends/shares.yaml:13: form "male": seats have shares that total 0.9; '
        "they must total 1.",
        "Read: sources.yaml, ends/confidence.yaml, ends/shares.yaml.",
        f"{tmp_path} (with the shipped tables): 2 faults.",
    ]


def test_check_reads_the_rules_of_a_folder_too(tmp_path: Path) -> None:
    (tmp_path / "rules").mkdir()
    rules = "schema: expert_rules/1\nrules:\n  one:\n    hazard: grave\n"
    (tmp_path / "rules/expert.yaml").write_text(rules, encoding="utf-8")
    report, sound = check(tmp_path)
    assert not sound
    assert f'{tmp_path}/rules/expert.yaml:4: rules "one": hazard is "grave", not one of' in report


def test_a_word_too_many_is_refused() -> None:
    with pytest.raises(WhichendError, match='"male" is one word too many'):
        run("tables", "flare37", "male")


def test_own_row_must_not_take_a_shipped_id(tmp_path: Path) -> None:
    (tmp_path / "ends").mkdir()
    shipped = data_dir("thread_tables").joinpath("ends/garden.yaml").read_text(encoding="utf-8")
    (tmp_path / "ends/garden.yaml").write_text(shipped, encoding="utf-8")
    report, sound = check(tmp_path)
    assert not sound
    assert "stands twice (first at thread_tables/ends/garden.yaml:" in report


def test_own_size_may_join_a_shipped_family_and_mate_with_it(tmp_path: Path) -> None:
    (tmp_path / "ends").mkdir()
    text = (BAD / "shares.yaml").read_text(encoding="utf-8").replace("0.3", "0.4")
    text = text.replace("family: demo", "family: orfs").replace(
        "source: invented", "source: memory"
    )
    text = text.replace("{size:", '{mates: ["orfs:-4:female"], size:')
    (tmp_path / "ends/orfs.yaml").write_text(text, encoding="utf-8")
    assert check(tmp_path)[1]
    catalogue = build_catalogue([data_dir("thread_tables"), tmp_path])
    own = one_end(catalogue, "orfs:8L:male")
    assert [mate.id for mate in catalogue.mates_of(own)] == ["orfs:-4:female"]
    assert len(catalogue.families) == len(CATALOGUE.families)
    assert "orfs:8L:male" in end_text(catalogue, own)


def test_check_of_a_folder_that_is_not_there_names_it(tmp_path: Path) -> None:
    report, sound = check(tmp_path / "absent")
    assert not sound
    assert report.startswith(f"{tmp_path}/absent:1: is not a folder; ")


def test_file_that_is_not_utf8_is_named(tmp_path: Path) -> None:
    (tmp_path / "sources.yaml").write_bytes(b"schema: source_table/1 # \xb0\n")
    report, sound = check(tmp_path)
    assert not sound
    assert "sources.yaml:1: is not UTF-8 text (invalid start byte); save it as UTF-8." in report


def test_table_leaves_out_empty_columns_and_wraps_the_last() -> None:
    page = Table(("x", "y", "z"), (("a", "", "one two three"), ("b", "", "four")))
    assert text_of([page], 10) == "x  z\na  one two\n   three\nb  four\n"


def test_table_drops_columns_that_find_no_room() -> None:
    page = Table(("first", "second"), (("aaaa", "bbbbbbbb"),))
    assert text_of([page], 10) == "first\naaaa\n"


def test_check_says_what_it_read_and_names_what_it_passed_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("mine.yml", "end/x.yaml", "rules/priors.yaml", "ends/.#x.yaml", "threads/x.txt"):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text("x", encoding="utf-8")
    assert run("tables", "check", str(tmp_path)) == 2
    said = " ".join(capsys.readouterr().out.split())
    assert "nothing was read; tables lie in threads/" in said
    for over in (
        "mine.yml (read here: sources.yaml)",
        "end/ (did you mean ends/?)",
        "rules/priors.yaml (read here: sources.yaml, expert.yaml, lookalikes.yaml)",
        "ends/.#x.yaml (hidden)",
        "threads/x.txt (only names that end in .yaml are read)",
    ):
        assert over in said
    sources = (BAD / "base/sources.yaml").read_text(encoding="utf-8")
    (tmp_path / "sources.yaml").write_text(sources, encoding="utf-8")
    assert run("tables", "check", str(tmp_path)) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "Read: sources.yaml. Passed over: end/ (did you mean ends/?), mine.yml" in said
