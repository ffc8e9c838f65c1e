"""The line dialogue as a process: encodings, strange bytes, terminals, signals, going on."""

import os
import pty
import select
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SCRIPT = b"1\n1\n1\n20.9 mm\n"
SAVED = 'Your answers are saved; "whichend ask --resume" goes on with them.'


def environment(folder, **more):
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("LC_", "LANG", "PYTHONIO"))}
    kept |= {"XDG_STATE_HOME": str(folder), "PYTHONPATH": str(ROOT)}
    return kept | {"LC_ALL": "C.UTF-8", "TERM": "xterm"} | more


def ask(folder, script, *words, **more):
    return subprocess.run(
        [sys.executable, "-m", "identify", "ask", *words],
        input=script,
        capture_output=True,
        env=environment(folder, **more),
        cwd=folder,
        timeout=60,
    )


def test_a_script_on_standard_input_gets_the_dialogue(tmp_path):
    done = ask(tmp_path, SCRIPT)
    assert (done.returncode, done.stderr) == (0, b"")
    said = done.stdout.decode()
    assert "> 20.9 mm\nSaved. Thread outside diameter: 20.9 mm, by caliper.\n" in said
    assert "· Thread outside diameter: 20.90 mm lies within" in said
    assert said.endswith(SAVED + "\n")
    assert "\x1b" not in said


@pytest.mark.parametrize(
    "more", [{"LC_ALL": "C"}, {"LC_ALL": "POSIX"}, {"PYTHONIOENCODING": "ascii"}]
)
def test_ascii_is_enough_where_the_locale_says_so(tmp_path, more):
    done = ask(tmp_path, SCRIPT + "a\n9\n?\n½ mm Ø 20\nq\n".encode(), **more)
    assert (done.returncode, done.stderr) == (0, b"")
    said = done.stdout.decode("ascii")
    assert "- Thread outside diameter: 20.90 mm lies within" in said
    assert "deg half" in said
    assert "?" * 5 not in said


def test_another_encoding_keeps_the_characters_it_has(tmp_path):
    done = ask(tmp_path, SCRIPT, PYTHONIOENCODING="latin-1")
    assert (done.returncode, done.stderr) == (0, b"")
    assert "· Thread outside diameter: 20.90 mm" in done.stdout.decode("latin-1")


@pytest.mark.parametrize(
    "garbage",
    [b"\xff\xfe\x00\x01\x80", bytes(range(256)), b"x" * 1_000_000, b"\r\r\r", b"\xe2\x88"],
    ids=["no-text", "all-bytes", "a-million", "returns", "half-a-character"],
)
def test_strange_bytes_lose_nothing(tmp_path, garbage):
    done = ask(tmp_path, b"1\n1\n1\n" + garbage + b"\n20.9 mm\n")
    assert (done.returncode, done.stderr) == (0, b"")
    assert "Saved. Thread outside diameter: 20.9 mm, by caliper." in done.stdout.decode()


def test_lines_may_end_as_on_another_system(tmp_path):
    done = ask(tmp_path, SCRIPT.replace(b"\n", b"\r\n"))
    assert b"Saved. Thread outside diameter: 20.9 mm, by caliper." in done.stdout


def test_a_last_line_without_an_end_counts(tmp_path):
    assert b"Saved. Thread outside" in ask(tmp_path, SCRIPT.rstrip()).stdout


def test_no_input_at_all_ends_well(tmp_path):
    done = ask(tmp_path, b"")
    assert done.returncode == 0
    assert b"Nothing has been measured yet." in done.stdout


def test_a_later_run_goes_on_and_a_script_only_if_it_asks_to(tmp_path):
    ask(tmp_path, SCRIPT)
    fresh = ask(tmp_path, b"").stdout.decode()
    assert "was not finished and is kept;" in " ".join(fresh.split())
    assert "What have you to hand?" in fresh
    silent = ask(tmp_path, b"", "--new").stdout.decode()
    assert "not finished" not in silent
    more = ask(tmp_path, b"14 tpi counted\n2\nq\n", "--resume")
    said = more.stdout.decode()
    assert "- Thread outside diameter: 20.9 mm, by caliper\nIt goes on here.\n" in said
    assert "Saved. Shape of the seat: Cone in (concave)." in said
    again = ask(tmp_path, b"", "--resume").stdout.decode()
    assert "- Shape of the seat: Cone in (concave)\nIt goes on here.\n" in again


def test_nothing_to_go_on_with_is_one_sentence(tmp_path):
    done = ask(tmp_path, b"", "--resume")
    assert done.returncode == 2
    assert done.stderr == (
        b"whichend: There is no unfinished interview to go on with; leave out --resume.\n"
    )


def test_the_tables_of_the_person_and_an_even_prior_are_used(tmp_path):
    done = ask(tmp_path, b"", "--tables", str(tmp_path / "none"))
    assert done.returncode == 2
    assert b"Traceback" not in done.stderr
    usual = ask(tmp_path, SCRIPT, "--new").stdout
    assert ask(tmp_path, SCRIPT, "--new", "--prior", "even").stdout != usual


def test_the_dialogue_needs_no_screen_library(tmp_path):
    code = (
        "import sys; from identify.entry import main; main(['ask', '--plain', '--new']);"
        "found = {'textual', 'rich', 'yaml', 'pint'} & set(sys.modules); sys.exit(str(found))"
        " if found else None"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], input=SCRIPT, capture_output=True, env=environment(tmp_path)
    )
    assert (done.returncode, done.stderr) == (0, b"")


class Talk:
    """A dialogue on a real terminal."""

    def __init__(self, folder, *words, **more):
        self.pid, self.fd = pty.fork()
        self.heard = self.said = b""
        if self.pid == 0:
            words = [sys.executable, "-m", "identify", "ask", *words]
            os.chdir(folder)
            os.execve(sys.executable, words, environment(folder, **more))

    def until(self, text):
        deadline = time.monotonic() + 30
        while text.encode() not in self.heard:
            left = deadline - time.monotonic()
            if left <= 0 or not select.select([self.fd], [], [], left)[0]:
                break
            try:
                self.heard += os.read(self.fd, 65536)
            except OSError:
                break
        assert text.encode() in self.heard, self.heard.decode(errors="replace")
        past, self.heard = self.heard.split(text.encode(), 1)
        self.said += past + text.encode()

    def type(self, line):
        os.write(self.fd, f"{line}\n".encode())

    def status(self):
        ended = os.waitpid(self.pid, 0)[1]
        os.close(self.fd)
        return os.waitstatus_to_exitcode(ended)


@pytest.mark.parametrize(
    ("words", "more"),
    [(["--plain"], {}), ([], {"TERM": "dumb"}), ([], {"LC_ALL": "C"})],
    ids=["asked-for", "dumb", "no-utf-8"],
)
def test_a_terminal_that_cannot_show_the_screen_gets_the_dialogue(tmp_path, words, more):
    talk = Talk(tmp_path, *words, **more)
    talk.until("Enter alone keeps: caliper.")
    for line in ("", "", "1", "q"):
        talk.until("> ")
        talk.type(line)
    talk.until(SAVED)
    assert b"Saved. Kind of end: Outside (male)." in talk.said
    assert b"\x1b" not in talk.said
    assert talk.status() == 0


def test_a_person_is_asked_whether_to_go_on(tmp_path):
    ask(tmp_path, SCRIPT)
    talk = Talk(tmp_path, "--plain")
    talk.until("1  Go on where it stopped.")
    for line in ("9", "1"):
        talk.until("> ")
        talk.type(line)
    talk.until("It goes on here.")
    talk.until("such as: 6 gaps over 9.05 mm")
    talk.until("> ")
    os.write(talk.fd, b"\x04")  # Ctrl+D
    talk.until(SAVED)
    assert talk.status() == 0


def test_a_person_may_begin_anew_and_the_old_one_is_kept(tmp_path):
    ask(tmp_path, SCRIPT)
    talk = Talk(tmp_path, "--plain")
    talk.until("2  Begin a new one; the old one is kept.")
    talk.until("> ")
    talk.type("2")
    talk.until("What have you to hand?")
    talk.until("> ")
    os.write(talk.fd, b"\x04")
    talk.until("Nothing was answered")
    assert talk.status() == 0
    assert b"It goes on here." in ask(tmp_path, b"", "--resume").stdout


@pytest.mark.parametrize(
    ("sent", "status"), [(signal.SIGINT, 130), (signal.SIGTERM, -15), (signal.SIGHUP, -1)]
)
def test_a_dropped_line_loses_no_answer(tmp_path, sent, status):
    talk = Talk(tmp_path, "--plain")
    for line in ("", "", "1", "20.9 mm"):
        talk.until("> ")
        talk.type(line)
    talk.until("such as: 6 gaps over 9.05 mm")
    talk.until("> ")
    os.kill(talk.pid, sent)
    if sent == signal.SIGINT:
        talk.until(SAVED)
    assert talk.status() == status
    assert (
        b"- Thread outside diameter: 20.9 mm, by caliper" in ask(tmp_path, b"", "--resume").stdout
    )


def test_a_terminal_that_can_gets_the_full_screen(tmp_path):
    talk = Talk(tmp_path, "--new")
    talk.until("\x1b[?1049h")
    talk.until("caliper")
    os.kill(talk.pid, signal.SIGTERM)
    talk.until("\x1b[?1049l")
    assert talk.status() == 143


def test_the_themes_are_those_of_the_full_screen():
    from identify.commands.ask import THEMES
    from identify.tui.themes import NAMES

    assert set(THEMES) == set(NAMES)
    assert THEMES[0] == NAMES[0]
