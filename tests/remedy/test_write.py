"""A remedy written into the plan's file: whole or not at all."""

import os

import pytest

from riglint.reading.document import read_document
from riglint.remedy import write as writing
from riglint.remedy.patch import replace
from riglint.remedy.write import write
from riglint.remedy.yaml_edit import CannotEdit

PATCH = (replace("/a", "2 m"),)


@pytest.fixture
def plan(tmp_path):
    file = tmp_path / "plan.yaml"
    file.write_bytes("\ufeffa: 1 m  # kept\r\nb: ä\r\n".encode())
    file.chmod(0o640)
    return file


def read(file):
    return read_document(file.read_bytes(), str(file))


def test_mark_newlines_and_mode_stay(plan):
    assert write(plan, read(plan), PATCH) == plan.read_bytes() == "\ufeffa: 2 m  # kept\r\nb: ä\r\n".encode()
    assert plan.stat().st_mode & 0o777 == 0o640
    assert list(plan.parent.iterdir()) == [plan]


def test_a_file_that_was_changed_meanwhile_is_left_alone(plan):
    document = read(plan)
    plan.write_text("a: 3 m\n")
    with pytest.raises(CannotEdit, match="changed since"):
        write(plan, document, PATCH)
    assert plan.read_text() == "a: 3 m\n"


def test_a_file_that_is_write_protected_is_left_alone(plan):
    """Whoever runs the tests may write to any file, so it is the file's own mode that counts."""
    plan.chmod(0o444)
    before = plan.read_bytes()
    with pytest.raises(CannotEdit, match="write-protected"):
        write(plan, read(plan), PATCH)
    assert plan.read_bytes() == before


def test_a_need_is_not_written(plan):
    before = plan.read_bytes()
    with pytest.raises(CannotEdit, match="what is needed"):
        write(plan, read(plan), ())
    assert plan.read_bytes() == before


def test_what_stops_the_writing_leaves_the_old_text_and_nothing_else(plan, monkeypatch):
    before = plan.read_bytes()

    def full(number):
        raise OSError(28, "no space left")

    monkeypatch.setattr(writing.os, "fsync", full)
    with pytest.raises(OSError, match="no space"):
        write(plan, read(plan), PATCH)
    assert plan.read_bytes() == before
    assert list(plan.parent.iterdir()) == [plan]


def test_a_link_stays_a_link(plan, tmp_path):
    link = tmp_path / "link.yaml"
    os.symlink(plan, link)
    write(link, read(link), PATCH)
    assert link.is_symlink()
    assert b"2 m" in plan.read_bytes()
