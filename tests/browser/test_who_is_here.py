"""Who is in the house, said by the chef, and the menu that then stands at another number."""

from playwright.sync_api import expect


def test_guests_who_come_are_counted_and_a_confirmed_menu_waits_for_the_chef(opened, house, clean):
    page = opened.as_role(house, "chef", "/who-is-here")
    friday = page.get_by_role("region", name="Friday").first
    expect(friday).to_contain_text("family")
    page.get_by_role("button", name="Somebody comes").click()
    page.get_by_label("Who", exact=True).fill("Ann Hale and Tom Hale")
    page.get_by_label("How many", exact=True).fill("3")
    page.get_by_label("Comes", exact=True).select_option(index=2)
    page.get_by_label("First meal").select_option("dinner")
    page.get_by_label("Leaves").select_option(index=3)
    page.get_by_label("Last meal").select_option("lunch")
    page.get_by_role("button", name="Ann Hale and Tom Hale: 3 more").click()
    expect(page.get_by_role("status").filter(has_text="Stays")).to_contain_text(
        "Stays: Ann Hale and Tom Hale (3)"
    )
    number = friday.get_by_role("button", name="dinner 9, menu for")
    number.click()
    opened_number = page.get_by_role("dialog")
    expect(opened_number).to_contain_text("3 more: Ann Hale and Tom Hale here")
    expect(opened_number).to_contain_text("said by Rhona Abercairn today")
    opened_number.get_by_role("link", name="See the menu").click()
    expect(page.get_by_text("Said by Rhona Abercairn today")).to_be_visible()
    page.get_by_role("button", name="Change to 9").click()
    page.get_by_role("button", name="It is for 9 now").click()
    expect(page.get_by_role("button", name="Change to 9")).to_have_count(0)
    page.goto("/who-is-here")
    expect(page.get_by_text("Said by Rhona Abercairn today")).to_be_visible()
    clean(page)
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Taken back.")).to_be_visible()


def test_a_stay_is_changed_with_what_it_does_to_the_menus_before_it_is_said(opened, house, clean):
    page = opened.as_role(house, "chef", "/who-is-here")
    page.get_by_role("button", name="Change Mrs Ellacott and Mr Ellacott").click()
    form = page.get_by_role("dialog", name="Change a stay")
    expect(form.get_by_role("button", name="Nothing changed yet")).to_be_disabled()
    form.get_by_role("button", name="One more: How many").click()
    form.get_by_label("Leaves").select_option(index=2)
    form.get_by_label("Last meal").select_option("lunch")
    menus = form.get_by_role("region", name="Menus it changes")
    friday = menus.get_by_role("listitem").filter(has_text="dinner, family: 6").first
    expect(friday).to_contain_text("confirmed for 6: the chef is asked")
    friday.get_by_text("If it is for 7 instead of 6").click()
    expect(friday.get_by_role("region", name="What it would change")).to_be_visible()
    expect(menus).to_contain_text("proposed for 6: it is for 4 then")
    clean(page)
    form.get_by_role("button", name="It is so now").click()
    expect(page.get_by_role("status").filter(has_text="Stays")).to_contain_text("(3)")
    expect(page.get_by_text("Said by Rhona Abercairn today")).to_be_visible()
