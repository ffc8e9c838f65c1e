"""The real program on a real terminal: what it shows, what it sends, how it leaves."""

import os
import re
import signal
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.tui.terminal import Terminal, prepared

KEY_BYTES = 15_000  # at most 9 kB on a quiet machine; a busy one may draw a frame twice
Start = Callable[..., Terminal]


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Start]:
    """Start the program; whatever still runs at the end is ended."""
    running: list[Terminal] = []

    def begin(*words: str, **more: object) -> Terminal:
        running.append(Terminal(tmp_path, *words, **more))  # type: ignore[arg-type]
        return running[-1]

    yield begin
    for terminal in running:
        terminal.end()


def measured(terminal: Terminal) -> Terminal:
    prepared(terminal).press("1")
    terminal.wait("Question 2")
    terminal.press("20.9")
    terminal.wait("> 20.9")
    terminal.press("\r")
    terminal.wait("Question 3")
    return terminal


def test_it_leaves_by_q_and_the_next_start_goes_on(start: Start) -> None:
    terminal = measured(start("--new"))
    terminal.press("q")
    assert terminal.status() == 0
    assert terminal.restored()
    assert b"saved" in terminal.after()
    again = start()
    again.wait("broken off")
    again.press("1")
    again.wait("Question 3")
    again.press("\x03")
    assert again.status() == 0
    assert again.restored()
    assert b"saved" in again.after()


@pytest.mark.parametrize(
    "number",
    [signal.SIGTERM, signal.SIGHUP, signal.SIGINT, signal.SIGQUIT, signal.SIGUSR1, signal.SIGABRT],
    ids=lambda number: number.name,
)
def test_a_signal_ends_it_in_order(start: Start, number: signal.Signals) -> None:
    terminal = measured(start("--new"))
    terminal.kill(number)
    assert terminal.status() == 128 + number
    assert terminal.restored()
    assert terminal.cooked()
    again = start("--resume")
    assert "Question 3" in again.wait("Question 3")


def test_a_stop_from_outside_is_survived_and_leaves_the_shell_its_echo(start: Start) -> None:
    terminal = measured(start("--new"))
    terminal.kill(signal.SIGSTOP)
    terminal.stopped()
    terminal.as_a_shell_sets_it()
    terminal.kill(signal.SIGCONT)
    terminal.press("v")
    terminal.wait("Not identified yet")
    assert not terminal.cooked()
    terminal.press("\x11")
    assert terminal.status() == 0
    assert terminal.restored()
    assert terminal.cooked()


def test_ctrl_z_stops_and_hands_the_shell_its_terminal(start: Start) -> None:
    terminal = measured(start("--new"))
    terminal.press("\x1a")
    terminal.stopped()
    terminal.pump(0.3)
    assert terminal.cooked()
    terminal.kill(signal.SIGCONT)
    terminal.press("v")
    terminal.wait("Not identified yet")
    terminal.press("\x11")
    assert terminal.status() == 0


@pytest.mark.parametrize("noise", [b"\xb0", b"\xbd", b"\xff\xfe", b"\xe2\x82", b"\x80\xc3"])
def test_bytes_that_are_no_text_are_passed_over(start: Start, noise: bytes) -> None:
    terminal = prepared(start("--new"))
    terminal.press(noise)
    terminal.pump(0.3)
    terminal.press("1")
    terminal.wait("Question 2")
    terminal.press("2")
    terminal.wait("> 2")
    terminal.press(noise)
    terminal.pump(0.3)
    terminal.press("0.9")
    terminal.wait("> 20.9")
    terminal.press("\r")
    terminal.wait("Question 3")
    terminal.press("q")
    assert terminal.status() == 0
    assert terminal.restored()


def test_a_dropped_line_loses_nothing(start: Start) -> None:
    terminal = measured(start("--new"))
    terminal.hang_up()
    assert terminal.status() == 129
    assert "Question 3" in start("--resume").wait("Question 3")


def test_a_crash_is_short_and_names_the_log(start: Start, tmp_path: Path) -> None:
    terminal = measured(start("--crash", "--new"))
    terminal.press("?")
    assert terminal.status() == 1
    assert terminal.restored()
    said = terminal.after().decode()
    assert "crash.log" in said
    assert "Traceback" not in said
    (log,) = tmp_path.rglob("crash.log")
    assert "RuntimeError" in log.read_text(encoding="utf-8")
    assert "a name that must not be printed" not in log.read_text(encoding="utf-8") + said
    assert "Question 3" in start("--resume").wait("Question 3")


def test_a_killed_program_loses_nothing(start: Start) -> None:
    terminal = measured(start("--new"))
    terminal.kill(signal.SIGKILL)
    assert terminal.status() == -signal.SIGKILL
    assert "Question 3" in start("--resume").wait("Question 3")


def test_a_full_interview_from_start_to_verdict(start: Start) -> None:
    answers = {
        "Kind of end": "1",
        "How the thread is held": "2",
        "Thread outside diameter": "20.9\r",
        "Thread pitch": "10 18.1\r",
        "Parallel or tapered": "0.01 8\r",
        "Shape of the seat": "2",
        "Angle of the seat": "10 13.5 3\r",
        "Thread form": "1",
        "Where an O-ring": "1",
    }
    terminal = prepared(start("--new"))
    for number in range(1, 20):
        screen = terminal.wait(f"Question {number}:")
        title = screen.split(f"Question {number}: ")[1].split(" ─")[0]
        terminal.press(answers.get(title, "0") if title in answers else _cannot(screen))
        if _ends(terminal, number + 1):
            break
    assert "What it is" in terminal.text()
    assert "G1/2" in terminal.text()
    terminal.press("q")
    assert terminal.status() == 0
    assert terminal.restored()


def _cannot(screen: str) -> str:
    return "0\r" if "0 Enter: cannot tell" in screen else "0"


def _ends(terminal: Terminal, number: int) -> bool:
    """Tell whether the verdict or the end of the questions came up instead of a question."""
    found = terminal.wait_any(f"Question {number}:", "What it is", "No question left")
    if found == "No question left":
        terminal.press("\r")
        terminal.wait("What it is")
    return found != f"Question {number}:"


def test_keys_that_come_all_at_once_act_one_after_another(start: Start) -> None:
    """As a scanner types: each key is for the screen that the key before it made."""
    terminal = prepared(start("--new"))
    terminal.press("120.9\r")
    terminal.wait("Question 3")
    assert "thread OD 20.9 mm" in terminal.text()
    reference = re.search(r"[2-9A-Z]{3}-[2-9A-Z]{3}", terminal.text())
    assert reference
    terminal.press(f"JOB {reference[0].replace('-', '')}\r")
    terminal.wait(f"Job {reference[0]}, begun")
    terminal.wait("20.9 mm, by caliper")


def test_every_key_sends_little(start: Start) -> None:
    terminal = prepared(start("--new"))
    steps = (
        ("1", "Question 2"), ("2", "> 2"), ("0.9", "> 20.9"), ("\r", "Question 3"),
        ("v", "Not identified yet"), ("b", "Question 3"), ("y", "Why:"), ("b", "Question 3"),
        ("z", "Easily taken"), ("1", "Leading end solid"), ("b", "Easily taken"),
        ("b", "Question 3"), ("d", "Drawing:"), ("b", "Question 3"), ("s", "Type part"),
        ("b", "Question 3"), ("?", "Usual mistake:"), ("b", "Question 3"), ("c", "Question 3"),
    )  # fmt: skip
    sent = {}
    for keys, words in steps:
        if keys == "b" and "Type part" in terminal.text():
            keys = "\x1b"
        sent[keys, words] = terminal.bytes_of(keys, words)
    assert {step: count for step, count in sent.items() if count >= KEY_BYTES} == {}
    assert sent["0.9", "> 20.9"] < 1_000
    terminal.press("q")
    assert terminal.status() == 0


def test_it_follows_the_size_of_the_window(start: Start) -> None:
    terminal = measured(start("--new", columns=120, rows=40))
    assert "Ranking" in terminal.text().splitlines()[2]
    terminal.resize(45, 30)
    terminal.wait("d drawing")
    terminal.resize(30, 12)
    terminal.wait("Make")
    terminal.resize(80, 24)
    terminal.wait("Question 3")
    terminal.press("q")
    assert terminal.status() == 0
    assert terminal.restored()


def test_forty_by_twenty_is_enough(start: Start) -> None:
    terminal = measured(start("--new", columns=40, rows=20))
    assert "Ranking" in terminal.text()
    terminal.press("q")
    assert terminal.status() == 0
    assert terminal.restored()


def test_no_colour_means_none(start: Start) -> None:
    terminal = measured(start("--new", NO_COLOR="1"))
    assert b"[38;" not in bytes(terminal.sent)
    assert b"[48;" not in bytes(terminal.sent)
    assert "Question 3" in terminal.text()
    terminal.press("c")
    terminal.wait("NO_COLOR is set")
    terminal.press("q")
    assert terminal.status() == 0
    assert terminal.restored()


def test_without_utf_8_the_dialogue_of_lines_starts(start: Start) -> None:
    terminal = start("--new", LC_ALL="C", PYTHONUTF8="0", PYTHONCOERCECLOCALE="0")
    terminal.wait("aliper")
    assert b"\x1b[?1049h" not in bytes(terminal.sent)
    assert b"\\u2" not in bytes(terminal.sent)
    terminal.press("\x04")
    assert terminal.status() in (0, 130)


def test_a_folder_that_cannot_be_written_is_said(start: Start, tmp_path: Path) -> None:
    (tmp_path / "whichend").write_text("", encoding="utf-8")
    terminal = measured(start())
    assert "NOT saved" in terminal.text()
    assert "Answers are not kept" in terminal.text()
    terminal.press("q")
    assert terminal.status() == 0
    assert b"Answers are not kept" in terminal.after()


def test_a_terminal_is_closed_for_good(start: Start) -> None:
    terminal = prepared(start("--new"))
    terminal.press("q")
    assert terminal.status() == 0
    with pytest.raises(ProcessLookupError):
        os.kill(terminal.pid, 0)
