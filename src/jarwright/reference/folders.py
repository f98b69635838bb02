"""Where are the files that come with Jarwright? In the package of an installed copy, else two folders above it."""

from __future__ import annotations

from pathlib import Path

import jarwright
from jarwright.errors import TableError


def resource_folder() -> Path:
    """
    Return the folder that holds published/, recipes/, fonts/ and the rest.

    Raises
    ------
    TableError
        The folder is not there: the installation is incomplete.
    """
    return _shipped("resources")


def templates_folder() -> Path:
    """
    Return the folder of the ready-made classes.

    Raises
    ------
    TableError
        The folder is not there: the installation is incomplete.
    """
    return _shipped("class_templates")


def _shipped(name: str) -> Path:
    package = Path(jarwright.__file__).resolve().parent
    for folder in (package / name, package.parents[1] / name):
        if folder.is_dir():
            return folder
    raise TableError(f"The folder {name} is missing", where=str(package.parents[1]), fix="Install Jarwright again")
