"""A cable between a station and its server that loses an answer when it is told to."""

from __future__ import annotations

import socket
from contextlib import suppress
from threading import Thread


class Cable:
    """A port on loopback that leads to the server's. What is between the two can be pulled in one moment."""

    def __init__(self, server_port: int) -> None:
        self._server_port = server_port
        self._door = socket.create_server(("127.0.0.1", 0))
        self.port = int(self._door.getsockname()[1])
        self.loses_answer_to = b""  # the first answer to a message that holds this, and the cable with it
        self._ends: list[socket.socket] = []
        Thread(target=self._welcome, daemon=True).start()

    def _welcome(self) -> None:
        with suppress(OSError):
            while True:
                station, _ = self._door.accept()
                server = socket.create_connection(("127.0.0.1", self._server_port))
                self._ends += [station, server]
                lost = [False]
                Thread(target=self._carry, args=(station, server, lost, True), daemon=True).start()
                Thread(target=self._carry, args=(server, station, lost, False), daemon=True).start()

    def _carry(self, source: socket.socket, target: socket.socket, lost: list[bool], is_asked: bool) -> None:
        with suppress(OSError):
            while heard := source.recv(65_536):
                if is_asked and self.loses_answer_to and self.loses_answer_to in heard:
                    self.loses_answer_to, lost[0] = b"", True
                elif not is_asked and lost[0]:
                    break  # the server did it, and nobody heard
                target.sendall(heard)
        for end in (source, target):
            with suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)

    def close(self) -> None:
        for end in (self._door, *self._ends):
            with suppress(OSError):
                end.shutdown(socket.SHUT_RDWR)
            end.close()
