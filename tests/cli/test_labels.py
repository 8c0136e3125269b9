"""`chooseby labels`: what wants a label, and labels as a file."""

import pypdfium2
import zxingcpp


def test_labels_are_written_to_a_file(asked, tmp_path):
    file = tmp_path / "labels.pdf"
    said = asked.run(
        "labels", "--pdf", file, "--batch", "R-0001", "--paper", "62x29",
        CHOOSEBY_ADDRESS="https://rookhope.home.arpa/",
    )  # fmt: skip
    assert str(file) in said.output
    (page,) = pypdfium2.PdfDocument(file)
    image = page.render(scale=203 / 72).to_pil().convert("L")
    found = {each.text for each in zxingcpp.read_barcodes(image)}
    assert "https://rookhope.home.arpa/shelf/R-0001" in found or any("/01/" in f for f in found)


def test_what_wants_a_label_is_said(asked):
    assert "label" in asked.run("labels").output
    assert {"wants", "dates", "printed_at"} <= asked.json("labels")["rows"][0].keys()


def test_labels_of_nothing_are_refused(asked, tmp_path):
    file = tmp_path / "none.pdf"
    asked.run("labels", "--pdf", file, code=1)
    assert not file.exists()
