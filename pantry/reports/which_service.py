"""Naming a service of the days ahead, its table by name or id."""

from pantry.records.slugs import slug
from pantry.refusals import NotThere, declare
from pantry.reports.view import View
from pantry.rules.menu import ServiceState

SERVICE_NOT_AHEAD = declare(
    "service_not_ahead", "No proposed or confirmed service of the days ahead has that name."
)

AHEAD = (ServiceState.PROPOSED, ServiceState.CONFIRMED)


def service_name(written: str) -> str:
    """The id that a service has if somebody's words for it are right."""
    date, *rest = (part.strip() for part in written.split("/"))
    return "/".join([date, *(slug(part) for part in rest)])


def service_ahead(view: View, written: str) -> str:
    """The id of a service of the days ahead, as somebody writes it.

    Raises:
        NotThere: `service_not_ahead`.
    """
    name = service_name(written)
    date = name.partition("/")[0]
    ahead = [service.id for service in view.services if service.state in AHEAD]
    if name in ahead:
        return name
    that_day = [service for service in ahead if service.startswith(f"{date}/")]
    raise NotThere(
        SERVICE_NOT_AHEAD,
        f"No service of the days ahead is {written!r}.",
        f"Name one of that day: {', '.join(that_day)}."
        if that_day
        else "Write DATE/MEAL/TABLE, such as 2027-03-13/dinner/family.",
        value=written,
    )
