"""What leaves the terminal's commands: words on both streams, files written whole, exit statuses.

Status 1 is a verdict on a build, so nothing else may end with it.
"""

from __future__ import annotations

import io
import os
import signal
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

if TYPE_CHECKING:
    from rich.console import Console

BAD_INPUT = 2
INTERRUPTED = 130
BROKEN_PIPE = 141
TERMINATED = 143
"""The last three are what shells call a program that was interrupted, wrote to nobody, or was told to end."""


class Terminal(click.Group):
    """Commands of which each ends with its own status, whatever the machine refuses on the way."""

    def invoke(self, ctx: click.Context) -> Any:
        """Run a command."""
        for stream in (sys.stdout, sys.stderr):
            # A terminal that lacks a character shows its code; nothing fails for want of a "²".
            if isinstance(stream, io.TextIOWrapper):
                stream.reconfigure(errors="backslashreplace")
        try:
            with _ending_tidily():
                return super().invoke(ctx)
        except BrokenPipeError:
            # What is left has no reader, and Python would complain of it at its end.
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            sys.exit(BROKEN_PIPE)
        except OSError as error:
            stop(f"{error.filename or 'The output'}: {error.strerror or error}.")
        except KeyboardInterrupt:
            sys.exit(INTERRUPTED)


@contextmanager
def _ending_tidily() -> Iterator[None]:
    """What a command began is tidied up when the machine tells it to end, and its last words are out before its end."""
    before = signal.signal(signal.SIGTERM, lambda *_: sys.exit(TERMINATED))
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)
        sys.stdout.flush()


def console() -> Console:
    """The terminal as tables are printed on it. In words from files neither brackets nor colons mean anything."""
    from rich.console import Console

    class Sheets(Console):
        def on_broken_pipe(self) -> None:
            raise BrokenPipeError  # for `Terminal`

    return Sheets(markup=False, emoji=False, highlight=False)


def stop(*lines: str) -> NoReturn:
    """Say what was wrong with the input and leave with status 2."""
    for line in lines:
        click.echo(line, err=True)
    sys.exit(BAD_INPUT)


def write_whole(out: Path, text: str) -> None:
    """Write a file whole or not at all; leaves with status 2 when it cannot be written."""
    target = Path(os.path.realpath(out))  # a link stays one, and what it points to is written
    try:
        if out.exists() and not out.is_file() and not out.is_dir():
            out.write_text(text, encoding="utf-8")  # /dev/stdout and its like are never replaced
            return
        with tempfile.TemporaryDirectory(prefix=".loadstead-", dir=target.parent) as room:
            part = Path(room) / "part"
            part.write_text(text, encoding="utf-8")
            part.replace(target)
    except BrokenPipeError:
        raise
    except OSError as error:
        stop(f"{out}: cannot be written ({error.strerror}).")
