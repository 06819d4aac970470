"""Tasks done by several processes, the results in the order of the tasks.

Only a few tasks are under way at a time, so that memory doesn't grow with their number. A process whose run was
killed ends by itself.
"""

from __future__ import annotations

import gc
import os
import signal
import threading
from collections import deque
from collections.abc import Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from itertools import islice
from multiprocessing import connection, parent_process
from typing import Final

from riglint.house.context import Contexts
from riglint.review.work import Done, Settings, Task, Worker

_CHUNK: Final = 16
_AHEAD: Final = 4  # chunks a process
_LOOSE: Final = 50_000

_worker: Worker | None = None


def cores() -> int:
    """How many this run may use."""
    if hasattr(os, "sched_getaffinity"):
        return max(1, len(os.sched_getaffinity(0)))
    return os.cpu_count() or 1


def done(tasks: Iterable[Task], settings: Settings, processes: int, contexts: Contexts) -> Iterator[Done]:
    """Every task done, in order. Few tasks, or one process, are done right here, with the contexts that are there."""
    tasks = iter(tasks)
    first = list(islice(tasks, _CHUNK))
    if processes == 1 or len(first) < _CHUNK:
        worker = _ready(settings, contexts)
        yield from map(worker.do, first)
        yield from map(worker.do, tasks)
        return
    with ProcessPoolExecutor(processes, initializer=_begin, initargs=(settings,)) as pool:
        try:
            yield from _in_order(pool, [first], tasks, processes * _AHEAD)
        except BaseException:
            pool.shutdown(wait=False, cancel_futures=True)
            raise


def _in_order(pool: ProcessPoolExecutor, begun: list[list[Task]], tasks: Iterator[Task], most: int) -> Iterator[Done]:
    waiting: deque[Future[list[Done]]] = deque(pool.submit(_chunk, chunk) for chunk in begun)
    while waiting:
        while len(waiting) < most and (chunk := list(islice(tasks, _CHUNK))):
            waiting.append(pool.submit(_chunk, chunk))
        yield from waiting.popleft().result()


def _begin(settings: Settings) -> None:
    global _worker  # noqa: PLW0603 -- a process of the pool has one worker, and no other way to hand it on
    gc.disable()
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the run itself is told, and ends this one
    threading.Thread(target=_end_with_parent, daemon=True).start()
    _worker = _ready(settings)


def _ready(settings: Settings, contexts: Contexts | None = None) -> Worker:
    """A worker; what stands by now stays, and no later collection of rubbish looks through it again."""
    worker = Worker(settings, contexts)
    gc.freeze()
    gc.set_threshold(_LOOSE)
    gc.enable()
    return worker


def _chunk(tasks: list[Task]) -> list[Done]:
    if _worker is None:
        raise RuntimeError("a process of the pool was not begun")
    return [_worker.do(task) for task in tasks]


def _end_with_parent() -> None:
    """A killed parent can't tell its processes to end."""
    parent = parent_process()
    if parent is not None:
        connection.wait([parent.sentinel])
        os._exit(1)
