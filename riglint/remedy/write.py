"""A remedy written into the plan's own file: whole or not at all, and only into the text that was read."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path
from tempfile import NamedTemporaryFile

from riglint.reading.document import Document
from riglint.remedy.patch import Patch
from riglint.remedy.text import rewritten
from riglint.remedy.yaml_edit import CannotEdit


def write(file: Path, document: Document, patch: Patch) -> bytes:
    """Make the change in the file; gives what it holds then. Raises CannotEdit and OSError.

    The new text is checked before anything is written, and takes the old one's place in one step: whatever
    stops the program, the file holds one or the other.
    """
    if not patch:
        raise CannotEdit("this remedy says what is needed; what it is, only the plan's writer can say")
    new = (document.bom + rewritten(document, patch)).encode("utf-8")
    target = file.resolve(strict=True)  # a link stays a link
    _refuse_changed(target, document)
    if not target.stat().st_mode & 0o222:
        raise CannotEdit("the file is write-protected")
    with NamedTemporaryFile(dir=target.parent, prefix=f".{target.name}.", suffix=".new", delete=False) as temporary:
        made = Path(temporary.name)
        try:
            temporary.write(new)
            temporary.flush()
            os.fsync(temporary.fileno())
            made.chmod(target.stat().st_mode & 0o7777)
            _refuse_changed(target, document)
            made.replace(target)
        except BaseException:
            with suppress(OSError):
                made.unlink()
            raise
    return new


def _refuse_changed(file: Path, document: Document) -> None:
    if file.read_bytes() != (document.bom + document.text).encode("utf-8"):
        raise CannotEdit("the file was changed since it was read: report on it again")
