"""Every page of an engine, in the order of the head: a new page costs a file and a line here."""

from __future__ import annotations

from firstfire.pages.show import compare_page, engine_page, hold_page, run_page, setting_page
from firstfire.pages.show.page import Page

PAGES: tuple[Page, ...] = (
    engine_page.PAGE,
    hold_page.PAGE,
    run_page.PAGE,
    setting_page.PAGE,
    compare_page.PAGE,
)
