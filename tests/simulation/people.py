"""What people do with a phone or at a desk, drawn from what their screen shows."""

from collections.abc import Callable
from dataclasses import dataclass, field
from random import Random

from tests.simulation.desk import Desk
from tests.simulation.phone import Phone
from tests.simulation.thornwick import (
    CHEF,
    CUSTARDS,
    DISH_OF,
    FLOUR_AREAS,
    MANAGER,
    PORTER,
    SOUPS,
    STRANGER,
)

Wish = dict
"""Kind, body, person and perhaps base of a command that somebody wants to give."""


@dataclass
class People:
    """Everybody in the house.

    Attributes:
        draw: the one source of chance.
        new_id: makes ids.
        labelled: every batch that stands about with a label, by its item; not all are on the books.
    """

    draw: Random
    new_id: Callable[[], str]
    labelled: dict[str, str] = field(
        default_factory=lambda: {"milk-1": "whole-milk", "flour-1": "plain-flour"}
    )

    def wish(self, giver: Phone | Desk) -> Wish | None:
        """What somebody wants to record or decide now; None if nothing comes of it."""
        kinds = (
            (14, self._receive),
            (14, self._use),
            (5, self._open),
            (10, self._waste),
            (10, self._move),
            (9, self.count),
            (4, self._take_out),
            (3, self._set_level),
            (12, self._set_par),
            (6, self._propose),
            (7, self._confirm),
            (7, self._change_covers),
            (4, self._take_off),
            (5, self._serve),
            (4, self._correct),
            (4, self._settle),
            (4, self._cannot),
        )
        weights, makers = zip(*kinds, strict=True)
        (maker,) = self.draw.choices(makers, weights)
        wish = maker(giver)
        return wish and {"person": CHEF} | wish

    # Amounts and batches

    def _written(self, thousandths: int, unit: str) -> str | dict:
        """A quantity as one of the ways it may be written."""
        whole = f"{thousandths // 1000} {unit}"
        large = {"ml": "l", "g": "kg"}[unit]
        text = f"{thousandths / 1_000_000:.3f}"
        return self.draw.choice([whole, f"{text} {large}", {"value": text, "unit": large}])

    def _some(self, item: str, most: int) -> str | dict:
        unit = {"whole-milk": "ml", "plain-flour": "g"}[item]
        return self._written(self.draw.randint(1, max(2, most // 1000)) * 1000, unit)

    def _batch(self, giver: Phone | Desk, item: str) -> tuple[str, str, int] | None:
        """A batch, where it stands on the screen, and how much; now and then only on the shelf."""
        if self.draw.random() < 0.1:
            any_batch = [key for key, of in self.labelled.items() if of == item]
            return self.draw.choice(any_batch), self._area(item), 1_000_000
        seen = [
            (batch, account, quantity)
            for (batch, account), quantity in sorted(giver.shown().items())
            if account.startswith("area:") and self.labelled.get(batch) == item
        ]
        if not seen:
            return None
        batch, account, quantity = self.draw.choice(seen)
        return batch, account.removeprefix("area:"), max(quantity, 1000)

    def _area(self, item: str) -> str:
        return "cold-room" if item == "whole-milk" else self.draw.choice(FLOUR_AREAS)

    # Facts

    def _receive(self, _giver: Phone | Desk) -> Wish:
        item = self.draw.choice(["whole-milk", "plain-flour"])
        batch = self.new_id()
        body = {
            "batch": batch,
            "item": item,
            "quantity": self._some(item, 4_000_000),
            "area": self._area(item),
            "verdict": "accept",
            "date_mark": {"kind": "best_before", "date": "2027-12-01"},
        }
        if self.draw.random() < 0.3:
            body["label"] = f"T{self.draw.randint(1, 25):02d}"
        self.labelled[batch] = item
        return {"kind": "receive", "body": body}

    def _taken(self, giver: Phone | Desk, kind: str, item: str, **more: object) -> Wish | None:
        found = self._batch(giver, item)
        if found is None:
            return None
        batch, area, there = found
        body = {"batch": batch, "quantity": self._some(item, there), **more}
        names_area = {"waste": "area", "take_out": "area", "move": "from_area"}
        if kind in names_area:
            body[names_area[kind]] = area
        return {"kind": kind, "body": body}

    def _use(self, giver: Phone | Desk) -> Wish | None:
        return self._taken(giver, "use", "whole-milk")

    def _open(self, giver: Phone | Desk) -> Wish | None:
        child = self.new_id()
        wish = self._taken(giver, "open", "whole-milk", child=child)
        if wish:
            self.labelled[child] = "whole-milk"
        return wish

    def _waste(self, giver: Phone | Desk) -> Wish | None:
        item = self.draw.choice(["whole-milk", "plain-flour"])
        return self._taken(giver, "waste", item, reason="spilt", destination="bin")

    def _move(self, giver: Phone | Desk) -> Wish | None:
        wish = self._taken(giver, "move", "plain-flour")
        if wish:
            source = wish["body"]["from_area"]
            (wish["body"]["area"],) = (area for area in FLOUR_AREAS if area != source)
        return wish

    def _take_out(self, giver: Phone | Desk) -> Wish | None:
        return self._taken(giver, "take_out", "plain-flour", preparation="bread")

    def count(self, giver: Phone | Desk) -> Wish | None:
        item = self.draw.choice(["whole-milk", "plain-flour"])
        found = self._batch(giver, item)
        if found is None:
            return None
        batch, area, there = found
        unit = {"whole-milk": "ml", "plain-flour": "g"}[item]
        counted = there // 1000 * self.draw.choice([0, 50, 90, 100, 100, 110]) // 100 * 1000
        lines = [{"batch": batch, "quantity": self._written(counted, unit)}]
        if self.draw.random() < 0.15:
            lines.append({"batch": "torn label", "quantity": "1 kg"})
        return {"kind": "count", "body": {"area": area, "lines": lines}}

    def beside(self, count: Wish) -> Wish:
        """Some of what is counted is spilt at the same time."""
        batch, area = count["body"]["lines"][0]["batch"], count["body"]["area"]
        spilt = self._some(self.labelled[batch], 1_000_000)
        body = {"batch": batch, "quantity": spilt, "area": area}
        return {"kind": "waste", "body": body | {"reason": "spilt", "destination": "bin"}}

    def _set_level(self, _giver: Phone | Desk) -> Wish:
        level = self.draw.choice(["plenty", "low", "out"])
        return {"kind": "set_level", "body": {"item": "salt", "level": level}}

    def _serve(self, giver: Phone | Desk) -> Wish | None:
        ready = [key for key in SOUPS if self._state(giver, key) == "confirmed"]
        service = self.draw.choice(ready or SOUPS)
        return {"kind": "serve", "body": {"service": service}}

    # Decisions

    def _based(self, giver: Phone | Desk, wish: Wish, what: str, key: str) -> Wish:
        """With the base it was taken on: one's own earlier command, or the version shown."""
        if isinstance(giver, Phone):
            mine = [each for each in giver.own() if _is_about(each.command, what, key)]
            if mine:
                return wish | {"base": mine[-1].id}
        thing = giver.things.get((what, key))
        if thing is None or (isinstance(giver, Desk) and self.draw.random() < 0.5):
            return wish
        return wish | {"base": thing["version"]}

    def _state(self, giver: Phone | Desk, service: str) -> str | None:
        thing = giver.things.get(("service", service))
        return thing and thing["state"]

    def _set_par(self, giver: Phone | Desk) -> Wish:
        item = self.draw.choice(["whole-milk", "plain-flour"])
        unit = {"whole-milk": "ml", "plain-flour": "g"}[item]
        floor, level = self.draw.randint(1, 9) * 100_000, self.draw.randint(5, 30) * 100_000
        body = {
            "item": item,
            "floor": self._written(floor, unit),
            "order_up_to": self._written(level, unit),
        }
        return self._based(giver, {"kind": "set_par", "body": body}, "item", item)

    def _propose(self, giver: Phone | Desk) -> Wish:
        service = self.draw.choice(SOUPS + CUSTARDS)
        date, meal, table = service.split("/")
        part = {"date": date, "meal": meal, "table": table, "time": "19:30"}
        part["covers"] = self.draw.randint(1, 9)
        courses = [{"course": "main", "dishes": [DISH_OF[service]]}]
        wish = {"kind": "propose", "body": {"service": part, "courses": courses}}
        return self._based(giver, wish, "service", service)

    def _confirm(self, giver: Phone | Desk) -> Wish:
        service = self.draw.choice(SOUPS + CUSTARDS)
        body = {"service": service, "dishes": [{"dish": DISH_OF[service]}]}
        return self._based(giver, {"kind": "confirm", "body": body}, "service", service)

    def _change_covers(self, giver: Phone | Desk) -> Wish:
        service = self.draw.choice(SOUPS + CUSTARDS)
        body = {"service": service, "covers": self.draw.randint(1, 9)}
        return self._based(giver, {"kind": "change_covers", "body": body}, "service", service)

    def _take_off(self, giver: Phone | Desk) -> Wish:
        service = self.draw.choice(SOUPS + CUSTARDS)
        body = {"service": service, "reason": "they are out"}
        return self._based(giver, {"kind": "take_off", "body": body}, "service", service)

    def _correct(self, giver: Phone | Desk) -> Wish | None:
        """Take back one's own last waste or use, as long as the phone has it."""
        if isinstance(giver, Desk):
            return None
        mine = [
            each
            for each in giver.state.entries
            if each.command["kind"] in ("waste", "use") and each.outcome in (None, "applied")
        ]
        gone = {e.command["body"]["command"] for e in giver.state.entries if e.undone}
        mine = [each for each in mine if each.id not in gone]
        if not mine:
            return None
        body = {"command": mine[-1].id, "reason": "pressed by mistake"}
        return {"kind": "correct", "body": body, "undone": mine[-1].written}

    def _settle(self, giver: Phone | Desk) -> Wish | None:
        still = [
            (key, thing)
            for (what, key), thing in sorted(giver.things.items())
            if what == "question" and thing["settled_by"] is None and thing["owner"] == "chef"
        ]
        if not still:
            return None
        key, thing = self.draw.choice(still)
        answer = thing["answers"].split('"')[1]
        return {
            "kind": "settle",
            "body": {"question": key, "answer": answer},
            "base": thing["version"],
        }

    def _cannot(self, giver: Phone | Desk) -> Wish | None:
        """What cannot be applied: no right, a torn label, nobody anybody knows, par upside down."""
        wrong = self.draw.choice(
            ["porter serves", "torn label", "stranger", "par", "porter decides"]
        )
        if wrong == "porter serves":
            return self._serve(giver) | {"person": PORTER}
        if wrong == "porter decides":
            return self._set_par(giver) | {"person": PORTER}
        if wrong == "stranger":
            return self._set_level(giver) | {"person": STRANGER}
        if wrong == "par":
            wish = self._set_par(giver)
            wish["body"] |= {"floor": "5 kg", "order_up_to": "1 kg", "item": "plain-flour"}
            return {key: wish[key] for key in ("kind", "body")} | {"person": MANAGER}
        body = {"batch": "torn label", "quantity": "1 kg", "reason": "spilt", "destination": "bin"}
        return {"kind": "waste", "body": body | {"area": "pantry"}}


def _is_about(command: dict, what: str, key: str) -> bool:
    """Whether one's own command decided on a thing."""
    body = command["body"]
    if what == "item":
        return command["kind"] == "set_par" and body["item"] == key
    service = body.get("service")
    if isinstance(service, dict):
        service = f"{service['date']}/{service['meal']}/{service['table']}"
    return service == key
