"""Pages in a browser: Debian's Chromium by way of Playwright; skipped with a reason where either is missing."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from patterns import case
from storm_petrel import faulty, sound

from notchwork import jobs

CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser"))), None)


@pytest.fixture(scope="session")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], str]:
    """The address of a page by the name of its pattern: sound, faulty, smock."""
    folder = tmp_path_factory.mktemp("pages")
    made: dict[str, str] = {}

    def address(name: str) -> str:
        if name not in made:
            documents = {"sound": sound, "faulty": faulty, "smock": lambda: case("ferry_smock")}
            made[name] = written(folder / f"{name}.html", documents[name]())
        return made[name]

    return address


def written(path: Path, document: Any) -> str:
    """The address of a page of a document."""
    loaded = jobs.load(json.dumps(document).encode(), "test.pattern.json")
    path.write_text(jobs.report(loaded).page, encoding="utf-8")
    return path.as_uri()


@pytest.fixture(scope="session")
def chromium(playwright: Any) -> Iterator[Any]:
    if CHROMIUM is None:
        pytest.skip("needs Debian's package chromium")
    browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
    yield browser
    browser.close()


@pytest.fixture
def tab(chromium: Any) -> Iterator[Callable[..., Any]]:
    """Opens pages; when the test is over, none may have asked for anything or complained."""
    contexts: list[Any] = []
    heard: list[str] = []

    def opened(address: str, width: int = 1100, scripts: bool = True, scheme: str = "light") -> Any:
        context = chromium.new_context(
            viewport={"width": width, "height": 900},
            java_script_enabled=scripts,
            color_scheme=scheme,
            reduced_motion="reduce",
        )
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(5000)
        page.on("console", lambda message: heard.append(f"console: {message.text}"))
        page.on("pageerror", lambda error: heard.append(f"error: {error}"))
        page.on("request", lambda request: request.url == address or heard.append(f"request: {request.url}"))
        page.goto(address)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert heard == []
