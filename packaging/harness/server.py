"""A PostgreSQL server for tests, on loopback and in a temporary folder, stopped afterwards.

Debian's own binaries are used; `bash packaging/check` installs them. Without them the tests that need a
server are skipped and say so.
"""

from __future__ import annotations

import os
import pwd
import shutil
import socket
import subprocess
import tempfile
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from urllib.parse import quote

from gametrace.store.engine import SCHEMA_VERSION

_SERVER = "postgresql://larder@127.0.0.1"
_EMPTY = """DO $$ DECLARE one text; BEGIN
    FOR one IN SELECT tablename FROM pg_tables
        WHERE schemaname = current_schema() AND tablename <> 'gametrace_register'
    LOOP EXECUTE format('DELETE FROM %I', one); END LOOP;
END $$"""
_WHERE = sorted(Path("/usr/lib/postgresql").glob("*/bin"), reverse=True)


def binaries() -> Path | None:
    """The folder that holds initdb and postgres; None where there is no server to start."""
    return next((folder for folder in _WHERE if (folder / "initdb").exists()), None)


class Server:
    """One server. Every register gets a schema of its own in one database."""

    def __init__(self, *, keeps: bool = True) -> None:
        """Without `keeps` it does not wait for the disk: it outlives being stopped, but not the machine."""
        self._manner = "" if keeps else " -c fsync=off -c full_page_writes=off"
        self._empty: list[str] = []
        self.folder = Path(tempfile.mkdtemp(prefix="gametrace-server-"))
        self._made = 0
        self.port = _free_port()
        found = binaries()
        assert found is not None
        self._bin = found
        if os.geteuid() == 0:  # a server refuses to run as root
            account = pwd.getpwnam("postgres")
            os.chown(self.folder, account.pw_uid, account.pw_gid)
        self.folder.chmod(0o755)
        data = str(self.folder / "data")
        words = ("-U", "larder", "--auth=trust", "--encoding=UTF8", "--no-sync")
        # As in a house: this server sorts words by a language, so nothing may count on the order of bytes.
        language = ("--locale-provider=icu", "--icu-locale=en-GB", "--locale=C")
        self._run("initdb", "-D", data, *words, *language)
        self.start()

    def _run(self, name: str, *words: str) -> None:
        as_whom: Sequence[str] = ("runuser", "-u", "postgres", "--") if os.geteuid() == 0 else ()
        subprocess.run(
            [*as_whom, str(self._bin / name), *words], check=True, stdout=subprocess.DEVNULL, cwd=self.folder
        )

    def start(self) -> None:
        options = f"-c listen_addresses=127.0.0.1 -c port={self.port} -c unix_socket_directories="
        words = ("-D", str(self.folder / "data"), "-l", str(self.folder / "log"), "-w")
        self._run("pg_ctl", *words, "-o", f"{options} -c max_connections=60{self._manner}", "start")

    def stop(self) -> None:
        self._run("pg_ctl", "-D", str(self.folder / "data"), "-m", "immediate", "-w", "stop")

    def remove(self) -> None:
        self.stop()
        shutil.rmtree(self.folder, ignore_errors=True)

    def new_place(self) -> str:
        """The address of a register that is not there yet."""
        import psycopg

        self._made += 1
        schema = f"r{self._made}"
        with closing(psycopg.connect(f"{_SERVER}:{self.port}/postgres", autocommit=True)) as connection:
            connection.execute(f"CREATE SCHEMA {schema}")
        return self.address(schema)

    def lend(self) -> str:
        """The address of a register without a row in it: one that was taken back, else a new one. Quicker."""
        return self._empty.pop() if self._empty else self.new_place()

    def take_back(self, place: str) -> None:
        """What `lend` gave; nobody may have it open any more."""
        import psycopg

        with closing(psycopg.connect(place.replace("+psycopg", ""), autocommit=True)) as connection:
            connection.execute("SET lock_timeout = '5s'")  # somebody may have forgotten to close it
            connection.execute("SET session_replication_role = replica")  # in any order, whatever the keys
            connection.execute(_EMPTY)
            connection.execute(f"UPDATE gametrace_register SET version = {SCHEMA_VERSION}")
        self._empty.append(place)

    def address(self, schema: str) -> str:
        options = quote(f"-csearch_path={schema}", safe="")
        return f"{_SERVER.replace('://', '+psycopg://')}:{self.port}/postgres?options={options}"


def _free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])
