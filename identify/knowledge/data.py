"""Where the shipped tables and rules lie."""

from pathlib import Path
from typing import TYPE_CHECKING

import identify
from identify.errors import TableError

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


def data_dir(name: str) -> "Traversable":
    """Return the directory of shipped YAML called `name` ("rules", "thread_tables").

    In an installed wheel it lies inside the package, in a checkout beside `pyproject.toml`.

    Raises:
        TableError: It is in neither place.
    """
    root: Traversable = Path(identify.__path__[0])
    if not root.is_dir():  # installed as a zip; importlib.resources is slow to import
        from importlib.resources import files

        root = files("identify")
    checkout = root.joinpath("..")
    if (installed := root.joinpath("_data", name)).is_dir():
        return installed
    if checkout.joinpath("pyproject.toml").is_file() and checkout.joinpath(name).is_dir():
        return checkout.joinpath(name)
    raise TableError(f"{name}/ is missing from this installation; install whichend again.")
