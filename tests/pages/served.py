"""The pages as a person has them: the command's own server, and tabs in one Chromium."""

import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
COMMAND = (sys.executable, "-P", "-c", "from firstfire.cli.main import run; run()")
"""As the installed command: nothing of the folder it is typed in is on its path."""
ADDRESS = re.compile(r"http://127\.0\.0\.1:(\d+)/\?token=(\S+)")
_LONG = 60_000
_THERE = {"engine": "#values .row.own", "compare": "[data-slot=beside] fieldset"}
"""What stands on a page once it has its first answer."""


def surroundings(folder):
    """Environment of a command: its state in `folder`, no screen, this checkout's firstfire."""
    path = [str(ROOT / "src"), *filter(None, [os.environ.get("PYTHONPATH")])]
    kept = {name: value for name, value in os.environ.items() if name != "DISPLAY"}
    return kept | {
        "XDG_STATE_HOME": str(folder / "state"),
        "PYTHONPATH": os.pathsep.join(path),
        "PYTHONUNBUFFERED": "1",
    }


class Served:
    """A server over one folder. Its address is read from what it prints."""

    def __init__(self, folder, *words):
        self.folder = folder
        self.process = subprocess.Popen(
            # not ignored, as it is where tests run behind a shell
            ["env", "--default-signal=INT", *COMMAND, "open", *words],
            cwd=folder,
            env=surroundings(folder),
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        self.said = self.process.stdout.readline()
        found = ADDRESS.search(self.said)
        assert found, self.said + self.process.stdout.read()
        self.port, self.token = int(found[1]), found[2]
        self.base = f"http://127.0.0.1:{self.port}"
        self.address = f"{self.base}/?token={self.token}"

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.end(signal.SIGINT)

    def end(self, how):
        """End it, and wait until it has."""
        if self.process.poll() is None:
            self.process.send_signal(how)
        try:
            self.process.wait(20)
        finally:
            self.process.kill()
            self.process.stdout.close()


class Tab:
    """One tab, with all that the page said and asked for."""

    def __init__(self, browser, served, page="/engine", width=1440, **options):
        self.served = served
        self.context = browser.new_context(viewport={"width": width, "height": 900}, **options)
        self.page = self.context.new_page()
        self.said, self.asked = [], []
        self.page.on("console", lambda message: self.said.append(message.text))
        self.page.on("pageerror", lambda fault: self.said.append(str(fault)))
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.goto(served.address)
        if not self.page.url.endswith(page):
            self.page.goto(served.base + page)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.context.close()

    def ready(self, *, whole=False):
        """Wait until its first answer stands; the whole check behind is stopped unless wanted."""
        page = self.page.url.rpartition("/")[2]
        self.page.wait_for_selector(_THERE.get(page, "ol.ledger li"), timeout=_LONG)
        if page != "compare":
            self.page.wait_for_selector(".ff-drawing", state="attached", timeout=_LONG)
        if not whole:
            self.page.evaluate("ff.send('stop')")
        return self

    def field(self, path):
        return self.page.locator(f'.entry [data-path="{path}"]')

    def type(self, path, said):
        self.field(path).fill(said)

    def until(self, script, timeout=_LONG):
        """Wait until a script's value is true."""
        self.page.wait_for_function(script, timeout=timeout)

    def state(self, words):
        """Wait until the head says so of the file."""
        self.page.wait_for_selector(f'[data-state="{words}"]', timeout=_LONG)

    def outside(self):
        """Requests that would leave the machine."""
        own = (self.served.base, self.served.base.replace("http", "ws"), "data:", "blob:")
        return [url for url in self.asked if not url.startswith(own)]


def settled_text(file, wanted, seconds=10.0):
    """A file's text, once it holds what is wanted."""
    end = time.monotonic() + seconds
    while wanted not in file.read_text() and time.monotonic() < end:
        time.sleep(0.05)
    return file.read_text()
