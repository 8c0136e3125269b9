"""What a scanned code says: GS1 element strings, GS1 Digital Links, plain numbers, our own labels.

What a text is taken for, in this order:

1. A symbology identifier decides (`]C1`, `]e0`, `]d2`, `]Q3`, `]J1`: element strings; `]E0`, `]E3`,
   `]E4`, `]I1`: a product number alone). Any other identifier is taken off and says no more.
2. `http://` or `https://`: the link on a label of the house (`ADDRESS/shelf/LABEL`), or else a GS1
   Digital Link. They are read, never fetched.
3. A separator (FNC1, sent as GS) in front, or `(01)...(10)...` as printed below a barcode: element
   strings.
4. 8, 12, 13 or 14 digits: a product number, never element strings. Eight digits are a GTIN-8;
   only `]E0` makes them a UPC-E.
5. A whole AI 01, 02 or 00 in front: element strings, if all that follows is read as such.
6. 4 to 20 capitals, digits and hyphens (digits alone: 4 to 7): a label of the house.

Anything else is refused. Where a century is not written, `today` decides it. Numbers and tables
come from `pantry.handbook`; the check digits and the UPC-E expansion from the library biip. The
splitting is our own, because biip 5.2 reads the clock for the century, refuses harvest ranges,
lets a wrong check digit inside a message pass and takes the leftmost key of a Digital Link.
"""

from pantry.rules.codes.read import read_code
from pantry.rules.codes.scan import Element, Harvest, Measure, Price, Scan, StoreItem
from pantry.rules.codes.store_numbers import StoreNumber, StoreValue, Verifier

__all__ = [
    "Element",
    "Harvest",
    "Measure",
    "Price",
    "Scan",
    "StoreItem",
    "StoreNumber",
    "StoreValue",
    "Verifier",
    "read_code",
]
