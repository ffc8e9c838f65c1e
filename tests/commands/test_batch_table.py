"""Batches as tables: what a header means, what is carried through, and that no cell acts."""

import csv
import io
import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.entry import main
from identify.errors import ReadingError
from identify.pages.batch_table import COLUMNS, answer_line, header_line, summary
from identify.reading.batch_table import FORMULA, inert_cell, read_rows, sample_of
from identify.reading.parse import parse_readings
from tests.shipped import knowledge, shipped_engine

THREADS = knowledge().catalogue.threads


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def answered(tmp_path, capsys, text, *more, status=0):
    file = tmp_path / "samples.csv"
    file.write_bytes(text.encode() if isinstance(text, str) else text)
    assert main(["rank", "--batch", str(file), *more]) == status
    return capsys.readouterr()


def test_columns_are_readings_short_lines_or_carried_through(tmp_path, capsys):
    said = answered(
        tmp_path,
        capsys,
        "id,Customer,Thread OD (mm),pitch (tpi),gender,readings\n"
        "a1,Ann,20.9,14,male,in 60i\n"
        'b2,"Bob, son",20.9 mm by rule,,,14t\n',
    )
    one, two = rows_of(said.out)
    assert (one["id"], one["Customer"], two["Customer"]) == ("a1", "Ann", "Bob, son")
    assert one["Thread OD (mm)"] == "20.9"
    full = ["thread_od=20.9 mm", "pitch=14 tpi", "gender=male", "seat_shape=concave"]
    alone = shipped_engine().conclude(parse_readings([*full, "seat_angle=60 deg included"]))
    assert one["verdict"] == str(alone.kind)
    assert one["summary"] == summary(alone)
    assert one["best"] == alone.ranking[0].end.id
    assert float(one["probability"]) == pytest.approx(alone.ranking[0].probability, abs=1e-5)
    assert two["best"]
    assert said.err == ""


def test_a_line_that_failed_says_why_and_the_rest_is_delivered(tmp_path, capsys):
    said = answered(
        tmp_path,
        capsys,
        "gender,thread_od\nmale,20.9 mm\nmale,20.9\n\nmale,18.9 mm,x\n,18.9 mm\n",
        status=1,
    )
    good, no_unit, wide, implied = rows_of(said.out)
    assert good["error"] == implied["error"] == ""
    assert no_unit["error"].startswith("line 3: thread_od: ")
    assert "has no unit" in no_unit["error"]
    assert wide["error"].startswith("line 5: has 3 cells where the header has 2")
    assert "2 lines failed" in said.err


def test_json_lines_fail_with_the_same_status(tmp_path, capsys):
    file = tmp_path / "samples.jsonl"
    file.write_text('{"id": 1}\n{"id": 2, "readings": {"gender": "male"}}\n')
    assert main(["rank", "--batch", str(file)]) == 1
    said = capsys.readouterr()
    assert [("error" in json.loads(line)) for line in said.out.splitlines()] == [True, False]
    assert "1 line failed" in said.err


def test_a_table_may_be_answered_in_json_lines(tmp_path, capsys):
    said = answered(tmp_path, capsys, "id,readings\nx,m 20.9\ny,m\nz,?\n", "--json", status=1)
    found = [json.loads(line) for line in said.out.splitlines()]
    assert [each["id"] for each in found] == ["x", "y", "z"]
    assert found[2]["error"].startswith("line 4: ")


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_what_parts_the_cells_is_seen_from_the_header_and_kept(tmp_path, capsys, mark):
    text = f"id{mark}gender{mark}thread_od (mm)\n1{mark}male{mark}20.9\n"
    said = answered(tmp_path, capsys, text)
    assert said.out.splitlines()[0] == mark.join(["id", "gender", "thread_od (mm)", *COLUMNS])


def test_a_claim_is_held_against_the_readings_of_its_line(tmp_path, capsys):
    text = "readings,claim\nm 18.9 16t out 45h,JIC 8 by Ann\nm 18.9,no such thing\nm 18.9,\n"
    said = answered(tmp_path, capsys, text, status=1)
    refuted, unnamed, without = rows_of(said.out)
    assert refuted["claim"] == "JIC 8 by Ann"
    assert refuted["claim_stands"].startswith("The claim is refuted")
    assert unnamed["error"].startswith("line 3: ")
    assert unnamed["verdict"] == ""
    assert (without["claim_stands"], without["error"]) == ("", "")
    told = answered(tmp_path, capsys, text, "--json", status=1).out.splitlines()
    claim = json.loads(told[0])["claim"]
    assert (claim["standing"], claim["said_by"], claim["refuted_by"][0]) == (
        "refuted",
        "Ann",
        "seat_angle",
    )


def test_a_claim_of_a_json_line_is_held_too(tmp_path, capsys):
    file = tmp_path / "samples.jsonl"
    readings = {"gender": "male", "thread_od": "18.9 mm", "pitch": "16 tpi"}
    lines = [{"id": n, "readings": readings, "claim": said} for n, said in enumerate(["JIC 8", 8])]
    file.write_text("".join(f"{json.dumps(each)}\n" for each in lines))
    assert main(["rank", "--batch", str(file)]) == 1
    held, wrong = map(json.loads, capsys.readouterr().out.splitlines())
    assert held["claim"]["parts"][0]["standing"] == "stands"
    assert "has a claim that is no text" in wrong["error"]


def test_a_decimal_comma_is_read_where_semicolons_part_the_cells(tmp_path, capsys):
    said = answered(tmp_path, capsys, "gender;thread_od (mm)\nmale;20,9\n")
    assert "bspp60:G1/2:male" in said.out


def test_a_column_twice_is_a_second_reading():
    header, rows = read_rows([b"gender,hex (mm),hex (mm)\n", b"male,27,26.9\n"])
    assert len(sample_of(header, next(rows), THREADS)) == 3


def test_a_column_that_looks_misspelt_is_told(tmp_path, capsys):
    said = answered(tmp_path, capsys, "gender,thread_odd\nmale,20.9 mm\n")
    assert 'column "thread_odd" is carried through unread' in said.err
    assert "thread_od." in said.err


def test_its_own_answers_can_be_ranked_again(tmp_path, capsys):
    once = answered(tmp_path, capsys, "id,readings,note\n1,m 20.9,=1+1\n").out
    assert answered(tmp_path, capsys, once).out == once


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "its first line names no reading"),
        ("customer,note\nAnn,x\n", "its first line names no reading"),
        ("gender,thread_od\n", "holds no sample"),
        ('{"id": 1, "readings": {}}\n', "its first line names no reading"),
    ],
)
def test_what_is_no_table_is_refused(tmp_path, capsys, text, sentence):
    assert sentence in answered(tmp_path, capsys, text, status=2).err


def test_bytes_that_are_no_text_and_endless_cells_fail_one_line_only(tmp_path, capsys):
    endless = b'"' + b"x" * 200_000 + b'"'
    text = b"gender,note\nmale,\xff\xfe\nmale," + endless + b"\nmale,ok\n"
    said = answered(tmp_path, capsys, text, status=1)
    assert "line 2: is not UTF-8" in said.out
    assert "field larger" in said.out
    assert said.out.splitlines()[-1].startswith("male,ok,")


@pytest.mark.parametrize(
    "cell", ["=1+1", "+1+1", "-1+1", "@sum(a1)", "\t=1", "\r=1", "=cmd|' /c'!a"]
)
def test_no_cell_is_a_formula(cell):
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerow(["male", cell])
    header, rows = read_rows([b"gender,note\n", *text.getvalue().encode().splitlines(True)])
    row = next(rows)
    ((_, out, *_),) = csv.reader([answer_line(header, row, None, None, "x").replace("\r", "")])
    assert not out.startswith(FORMULA)


@pytest.mark.parametrize("cell", ["-8", "+3", "-0.5", "12L", "'quoted'", ""])
def test_numbers_and_words_are_carried_as_they_are(cell):
    assert inert_cell(cell) == cell


cells = st.text(st.characters(codec="utf-8", exclude_characters="\r\n\x00"), max_size=12)


@settings(deadline=None, max_examples=200)
@given(st.lists(cells, min_size=1, max_size=4))
def test_what_is_carried_through_comes_back(values):
    names = [f"note {number}" for number in range(len(values))]
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows([["gender", *names], ["male", *values]])
    header, rows = read_rows(text.getvalue().encode().splitlines(True))
    row = next(rows)
    out = header_line(header) + answer_line(header, row, None)
    again, more = read_rows(out.encode().splitlines(True))
    assert again.names[: len(header.names)] == header.names
    carried = next(more).cells[: len(header.names)]
    printable = [value for value in row.cells if value.isprintable()]
    assert [cell for cell, own in zip(carried, row.cells, strict=True) if own.isprintable()] == (
        printable
    )


@settings(deadline=None, max_examples=200)
@given(st.binary(max_size=300))
def test_any_bytes_are_rows_or_one_sentence(data):
    try:
        header, rows = read_rows(b"gender,note\n".splitlines(True) + data.splitlines(True))
    except ReadingError:
        return
    for row in rows:
        assert len(row.cells) == len(header.names)
