"""A picture taken at the door: kept while the house is silent, small and bare when it arrives."""

import io

from PIL import Image
from playwright.sync_api import expect

from tests.browser.asking import answered
from tests.browser.offline import until_whole
from tests.browser.test_porter_goods_in import delivery, line

ORIENTATION, MAKE = 0x0112, 0x010F
"""Exif 2.32, section 4.6.4: how it was held, and who made the camera."""


def photographed() -> dict:
    """What a telephone's camera gives: large, lying on its side, with Exif (written by Pillow)."""
    exif = Image.Exif()
    exif[ORIENTATION], exif[MAKE] = 6, "Some camera"
    file = io.BytesIO()
    Image.linear_gradient("L").resize((3000, 2000)).convert("RGB").save(file, "JPEG", exif=exif)
    return {"name": "it.jpg", "mimeType": "image/jpeg", "buffer": file.getvalue()}


def test_a_picture_of_what_is_held_waits_for_the_house_and_the_chef_sees_it(opened, house, clean):
    page = opened.enrolled(house)
    until_whole(page)
    delivery(page, "Whinhope Greengrocers")
    line(page, "Spinach").get_by_role("link").click()
    page.get_by_role("button", name="The pack says").click()
    page.get_by_label("How warm").fill("7")
    house.kill()
    key = page.get_by_label("Take a picture")
    key.set_input_files(photographed())
    key.set_input_files(photographed())
    expect(page.get_by_role("img", name="What came, 2")).to_be_visible()
    page.reload()
    expect(page.get_by_role("img", name="What came, 2")).to_be_visible()
    expect(page.get_by_text("As you left it today")).to_be_visible()
    clean(page)
    page.get_by_role("button", name="Take it away picture: What came, 2").click()
    expect(page.get_by_role("img", name="What came, 2")).to_have_count(0)
    page.get_by_role("button", name="Hold 1 x 1 kg bag for the chef").click()
    expect(page.get_by_text("Spinach on hold for the chef")).to_be_visible()
    expect(page.get_by_text("1 picture waits")).to_be_visible()
    house.begin()
    expect(page.get_by_text("1 picture waits")).to_have_count(0)

    chef = opened.as_role(house, "chef", at="/questions")
    shown = chef.get_by_role("article").get_by_role("img", name="Taken with it")
    expect(shown).to_be_visible()
    clean(chef)
    chef.get_by_role("button", name="Taken with it").click()
    expect(chef.get_by_role("button", name="Taken with it", expanded=True)).to_be_visible()
    clean(chef)
    arrived = answered(chef, shown.get_attribute("src"))
    with Image.open(io.BytesIO(arrived.body())) as picture:
        assert (picture.format, picture.size) == ("JPEG", (853, 1280))
        assert dict(picture.getexif()) == {}
