"""Files that are no whole register, and disks that do not help: each a sentence, nothing touched or lost."""

import hashlib
import os
import shutil
import sqlite3
import subprocess
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from larder_house import Clock, House

from gametrace.domain.errors import Trouble
from gametrace.register import acts, questions
from gametrace.register.opening import open_register
from gametrace.store import engine


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    house = House(tmp_path_factory.mktemp("kept") / "larder.register")
    for _ in range(12):
        house.dress(house.receive())
    house.close()
    return house.path


@pytest.fixture
def copy(kept: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(kept, tmp_path / "copy.register"))


@pytest.fixture
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """Waits a tenth of a second for a lock instead of five."""
    monkeypatch.setattr(engine, "_BUSY_MILLISECONDS", 100)
    monkeypatch.setitem(engine._PRAGMAS, "busy_timeout", ("100", 100))


def refused(path: Path, words: str) -> None:
    """Opening raises Trouble with these words and what to do; every byte in the folder is as before."""
    before = {one.name: one.read_bytes() for one in path.parent.iterdir() if one.is_file()}
    for create in (True, False):
        with pytest.raises(Trouble, match=words) as trouble:
            open_register(path, create=create).close()
        assert trouble.value.sentence.endswith(".")
        assert trouble.value.what_to_do
    after = {one.name: one.read_bytes() for one in path.parent.iterdir() if one.is_file()}
    assert {name: hashlib.sha256(body).hexdigest() for name, body in after.items()} == {
        name: hashlib.sha256(body).hexdigest() for name, body in before.items()
    }


def test_an_empty_file_is_not_taken_for_a_new_register(tmp_path: Path) -> None:
    path = tmp_path / "empty.register"
    path.touch()
    refused(path, "is empty")


@pytest.mark.parametrize(
    "keep", [1, 15, 16, 18, 50, 99, 100, 511, 512, 4_095, 4_096, 4_097, 10_000, -4_096, -1]
)
def test_a_file_cut_short_anywhere_is_refused(copy: Path, keep: int) -> None:
    size = copy.stat().st_size
    os.truncate(copy, keep if keep > 0 else size + keep)
    refused(copy, "is not a register|damaged")


@pytest.mark.parametrize("part", [0.25, 0.5, 0.75])
def test_a_file_cut_at_a_page_is_refused(copy: Path, part: float) -> None:
    os.truncate(copy, int(copy.stat().st_size * part) // 4_096 * 4_096)
    refused(copy, "damaged")


@pytest.mark.parametrize(
    "body", [b"%PDF-1.7 a paper", b"\x00" * 9_000, b"<html>", "Wildbret".encode("utf-16"), b"SQLite format 3"]
)
def test_what_is_no_database_is_refused(tmp_path: Path, body: bytes) -> None:
    path = tmp_path / "other.register"
    path.write_bytes(body)
    refused(path, "is not a register")


@pytest.mark.parametrize("mode", ["delete", "wal"])
def test_another_program_s_database_is_left_alone(tmp_path: Path, mode: str) -> None:
    path = tmp_path / "songs.db"
    connection = sqlite3.connect(path)
    connection.execute(f"PRAGMA journal_mode = {mode}")
    connection.execute("CREATE TABLE song (name TEXT)")
    connection.commit()
    connection.close()
    refused(path, "belongs to another program")


def test_a_register_of_a_newer_program_is_left_alone(copy: Path) -> None:
    connection = sqlite3.connect(copy)
    connection.execute("PRAGMA user_version = 99")
    connection.close()
    refused(copy, r"newer gametrace \(file version 99")


def test_a_register_never_finished_is_said_to_be_so(copy: Path) -> None:
    connection = sqlite3.connect(copy)
    connection.execute("PRAGMA user_version = 0")
    connection.close()
    refused(copy, "never finished")


def test_a_register_whose_journal_is_gone_is_damaged(copy: Path) -> None:
    connection = sqlite3.connect(copy)
    connection.execute("DROP TABLE entry")
    connection.close()
    refused(copy, "its journal is missing")


def test_a_folder_is_no_register(tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    refused(tmp_path / "folder", "is a folder")


def test_a_missing_file_is_only_made_when_asked_for(tmp_path: Path) -> None:
    with pytest.raises(Trouble, match="There is no register"):
        open_register(tmp_path / "none.register", create=False)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_cannot_be_made_is_said_so(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(Trouble, match="cannot be made"):
        open_register(tmp_path / "file" / "deep" / "larder.register")


def test_a_damaged_page_in_the_middle_is_trouble_or_a_finding_and_never_a_wrong_answer(copy: Path) -> None:
    body = bytearray(copy.read_bytes())
    for place in range(3 * 4_096, len(body), 4_096):
        body[place : place + 64] = b"\xa5" * 64
    copy.write_bytes(body)
    said = ""
    try:
        with open_register(copy, create=False) as register:
            said = " ".join(finding.sentence for finding in questions.check(register))
    except Trouble as trouble:
        said = trouble.sentence
    assert "damaged" in said


# ------------------------------------------------------------------------------ disks that do not help


@pytest.fixture
def frozen(copy: Path) -> Iterator[Path]:
    """A register nobody may write to, not even root."""
    chattr = shutil.which("chattr")
    if chattr is None or subprocess.run([chattr, "+i", copy], capture_output=True).returncode:
        if os.geteuid() == 0:
            pytest.skip("root may write to any file here: chattr +i is not possible on this file system")
        copy.chmod(0o400)
        yield copy
        copy.chmod(0o600)
        return
    yield copy
    subprocess.run(["chattr", "-i", copy], check=True)


def test_a_register_that_may_not_be_written_is_said_at_opening(frozen: Path) -> None:
    before = frozen.read_bytes()
    with pytest.raises(Trouble, match="may only be read") as trouble:
        open_register(frozen)
    assert trouble.value.what_to_do
    assert frozen.read_bytes() == before


class Mount:
    """A file system of its own in memory, for what a full or read-only disk does."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def remount(self, options: str) -> None:
        subprocess.run(["mount", "-o", f"remount,{options}", self.folder], check=True)


@pytest.fixture
def disk(tmp_path: Path) -> Iterator[Mount]:
    folder = tmp_path / "disk"
    folder.mkdir()
    if os.geteuid() != 0 or shutil.which("mount") is None:
        pytest.skip("mounting a small disk needs root")
    made = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=4m", "tmpfs", folder], capture_output=True)
    if made.returncode:
        pytest.skip(f"mounting a small disk is not possible here: {made.stderr.decode().strip()}")
    yield Mount(folder)
    subprocess.run(["umount", folder], check=True)


def fill(folder: Path, leave: int = 0) -> Path:
    """Take all room on a disk but `leave` bytes."""
    filler = folder / "filler"
    with filler.open("wb", buffering=0) as file:
        try:
            while True:
                file.write(b"\x00" * 65_536)
        except OSError:
            pass
    if leave:
        os.truncate(filler, filler.stat().st_size - leave)
    return filler


def test_on_a_full_disk_what_was_acknowledged_is_kept_and_the_rest_is_said(disk: Mount) -> None:
    house = House(disk.folder / "larder.register")
    acknowledged = [house.receive()]
    filler = fill(disk.folder, leave=96 * 1024)
    with pytest.raises(Trouble, match="disk") as trouble:  # noqa: PT012 -- which one fails is not ours to say
        while len(acknowledged) < 400:
            acknowledged.append(house.receive())
    assert trouble.value.what_to_do
    assert {one.code for one in questions.deliveries(house.reg, limit=1_000)} == set(acknowledged)
    assert questions.seal(house.reg).count == 7 + len(acknowledged)
    filler.unlink()
    acknowledged.append(house.receive())
    assert questions.check(house.reg) == ()
    house.close()
    with open_register(house.path) as again:
        assert {one.code for one in questions.deliveries(again, limit=1_000)} == set(acknowledged)


def test_a_register_is_not_half_made_on_a_full_disk(disk: Mount) -> None:
    fill(disk.folder)
    with pytest.raises(Trouble):
        open_register(disk.folder / "larder.register")
    assert [path.name for path in disk.folder.iterdir()] == ["filler"]


def test_a_backup_that_does_not_fit_leaves_the_older_one_in_place(disk: Mount, house: House) -> None:
    target = acts.back_up(house.reg, disk.folder / "copy.register")
    before = target.read_bytes()
    fill(disk.folder)
    with pytest.raises(Trouble, match="disk"):
        acts.back_up(house.reg, target)
    assert target.read_bytes() == before
    assert sorted(path.name for path in disk.folder.iterdir()) == ["copy.register", "filler"]


def test_a_disk_that_turns_read_only_loses_nothing_acknowledged(disk: Mount) -> None:
    house = House(disk.folder / "larder.register")
    code = house.receive()
    house.close()
    before = house.path.read_bytes()
    disk.remount("ro")
    with pytest.raises(Trouble, match="may only be read"):
        open_register(house.path)
    disk.remount("rw")
    assert house.path.read_bytes() == before
    with open_register(house.path) as again:
        assert questions.carcass(again, code).code == code


# -------------------------------------------------------------------------------------- two windows


@pytest.mark.usefixtures("impatient")
def test_a_register_locked_by_another_program_is_said_so_and_works_when_it_lets_go(copy: Path) -> None:
    other = sqlite3.connect(copy, isolation_level=None)
    with open_register(copy, clock=Clock()) as register:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(Trouble, match="Another window"):
            acts.hold_lot(register, by="P001", code="26-00001-P", reason="odd")
        with pytest.raises(Trouble, match="Another window"):
            open_register(copy).close()
        assert questions.deliveries(register)  # reading goes on meanwhile
        other.execute("ROLLBACK")
        acts.hold_lot(register, by="P001", code="26-00001-P", reason="odd")
    other.close()


@pytest.mark.usefixtures("impatient")
def test_a_register_another_program_keeps_to_itself_is_said_so(copy: Path) -> None:
    other = sqlite3.connect(copy, isolation_level=None)
    other.execute("PRAGMA journal_mode = DELETE")
    other.execute("BEGIN EXCLUSIVE")
    with pytest.raises(Trouble, match=r"Another window|locked") as trouble:
        open_register(copy)
    assert trouble.value.what_to_do
    other.close()


def test_two_windows_write_on_one_register_and_see_each_other(house: House) -> None:
    with open_register(house.path, clock=house.clock) as second:
        mine = house.receive()
        yours = acts.receive_delivery(second, by=house.student, delivery=house.delivery()).code
        assert mine != yours
        acts.hold_lot(second, by=house.student, code=mine, reason="seen in the other window")
        assert house.state(mine) == "on hold"
        assert {one.code for one in questions.deliveries(house.reg)} == {mine, yours}
        assert questions.check(second) == questions.check(house.reg) == ()


def test_four_threads_on_two_windows_give_out_each_number_once(house: House) -> None:
    codes: list[str] = []
    faults: list[BaseException] = []
    deliveries = iter([house.delivery() for _ in range(60)])
    lock = threading.Lock()

    def take_in(register: object) -> None:
        try:
            for _ in range(15):
                with lock:
                    delivery = next(deliveries)
                code = acts.receive_delivery(register, by=house.student, delivery=delivery).code  # type: ignore[arg-type]
                codes.append(code)
        except BaseException as fault:
            faults.append(fault)

    with open_register(house.path, clock=house.clock) as second:
        workers = [threading.Thread(target=take_in, args=(one,)) for one in (house.reg, second) * 2]
        for worker in workers:
            worker.start()
        for worker in workers:
            worker.join()
    assert faults == []
    assert len(codes) == len(set(codes)) == 60
    assert questions.check(house.reg) == ()


def test_one_pack_scanned_at_two_passes_at_once_is_served_once(house: House) -> None:
    pack = house.pack(house.dressed())
    with open_register(house.path, clock=house.clock) as second:
        house.dish((pack, None))
        with pytest.raises(Exception, match="used up"):
            questions.check_for_plate(second, pack)


def test_a_killed_process_leaves_every_acknowledged_act_and_no_half_one(tmp_path: Path) -> None:
    """Kill -9 in the middle of writing; what the child had printed must all be there."""
    script = (
        "import sys; sys.path[:0] = {folder!r}\n"
        "from pathlib import Path\n"
        "from larder_house import House\n"
        "house = House(Path(sys.argv[1]))\n"
        "print('ready', flush=True)\n"
        "while True: print(house.receive(), flush=True)\n"
    )
    import sys

    folders = [str(Path(__file__).parents[1] / "register"), str(Path(__file__).parents[2])]
    path = tmp_path / "killed.register"
    child = subprocess.Popen(
        [sys.executable, "-c", script.replace("{folder!r}", repr(folders)), path], stdout=subprocess.PIPE
    )
    assert child.stdout is not None
    assert child.stdout.readline() == b"ready\n"
    seen = [child.stdout.readline().decode().strip() for _ in range(20)]
    child.kill()
    rest = child.stdout.read().decode()
    seen += rest[: rest.rfind("\n") + 1].split()
    child.stdout.close()
    child.wait()
    with open_register(path, clock=Clock()) as register:
        kept = {one.code for one in questions.deliveries(register, limit=100_000)}
        assert set(seen) <= kept
        assert len(kept) - len(seen) <= 1  # committed, and killed before it could say so
        assert questions.check(register) == ()


def test_a_register_says_whose_it_is_from_its_first_moment(tmp_path: Path) -> None:
    """A window killed at once, or a copy taken of the file alone, leaves a register and not a riddle."""
    path = tmp_path / "larder.register"
    with open_register(path, clock=Clock()):
        alone = Path(shutil.copy(path, tmp_path / "alone.register"))
    with open_register(alone, create=False) as copied:
        assert questions.seal(copied).count == 0


def test_a_settled_register_can_be_copied_as_one_file_while_it_is_open(house: House, tmp_path: Path) -> None:
    house.reg.settle()
    alone = Path(shutil.copy(house.path, tmp_path / "alone.register"))
    with open_register(alone, create=False) as copied:
        assert questions.seal(copied) == questions.seal(house.reg)
