"""JupyterLab on this machine and a Chromium without a window, kept to themselves: own settings, no other address."""

from __future__ import annotations

import contextlib
import json
import os
import secrets
import shutil
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import Page

ROOT = Path(__file__).resolve().parents[2]
LAB_OPTIONS = (
    "--no-browser",
    "--ip=127.0.0.1",
    "--ServerApp.port_retries=0",
    "--LabApp.extension_manager=readonly",  # no look-up of a package registry
    "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    "--LabApp.news_url=None",
    "--LabApp.expose_app_in_browser=True",  # window.jupyterapp
)
SETTINGS = {"@jupyterlab/notebook-extension/tracker": {"windowingMode": "none"}}  # every cell stays in the page
PAGE = {"disabledExtensions": {"@jupyterlab/apputils-extension:announcements": True}}  # no question over the page
CHROMIUM_OPTIONS = (
    "--disable-dev-shm-usage",
    "--disable-gpu",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
)
READY = """() => {
    const panel = window.jupyterapp && window.jupyterapp.shell.currentWidget;
    const kernel = panel && panel.sessionContext && panel.sessionContext.session && panel.sessionContext.session.kernel;
    return !!kernel && kernel.status === 'idle' && kernel.connectionStatus === 'connected';
}"""
FINISHED = """() => {
    const panel = window.jupyterapp.shell.currentWidget;
    const waiting = [...panel.content.widgets].some(cell => cell.model.type === 'code'
        && cell.node.querySelector('.jp-InputPrompt')?.textContent.includes('*'));
    return !waiting && panel.sessionContext.session.kernel.status === 'idle';
}"""
# What a slider's callback raises goes to no cell: listen to the kernel for it. 'No such comm' is its answer when the
# page asks for stored widgets before the notebook has made any; a slider that truly has no comm leaves its panel still.
LISTEN = """() => {
    window.kernelErrors = [];
    window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.iopubMessage.connect((_, message) => {
        const type = message.header.msg_type, content = message.content;
        if (type === 'error') window.kernelErrors.push(content.ename + ': ' + content.evalue);
        if (type === 'stream' && content.name === 'stderr' && !content.text.startsWith('No such comm'))
            window.kernelErrors.push(content.text);
    });
}"""


def is_root() -> bool:
    """Whether this runs as root, which both programs want to be told."""
    return hasattr(os, "geteuid") and os.geteuid() == 0


def find_chromium() -> str | None:
    """Chromium named in the environment, or found on the path."""
    names = (os.environ.get("CHROMIUM") or "chromium", "chromium-browser", "google-chrome")
    return next((found for name in names if (found := shutil.which(name))), None)


def free_port() -> int:
    """A port that nothing listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def own_folders(folder: Path) -> dict[str, str]:
    """Fresh settings in `folder`; the environment that makes JupyterLab use them and nothing of the person's own."""
    names = ("CONFIG", "DATA", "RUNTIME")
    environment = {f"JUPYTER_{name}_DIR": str(folder / name.lower()) for name in names}
    environment |= {f"JUPYTERLAB_{name}_DIR": str(folder / name.lower()) for name in ("SETTINGS", "WORKSPACES")}
    written = {folder / "config/labconfig/page_config.json": PAGE}
    written |= {folder / f"settings/{name}.jupyterlab-settings": value for name, value in SETTINGS.items()}
    for path, value in written.items():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(json.dumps(value))
    environment |= {
        "IPYTHONDIR": str(folder / "ipython"),
        "npm_config_cache": str(folder / "npm"),
    }  # Lab asks npm for a path
    return {**os.environ, **environment}


@contextlib.contextmanager
def lab_server(notebooks: Path) -> Iterator[tuple[str, str]]:
    """Serve a copy of a folder of notebooks, so that nothing is saved over them; gives (address, token)."""
    port, token = free_port(), secrets.token_hex(16)
    with tempfile.TemporaryDirectory(prefix="lab-") as name:
        folder = Path(name)
        shutil.copytree(notebooks, folder / "root/notebooks")
        if (ROOT / "data").is_dir():
            (folder / "root/data").symlink_to(ROOT / "data")
        command = [sys.executable, "-m", "jupyterlab", *LAB_OPTIONS, f"--port={port}"]
        command += [f"--IdentityProvider.token={token}", f"--ServerApp.root_dir={folder / 'root'}"]
        command += ["--allow-root"] if is_root() else []
        log = folder / "log.txt"
        with log.open("wb") as out:
            process = subprocess.Popen(
                command, env=own_folders(folder), stdout=out, stderr=subprocess.STDOUT, start_new_session=True
            )
        address = f"http://127.0.0.1:{port}"
        try:
            wait_for(address, token, process, log)
            yield address, token
        finally:
            stop(address, token, process)


def wait_for(address: str, token: str, process: subprocess.Popen[bytes], log: Path) -> None:
    """Wait until the server answers."""
    deadline = time.monotonic() + 60
    while True:
        with contextlib.suppress(OSError):
            urllib.request.urlopen(f"{address}/api/status?token={token}", timeout=2).read()
            return
        if process.poll() is not None or time.monotonic() > deadline:
            raise RuntimeError(f"JupyterLab did not start (exit code {process.poll()}):\n{log.read_text()[-2000:]}")
        time.sleep(0.1)


def stop(address: str, token: str, process: subprocess.Popen[bytes]) -> None:
    """Ask the server to end its kernels and itself; end it when it does not."""
    try:
        request = urllib.request.Request(f"{address}/api/shutdown?token={token}", method="POST")
        urllib.request.urlopen(request, timeout=5).read()
        process.wait(15)
    except (OSError, subprocess.TimeoutExpired):
        process.terminate()
        try:
            process.wait(10)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()


@contextlib.contextmanager
def browser_page(*, width: int = 1280, height: int = 720) -> Iterator[Page]:
    """A page in a Chromium without a window that reaches this machine only."""
    from playwright.sync_api import sync_playwright

    options = [*CHROMIUM_OPTIONS, *(["--no-sandbox"] if is_root() else [])]
    with tempfile.TemporaryDirectory(prefix="home-") as home, sync_playwright() as playwright:
        environment: dict[str, str | float | bool] = {**os.environ, "HOME": home}
        browser = playwright.chromium.launch(
            executable_path=find_chromium(),
            args=options,
            ignore_default_args=["--hide-scrollbars"],  # what a learner would have to scroll, we want to see
            env=environment,
        )
        try:
            yield browser.new_context(viewport={"width": width, "height": height}).new_page()
        finally:
            browser.close()


def open_notebook(page: Page, address: str, token: str, name: str) -> None:
    """Open notebooks/`name` alone on the page and wait for its kernel."""
    page.goto(f"{address}/doc/tree/notebooks/{name}?reset&token={token}")
    page.locator(".jp-NotebookPanel .jp-Notebook .jp-Cell").first.wait_for(timeout=60_000)
    page.wait_for_function(READY, timeout=60_000)
    page.evaluate(LISTEN)


def run_all_cells(page: Page) -> None:
    """Run all cells and wait until the last one has finished."""
    page.evaluate("async () => await window.jupyterapp.commands.execute('notebook:run-all-cells')")
    page.wait_for_function(FINISHED, timeout=120_000)
