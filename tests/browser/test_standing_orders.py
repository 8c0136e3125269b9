"""What comes of itself, and stopping it where the house empties."""

from datetime import timedelta

from playwright.sync_api import expect

from tests.browser.conftest import PEOPLE
from tests.browser.test_porter_goods_in import today_of

BAKER = "Tolsaig Bakehouse"
GIVE = """async (command) => {
    const headers = {"content-type": "application/json"};
    const sent = JSON.stringify([{id: crypto.randomUUID(), ...command}]);
    const reply = await fetch("/api/commands", {method: "POST", headers, body: sent});
    const [answer] = await reply.json();
    return answer.outcome;
}"""


def everybody_goes(page, served):
    """Nobody of fourteen is in the house in the second week from now on."""
    today = today_of(served)
    first, last = (today + timedelta(days=days) for days in (8, 27))
    body = {"away": "all", "who": "Everybody", "table": "family", "heads": 20}
    body |= {"first": first.isoformat(), "last": last.isoformat()}
    at = f"{today.isoformat()}T08:00:00Z"
    command = {"kind": "say_away", "at": at, "person": PEOPLE["manager"]}
    assert page.evaluate(GIVE, command | {"body": body}) == "applied"


def test_bread_comes_of_itself_until_the_house_empties(opened, house, clean):
    page = opened.as_role(house, "manager", at="/suppliers", phone=False)
    baker = page.get_by_role("article", name=BAKER)
    baker.get_by_role("button", name="Standing order").click()
    panel = page.get_by_role("dialog")
    expect(panel).to_contain_text("They bring nothing of themselves.")
    panel.get_by_label("Comes on").select_option("friday")
    panel.get_by_label("How many").fill("3")
    panel.get_by_label("Of what").fill("white tin")
    panel.get_by_role("button", name="3 × one loaf of 800 g White tin loaf").click()
    panel.get_by_label("How many").fill("2")
    panel.get_by_label("Of what").fill("The county paper")
    panel.get_by_role("button", name="in words").click()
    lines = panel.get_by_role("list", name="Standing order").get_by_role("listitem")
    expect(lines).to_have_count(2)
    clean(page)
    panel.get_by_role("button", name=f"{BAKER} knows: keep it").click()
    expect(panel).to_contain_text("The standing order is kept.")
    expect(panel).to_contain_text("Written ahead:")
    clean(page)
    page.goto("/order-desk")
    ordered = page.get_by_role("region", name="Ordered").get_by_role("link", name=BAKER)
    expect(ordered.filter(has_text="2 lines · a standing order")).not_to_have_count(0)
    everybody_goes(page, house)
    page.goto("/deadlines")
    empty = page.get_by_role("region", name="Comes to an empty house")
    stop = empty.get_by_role("article", name=BAKER).first
    expect(stop).to_contain_text("Nobody is in the house from")
    expect(stop.get_by_role("link", name="Write a mail")).to_be_visible()
    clean(page)
    articles = empty.get_by_role("article")
    before = articles.count()
    stop.get_by_role("button", name="They know: nothing comes").click()
    expect(articles).to_have_count(before - 1)
    page.get_by_role("button", name="Undo").click()
    expect(articles).to_have_count(before)
