"""Bought in or kept in: is the notice long enough to buy an item once the menu is chosen (PL6)?"""

from collections.abc import Iterable, Mapping
from datetime import date, timedelta

from pantry.records.rows import every
from pantry.records.tables import ItemRow
from pantry.reports.occupancy import spell_of_item, spells
from pantry.reports.report import Row, amount
from pantry.reports.use_so_far import largest_needs, longest_leads, use_by_day
from pantry.reports.view import View
from pantry.rules.house_time import WEEKDAYS, Span, days_of, local_date, read_span, write_span
from pantry.rules.notice import Notice, Verdict, longest, served_meals, who_would_do
from pantry.rules.notice import notice as notice_of
from pantry.rules.par import Levels, proposed_levels, replenishment
from pantry.rules.stock import Item
from pantry.rules.supply import Pack

_DAY = timedelta(days=1)


def notice(view: View) -> list[Row]:
    """A row for each item that is measured and bought, by name.

    `needed` is null where no supplier can bring it in time for any meal. Floor and level are
    proposals for what is kept in: they order nothing until a person or a sheet sets them. `spells`
    are the days ahead on which less is kept of what has a floor, since few or none are there.
    """
    used, largest = use_by_day(view), largest_needs(view)
    versions = {row.id: row.version for row in every(view.connection, ItemRow, house=view.id)}
    asked, lower = _Asked(view), spells(view)
    rows = []
    for item in asked.items():
        found = asked.notice(item)
        levels = None
        would_do: list[str] = []
        if found.verdict is Verdict.KEPT_IN:
            levels = _levels(view, item, used.get(item.id, {}), largest.get(item.id, 0))
            would_do = asked.who_would_do(item)
        row = _row(found, item, levels)
        rows.append(
            row
            | {
                "item_id": item.id,
                "version": versions[item.id],
                "suppliers": asked.sellers(item),
                "would_do": would_do,
                "spells": [
                    spell_of_item(view, spell, item.id)
                    for spell in (lower if item.floor is not None else ())
                ],
            }
        )
    return rows


def longer_notice(view: View) -> list[Row]:
    """A row for each length of notice, the shortest first: what it would change for the larder.

    Every number of days at which something changes, and the house's own notice. `gained` and
    `lost` name the items that would be bought in, or no longer, against the house's own.
    """
    asked = _Asked(view)
    enough = {item.name: asked.notice(item).enough for item in asked.items()}
    if not enough:
        return []
    own = _exact(view)
    now_in = {name for name, length in enough.items() if length is not None and length <= own}
    days = {_DAY * -(-length // _DAY) for length in enough.values() if length is not None}
    return [_longer(length, own, enough, now_in) for length in sorted({own, *days})]


def _longer(
    length: timedelta, own: timedelta, enough: Mapping[str, timedelta | None], now_in: set[str]
) -> Row:
    bought_in = {name for name, least in enough.items() if least is not None and least <= length}
    return {
        "notice": write_span(Span(exact=length)),
        "is_own": length == own,
        "bought_in": len(bought_in),
        "kept_in": len(enough) - len(bought_in),
        "gained": sorted(bought_in - now_in),
        "lost": sorted(now_in - bought_in),
    }


def _exact(view: View) -> timedelta:
    """The house's notice where no clock changes."""
    given = view.house.notice
    return given.days * _DAY + given.exact


def needed_by_menu(rows: Iterable[Row]) -> str | None:
    """What notice the menu really needs, of what each item does, as an ISO 8601 duration."""
    needed = (row["needed"] for row in rows)
    found = longest(None if each is None else read_span(each).exact for each in needed)
    return None if found is None else write_span(Span(exact=found))


class _Asked:
    """What is asked of every item alike, read once."""

    def __init__(self, view: View) -> None:
        self.view = view
        self.meals = served_meals(view.services, view.zone)
        self.leads = longest_leads(view)
        self.sold: dict[str, list[Pack]] = {}
        for pack in view.packs:
            self.sold.setdefault(pack.item, []).append(pack)

    def items(self) -> list[Item]:
        """Those that are measured, and bought or used by a recipe, by name."""
        view = self.view
        wanted = [
            item
            for item in view.items.values()
            if item.measured
            and item.id not in view.preparations
            and (item.id in self.sold or item.id in self.leads)
        ]
        return sorted(wanted, key=lambda item: item.name)

    def notice(self, item: Item) -> Notice:
        """Bought in or kept in."""
        view, packs = self.view, self.sold.get(item.id, [])
        sellers = [view.suppliers[name] for name in sorted({pack.supplier for pack in packs})]
        return notice_of(
            item.id,
            packs,
            sellers,
            self.meals,
            lead=self.leads.get(item.id, Span()),
            house=view.house,
            now=view.now,
        )

    def sellers(self, item: Item) -> list[str]:
        """Who sells it, by name."""
        sold = {pack.supplier for pack in self.sold.get(item.id, [])}
        return sorted(self.view.supplier_names[id_] for id_ in sold)

    def who_would_do(self, item: Item) -> list[str]:
        """Who does not sell it, and could bring it soon enough, by name."""
        view = self.view
        found = who_would_do(
            item.id,
            self.sold.get(item.id, []),
            view.suppliers.values(),
            self.meals,
            lead=self.leads.get(item.id, Span()),
            house=view.house,
            now=view.now,
        )
        return sorted(view.supplier_names[id_] for id_ in found)


def _levels(view: View, item: Item, used: Mapping[date, int], largest: int) -> Levels:
    """Proposed par from use since the first recorded day, and from the approved dishes."""
    today = local_date(view.now, view.zone)
    first = min(used, default=today)
    series = [used.get(day, 0) for day in days_of(first, today - timedelta(days=1))]
    packs = [pack for pack in view.packs if pack.item == item.id]
    restocked = replenishment(item.id, packs, view.suppliers.values())
    return proposed_levels(series, restocked, largest)


def _row(found: Notice, item: Item, levels: Levels | None) -> Row:
    return {
        "item": item.name,
        "needed": None if found.needed is None else write_span(Span(exact=found.needed)),
        "verdict": found.verdict.value,
        "fails": [
            {
                "weekday": WEEKDAYS[fail.weekday],
                "meal": fail.meal,
                "by": None if fail.by is None else write_span(Span(exact=fail.by)),
            }
            for fail in found.fails
        ],
        "enough": None if found.enough is None else write_span(Span(exact=found.enough)),
        "floor_set": None if item.floor is None else amount(item.floor, item),
        "order_up_to_set": None if item.order_up_to is None else amount(item.order_up_to, item),
        "floor": None if levels is None else amount(levels.floor, item),
        "order_up_to": None if levels is None else amount(levels.order_up_to, item),
    }
