"""Which version of the program this is."""


def version() -> str:
    """Return the version as it was installed."""
    from importlib.metadata import PackageNotFoundError  # slow to import, and seldom asked for
    from importlib.metadata import version as installed

    try:
        return installed("whichend")
    except PackageNotFoundError:  # a bare checkout
        return "from a checkout"
