"""A pair of hands on the form: makes a plan from its data with the same taps and keys that a person would use."""

import re
from typing import Any

from playwright.sync_api import Locator, Page

CARDS = {"bodies": "body", "points": "point", "connectors": "connector", "redirects": "redirect", "lines": "line"}
_FIRST_SHUT = """holders => holders.find(at => {
    const fold = document.querySelector(`details[data-at="${CSS.escape(at)}"]`);
    return fold && !fold.open;
})"""
_LIES_FOLDED = """([at, holder]) => {
    const more = document.querySelector(`details[data-at="${CSS.escape(holder)}"] > .group > details.more`);
    return more && !more.open && !document.querySelector(`[data-at="${CSS.escape(at)}"]`);
}"""
_KIND = """e => {
    if (e.matches(".several, select")) return e.matches("select") ? "select" : "several";
    return e.closest(".quantity") ? "quantity" : "text";
}"""
ROWS = {"people": "person", "stops": "stop", "dampers": "damper"}


class Hands:
    def __init__(self, page: Page) -> None:
        self.page = page

    def plan(self, data: dict[str, Any]) -> None:
        """From the list of plans to a finished plan."""
        self.new(data["title"], data.get("reports_in", "metric"))
        for key in ("works", "north", "notes"):
            if key in data:
                self.fill(f"/{key}", data[key])
        for section, one in CARDS.items():
            for name in data.get(section, {}):
                self.card(section, one, name, moves="moves" in data[section][name])
        for section in CARDS:
            for name, entry in data.get(section, {}).items():
                self.fill(f"/{section}/{name}", entry)
        self.fill("/winch", data["winch"])
        if "signals" in data:
            self.fill("/signals", data["signals"])
        for section, one in ROWS.items():
            for i, entry in enumerate(data.get(section, ())):
                self.open(f"/{section}")
                self.at(f"/{section}").get_by_role("button", name=f"Add a {one}", exact=True).click()
                self.fill(f"/{section}/{i}", entry)

    def new(self, title: str, units: str) -> None:
        self.page.get_by_role("button", name="New plan").click()
        self.page.get_by_label("What the job is").fill(title)
        self.page.get_by_label("Units").select_option(units)
        self.page.get_by_role("button", name="Make it").click()
        self.page.locator(".form .section").first.wait_for()

    def at(self, pointer: str) -> Locator:
        return self.page.locator(f'[data-at="{pointer}"]').first

    def card(self, section: str, one: str, name: str, *, moves: bool) -> None:
        self.open(f"/{section}")
        self.at(f"/{section}").get_by_role("button", name=f"Add a {one}", exact=True).click()
        self.page.get_by_label("Name, as it is called on the ground").fill(name)
        box = self.page.get_by_label("It is the load")
        if box.count():
            box.set_checked(moves)
        self.page.get_by_role("button", name="Add", exact=True).click()

    def open(self, pointer: str) -> None:
        """Every fold down to a place, by tapping those that are shut."""
        steps = pointer.split("/")
        holders = ["/".join(steps[:n]) for n in range(2, len(steps) + 1)]
        while shut := self.page.evaluate(_FIRST_SHUT, holders):
            self.page.locator(f'details[data-at="{shut}"] > summary').click()

    def reach(self, pointer: str) -> Locator:
        """The field of a place, unfolded with the rest of its facts where it must be."""
        holder = pointer.rpartition("/")[0]
        self.open(holder)
        if self.page.evaluate(_LIES_FOLDED, [pointer, holder]):
            self.page.locator(f'details[data-at="{holder}"] > .group > details.more > summary').click()
        return self.at(pointer)

    def fill(self, pointer: str, value: Any) -> None:
        key = pointer.rpartition("/")[2]
        if key == "pieces":
            return self.pieces(pointer, value)
        if key in ("path", "hung_from"):
            return self.chain(pointer, value)
        if key in ("at", "middle"):
            return self.place(self.reach(pointer), value)
        if isinstance(value, dict):
            return self.group(pointer, value)
        field = self.reach(pointer)
        kind = field.evaluate(_KIND)
        if kind == "several":
            for word in [value] if isinstance(value, str) else value:
                field.get_by_label(word, exact=True).check()
        elif kind == "select":
            field.select_option(("yes" if value else "no") if isinstance(value, bool) else str(value))
        elif kind == "quantity":
            self.quantity(field.locator("xpath=.."), str(value))
        else:
            field.fill(str(value))
        return None

    def group(self, pointer: str, value: dict[str, Any]) -> None:
        if pointer.count("/") > 1 and not self.reach(pointer).count():
            holder = self.page.locator(f'details[data-at="{pointer.rpartition("/")[0]}"]')
            words = pointer.rpartition("/")[2].replace("_", " ")
            holder.get_by_role("button", name=f"Add: {words}", exact=True).first.click()
        for key in sorted(value, key=lambda k: k != "kind"):  # the kind first: it says what else there is
            self.fill(f"{pointer}/{key}", value[key])

    def quantity(self, box: Locator, text: str) -> None:
        parts = re.fullmatch(r"(.+?) (to|±) (.+)", text)
        low, high = (parts[1], parts[3]) if parts else (text, None)
        number, _, unit = (high or low).partition(" ")
        inputs, forms, units = box.locator("input"), box.locator("select.form"), box.locator("select.unit")
        if parts:
            forms.select_option(parts[2])
            inputs.nth(1).fill(number)
        inputs.nth(0).fill(low.partition(" ")[0])
        if options := units.locator("option").all_inner_texts():
            units.select_option(unit if unit in options else f"{unit} up")

    def place(self, frame: Locator, value: Any) -> None:
        way = "coordinates" if isinstance(value, list) else "distance and bearing"
        frame.get_by_label("Given by").select_option(way)
        if isinstance(value, list):
            for axis, text in zip(("x", "y", "z, up"), value, strict=False):
                self.quantity(frame.get_by_label(axis, exact=True).locator("xpath=.."), text)
            return
        distance, _, rest = value.partition(" bearing ")
        bearing, _, origin = rest.partition(" from ")
        self.quantity(frame.get_by_label("Distance", exact=True).locator("xpath=.."), distance)
        self.quantity(frame.get_by_label("Bearing", exact=True).locator("xpath=.."), bearing)
        if origin:
            frame.get_by_label("From", exact=True).select_option(origin)

    def chain(self, pointer: str, value: list[Any]) -> None:
        frame = self.reach(pointer)
        adds = frame.get_by_label(re.compile("^Add to:"))
        for i, entry in enumerate(value):
            names = entry if isinstance(entry, list) else [entry]
            links = frame.locator("> .chain > .link")
            if links.count() <= i:
                adds.select_option(names[-1])
            if isinstance(entry, list):
                links.nth(i).get_by_role("button", name="With a connector").click()
                inner = links.nth(i).locator(".inner")
                inner.get_by_label("Place 1", exact=True).select_option(names[0])
                for more in names[1:-1]:  # they go in behind the point, then before it
                    inner.get_by_label("Add", exact=True).select_option(more)
                    inner.get_by_role("button", name=f"Place {inner.locator('> .link').count()} earlier").click()

    def pieces(self, pointer: str, value: list[dict[str, Any]]) -> None:
        self.open(pointer)
        while self.page.locator(f'details[data-at="{pointer}"] > .cards > details').count() < len(value):
            self.at(pointer).get_by_role("button", name="Add a piece of rope").click()
        for i, entry in enumerate(value):
            [(name, facts)] = entry.items()
            card = self.page.locator(f'details[data-at="{pointer}"] > .cards > details').nth(i)
            now = (card.get_attribute("data-at") or "").rpartition("/")[2]
            self.open(f"{pointer}/{i}/{now}")
            if now != name:
                card.get_by_role("button", name="Change the name").click()
                self.page.get_by_label("Name", exact=True).fill(name)
                self.page.get_by_role("button", name="Change", exact=True).click()
            self.fill(f"{pointer}/{i}/{name}", facts)
