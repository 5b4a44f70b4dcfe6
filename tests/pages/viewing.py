"""Pages in a real browser: opening them, and what is seen there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page

__all__ = ["View", "overflowing", "overlapping", "pointed", "pointed_at_each_step", "shown_digits", "viewing"]


@dataclass
class View:
    """A page that is open, and what went wrong or out while it was."""

    page: Page
    errors: list[str] = field(default_factory=list)
    requests: list[str] = field(default_factory=list)


@contextmanager
def viewing(
    browser: Browser, text: str, folder: Path, *, width: int = 1440, **settings: Any
) -> Iterator[View]:
    """Open a page from a file, and shut it again; at the end nothing may have failed or been fetched."""
    file = folder / "page.html"
    file.write_text(text, encoding="utf-8")
    context = browser.new_context(viewport={"width": width, "height": 900}, **settings)
    context.set_default_timeout(10_000)
    view = View(context.new_page())
    view.page.on("console", lambda message: view.errors.append(message.text))
    view.page.on("pageerror", lambda error: view.errors.append(str(error)))
    view.page.on("request", lambda request: view.requests.append(request.url))
    try:
        view.page.goto(file.as_uri())
        yield view
    finally:
        context.close()
    assert view.errors == []
    assert view.requests == [file.as_uri()]


def pointed(page: Page) -> set[str]:
    """The parts of the grid that point at something, each as its markup without its place in the page."""
    parts: list[str] = page.eval_on_selector_all(
        "#board .under > *, #board .bands > *, #board .over > *, #board .marks > *",
        "parts => parts.map(part => part.outerHTML)",
    )
    return {as_written(part) for part in parts}


def pointed_at_each_step(page: Page, count: int) -> list[set[str]]:
    """The same after each of so many steps forward, all in one go."""
    seen: list[list[str]] = page.evaluate(
        """count => Array.from({length: count}, () => {
          document.dispatchEvent(new KeyboardEvent("keydown", {key: "ArrowRight"}));
          return [...document.querySelectorAll(
            "#board .under > *, #board .bands > *, #board .over > *, #board .marks > *"
          )].map(part => part.outerHTML);
        })""",
        count,
    )
    return [{as_written(part) for part in parts} for parts in seen]


def as_written(part: str) -> str:
    """One way of writing an element: no namespace, attributes in order, numbers with two figures."""
    part = re.sub(r' xmlns="[^"]*"', "", part)
    name, rest = re.match(r"<(\w+)(.*)", part, re.DOTALL).groups()  # type: ignore[union-attr]
    attributes = sorted(
        (key, f"{float(value):.2f}" if key in ("x", "y") else value)
        for key, value in re.findall(r' ([\w-]+)="([^"]*)"', rest)
    )
    text = "".join(re.findall(r">([^<]+)<", rest))
    return f"{name} {attributes} {text}"


def shown_digits(page: Page, columns: int) -> dict[int, int]:
    """The digits in the grid by cell: givens, those written in, and the one of this step."""
    found: list[list[float]] = page.eval_on_selector_all(
        "#board .given, #board .digit, #board .placed",
        "texts => texts.map(text => [+text.getAttribute('x'), +text.getAttribute('y'), +text.textContent])",
    )
    return {int(y // 60) * columns + int(x // 60): int(digit) for x, y, digit in found}


def overflowing(page: Page) -> list[str]:
    """What is wider than the window, or wider than its own frame without a way to scroll there."""
    found: list[str] = page.evaluate(
        """() => {
          const wide = [];
          const window_width = document.documentElement.clientWidth;
          if (document.documentElement.scrollWidth > window_width) wide.push("the page");
          for (const part of document.body.querySelectorAll("*:not(svg *):not(.unseen)")) {
            const box = part.getBoundingClientRect();
            if (!box.width || part.closest("[hidden]") || part.closest(".signs")) continue;
            const scrolls = part.parentElement.closest("#board, .pane, .scroll, .steps");
            if (!scrolls && box.right > window_width + 1) wide.push(part.tagName + "." + part.className);
          }
          return wide;
        }"""
    )
    return found


def overlapping(page: Page) -> list[str]:
    """Pairs of parts that lie over one another: headings, texts, buttons, pictures, fields."""
    found: list[str] = page.evaluate(
        """() => {
          const kinds = "h1,h2,h3,h4,p,li,dt,dd,th,td,figcaption,summary,button,label,select,svg";
          const parts = [...document.body.querySelectorAll(kinds)].filter(part => {
            const box = part.getBoundingClientRect();
            return box.width > 1 && box.height > 1 && !part.closest("svg svg, .signs, .unseen")
              && !part.closest("details:not([open]) > :not(summary)");  // what is folded away is not seen
          });
          const inside = part => {  // what a frame that scrolls cuts off is not seen
            const box = part.getBoundingClientRect();
            const frame = part.parentElement.closest(".steps, .scroll, #board, .pane");
            if (!frame) return box;
            const cut = frame.getBoundingClientRect();
            return {left: Math.max(box.left, cut.left), right: Math.min(box.right, cut.right),
                    top: Math.max(box.top, cut.top), bottom: Math.min(box.bottom, cut.bottom)};
          };
          const boxes = parts.map(inside);
          const wrong = [];
          for (let i = 0; i < parts.length; i++)
            for (let j = i + 1; j < parts.length; j++) {
              if (parts[i].contains(parts[j])) continue;
              const [a, b] = [boxes[i], boxes[j]];
              const across = Math.min(a.right, b.right) - Math.max(a.left, b.left);
              const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
              if (across > 1 && down > 1)
                wrong.push(`${parts[i].outerHTML.slice(0, 60)} / ${parts[j].outerHTML.slice(0, 60)}`);
            }
          return wrong;
        }"""
    )
    return found
