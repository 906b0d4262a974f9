"""The report: a check as one self-contained HTML file for phone, desk and paper."""

from firstfire.report.page import report
from firstfire.report.write import write_report

__all__ = ["report", "write_report"]
