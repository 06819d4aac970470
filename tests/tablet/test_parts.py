"""The parts of others: held to the lock file, kept in a cache, and what is missing is said."""

from hashlib import sha256
from pathlib import Path

import pytest

from riglint.tablet.command import Wanted, run
from riglint.tablet.parts import MissingPartsError, Part, cache_folder, gathered, locked


def part(data: bytes, source: str = "npm") -> Part:
    return Part("thing", source, "1.2.3", "thing-1.2.3.tgz", sha256(data).hexdigest(), "MIT", {})


def test_what_is_in_the_cache_needs_no_network(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "")
    (tmp_path / "thing-1.2.3.tgz").write_bytes(b"right")
    assert gathered(tmp_path, (part(b"right"),)) == {"thing": tmp_path / "thing-1.2.3.tgz"}


def test_without_cache_and_client_it_says_what_is_missing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "")
    with pytest.raises(MissingPartsError, match=r"thing 1\.2\.3 is missing: .*`npm` isn't here"):
        gathered(tmp_path, (part(b"right"),))


def client(folder: Path, says: str, code: int) -> None:
    file = folder / "npm"
    file.write_text(f"#!/bin/sh\n{says}\nexit {code}\n")
    file.chmod(0o755)


def test_another_digest_is_refused_and_not_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    client(tmp_path, "printf wrong > thing-1.2.3.tgz", 0)
    monkeypatch.setenv("PATH", f"{tmp_path}:/usr/bin:/bin")
    with pytest.raises(MissingPartsError, match="isn't what the lock file says"):
        gathered(tmp_path / "cache", (part(b"right"),))
    assert list((tmp_path / "cache").iterdir()) == []


def test_a_broken_file_in_the_cache_is_got_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    client(tmp_path, "printf right > thing-1.2.3.tgz", 0)
    monkeypatch.setenv("PATH", f"{tmp_path}:/usr/bin:/bin")
    cache = tmp_path / "cache"
    cache.mkdir()
    (cache / "thing-1.2.3.tgz").write_bytes(b"half")
    assert gathered(cache, (part(b"right"),))["thing"].read_bytes() == b"right"


def test_every_missing_part_is_named_and_the_command_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    client(tmp_path, "echo 'npm error no network' >&2", 1)
    monkeypatch.setenv("PATH", f"{tmp_path}:/usr/bin:/bin")
    monkeypatch.setattr("riglint.tablet.parts._pip", lambda part, room: ["npm"])
    assert run(Wanted(out=tmp_path / "out", cache=tmp_path / "cache")) == 2
    said = capsys.readouterr().err
    assert all(f"{one.name} {one.version} is missing" in said for one in locked())
    assert "no network" in said
    assert not (tmp_path / "out").exists()


def test_the_cache_is_where_it_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("RIGLINT_CACHE", str(tmp_path / "by-environment"))
    assert cache_folder() == tmp_path / "by-environment"
    assert cache_folder(tmp_path / "told") == tmp_path / "told"


def test_a_folder_with_other_things_is_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    from riglint.tablet.command import WrongCallError, write_folder

    (tmp_path / "thesis.txt").write_text("years of work")
    with pytest.raises(WrongCallError, match="holds something else"):
        write_folder(tmp_path, {"index.html": b""})
    assert (tmp_path / "thesis.txt").read_text() == "years of work"
