"""Tells a folder of another computer from a disk of this one.

SQLite's write-ahead file needs memory that all programs share, which no network folder gives: two stations
would damage the register (SQLite's own page on write-ahead logging says so; from memory).
"""

from __future__ import annotations

from pathlib import Path

# The names the kernel gives to file systems that lie on another machine.
_FAR = frozenset(
    {"nfs", "nfs4", "cifs", "smb3", "smbfs", "afs", "ncpfs", "ceph", "glusterfs", "fuse.sshfs", "davfs"}
)
_MOUNTS = Path("/proc/self/mounts")


def network_kind(path: Path, mounts: Path = _MOUNTS) -> str:
    """'nfs4', 'cifs'... where the path lies on another machine; '' on a disk of this one or where unknown."""
    try:
        lines = mounts.read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return ""  # not a Linux: nothing is known
    where = path.resolve()
    nearest, kind = Path(), ""
    for line in lines:
        parts = line.split()
        if len(parts) < 3:
            continue
        point = Path(parts[1].replace("\\040", " "))
        is_nearer = len(point.parts) >= len(nearest.parts)
        if is_nearer and (point == where or point in where.parents):
            nearest, kind = point, parts[2]
    return kind if kind in _FAR else ""
