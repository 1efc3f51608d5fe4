"""The demo sites that ship with the package: where they are, and a copy of one."""

import shutil
from importlib.resources import as_file, files
from pathlib import Path

from scheduler.errors import QuantityError, SaveError

# Every demo site, the first one where none is named, and what it is for.
DEMOS = {
    "tern_hollow": "pots and field stock on nine zones, US units, a typical year",
    "alder_flat": "sod and field trees on six zones, metric, measured years, wind",
}
DEMO = next(iter(DEMOS))


def known_demo(name: str) -> str:
    """Name of a demo site as typed, or with a hyphen or a space for its underscore.

    Raises
    ------
    QuantityError
        If there is no such demo site.
    """
    plain = name.strip().casefold().replace("-", "_").replace(" ", "_")
    if plain not in DEMOS:
        raise QuantityError(
            f"there is no demo site {name!r}",
            f"the demo sites are {', '.join(DEMOS)}; --site list shows them",
        )
    return plain


def demo_source() -> Path:
    """Folder of the demo sites: inside the wheel, or beside the package in a clone."""
    with as_file(files("scheduler")) as package:
        packed = package / "demo_sites"
        return packed if packed.is_dir() else package.parent / "demo_sites"


def copy_demo(folder: Path, name: str = DEMO) -> bool:
    """Copy a demo site to a folder; an earlier copy there is kept as it is.

    Returns
    -------
    bool
        True if the copy was made now, False if a site was there already.

    Raises
    ------
    SaveError
        If something else stands at that place, or the copy cannot be written.
    """
    if (folder / "site.toml").is_file():
        return False
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise SaveError(
            "something else is there already",
            "name another folder: lowquarter demo FOLDER",
            str(folder),
        )
    if folder.resolve() == Path.cwd():
        raise SaveError(
            "is the folder you are in; the copy takes the place of a whole folder",
            "name another folder: lowquarter demo FOLDER",
            str(folder),
        )
    part = folder.with_name(f".{folder.name}.part")
    try:
        if part.exists():
            shutil.rmtree(part)
        shutil.copytree(demo_source() / name, part)
        if folder.is_dir():
            folder.rmdir()
        part.rename(folder)
    except OSError as problem:
        shutil.rmtree(part, ignore_errors=True)
        raise SaveError(
            f"the copy cannot be written ({_why(problem)})",
            "name a folder that you may write to: lowquarter demo FOLDER",
            str(folder),
        ) from problem
    return True


def _why(problem: OSError) -> str:
    """The reason in a few words: a copied tree lists every file with the same one."""
    if isinstance(problem, shutil.Error) and problem.args:
        first = str(problem.args[0][0][2])
        return first.split("] ", 1)[-1].split(": ", 1)[0]
    return problem.strerror or str(problem)
