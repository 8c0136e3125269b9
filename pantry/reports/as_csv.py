"""Any report's rows as a sheet: CSV after RFC 4180, safe to be opened by a spreadsheet program.

What stands inside a row is spread over columns of its own (`quantity`, `quantity unit`); a list of
plain words is one cell. Lists of whole lines stand in the JSON only.
"""

import csv
import io
import re
from collections.abc import Iterable, Iterator, Mapping

from pantry.reports.report import Row

_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
"""What makes a spreadsheet program take text for a formula (OWASP, CSV Injection)."""
_NUMBER = re.compile(r"-?[0-9]+(\.[0-9]+)?")


def as_csv(rows: Iterable[Row]) -> str:
    """A heading and a line for each row; text that begins like a formula has `'` before it."""
    lines = [dict(_spread("", row)) for row in rows]
    columns = list(dict.fromkeys(column for line in lines for column in line))
    text = io.StringIO()
    sheet = csv.DictWriter(text, columns, restval="")
    sheet.writeheader()
    sheet.writerows(lines)
    return text.getvalue()


def _spread(name: str, value: object) -> Iterator[tuple[str, str]]:
    match value:
        case Mapping():
            for key, part in value.items():
                # a quantity's amount is what its column is named for
                own = name and key == "value" and "unit" in value
                yield from _spread(name if own else f"{name} {key}".strip(), part)
        case list():
            if not any(isinstance(part, Mapping | list) for part in value):
                yield name, _cell("; ".join(str(part) for part in value))
        case _:
            yield name, _cell(_plain(value))


def _plain(value: object) -> str:
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else "no"
    return str(value)


def _cell(text: str) -> str:
    is_formula = text.startswith(_FORMULA) and not _NUMBER.fullmatch(text)
    return f"'{text}" if is_formula else text
