"""`chooseby invoices`: in words, as a sheet, as a workbook, on paper."""

import pypdfium2

from tests.cli.commands import command, lines

AMOUNT = {"minor": 700, "currency": "GBP"}
LINE = {"item": "Double cream", "pack": "1 l tub", "packs": 1, "amount": AMOUNT}


def billed(lodge):
    body = {"supplier": "Weardale Dairy", "number": "W 12", "date": "2027-03-09", "lines": [LINE]}
    recorded = command("record_invoice", body | {"total": AMOUNT, "orders": []})
    lodge.run("apply", "-", given=lines(recorded))


def test_an_invoice_is_told_with_what_differs(lodge):
    billed(lodge)
    said = lodge.words("invoices")
    assert "Weardale Dairy, invoice W 12 of Tue 9 Mar: differs" in said
    assert "Billed 7.00 GBP, should be 0.00 GBP" in said
    assert "Double cream: 1 l billed and did not come" in said
    assert (
        "Double cream: billed 7.00 GBP, agreed 6.20 GBP (6.20 GBP a pack, as it cost last)" in said
    )
    assert "1 invoice, 1 to be settled." in said


def test_invoices_are_written_to_files(lodge, tmp_path):
    billed(lodge)
    csv, xlsx, pdf = (tmp_path / f"invoices.{kind}" for kind in ("csv", "xlsx", "pdf"))
    lodge.run("invoices", "--csv", csv, "--xlsx", xlsx, "--pdf", pdf)
    assert "W 12" in csv.read_text(encoding="utf-8")
    assert xlsx.read_bytes().startswith(b"PK")
    (page,) = pypdfium2.PdfDocument(pdf)
    assert "invoice W 12" in page.get_textpage().get_text_range()
