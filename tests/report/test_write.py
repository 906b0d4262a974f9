"""A report that can't be written leaves the old one whole and says why."""

import errno
import os

import pytest

from firstfire.errors import CannotWrite, FirstfireError
from firstfire.report import write_report
from firstfire.report.write import report_file


def test_it_is_written(wren, wren_page, tmp_path):
    target = tmp_path / "wren.html"
    write_report(wren, target)
    assert target.read_text(encoding="utf-8") == wren_page


def test_one_that_is_there_stays(wren, tmp_path):
    target = tmp_path / "wren.html"
    target.write_text("old")
    with pytest.raises(CannotWrite, match="stays as it is"):
        write_report(wren, target)
    assert target.read_text() == "old"
    write_report(wren, target, overwrite=True)
    assert target.read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES, errno.EROFS])
def test_a_fault_while_writing_leaves_the_old_one(wren, tmp_path, monkeypatch, number):
    target = tmp_path / "wren.html"
    target.write_text("old")

    def fault(_handle):
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(os, "fsync", fault)
    with pytest.raises(CannotWrite, match="can't be written"):
        write_report(wren, target, overwrite=True)
    assert {f.name: f.read_text() for f in tmp_path.iterdir()} == {"wren.html": "old"}


def test_a_folder_that_may_not_be_written(wren, tmp_path, monkeypatch):
    import tempfile

    def refused(**_kwargs):
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(tempfile, "mkstemp", refused)
    target = tmp_path / "wren.html"
    target.write_text("old")
    with pytest.raises(CannotWrite, match="you may not write there"):
        write_report(wren, target, overwrite=True)
    assert target.read_text() == "old"


def test_it_is_refused_before_anything_is_run(tmp_path):
    with pytest.raises(CannotWrite, match="its folder isn't there"):
        report_file(tmp_path / "no" / "wren.html")
    (tmp_path / "a.html").mkdir()
    with pytest.raises(CannotWrite, match="is a folder"):
        report_file(tmp_path / "a.html")
    with pytest.raises(FirstfireError, match=r"ends in \.html"):
        report_file(tmp_path / "wren.pdf")
