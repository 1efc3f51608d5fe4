"""The command line: one group of thin commands, no heavy import at the top.

Exit codes: 0 done; 1 done or refused with a stop finding; 2 usage; 3 bad input file.
"""

import sys

import click

from tui.commands import folder, report, season, spacing, tests, week, wind


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="lowquarter", prog_name="lowquarter")
@click.option("--debug", is_flag=True, help="Show the traceback of an error.")
def main(debug: bool) -> None:
    """From the cans to this week's sprinkler minutes.

    A site is a folder of plain text files. Start with `lowquarter demo`, or make
    your own with `lowquarter new FOLDER`.
    """
    del debug  # read by `guarded` from the context
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


for command in (
    folder.demo, folder.new, folder.inspect, folder.open_site,
    tests.cans, tests.evaluate, tests.compare, week.week, week.explain,
    spacing.spacing, report.report, season.season, wind.wind,
):  # fmt: skip
    main.add_command(command)


@main.command()
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
def completion(shell: str) -> None:
    """Print a completion script: `eval "$(lowquarter completion bash)"`."""
    from click.shell_completion import get_completion_class

    script = get_completion_class(shell)
    assert script is not None, "click knows the three shells"
    click.echo(script(main, {}, "lowquarter", "_LOWQUARTER_COMPLETE").source())
