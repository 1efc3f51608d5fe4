"""The house rules that no linter checks."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

from scheduler.units import UNITS, split_suffix

TOP = Path(__file__).parent.parent
CORE = ("field", "need", "root_zone", "watering", "proof", "money")
ROOMS = sorted(
    path
    for room in CORE
    for path in (TOP / "scheduler" / room).glob("*.py")
    if path.stem != "__init__"
)
CODE = sorted(
    path
    for top in ("scheduler", "tui", "tests")
    for path in (TOP / top).rglob("*.py")
    if "demo_sites" not in path.parts
)


def _relative(path: Path) -> str:
    return str(path.relative_to(TOP))


@pytest.mark.parametrize("path", ROOMS, ids=_relative)
def test_every_room_has_a_twin_among_the_tests(path: Path) -> None:
    inside = path.relative_to(TOP)
    assert (TOP / "tests" / inside.parent / f"test_{path.name}").is_file()


@pytest.mark.parametrize("path", CODE, ids=_relative)
def test_no_module_is_longer_than_400_lines(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400


@pytest.mark.parametrize("path", ROOMS, ids=_relative)
def test_a_room_says_on_its_first_line_what_enters_and_what_leaves(path: Path) -> None:
    first = (ast.get_docstring(ast.parse(path.read_text("utf-8"))) or "").split("\n")[0]
    assert re.search(r"\bin\b.*\bout\b|out\.?$", first), first


def _public_functions(path: Path) -> list[ast.FunctionDef]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [
        node
        for node in tree.body
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
    ]


FUNCTIONS = [
    pytest.param(function, id=f"{_relative(path)}:{function.name}")
    for path in ROOMS
    for function in _public_functions(path)
]


@pytest.mark.parametrize("function", FUNCTIONS)
def test_public_core_functions_name_a_source(function: ast.FunctionDef) -> None:
    assert "References" in (ast.get_docstring(function) or "")


@pytest.mark.parametrize("function", FUNCTIONS)
def test_public_core_functions_show_an_example(function: ast.FunctionDef) -> None:
    assert ">>>" in (ast.get_docstring(function) or "")


# Brackets in docstrings spell units the way UNITS does, or the way people print them.
PRINTED = {name: unit.label for name, unit in UNITS.items()}


@pytest.mark.parametrize("function", FUNCTIONS)
def test_unit_suffixes_of_parameters_are_known(function: ast.FunctionDef) -> None:
    names = [one.arg for one in (*function.args.args, *function.args.kwonlyargs)]
    text = ast.get_docstring(function) or ""
    for name in names:
        if split_suffix(name)[1]:
            assert re.search(rf"\b{name}\b", text), f"{name} is not in the docstring"


def test_every_rule_of_a_style_twin_is_nested_under_its_screen() -> None:
    for twin in (TOP / "tui" / "screens").glob("*.tcss"):
        text = re.sub(r"/\*.*?\*/", "", twin.read_text(encoding="utf-8"), flags=re.S)
        depth = 0
        for line in text.splitlines():
            if depth == 0 and "{" in line:
                assert re.match(r"\s*[A-Z]\w+(Screen)?\b", line), f"{twin.name}: {line}"
            depth += line.count("{") - line.count("}")


def test_the_readme_names_every_command() -> None:
    from click import Context

    from tui.cli import main

    readme = (TOP / "README.md").read_text(encoding="utf-8")
    missing = [
        name
        for name in main.list_commands(Context(main))
        if f"lowquarter {name}" not in readme
    ]
    assert missing == []


def _modules_after(code: str) -> set[str]:
    done = subprocess.run(
        [sys.executable, "-c", f"import sys\n{code}\nprint(*sys.modules)"],
        check=True,
        capture_output=True,
        text=True,
        cwd=TOP,
    )
    return {name.split(".")[0] for name in done.stdout.splitlines()[-1].split()}


def test_the_engine_loads_no_terminal_and_no_tables() -> None:
    assert _modules_after("import scheduler.plan").isdisjoint(
        {"textual", "rich", "click", "pandas", "scipy"}
    )


def test_help_loads_nothing_heavy() -> None:
    loaded = _modules_after(
        "from click.testing import CliRunner\n"
        "from tui.cli import main\n"
        "CliRunner().invoke(main, ['--help'])"
    )
    heavy = {"numpy", "pandas", "scipy", "numba", "matplotlib", "textual", "ortools"}
    assert loaded.isdisjoint(heavy)


def test_only_the_session_and_the_commands_start_a_calculation() -> None:
    for path in (TOP / "tui").rglob("*.py"):
        inside = path.relative_to(TOP / "tui")
        if inside.parts[0] == "commands" or inside.name == "session.py":
            continue
        text = path.read_text(encoding="utf-8")
        assert "build_week" not in text, inside
        assert "evaluated_site" not in text, inside
