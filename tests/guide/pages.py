"""The pages of the guide that are written from the code, so that they cannot lag behind it.

`make guide` writes them; a test compares. Run from the repository's root.
"""

import importlib
import pkgutil
from pathlib import Path
from types import ModuleType

import msgspec

import pantry
from pantry.commands.book.sheets import SHEETS
from pantry.commands.decisions import DECISIONS
from pantry.commands.facts import FACTS
from pantry.commands.parts import Part
from pantry.commands.rights import READS, RIGHTS
from pantry.commands.telling import HIDDEN, NAMELESS, OWN_ONLY, UNTOLD
from pantry.http.operation import Operation
from pantry.http.operations import OPERATIONS
from pantry.refusals import CODES
from pantry.reports.asked import ASKED

GUIDE = Path("pantry/guide")

REFUSALS = """# Everything that can be refused

A refusal says what is wrong, with what value, where, and what to do next; on the wire it is a problem (RFC 9457) with `code` beside
it. Codes are stable: a script may rely on them.

| code | what it means |
| --- | --- |
"""

COMMANDS = """# Commands

Everything that changes anything is a command: one JSON object, in a file of one a line for `chooseby apply`,
or in a list to a [server](http.md).

```json
{"id": "0196f000-0000-7000-8000-000000000001", "kind": "waste", "at": "2027-03-08T17:10:00Z", "person": "Pia",
 "body": {"batch": "B-2", "quantity": {"value": "200", "unit": "g"}, "reason": "spoiled", "destination": "composting"}}
```

- `id` is a UUID made by whoever gives the command, before it is sent. The same id again gets the first answer and changes nothing;
  the same id with another body is refused.
- `at` is when it happened, RFC 3339 with an offset. `person` is one of the house's people, by name; a house without people needs none.
  A server takes commands in the name of who is signed in, and needs no `person` either.
- An outbox also sends `device` and `n` (1, 2, 3 ... without gaps). A decision may send `base`: the version it was taken on, or the id of
  one's own earlier command; if that has moved, the answer is a conflict.
- Items, areas, suppliers, recipes and tables are named by name or id, batches by id (made by whoever gives the command) or label. A
  quantity is `{"value": "1.250", "unit": "kg"}` or as people write it (`"1 1/2 cups"`); money `{"minor": 450, "currency": "GBP"}`; a
  service `{"date": "2027-03-13", "meal": "dinner", "table": "family"}` or `"2027-03-13/dinner/family"`.

The answer to each is `{id, outcome, position, problem?}`: *applied*; *kept* (a fact that could not be applied is in the journal as it came,
and a person is asked); *refused*; *conflict*.

A command line or a script has no outbox behind it: after the loss of the server's disk, what was given since the last backup has to be
given again from the same file. That is safe, since every id counts once ([after a restore](after-a-restore.md)).
"""

HOUSE_BOOK = """# The house book

A folder of CSV files (UTF-8, a heading row), or one XLSX workbook with sheets of the same names. Dates are ISO 8601, times 24-hour and
local, amounts as people write them. A column marked ? may be left out or empty; an unknown column is a fault; a sheet that is not there is
not. `chooseby import FOLDER --check` says all that is wrong, by file, row and column, and changes nothing. `seed/` is a whole one.

| sheet | columns |
| --- | --- |
"""

HOUSE_BOOK_NOTES = """
What the cells mean, where it is not plain:

- **Lengths of time** (`notice`, `warning`, `last_call`, `receiving_margin`, `lead`): `72 h`, `90 min`, `3 days`, or ISO 8601. `P3D` keeps
  the wall time over a clock change, `PT72H` does not. Left out, they are 72 h, 24 h, 2 h, nothing and nothing.
- **`decimal_mark`** of the house, `point` or `comma`, says what `1,500 kg` is, here and in commands: one and a half with a comma. While no
  book has said it, such an amount is refused in a book, and taken as fifteen hundred in a command. `1,5` and `1.5` need no mark.
- **Calendars**: `country` and `subdivision` are ISO 3166 (`GB`, `SCT`): the public holidays the supplier keeps. `on_holiday` says what
  becomes of a delivery on one: it `falls_away`, or comes on the working `day_before` or `day_after`; its cut-off moves with it, and to
  before a holiday, unless `holiday_orders` says `yes`. `time_zone`: in whose wall time the deliveries are, if not the house's. A
  closure holds from `date` `to` another day. `order_given` is `telephone`, `email`, `portal` (their own page) or `by_hand`;
  `substitution` `ask_first`, `never` or `allowed`. An empty cell of these leaves what stands.
- **`pieces`** of a batch: how many pieces it is, where it is counted while weighed: two chickens of 3.46 kg.
- **Lists** in a cell are separated by `;`.
- **`contains`**: what a label declares, and then whatever it does not name is free; `none` is free of all; empty is *unknown*, and unknown
  is not free.
- **`counted`** `no`: an item nobody measures (salt, parsley): plenty, low or out; it never blocks anything. **`whole`**: taken in whole
  pieces (a bird, an egg).
- **Packs**: the quantity, or the pack's name, may say what one unopened unit inside holds: `6 x 750 ml`.
- **Lives** count calendar days, the day itself being day 1: opened on the 8th with a life of 3 days ends with the 10th.
- **Recipes**: the yield of a dish is in portions, of a preparation a quantity. An ingredient is `as_bought`, or `trimmed` with the
  `trimming_yield` (0.80: 1 kg bought gives 0.8 kg; a yield above 1 is right for what swells); left empty it is the handbook's, where
  that has a food of exactly the item's name. `fixed` lines do not grow with the portions.
- **Services** that are confirmed take the rows of `choices` that are `chosen` (all of them, if none is marked).
- **Who is in the house** ([more](who-is-here.md)): `stays` are those who come, `away` those who eat elsewhere (`meal` empty: at every meal;
  `to` empty: that day), `heads` 1 where it is empty. `from_at` and `to_at` are the first and the last meal, or times such as 16:30; empty,
  whole days. A stay without `to` goes on until somebody says. A row of `rota` is for a `weekday` or, as an exception, for a `date`, and
  a table's rows are its whole rota. Rows of the same who, table and `from` say anew what was said. Proposed menus that stand follow;
  for a confirmed one the chef is asked; a menu in the same book keeps the number it has there.
"""

HTTP = """# The server

`chooseby serve` serves the houses of its database; `/openapi.json` (OpenAPI 3.1) says everything that stands here to programs, the
[commands](commands.md) as one union on `kind`. Bodies and answers are JSON; a refusal is a problem (RFC 9457, `application/problem+json`)
with one of the [codes](refusals.md).

**Getting in.** Where nobody can sign in yet, `serve` prints a secret, once, with which the first manager comes in (and founds the house
where there is none). A manager makes a one-time code for each other person, who sets a password of their own with it. A browser keeps its
session in the cookie `__Host-chooseby`; it ends 30 days after it was last used, and after 90 in any case. A script signs in with
`"keep": "token"` and sends `Authorization: Bearer TOKEN`:

```sh
TOKEN=$(curl -s localhost:8710/api/sign-in -d '{"name": "Mara Quill", "password": "...", "keep": "token"}' | jq -r .token)
curl -s localhost:8710/api/commands -H "Authorization: Bearer $TOKEN" -d '[{"id": "0196f000-0000-7000-8000-000000000001",
  "kind": "waste", "at": "2027-03-08T17:10:00Z", "body": {"batch": "B-2", "quantity": "200 g", "reason": "spoiled", "destination": "composting"}}]'
```

Wrong passwords slow down the next try, by person and by address, to one in five minutes at most; nobody is locked out for good.

**Phones of the house.** A manager names a phone on the screen People, and gets a code that works once, for a quarter of an hour, as a
picture too. The phone scans it (or opens `/enrol`, and the code is keyed in), and keeps a key of its own in the cookie of a device. From
then on it asks *Who has this phone?*: a name, then a PIN of four to eight figures, which each person chooses once with their password or
a one-time code. *More*, *Somebody else* hands it over; whoever was in stays in until the other's PIN is given. A session that ends in
the middle of work asks for the PIN, and goes on at the same path. Wrong PINs slow the device down and lock it at the tenth in a row,
never the person: a manager unlocks it on People, and a password still comes in. People also tells who uses each phone, when it
was last heard of, and how many records it has made and not handed in. A lost one is revoked there (*Lost*): its sessions end at once, it
reads nothing more, and what it still holds is kept for the manager when it hands it in. A browser whose storage was cleared is a new
device: it is enrolled again.

**Devices.** A manager makes a code for a phone (15 minutes, once); what takes it up at `/api/devices/enrol` becomes a device of the house,
known from then on by the cookie `__Host-chooseby-device`, and alone hands in its outbox. Who has it in their hands says so by a PIN of four
to eight figures, chosen with a password or a one-time code. After three wrong PINs for somebody each further try on that device waits twice
as long; the tenth locks the device, never the person, until a manager unlocks it. `revoke_device` ends a device's sessions: it may
still hand in its outbox, which is kept without effect for the manager, and is told nothing. After restoring a backup, look at *People*: a
device that was taken out since that backup has to be taken out again.

**Privacy on the way.** A password is taken over HTTPS, or over plain HTTP on the machine itself; nothing else. The server speaks HTTPS
with a certificate of the house's own, or stands behind a reverse proxy with one: [HTTPS](https.md) says how.

**Writing is safe to repeat.** A command counts once, whatever becomes of the answer: send the same bytes again and the first answer comes
back. `/api/exchange` takes an outbox's commands in order and tells what has changed since its cursor, after one durable commit;
`/api/news` only says that there is something. When the server is told to stop it finishes what it began.

| | who | what | refuses with |
| --- | --- | --- | --- |
"""

HTTP_REPORTS = """
Reports answer `{schema, house, zone, as_of, position, rows}`, the same as `chooseby NAME --json`; their arguments stand in the query.

| | who | not told to them |
| --- | --- | --- |
"""


def load_everything(package: ModuleType = pantry) -> None:
    """Import every module, so that every code has been declared."""
    for found in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
        if ".migrations" not in found.name:
            importlib.import_module(found.name)


def refusals() -> str:
    """The page of every refusal's code."""
    load_everything()
    return REFUSALS + "".join(f"| `{code}` | {CODES[code]} |\n" for code in sorted(CODES))


def commands() -> str:
    """The page of every command's kind and fields."""
    page = COMMANDS
    for title, kinds in (("Facts: what happened", FACTS), ("Decisions", DECISIONS)):
        page += f"\n## {title}\n"
        for kind, shape in sorted(kinds.items()):
            page += f"\n### {kind}\n\n{_first_line(shape)} ({', '.join(sorted(RIGHTS[kind]))})\n\n"
            page += "".join(_field(field) for field in msgspec.structs.fields(shape))
    return page


def _first_line(shape: type[Part]) -> str:
    return " ".join((shape.__doc__ or "").split("\n\n")[0].split())


def _field(field: msgspec.structs.FieldInfo) -> str:
    if field.name == "base":
        return ""
    optional = "" if field.required else "?"
    return f"- `{field.name}{optional}`\n"


def house_book() -> str:
    """The page of every sheet and column."""
    rows = "".join(
        "| {} | {} |\n".format(
            name,
            ", ".join(
                column + ("" if column in columns.required else "?") for column in columns.every
            ),
        )
        for name, columns in SHEETS.items()
    )
    return HOUSE_BOOK + rows + HOUSE_BOOK_NOTES


def http() -> str:
    """The page of every route and every report."""
    routes = "".join(_route(each) for each in OPERATIONS)
    reports = "".join(_report(name) for name in sorted(ASKED))
    return HTTP + routes + HTTP_REPORTS + reports


def _route(each: Operation) -> str:
    says, _, whose = each.says.removesuffix(".").partition("; for ")
    who = "all" if each.is_open else whose.replace("managers", "manager") or "signed in"
    says = f"{says}."
    refuses = ", ".join(str(status) for status in sorted(each.problems))
    return f"| `{each.method.upper()} {each.path}` | {who} | {says} | {refuses} |\n"


def _report(name: str) -> str:
    takes = "&".join(f"{argument}=" for argument in ASKED[name].takes)
    hidden = [
        f"{', '.join(sorted(roles))}: `{column}`" for column, roles in HIDDEN.get(name, {}).items()
    ]
    if name in NAMELESS:
        hidden.append(f"{', '.join(sorted(NAMELESS[name]))}: the name of who `cannot_eat` a thing")
    if name in OWN_ONLY:
        column, roles = OWN_ONLY[name]
        hidden.append(f"{', '.join(sorted(roles))}: what has another `{column}`")
    hidden += [
        f"{', '.join(sorted(roles))}: what has a `{column}` that begins with "
        + begins.replace("|", "\\|")
        for column, begins, roles in UNTOLD.get(name, ())
    ]
    asked = f"`GET /api/reports/{name}{'?' + takes if takes else ''}`"
    return f"| {asked} | {', '.join(sorted(READS[name]))} | {'; '.join(hidden)} |\n"


PAGES = {
    "refusals.md": refusals,
    "commands.md": commands,
    "house-book.md": house_book,
    "http.md": http,
}

if __name__ == "__main__":
    for name, page in PAGES.items():
        (GUIDE / name).write_text(page(), "utf-8")
