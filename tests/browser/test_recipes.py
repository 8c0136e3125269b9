"""The chef's recipes: one for as many as eat, one brought from elsewhere, decided line by line."""

import json
import re

from playwright.sync_api import Page, expect

RECIPE = {
    "@context": "https://schema.org",
    "@type": "Recipe",
    "name": "Leek custard",
    "recipeYield": "makes a dish for 4",
    "recipeIngredient": ["1 1/2 cups double cream", "3 eggs", "100 g butter", "2 tbsp moon dust"],
    "recipeInstructions": [{"@type": "HowToStep", "text": "Bake it slowly."}],
    "suitableForDiet": "https://schema.org/VeganDiet",
}


def recipes(page: Page) -> None:
    page.get_by_role("navigation", name="Doors").get_by_role("link", name="More").click()
    page.get_by_role("link", name="Recipes", exact=True).click()


def test_a_recipe_is_shown_for_as_many_as_eat_and_its_cost_opens(opened, shared_house, clean):
    page = opened.as_role(shared_house, "chef")
    recipes(page)
    page.get_by_label("Three letters of its name").fill("fish p")
    page.get_by_role("link", name=re.compile("^Fish pie")).click()
    ingredients = page.get_by_role("region", name="Ingredients")
    expect(ingredients).to_contain_text("Ingredients, for 6 covers")
    page.get_by_label("For how many").fill("12")
    expect(ingredients).to_contain_text("Ingredients, for 12 covers")
    expect(ingredients).to_contain_text("taken in all 3.2 kg as bought")
    clean(page)
    page.get_by_role("button", name="a cover").click()
    expect(page.get_by_role("dialog")).to_contain_text("Reckoned exactly and rounded once")


def test_a_recipe_from_elsewhere_is_written_once_every_line_is_decided(opened, house, clean):
    page = opened.as_role(house, "chef", phone=False)
    recipes(page)
    page.get_by_role("link", name="Bring a recipe from elsewhere").click()
    page.get_by_label("Or put it in here").fill(json.dumps(RECIPE))
    page.get_by_label("US", exact=True).check()
    clean(page)
    page.get_by_role("button", name="Read it").click()
    expect(page.get_by_text("That is not believed")).to_be_visible()
    expect(page.get_by_text("1 1/2 cups US = 355 ml")).to_be_visible()
    expect(page.get_by_role("button", name="Decide every line first")).to_be_disabled()
    clean(page)
    page.get_by_role("button", name="Butter, unsalted").click()
    page.get_by_role("button", name="That is it").click()
    page.get_by_label("Ingredient, line 4").fill("Plain flour")
    page.get_by_role("button", name="That is it").click()
    page.get_by_label("For how many").fill("4 kg")
    page.get_by_role("button", name="Write the recipe").click()
    expect(page.get_by_text("A dish yields portions")).to_be_visible()
    page.get_by_label("For how many").fill("4")
    page.get_by_role("button", name="Write the recipe").click()
    expect(page.get_by_role("heading", name="Leek custard", level=1)).to_be_visible()
    expect(page.get_by_text("Not approved")).to_be_visible()
    expect(page.get_by_role("region", name="What is in it")).to_contain_text("Double cream")
