"""The command line: one group of thin commands, no heavy import at the top.

Exit codes: 0 done; 1 done or refused with a stop finding; 2 usage; 3 bad input file.
"""

import sys
from importlib import import_module

import click

# name: module under tui.commands, attribute, and what it does in a line. A command is
# loaded when it is asked for: the help of all of them needs none.
COMMANDS = {
    "cans": ("tests", "cans", "Answer at the tailgate, from a list of readings."),
    "compare": ("tests", "compare", "Compare packages at the wind you water in."),
    "cost": ("cost", "cost", "Show what poor uniformity costs; does a retrofit pay?"),
    "demo": ("folder", "demo", "Copy a demo site and open its dashboard."),
    "evaluate": ("tests", "evaluate", "Work up every catch-can test."),
    "explain": ("week", "explain", "Show where a number came from."),
    "history": ("history", "history", "Show every issued week and what changed."),
    "inspect": ("folder", "inspect", "Print everything wrong with a site folder."),
    "meter": ("meter", "meter", "Hold the plan against the water meters."),
    "new": ("folder", "new", "Write a commented site folder to fill in."),
    "open": ("folder", "open_site", "Open the dashboard of a site."),
    "record": ("record", "record", "Write what was done to the log of a site."),
    "report": ("report", "report", "Print a report of a site, such as field sheets."),
    "saving": ("meter", "saving", "Compare the water of two periods."),
    "season": ("season", "season", "Run a season at every catch position."),
    "serve": ("serve", "serve", "Open the dashboard of a site in a browser."),
    "spacing": ("spacing", "spacing", "Try one sprinkler at other spacings."),
    "week": ("week", "week", "Plan this week's run times for every zone."),
    "wind": ("wind", "wind", "Show the usual wind by hour and month."),
}


class Commands(click.Group):
    """A group whose commands are loaded one by one."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Names, in alphabetical order."""
        return sorted({*COMMANDS, *super().list_commands(ctx)})

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load a command by name; None where there is none."""
        if cmd_name not in COMMANDS:
            return super().get_command(ctx, cmd_name)
        module, attribute, _ = COMMANDS[cmd_name]
        found = getattr(import_module(f"tui.commands.{module}"), attribute)
        assert isinstance(found, click.Command), "the table names commands"
        return found

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command; a slip is answered with the names that are near."""
        try:
            return super().resolve_command(ctx, args)
        except click.UsageError as slip:
            from difflib import get_close_matches

            near = get_close_matches(str(args[0]), self.list_commands(ctx), n=1)
            if not near or "Did you mean" in slip.message:
                raise
            said = f"{slip.message} Did you mean {near[0]!r}?"
            raise click.UsageError(said, ctx) from None

    def format_commands(
        self, ctx: click.Context, formatter: click.HelpFormatter
    ) -> None:
        """Write a line a command, from the table."""
        rows = []
        for name in self.list_commands(ctx):
            own = self.commands.get(name)
            rows.append((name, own.get_short_help_str() if own else COMMANDS[name][2]))
        with formatter.section("Commands"):
            formatter.write_dl(rows)


@click.group(
    cls=Commands,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.version_option(package_name="lowquarter", prog_name="lowquarter")
@click.option("--debug", is_flag=True, help="Show the traceback of an error.")
@click.pass_context
def main(ctx: click.Context, debug: bool) -> None:
    """From the cans to this week's sprinkler minutes.

    A site is a folder of plain text files. The name alone opens the dashboard of the
    folder you are in; start with `lowquarter demo`, or make your own with
    `lowquarter new FOLDER`.
    """
    del debug  # read by `guarded` from the context
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    if ctx.invoked_subcommand is None:
        _bare(ctx)


def _bare(ctx: click.Context) -> None:
    """The name alone: the dashboard or the first page; the help without a terminal."""
    from tui.commands import edge

    if edge.has_terminal():
        edge.open_here(None)
    click.echo(ctx.get_help(), err=True)
    ctx.exit(edge.USAGE)


@main.command()
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
def completion(shell: str) -> None:
    """Print a completion script: `eval "$(lowquarter completion bash)"`."""
    from click.shell_completion import get_completion_class

    script = get_completion_class(shell)
    assert script is not None, "click knows the three shells"
    click.echo(script(main, {}, "lowquarter", "_LOWQUARTER_COMPLETE").source())
