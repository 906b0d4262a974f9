"""Files are written whole or not at all."""

import errno
import os
from pathlib import Path

import pytest

from firstfire.errors import CannotWrite
from firstfire.files import write_text


def test_written(tmp_path):
    write_text(tmp_path / "a.txt", "äöü")
    assert (tmp_path / "a.txt").read_text() == "äöü"
    assert [f.name for f in tmp_path.iterdir()] == ["a.txt"]


def test_what_is_there_stays(tmp_path):
    (tmp_path / "a.txt").write_text("old")
    with pytest.raises(CannotWrite, match="stays as it is"):
        write_text(tmp_path / "a.txt", "new")
    assert (tmp_path / "a.txt").read_text() == "old"


def test_a_file_that_appears_meanwhile_stays(tmp_path, monkeypatch):
    target = tmp_path / "a.txt"
    monkeypatch.setattr(os, "fsync", lambda _handle: target.write_text("theirs"))
    with pytest.raises(CannotWrite, match="stays as it is"):
        write_text(target, "mine")
    assert target.read_text() == "theirs"
    assert [f.name for f in tmp_path.iterdir()] == ["a.txt"]


@pytest.mark.parametrize("overwrite", [False, True])
def test_a_full_disk_leaves_everything_as_it_was(tmp_path, monkeypatch, overwrite):
    target = tmp_path / "a.txt"
    if overwrite:
        target.write_text("old")

    def full(_handle):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CannotWrite, match="the disk is full"):
        write_text(target, "new", overwrite=overwrite)
    assert [f.read_text() for f in tmp_path.iterdir()] == (["old"] if overwrite else [])


@pytest.mark.parametrize("number", [errno.EROFS, errno.EACCES, errno.EIO])
def test_other_faults_are_told_in_words(tmp_path, monkeypatch, number):
    def fault(self, _target):
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(Path, "replace", fault)
    with pytest.raises(CannotWrite, match="can't be written"):
        write_text(tmp_path / "a.txt", "new", overwrite=True)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_is_not_a_file(tmp_path):
    with pytest.raises(CannotWrite, match="is a folder"):
        write_text(tmp_path, "x", overwrite=True)
