"""The suppliers' calendars: what comes, what moves it, and a boat that does not sail."""

from playwright.sync_api import expect


def test_PL2_a_sailing_is_called_off_and_sails_after_all(opened, house, clean):
    page = opened.as_role(house, "manager", at="/suppliers")
    boat = page.get_by_role("article", name="Kelderay Boat Stores")
    expect(boat).to_contain_text("May fail to come")
    clean(page)
    boat.get_by_text("Every delivery in words").click()
    expect(boat).to_contain_text("; moved from Fri")
    boat.get_by_role("button", name="Call off a delivery").click()
    panel = page.get_by_role("dialog")
    panel.get_by_label("Why").fill("Gale from the west")
    clean(page)
    panel.get_by_role("button", name="Call it off").click()
    expect(boat).to_contain_text("nothing comes (Gale from the west)")
    panel.get_by_role("button", name="Undo").click()
    expect(panel).to_contain_text("Taken back.")
    expect(boat).not_to_contain_text("Gale from the west")
