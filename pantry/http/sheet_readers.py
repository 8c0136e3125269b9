"""Who reads a sheet: whoever has its link, or somebody of the house who is signed in.

Who has the link may read that one sheet and answer it, and nothing else.
"""

from dataclasses import dataclass
from functools import partial

from sqlalchemy import Connection

from pantry.access import throttle
from pantry.commands.rights import check_reads
from pantry.commands.send_sheet import SHEET_UNKNOWN
from pantry.http.served import Asking, Served, served
from pantry.records.read.sheets import linked
from pantry.records.rows import change, find
from pantry.records.tables import SheetLinkRow, SheetRow
from pantry.refusals import NotThere, Refusal, declare

LINK_WRONG = declare("link_wrong", "The link leads to no sheet, or no longer.")


class Gone(Refusal):
    """It was there, and is no more."""

    status = 410


@dataclass(frozen=True, slots=True)
class Reader:
    """Who reads a sheet.

    Attributes:
        house, sheet: ids.
        person: in whose name it is answered.
        by: what that is called where the house does not know who has the link.
        at: the address of the page.
    """

    house: str
    sheet: str
    person: str
    by: str
    at: str


async def by_link(request: Asking) -> Reader:
    """Who has this link; a wrong one is counted against the address it came from.

    Raises:
        NotThere: `link_wrong`.
        Gone: `link_wrong`: it was withdrawn, or its time is over.
        TooManyTries: `too_many_tries`.
    """
    of, secret = served(request), str(request.path_params["secret"])
    found = await of.read(partial(linked, secret=secret))
    if found is None:
        address = request.client.host if request.client else ""
        counted = (throttle.by_address(f"sheet {address}"),)
        await of.write("", partial(throttle.count, counted=counted, now=of.clock()))
        raise NotThere(
            LINK_WRONG,
            "This link leads to no menus.",
            "Look whether all of it was copied, or ask the kitchen for a new one.",
        )
    link, sheet = found
    _refuse_over(sheet, of)
    if link.read_at is None:
        await _note_read(of, link)
    person = sheet.recipient or sheet.sent_by
    by = "" if sheet.recipient else "the household"
    return Reader(link.house, sheet.id, person, by, f"/menu-sheet/{secret}")


def _refuse_over(sheet: SheetRow, of: Served) -> None:
    if sheet.withdrawn_at is not None or sheet.expires_at < of.now():
        said = "have been withdrawn" if sheet.withdrawn_at else "are no longer to be chosen from"
        raise Gone(LINK_WRONG, f"These menus {said}.", "Ask the kitchen for a new link.")


async def _note_read(of: Served, link: SheetLinkRow) -> None:
    def note(connection: Connection) -> None:
        change(connection, SheetLinkRow, {"id": link.id}, read_at=of.now())

    await of.write(link.house, note)


async def signed_in(request: Asking) -> Reader:
    """Somebody of the house who is told of sheets.

    Raises:
        NotAllowed: `report_lacking`.
        NotThere: `sheet_unknown`.
    """
    of, who, called = served(request), request.user, str(request.path_params["sheet"])
    check_reads(who.role, "sheets")
    row = await of.read(partial(find, model=SheetRow, house=who.house, id=called))
    if row is None:
        raise NotThere(
            SHEET_UNKNOWN, "There is no such sheet.", "Look at the sheets that were sent."
        )
    return Reader(who.house, called, who.person, "", f"/my-sheet/{called}")
