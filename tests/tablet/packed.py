"""A part as the client of npm gives it: a packed folder."""

import tarfile
from io import BytesIO
from pathlib import Path


def packed(file: Path, members: dict[str, bytes]) -> Path:
    with tarfile.open(file, "w:gz") as made:
        for name, data in members.items():
            info = tarfile.TarInfo(name)
            info.size = len(data)
            made.addfile(info, BytesIO(data))
    return file
