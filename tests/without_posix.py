"""Makes Python look as it does where there is no POSIX: for `pytest -p tests.without_posix`.

The modules are absent, and with them the functions, flags and signals that Windows lacks. Paths
stay those of this machine: `os.name` and `sys.platform` cannot be changed under a running Python
without breaking its own `pathlib`. What only a real Windows shows is not tried here.
"""

import asyncio
import os
import signal
import sys
from importlib.abc import MetaPathFinder

ABSENT = (
    "fcntl",
    "termios",
    "tty",
    "pty",
    "pwd",
    "grp",
    "resource",
    "readline",
    "curses",
    "syslog",
)
FUNCTIONS = (
    "geteuid", "getuid", "getegid", "getgid", "mkfifo", "fork", "forkpty", "openpty", "O_NONBLOCK",
    "O_NOFOLLOW", "O_CLOEXEC", "O_DIRECTORY", "pread",
)  # fmt: skip
SIGNALS = (
    "SIGHUP", "SIGQUIT", "SIGKILL", "SIGUSR1", "SIGUSR2", "SIGALRM", "SIGPIPE", "SIGTSTP",
    "SIGCONT", "SIGSTOP", "SIGWINCH", "SIGRTMIN", "SIGRTMAX", "SIGPOLL", "SIGPWR",
    "SIGSTKFLT", "SIGVTALRM",
    "SIGPROF", "SIGXCPU", "SIGTRAP", "SIGSYS",
)  # fmt: skip


class Refuses(MetaPathFinder):
    """Finds none of the absent modules."""

    def find_spec(self, name: str, path: object = None, target: object = None) -> None:
        if name.partition(".")[0] in ABSENT:
            raise ModuleNotFoundError(f"No module named {name!r}", name=name)


def no_handler(*_: object) -> None:
    raise NotImplementedError


def pretend() -> None:
    """Take away what Windows has not."""
    import subprocess  # noqa: F401 - it and others bind what they need while it is there
    import tempfile  # noqa: F401
    from pathlib import Path  # noqa: F401

    import platformdirs  # noqa: F401 - chooses by `sys.platform`, which stays

    sys.meta_path.insert(0, Refuses())
    for name in [each for each in sys.modules if each.partition(".")[0] in ABSENT]:
        del sys.modules[name]
    for name in FUNCTIONS:
        if hasattr(os, name):
            delattr(os, name)
    for name in SIGNALS:
        if hasattr(signal, name):
            delattr(signal, name)
    asyncio.AbstractEventLoop.add_signal_handler = no_handler  # type: ignore[method-assign]
    asyncio.SelectorEventLoop.add_signal_handler = no_handler  # type: ignore[method-assign]
    os.environ["TEXTUAL_DRIVER"] = "textual.drivers.headless_driver:HeadlessDriver"


pretend()
