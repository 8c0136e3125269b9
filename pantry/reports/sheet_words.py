"""The words in which the household is told of a meal, an hour and a dish, on screen and paper."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from pantry.reports.sheet_shown import DishShown, ServiceShown, SheetShown
from pantry.rules.menu import ServiceState


def sentence(words: str) -> str:
    """The words with a capital at their beginning, and as they are otherwise."""
    return words[:1].upper() + words[1:]


def day_words(day: date) -> str:
    """`Monday 15 March`."""
    return f"{day:%A} {day.day} {day:%B}"


def moment_words(at: datetime, zone: ZoneInfo) -> str:
    """`Friday 12 March, 19:30`, on the house's wall clock."""
    local = at.astimezone(zone)
    return f"{day_words(local.date())}, {local:%H:%M}"


def title(sheet: SheetShown) -> str:
    """`Menus from Monday 15 March to Sunday 21 March`."""
    if not sheet.services:
        return "Menus"
    first, last = sheet.services[0].day, sheet.services[-1].day
    if first == last:
        return f"Menus of {day_words(first)}"
    return f"Menus from {day_words(first)} to {day_words(last)}"


def meal_words(service: ServiceShown, zone: ZoneInfo) -> str:
    """`Dinner at 19:30, family, for 6`."""
    at = service.at.astimezone(zone)
    return f"{sentence(service.meal)} at {at:%H:%M}, {service.table}, for {service.covers}"


def standing_words(service: ServiceShown, sheet: SheetShown, zone: ZoneInfo, now: datetime) -> str:
    """By when to answer, what silence means; or that it is settled, and whom to tell."""
    if service.state == ServiceState.PROPOSED and service.answer_by and service.at > now:
        return _open_words(service, service.answer_by, sheet, zone, now)
    return {
        ServiceState.CONFIRMED: (
            f"This is settled. Whoever wishes it otherwise tells {sheet.sent_by}."
        ),
        ServiceState.SERVED: "This was served.",
        ServiceState.TAKEN_OFF: "This does not take place.",
    }.get(ServiceState(service.state), "There is nothing to choose any more.")


def _open_words(
    service: ServiceShown, answer_by: datetime, sheet: SheetShown, zone: ZoneInfo, now: datetime
) -> str:
    by, default = moment_words(answer_by, zone), "the first dish of each course is served"
    ahead = answer_by > now
    if service.answer and ahead:
        return f"It can still be changed until {by}."
    if service.answer:
        return f"The time to choose ended {by}: tell {sheet.sent_by} what is to be changed."
    if ahead:
        return f"Please choose by {by}. If nobody answers until then, {default}."
    return f"The time to choose ended {by}. Unless {sheet.sent_by} hears otherwise, {default}."


def in_it_words(dish: DishShown) -> str:
    """`Contains milk, gluten; may contain nuts`; what is not declared is not left unsaid."""
    said = []
    if dish.contains:
        said.append(f"contains {', '.join(dish.contains)}")
    if dish.may_contain:
        said.append(f"may contain {', '.join(dish.may_contain)}")
    if dish.not_known:
        said.append("not everything in it is declared")
    joined = "; ".join(said) or "nothing of the allergen list is declared to be in it"
    return f"{sentence(joined)}."
