"""A bar on standard error that shows how far something long is, where a person can see it."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from rich.progress import BarColumn, Progress, TaskProgressColumn, TextColumn, TimeElapsedColumn

from pantry.terminal.printing import console


@contextmanager
def progress(
    what: str, total: int | None, *, worth_it: bool = True
) -> Iterator[Callable[[int], None]]:
    """Say how much of `total` is done through what this yields; silent where nobody looks.

    Without a total it only says that something goes on, and for how long.
    """
    shown = console(error=True)
    if not (worth_it and shown.is_terminal):
        yield lambda _done: None
        return
    bar = Progress(
        TextColumn("{task.description}", markup=False),
        BarColumn(),
        TaskProgressColumn(),
        TimeElapsedColumn(),
        console=shown,
        transient=True,
        redirect_stdout=False,
        redirect_stderr=False,
    )
    with bar:
        task = bar.add_task(what, total=total)
        yield lambda done: bar.update(task, completed=done)
