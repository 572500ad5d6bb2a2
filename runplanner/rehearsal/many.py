"""Many plays: over cores or a cluster, kept line by line in a file, and taken up again.

A play's luck hangs on the seed and its number alone, so it comes to the same wherever and
in whatever order it is played.
"""

from collections.abc import Callable, Iterator, Sequence
from hashlib import sha256
from pathlib import Path

from runplanner.daybook.played import Played
from runplanner.daybook.text import plan_text
from runplanner.errors import Fault, RunplannerError, ScenarioError, system_said
from runplanner.phrase import phrase
from runplanner.rehearsal.play import Rehearsal, played
from runplanner.version import __version__

PLAYED_AS = 5
"""Raised when plays go otherwise than before, so that none of before are taken up again."""

Listener = Callable[[Played, int, int], None]


def key_of(told: Rehearsal) -> str:
    """Return the mark of everything that a play's figures hang on, but its number."""
    how = (PLAYED_AS, told.luck, told.seed, told.rounds, told.hindsight)
    return sha256(f"{__version__}\n{how!r}\n{plan_text(told.plan)}".encode()).hexdigest()[:20]


def kept(path: Path, key: str) -> dict[int, Played]:
    """Return the plays of this very rehearsal that a file holds; other lines are passed over.

    Raises:
        ScenarioError: When the file cannot be read.
    """
    try:
        lines = path.read_text("utf-8", "replace").splitlines() if path.exists() else []
    except OSError as error:
        cure = phrase("Name another file, or none.")
        said = system_said(error)
        raise ScenarioError(
            (Fault(path.name, "", "", said, phrase("a file of plays"), cure),)
        ) from None
    found = (Played.from_line(line, key) for line in lines)
    return {one.play: one for one in found if one is not None}


def rehearsed(
    told: Rehearsal,
    plays: int,
    *,
    file: Path | None = None,
    workers: int = 1,
    cluster: str = "",
    listener: Listener | None = None,
) -> tuple[Played, ...]:
    """Return plays 0 .. ``plays`` - 1 in their order.

    Args:
        told: What is rehearsed.
        plays: How many times.
        file: Plays are added to it as they end, and those it holds are not played again.
        workers: Processes on this machine.
        cluster: Address of a Dask scheduler, such as ``tcp://127.0.0.1:8786``; then its
            workers play instead, and must have this release installed.
        listener: Told of every play that ends, with how many are done of how many.
    """
    key = key_of(told)
    done = kept(file, key) if file else {}
    wanted = [number for number in range(plays) if number not in done]
    for one in _played(told, wanted, workers, cluster):
        done[one.play] = one
        if file:
            _add(file, one.line(key))
        if listener:
            listener(one, sum(number < plays for number in done), plays)
    return tuple(done[number] for number in range(plays))


def _add(path: Path, line: str) -> None:
    """Add a line; where the last one was torn off, begin on a fresh one."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("a+b") as out:
        torn = False
        if out.tell():
            out.seek(-1, 2)
            torn = out.read(1) != b"\n"
        out.write(b"\n" * torn + line.encode() + b"\n")


def _played(told: Rehearsal, wanted: Sequence[int], workers: int, cluster: str) -> Iterator[Played]:
    if cluster:
        return _on_cluster(told, wanted, cluster)
    if workers > 1 and len(wanted) > 1:
        return _on_cores(told, wanted, workers)
    return (played(told, number) for number in wanted)


def _on_cores(told: Rehearsal, wanted: Sequence[int], workers: int) -> Iterator[Played]:
    from joblib import Parallel, delayed

    pool = Parallel(n_jobs=workers, return_as="generator_unordered")
    yield from pool(delayed(played)(told, number) for number in wanted)


def _on_cluster(told: Rehearsal, wanted: Sequence[int], address: str) -> Iterator[Played]:
    """Play on a Dask cluster.

    Raises:
        RunplannerError: When Dask is not installed, or nobody answers at ``address``.
    """
    try:
        from distributed import Client, as_completed
    except ImportError:
        cure = "pip install 'runplanner[cluster]'"
        raise RunplannerError(phrase("A cluster needs the extra: {cure}.", cure=cure)) from None
    try:
        client = Client(address, timeout=10)  # type: ignore[no-untyped-call]
    except (OSError, ValueError) as error:
        why = phrase("No cluster answers at {address}: {error}", address=address, error=str(error))
        raise RunplannerError(why) from None
    with client:
        plan = client.scatter(told, broadcast=True)  # type: ignore[no-untyped-call]
        tasks = [client.submit(played, plan, number, pure=False) for number in wanted]
        for task in as_completed(tasks):  # type: ignore[no-untyped-call]
            yield task.result()
