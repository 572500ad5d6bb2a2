"""A server on this machine alone, that answers each path as told."""

import gzip
import os
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from unittest.mock import patch

Answer = Callable[[BaseHTTPRequestHandler], None]


class Server(ThreadingHTTPServer):
    """Answers each path as told and keeps the headers it was asked with."""

    daemon_threads = True
    block_on_close = False

    def __init__(self, answers: dict[str, Answer]) -> None:
        self.answers = answers
        self.asked: list[tuple[str, dict[str, str]]] = []
        super().__init__(("127.0.0.1", 0), _Handler)

    @property
    def base(self) -> str:
        """The address of its root."""
        return f"http://127.0.0.1:{self.server_port}"


class _Handler(BaseHTTPRequestHandler):
    server: Server

    def do_GET(self) -> None:
        self.server.asked.append((self.path, dict(self.headers.items())))
        answer = self.server.answers.get(self.path.split("?")[0], sends(b"", status=404))
        try:
            answer(self)
        except OSError:  # the caller has gone
            self.close_connection = True

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - its own name
        """Say nothing."""


@contextmanager
def serving(**answers: Answer) -> Iterator[Server]:
    """A server for the paths named; ``slow`` answers ``/slow``."""
    server = Server({f"/{path}": answer for path, answer in answers.items()})
    thread = threading.Thread(target=server.serve_forever, args=(0.02,), daemon=True)
    thread.start()
    try:
        with patch.dict(os.environ, {"no_proxy": "127.0.0.1"}):
            yield server
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def sends(body: bytes, status: int = 200, **headers: str) -> Answer:
    """Answer with ``body``; header names with underscores for hyphens."""

    def answer(handler: BaseHTTPRequestHandler) -> None:
        handler.send_response(status)
        handler.send_header("Content-Length", str(len(body)))
        for name, value in headers.items():
            handler.send_header(name.replace("_", "-"), value)
        handler.end_headers()
        handler.wfile.write(body)

    return answer


def packs(body: bytes, name: str = "gzip") -> Answer:
    """Answer with ``body`` packed."""
    return sends(gzip.compress(body), Content_Encoding=name)


def sleeps(seconds: float) -> Answer:
    """Answer nothing for so long."""
    return lambda _handler: time.sleep(seconds)


def drips(pieces: int, pause: float, piece: bytes = b"x") -> Answer:
    """Answer piece by piece, with a pause before each."""

    def answer(handler: BaseHTTPRequestHandler) -> None:
        handler.send_response(200)
        handler.end_headers()
        for _ in range(pieces):
            time.sleep(pause)
            handler.wfile.write(piece)

    return answer


def breaks_off(body: bytes) -> Answer:
    """Promise more than comes."""

    def answer(handler: BaseHTTPRequestHandler) -> None:
        handler.send_response(200)
        handler.send_header("Content-Length", str(len(body) + 100))
        handler.end_headers()
        handler.wfile.write(body)
        handler.close_connection = True

    return answer


def babbles(handler: BaseHTTPRequestHandler) -> None:
    """Answer with what is no HTTP."""
    handler.wfile.write(b"SSH-2.0-something\r\n\r\n")
    handler.close_connection = True
