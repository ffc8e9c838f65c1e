"""The command line as a stranger meets it: exit codes, one sentence for a slip, no traceback."""

import subprocess
import sys

import pytest

from identify.entry import COMMANDS, main


def run(*words, **more):
    return subprocess.run(
        [sys.executable, "-m", "identify", *words], capture_output=True, text=True, **more
    )


def test_help_lists_every_command(capsys):
    with pytest.raises(SystemExit) as stop:
        main(["--help"])
    assert stop.value.code == 0
    printed = capsys.readouterr().out
    assert all(name in printed for name in COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_itself(name, capsys):
    with pytest.raises(SystemExit) as stop:
        main([name, "--help"])
    assert stop.value.code == 0
    assert f"whichend {name}" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["rnak"], '"rnak" is not a command. Did you mean "rank"?'),
        (["gender=male"], 'To rank readings write "whichend rank gender=male".'),
        (["rank"], "No readings given."),
        (["rank", "--limit", "0", "gender=male"], "--limit 0 lists nothing"),
        (["rank", "gender=male", "--tables", "nowhere"], "nowhere"),
        (["rank", "--batch", "nowhere.jsonl"], "nowhere.jsonl: cannot be read"),
        (["show", "no such end"], "names no end of the tables"),
    ],
)
def test_a_slip_gets_one_sentence_and_status_2(words, sentence, capsys):
    assert main(words) == 2
    streams = capsys.readouterr()
    assert sentence in streams.err
    assert streams.err.startswith("whichend: ")
    assert "Traceback" not in streams.err
    assert streams.out == ""


def test_version_is_told_and_nothing_else_is_done():
    done = run("--version")
    assert done.returncode == 0
    assert done.stdout.startswith("whichend ")


def test_a_closed_pipe_is_no_fault():
    done = subprocess.run(
        f"{sys.executable} -m identify tables | head -n 1",
        shell=True,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0
    assert done.stderr == ""


def test_the_other_package_of_this_name_is_absent():
    # It would merge its files into ours; a test environment with both proves nothing.
    from importlib.metadata import packages_distributions

    owners = set(packages_distributions().get("identify", [])) - {"whichend"}
    assert not owners, f"install whichend apart from {owners}"


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["rank", "--jsn"], '"--jsn" is not understood here. Did you mean "--json"?'),
        (["rank", "--limit", "abc", "gender=male"], '--limit: "abc" is not a whole number.'),
        (["rank", "--limit"], "Argument --limit: expected one argument."),
        (["rank", "--prior", "odd"], '--prior: "odd" is none of usual, even.'),
        (["show"], "Missing: end."),
        (["compare", "flare37:-4:male"], "Missing: B."),
        (["gauges", "--paper", "a5"], '--paper: "a5" is none of a4, letter.'),
        (["--wxyz"], '"--wxyz" is not understood here.'),
        (["--resme"], '"--resme" is not understood here. Did you mean "--resume"?'),
    ],
)
def test_a_wrong_option_gets_one_sentence_and_where_to_read_more(words, sentence, capsys):
    assert main(words) == 2
    streams = capsys.readouterr()
    command = "ask" if words[0].startswith("-") else words[0]
    assert streams.err == f'whichend: {sentence} "whichend {command} --help" tells more.\n'
    assert streams.out == ""
