"""`whichend rank`: one sample and batches, as text and as JSON, with every slip told.

Where a case names an end, its thread is that of the standard: G 1/2 has 14 threads an inch and
20.955 mm (ISO 228-1); 1 1/16-12 UN is 26.9875 mm (ASME B1.1).
"""

import json
import os
import subprocess
import sys

import pytest

from identify.commands.desk import Desk
from identify.commands.sample_line import LONGEST_LINE
from identify.entry import main
from identify.model.feature import GENDERS, SEAT_SHAPES, Feature
from tests.plain.talk import engine

SAMPLE = {"gender": "male", "thread_od": "20.9 mm", "pitch": "14 tpi"}
CONE = {**SAMPLE, "seat_shape": "concave", "seat_angle": "60 deg included"}
WORDS = [f"{name}={value}" for name, value in CONE.items()]


def run(*words, script=b"", **more):
    return subprocess.run(
        [sys.executable, "-m", "identify", "rank", *words],
        input=script,
        capture_output=True,
        env=os.environ | more,
        timeout=120,
    )


def ranked(capsys, *words):
    assert main(["rank", "--json", *words]) == 0
    return json.loads(capsys.readouterr().out)


def batch(*lines, limit=3):
    encoded = [line if isinstance(line, bytes) else json.dumps(line).encode() for line in lines]
    desk = Desk(engine(), limit)
    return [desk.answer(n, line + b"\n") for n, line in enumerate(encoded, 1) if line.strip()]


# ---- one sample


def test_text_leads_with_the_verdict_and_ends_with_the_cautions(capsys):
    assert main(["rank", *WORDS]) == 0
    said = capsys.readouterr().out
    assert said.startswith(("Identified: ", "Not identified yet. Most likely "))
    assert " 1. " in said
    assert "bspp60:G1/2:male" in said
    assert "none of these" in said
    assert "\nNext: " in said
    assert "\nCautions\n- " in said
    assert max(map(len, said.splitlines())) <= 80


def test_json_has_the_documented_fields(capsys):
    found = ranked(capsys, *WORDS)
    assert list(found) == [
        "verdict", "sentence", "candidates", "none_of_these", "unlisted_size", "certain",
        "suspect_readings", "lookalikes", "warnings", "evidence", "next_question", "beyond",
        "cautions", "care",
    ]  # fmt: skip
    lead = found["candidates"][0]
    assert list(lead) == [
        "id", "family", "family_name", "size", "standard", "gender", "form", "thread",
        "seat_half_angle_deg", "seat_shape", "o_ring", "probability", "own_probability",
        "cannot_be_told_from", "other_forms", "rating_bar", "basis", "confidence", "caveat",
        "refuse",
    ]  # fmt: skip
    assert (lead["id"], lead["thread"]) == ("bspp60:G1/2:male", "G 1/2")
    assert lead["seat_half_angle_deg"] == 30
    assert (lead["gender"], lead["seat_shape"]) == ("male", "concave")


def test_json_values_are_of_their_kind(capsys):
    found = ranked(capsys, *WORDS)
    assert found["verdict"] in {"identified", "shortlist", "abstain"}
    chances = [each["probability"] for each in found["candidates"]]
    assert chances == sorted(chances, reverse=True)
    assert all(0 <= chance < 1 for chance in chances)
    assert sum(chances) + found["none_of_these"] <= 1 + 1e-6
    for each in found["candidates"]:
        assert each["own_probability"] <= each["probability"]
        assert each["gender"] in GENDERS
        assert each["seat_shape"] in {*SEAT_SHAPES, "chamfer", "plug"}
    for each in found["warnings"]:
        assert each["effect"] in {"warn", "caution", "refuse", "ask_first"}
        assert each["hazard"] in {"low", "medium", "high"}
        assert each["sentence"]
        assert each["because"]
        assert each["source"]
    for each in found["evidence"]:
        assert each["reading"] in set(Feature)
        assert each["candidate"] in {one["id"] for one in found["candidates"]}
        assert ("against" in each["sentence"].rsplit(";", 1)[1]) == (each["weight"] < -0.1)
    assert len(found["evidence"]) == len(CONE) * len(found["candidates"])


def test_options_may_stand_anywhere(capsys):
    first = ranked(capsys, *WORDS, "--limit", "2")
    assert main(["rank", *WORDS[:2], "--limit", "2", WORDS[2], "--json", *WORDS[3:]]) == 0
    assert json.loads(capsys.readouterr().out) == first


def test_a_byte_order_mark_is_passed_over():
    (found,) = batch(b"\xef\xbb\xbf" + json.dumps({"id": 1, "readings": SAMPLE}).encode())
    assert found["candidates"]


def test_limit_lists_so_many(capsys):
    assert len(ranked(capsys, *WORDS, "--limit", "2")["candidates"]) == 2
    assert len(ranked(capsys, *WORDS, "--limit", "1")["candidates"]) == 1


def test_one_measurement_typed_in_many_ways_is_one_measurement(capsys):
    first = ranked(capsys, "gender=male", "thread_od=20.9 mm", "pitch=14 tpi")
    for typed in ("20,9 mm", "0.822835 in", "20.9mm", '"20.9 mm"'):
        found = ranked(capsys, "gender=male", f"thread_od={typed}", "pitch=14 tpi")
        assert found["candidates"][0]["id"] == first["candidates"][0]["id"]
        assert found["none_of_these"] == pytest.approx(first["none_of_these"], rel=1e-3)


def test_a_mixed_fraction_is_read_whole(capsys):
    mixed = ranked(capsys, "gender=male", "thread_od=1 1/16 in", "pitch=12 tpi")
    plain = ranked(capsys, "gender=male", "thread_od=26.9875 mm", "pitch=12 tpi")
    assert mixed["candidates"] == plain["candidates"]
    assert mixed["candidates"][0]["thread"].startswith("1 1/16-12")


def test_order_does_not_matter_and_a_repeat_counts_once(capsys):
    first = ranked(capsys, *WORDS)
    assert ranked(capsys, *reversed(WORDS), WORDS[0])["candidates"] == first["candidates"]


def test_a_diameter_of_one_gender_tells_the_gender(capsys):
    said = ranked(capsys, "gender=male", "thread_od=20.9 mm")
    assert ranked(capsys, "thread_od=20.9 mm")["candidates"] == said["candidates"]


def test_an_even_prior_changes_the_ranking_and_nothing_is_certain(capsys):
    usual = ranked(capsys, *WORDS[:3])
    even = ranked(capsys, *WORDS[:3], "--prior", "even")
    assert usual["candidates"] != even["candidates"]


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ([], "No readings given."),
        (["diameter=20.9 mm"], "does not say which size is meant: write thread_od"),
        (["od=20.9 mm"], "does not say which outside diameter is meant"),
        (["pitch=14 tpi"], "The gender was not said"),
        (["thread_odd=20.9 mm"], 'did you mean "thread_od"?'),
        (
            ["gender=mail", "pitch=14 tpi"],
            '"mail" is none of male, female, flange, eye, washer, plug, ',
        ),
        (["gender=male", "thread_od=1,234 mm"], "can be read in two ways"),
        (["gender=male", "thread_od=20.9"], "has no unit"),
        (["gender=male", "thread_od=0.9 mm"], "did you mean 0.9 in or 9 mm?"),
        (["gender=male", "thread_od=9", "thread_od=8"], "has no unit"),
        (["gender=male", "gender=female", "thread_od=8 mm"], "gender is given twice"),
        (["thread_od=20.9 mm", "thread_id=19 mm"], "keep the one that is true of this end"),
        (["20.9"], "male or female was not said; write m 20.9"),
        (["gender=male", "--limit", "0"], "--limit 0 lists nothing"),
        (["gender=male", "--batch", "-"], "Give readings or --batch FILE, not both."),
        (
            ["--batch", "no/such/file"],
            "no/such/file: cannot be read (No such file or directory). Name",
        ),
        (["gender=male", "--tables", "no/such"], "no/such"),
    ],
)
def test_a_slip_is_one_sentence_and_status_2(words, sentence, capsys):
    assert main(["rank", *words]) == 2
    streams = capsys.readouterr()
    assert sentence in streams.err
    assert streams.err.startswith("whichend: ")
    assert streams.out == ""


def test_a_wrong_option_is_status_2_too():
    done = run("gender=male", "--limit", "many")
    assert done.returncode == 2
    assert done.stderr.decode().splitlines() == [
        'whichend: --limit: "many" is not a whole number. "whichend rank --help" tells more.'
    ]


@pytest.mark.parametrize("more", [{"PYTHONIOENCODING": "ascii"}, {"PYTHONIOENCODING": "latin-1"}])
def test_no_character_stops_it(more):
    done = run(*WORDS, **more)
    assert (done.returncode, done.stderr) == (0, b"")
    assert "Shape of the seat: concave is what it shows" in done.stdout.decode(
        more["PYTHONIOENCODING"]
    )
    wrong = run("gender=male", "thread_od=∅9", **more)
    assert wrong.returncode == 2
    assert b"Traceback" not in wrong.stderr


# ---- batches


def test_a_batch_keeps_order_and_id_and_tells_bad_lines_apart():
    found = batch(
        {"id": "a", "readings": SAMPLE},
        b"{not json",
        {"id": 7, "readings": {"gender": "male", "diameter": "9 mm"}},
        b"",
        {"readings": CONE},
        {"id": ["odd", None], "readings": {"pitch": "14 tpi"}},
        [1, 2],
        {"id": "b", "readings": "gender=male"},
        {"id": "c"},
        b"\xff\xfe",
        b"null",
        {"id": "last", "readings": SAMPLE},
    )
    assert [each.get("id", "-") for each in found] == [
        "a", "-", 7, None, ["odd", None], "-", "b", "c", "-", "-", "last",
    ]  # fmt: skip
    assert [number for number, each in enumerate(found) if "error" not in each] == [0, 3, 10]
    places = [each["error"].split(": ")[0] for each in found if "error" in each]
    assert places == [f"line {n}" for n in (2, 3, 6, 7, 8, 9, 10, 11)]
    assert "does not say which size is meant" in found[2]["error"]
    assert "is not UTF-8" in found[8]["error"]


def test_a_line_of_a_batch_says_what_the_same_readings_say_alone(capsys):
    (line,) = batch({"id": 1, "readings": CONE}, limit=8)
    alone = ranked(capsys, *WORDS)
    assert {key: value for key, value in line.items() if key != "id"} == alone


def test_values_may_be_numbers_or_say_how_they_were_taken():
    by_rule, plain, wrong = batch(
        {"readings": {**SAMPLE, "thread_od": {"value": "20.9 mm", "how": "rule"}}},
        {"readings": {**SAMPLE, "seat_angle": 60}},
        {"readings": {**SAMPLE, "thread_od": 20.9}},
    )
    assert by_rule["candidates"]
    assert plain["candidates"]
    assert wrong["error"] == (
        'line 3: thread_od: "20.9" has no unit; write 20.9 mm (0.823 in) or 20.9 in (530.9 mm), '
        "whichever was read."
    )


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        (b'{"id": 1, "readings": {"gender": "' + b"x" * LONGEST_LINE + b'"}}', "is longer than"),
        (b"[" * 5000, "is not JSON"),
        (b'{"readings": {"gender": null}}', "is no kind of value"),
        (b'{"readings": {"gender": [["male"]]}}', "is no kind of value"),
        (b'{"readings": {"gender": {"value": "male", "who": "me"}}}', "is not understood"),
        (b'{"readings": {"gender": {"value": "male", "by": "me"}}}', "does not say who took it"),
        (b'{"readings": {"gender": "male", "thread_od": 1e999}}', "no kind of value"),
        (b'{"readings": {"gender": "male", "thread_od": "\\u0000"}}', "cannot be printed"),
        (b'{"readings": {}}', "The gender was not said"),
        (b'{"readings": {"thread_od": []}}', "lists no reading"),
    ],
)
def test_a_bad_line_is_told_and_the_next_is_answered(line, sentence):
    bad, good = batch(line, {"id": 2, "readings": SAMPLE})
    assert sentence in bad["error"]
    assert good["candidates"]


def test_an_empty_file_is_said_to_be_empty(tmp_path):
    for content in (b"", b"\n\n  \n"):
        file = tmp_path / "empty.jsonl"
        file.write_bytes(content)
        done = run("--batch", str(file))
        assert (done.returncode, done.stdout) == (2, b"")
        assert done.stderr.decode().startswith(f"whichend: {file} holds no sample; write one JSON")


def test_a_folder_is_no_batch(tmp_path):
    done = run("--batch", str(tmp_path))
    assert (done.returncode, done.stdout) == (2, b"")
    assert b"cannot be read (Is a directory). Name a file of JSON Lines" in done.stderr


def test_a_file_and_standard_input_give_the_same(tmp_path):
    lines = b"".join(
        json.dumps({"id": n, "readings": sample}).encode() + b"\n"
        for n, sample in enumerate([SAMPLE, CONE, {"pitch": "14"}])
    )
    file = tmp_path / "three.jsonl"
    file.write_bytes(lines.rstrip(b"\n"))
    from_file = run("--batch", str(file))
    assert from_file.returncode == 1  # one line failed, the others are answered
    assert from_file.stdout == run("--batch", "-", script=lines).stdout
    found = [json.loads(line) for line in from_file.stdout.decode("utf-8").splitlines()]
    assert [each["id"] for each in found] == [0, 1, 2]
    assert "error" in found[2]


def test_a_million_characters_are_one_bad_line():
    script = b"y" * 1_000_001 + b"\n" + json.dumps({"id": 2, "readings": SAMPLE}).encode()
    done = run("--batch", "-", script=script)
    bad, good = (json.loads(line) for line in done.stdout.decode().splitlines())
    assert bad["error"] == (
        "line 1: is longer than 1000000 characters; one sample is a short line."
    )
    assert good["id"] == 2
    assert done.returncode == 1


@pytest.mark.parametrize(
    ("mark", "ends"),
    [  # what such a mark is read as is common practice
        ("DN12", {"bspp60:G1/2:male", "orfs:-8:male"}),
        ("1/2 BSP", {"bspp60:G1/2:male", "r_taper:R1/2:male"}),
        ("G1/2", {"bspp60:G1/2:male", "port_g_flat:G1/2:male"}),
        ("1/2 NPT", {"npt:1/2-NPT:male"}),
        ("3/4-16", {"flare37:-8:male", "orb_un:-8:male"}),
        ("m22", {"cone24_L:15L:male", "cone24_S:14S:male"}),
        ("12 L", {"cone24_L:12L:male"}),
    ],
)
def test_a_mark_is_known_in_the_spellings_of_the_trade(mark, ends, capsys):
    found = ranked(capsys, "gender=male", f"marking={mark}")
    assert ends <= {each["id"] for each in found["candidates"][:4]}
    assert found["verdict"] == "shortlist"


@pytest.mark.parametrize(
    ("line", "name", "said"),
    [
        ('{"id": 1, "readings": {"hex": "9 mm", "hex": "8 mm"}}', 1, 'gives "hex" twice'),
        ('{"id": 1, "readings": {"hex": NaN}}', 1, "holds NaN, which is no number of JSON"),
        ('{"id": "x", "readings": 5}', "x", "is not {"),
        ('{"id": "x"}', "x", "is not {"),
        ('{"id": -Infinity, "readings": {"hex": "9 mm"}}', None, "holds -Infinity"),
        ('{"id": 1e999, "readings": {"hex": "9 mm"}}', "-", "an id that JSON cannot write"),
        ('{"id": 1, "id": 2, "readings": {"hex": "9 mm"}}', None, 'gives "id" twice'),
    ],
)
def test_what_json_lets_pass_is_refused_and_the_id_kept(line, name, said):
    (found,) = batch(line.encode(), limit=1)
    assert said in found["error"]
    assert found.get("id", "-") == name
    json.loads(json.dumps(found, allow_nan=False))


@pytest.mark.parametrize("mark", ["x" * 150, "12L-" * 40, "漢" * 70])
def test_a_marking_without_blanks_keeps_the_columns(capsys, mark):
    assert main(["rank", *WORDS, f"marking={mark}", "--full"]) == 0
    printed = capsys.readouterr().out
    assert mark[:20] in printed
    assert max(map(len, printed.splitlines())) <= 80


def test_how_many_are_listed_changes_neither_the_leader_nor_what_is_said_of_it():
    readings = {"thread_od": "20.9 mm", "pitch": "14 tpi", "taper": "tapered"}
    few, many = (batch({"readings": readings}, limit=limit)[0] for limit in (1, 8))
    assert len(few["candidates"]) == 1
    assert few["candidates"][0] == many["candidates"][0]
    assert few["sentence"] == many["sentence"]
    assert few["lookalikes"] == many["lookalikes"]
