"""`rank --batch`: short answers, several processes, and with or without what the extra brings."""

import io
import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from identify.commands import progress
from identify.commands.desk import Desk
from identify.commands.output import Edge
from identify.commands.sample_line import LONGEST_LINE, Decode, decoder, json_object
from identify.errors import ReadingError
from identify.pages.as_json import verdict_json
from identify.pages.json_lines import encoder
from identify.reading.consistency import gathered, with_gender
from identify.reading.parse import reading_from
from identify.reasoning.engine import Engine
from tests.benchmark.speed import simulated
from tests.shipped import array_engine, knowledge, shipped_engine

NEVER = "import sys; sys.modules.update(numpy=None, orjson=None);"
RUN = "from identify.entry import main; sys.exit(main())"
TINY = b'{"id": 1e-5, "readings": {"gender": "male", "hex": "27 mm"}}'


@pytest.fixture(scope="module")
def lines() -> list[bytes]:
    sheets = simulated(knowledge(), 130, seed=5)
    told = [
        json.dumps(
            {"id": n, "readings": {str(each.feature): each.entered for each in sheet[: 1 + n % 9]}}
        ).encode()
        for n, sheet in enumerate(sheets)
    ]
    return [*told[:60], b"", b"no JSON", *told[60:]]


def rank(
    *words: str, script: bytes = b"", extra: bool = True
) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-c", (NEVER if not extra else "import sys;") + RUN, "rank", *words],
        input=script,
        capture_output=True,
        env=os.environ,
        timeout=300,
    )


@pytest.mark.parametrize(
    "line",
    [
        b'{"readings": {"hex": "27 mm"}}',
        b' {"id": 7, "readings": {"gender": "male", "hex": "27 mm"}, "claim": "JIC 8"}\r\n',
        b'{"id": "\xc3\xa9", "readings": {}}',
        b'\xef\xbb\xbf{"id": 1, "readings": {"hex": "27 mm"}}',
        b'{"id": 1, "id": 2, "readings": {"hex": "27 mm"}}',
        b'{"id": 1, "readings": {"hex": "27 mm", "hex": "28 mm"}}',
        b'{"id": 1, "readings": {"hex": "27 mm"}, "readings": {"hex": "28 mm"}}',
        b'{"id": 1, "readings": {"hex": "27 mm", "hex": ["27 mm", "28 mm"]}}',
        b'{"id": 1, "readings": {"flank_angle": 60, "pitch": 1e400}}',
        b'{"id": 123456789012345678901234567890, "readings": {"hex": "27 mm"}}',
        b'{"id": 18446744073709551615, "readings": {"hex": "27 mm"}}',
        b'{"id": true, "readings": {"hex": "27 mm"}, "by": {"hex": 1, "hex": 2}}',
        b'{"id": NaN, "readings": {"hex": "27 mm"}}',
        b'{"id": "\\ud83d", "readings": {"hex": "27 \\u006dm"}}',
        b'{"id": "a\\"", "a": "", "readings": {"hex": "27 mm", "hex": "27 mm"}}',
        b'["readings", {"hex": "27 mm"}]',
        b'{"readings": "hex"}',
        b'{"id": "\xff", "readings": {}}',
        b'{"readings": {"hex": "27 mm"}',
        b'{"id": "' + b"x" * LONGEST_LINE + b'", "readings": {}}',
    ],
    ids=lambda line: line[:60].decode(errors="replace"),
)
def test_the_faster_reader_reads_what_the_plain_one_does(line: bytes) -> None:
    def told(read: Decode) -> object:
        faults: list[str] = []
        try:
            return repr(read(line, faults)), faults
        except ReadingError as error:
            return str(error)

    assert told(decoder()) == told(json_object)


def test_with_and_without_the_extra_the_answers_are_the_same(lines: list[bytes]) -> None:
    script = b"\n".join(lines)
    fast, plain = (rank("--batch", "-", script=script, extra=extra) for extra in (True, False))
    assert fast.returncode == plain.returncode == 1  # one line is no JSON
    assert [json.loads(line) for line in fast.stdout.splitlines()] == [
        json.loads(line) for line in plain.stdout.splitlines()
    ]


def test_a_batch_answers_byte_for_byte_what_each_sample_is_answered_alone() -> None:
    """By numpy and together against the plain engine and one by one: 320 sheets, whole and cut."""
    encode, engine = encoder(), shipped_engine()
    samples, alone = [], []
    for n, sheet in enumerate(simulated(knowledge(), 320, seed=17), 1):
        read = sheet[: 1 + n % 7] if n % 3 == 0 else sheet
        told = [(str(each.feature), each.entered) for each in read]
        if n % 9 == 0:  # the last one twice, as a person may say it
            told.append(told[-1])
        typed: dict[str, list[str]] = {}
        for name, value in told:
            typed[name] = [*typed.get(name, []), value]
        try:
            readings = gathered(
                reading_from(name, each, threads=engine.catalogue.threads) for name, each in told
            )
            verdict = engine.conclude(with_gender(readings))
        except ReadingError as error:
            answer = {"error": f"line {n}: {error}"}
        else:
            answer = verdict_json(verdict)
        samples.append((n, json.dumps({"id": n, "readings": typed}).encode()))
        alone.append((f"{encode({'id': n, **answer})}\n", "error" in answer))
    assert sum(fault for _, fault in alone) < 10
    assert Desk(array_engine(), 8).written(samples) == alone


def test_several_processes_answer_in_order_what_one_answers(
    lines: list[bytes], tmp_path: Path
) -> None:
    file = tmp_path / "many.jsonl"
    file.write_bytes(b"\n".join(lines))
    one, three = (rank("--batch", str(file), "--jobs", jobs) for jobs in ("1", "3"))
    assert (one.returncode, three.returncode) == (1, 1)
    assert one.stdout == three.stdout
    assert b'"error":"line 62: is not JSON' in three.stdout
    assert one.stderr == three.stderr == b"whichend: 1 line failed; the answer to each says why.\n"


def test_several_processes_end_as_one_does(tmp_path: Path) -> None:
    empty = tmp_path / "empty.jsonl"
    empty.write_bytes(b"\n\n")
    for words in (["--batch", str(empty)], ["--batch", str(tmp_path)]):
        one, two = (rank(*words, "--jobs", jobs) for jobs in ("1", "2"))
        assert (one.returncode, one.stdout, one.stderr) == (two.returncode, two.stdout, two.stderr)
        assert one.returncode == 2


@pytest.mark.parametrize("arrays", [False, True])
def test_a_brief_answer_is_the_head_of_the_full_one(lines: list[bytes], arrays: bool) -> None:
    engine = array_engine() if arrays else shipped_engine()
    full, short = Desk(engine, 5), Desk(engine, 5, brief=True)
    for number, line in enumerate(filter(None, lines), 1):
        whole, brief = full.answer(number, line), short.answer(number, line)
        if "error" not in whole:
            kept = ("id", "verdict", "candidates", "none_of_these", "suspect_readings")
            whole = {name: whole[name] for name in kept}
            whole["candidates"] = [
                {name: each[name] for name in ("id", "probability")} for each in whole["candidates"]
            ]
        assert brief == whole


def test_what_the_faster_writer_cannot_write_is_written_all_the_same() -> None:
    encode = encoder()
    for value in ({"id": 10**30}, {"id": "\ud800"}, {"id": "é", "p": 1.2e-05, "none": None}):
        assert json.loads(encode(value)) == value
    assert json.loads(Desk(shipped_engine(), 1).written([(1, TINY)])[0][0])["id"] == 1e-5


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--brief", "hex=9 mm"], "--brief, --csv and --jobs are for many samples"),
        (["--jobs", "2", "hex=9 mm"], "--brief, --csv and --jobs are for many samples"),
        (["--jobs", "0", "--batch", "-"], "--jobs 0 does nothing; give 1 or more."),
    ],
)
def test_slips_are_told(words: list[str], said: str) -> None:
    done = rank(*words)
    assert done.returncode == 2
    assert said in done.stderr.decode()


def test_the_bar_is_written_over_itself_and_nothing_in_it_moves_a_cursor_elsewhere(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """As the program writes it: by the edge of standard error, which makes all else inert."""
    terminal = io.StringIO()
    terminal.isatty = lambda: True  # type: ignore[method-assign]
    monkeypatch.setattr("sys.stderr", Edge(terminal, "standard error"))
    monkeypatch.setattr("sys.stdout", io.StringIO())
    monkeypatch.setattr(progress, "EVERY_S", 0)
    assert list(progress.counted(range(3), lambda: 0.5)) == [0, 1, 2]
    first, *bars = terminal.getvalue().split("\r")
    assert (first, len(bars)) == ("", 4)
    assert all(bar.startswith("[##########..........] 50 %, ") for bar in bars)
    assert bars[-1].endswith("\n")
    assert {character for bar in bars for character in bar if not character.isprintable()} == {"\n"}


@pytest.mark.parametrize("engine", [shipped_engine(), array_engine()])
def test_a_sample_that_cannot_be_weighed_fails_alone(engine: Engine) -> None:
    good = b'{"id": 1, "readings": {"gender": "male", "hex": "27 mm"}}'
    bad = b'{"id": 2, "readings": {"gender": "male", "trial_fit": "nothing female: loose"}}'
    desk = Desk(engine, 3, brief=True)
    lines, failed = zip(*desk.written(enumerate([good, bad, good], 1)), strict=True)
    assert failed == (False, True, False)
    assert lines[0] == lines[2]
    assert json.loads(lines[1])["error"].startswith('line 2: trial_fit: "nothing female"')
    assert json.loads(lines[1]) == desk.answer(2, bad)
