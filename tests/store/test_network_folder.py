"""A register on a folder of another computer is recognised and refused, with the way out."""

from __future__ import annotations

from pathlib import Path

import pytest

from gametrace.domain.errors import Trouble
from gametrace.register.opening import open_register
from gametrace.store import engine
from gametrace.store.network_folder import network_kind

# As /proc/self/mounts writes them (proc(5)): device, point, kind, options, two numbers.
MOUNTS = r"""
/dev/sda1 / ext4 rw,relatime 0 0
proc /proc proc rw 0 0
server:/export /srv/larder nfs4 rw,vers=4.2 0 0
//office/share /mnt/office\040share cifs rw,vers=3.1.1 0 0
/dev/sdb1 /srv/larder/local ext4 rw 0 0
tmpfs /run/user tmpfs rw 0 0
chef@host: /home/chef/far fuse.sshfs rw 0 0
"""


@pytest.fixture
def mounts(tmp_path: Path) -> Path:
    path = tmp_path / "mounts"
    path.write_text(MOUNTS)
    return path


@pytest.mark.parametrize(
    ("place", "kind"),
    [
        ("/srv/larder/book", "nfs4"),
        ("/srv/larder", "nfs4"),
        ("/srv/larder/local/book", ""),
        ("/mnt/office share/book", "cifs"),
        ("/home/chef/far/away", "fuse.sshfs"),
        ("/home/chef/near", ""),
        ("/srv/larderette", ""),
    ],
)
def test_the_nearest_mount_decides(place: str, kind: str, mounts: Path) -> None:
    assert network_kind(Path(place), mounts) == kind


def test_where_mounts_cannot_be_read_nothing_is_refused(tmp_path: Path) -> None:
    assert network_kind(tmp_path, tmp_path / "none") == ""


def test_a_register_there_is_refused_untouched_and_the_way_out_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(engine, "network_kind", lambda _folder: "nfs4")
    with pytest.raises(Trouble, match=r"another computer \(nfs4\)") as trouble:
        open_register(tmp_path / "larder.register")
    assert "gametrace move" in trouble.value.what_to_do
    assert not (tmp_path / "larder.register").exists()
