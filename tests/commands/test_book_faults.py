"""Every fault of a house book is found, with its row and column, and none is found twice."""

import pytest

from pantry.refusals import CODES
from tests.commands.cottage import body, changed, faults

CELLS = [
    # sheet, row, column, what is written there, the fault's code
    ("house", 2, "name", "", "cell_missing"),
    ("house", 2, "time_zone", "Dublin", "zone_unknown"),
    ("house", 2, "currency", "EURO", "currency_unknown"),
    ("house", 2, "unit_system", "british", "word_unknown"),
    ("house", 2, "notice", "two days", "span_unreadable"),
    ("house", 2, "warning", "1.5 h", "span_unreadable"),
    ("house", 2, "last_call", "soon", "span_unreadable"),
    ("house", 2, "receiving_margin", "-1 h", "span_unreadable"),
    ("house", 2, "notice", "400 days", "span_too_long"),
    ("house", 2, "policy", "mars", "policy_unknown"),
    ("house", 2, "allergen_list", "fifteen", "allergen_list_unknown"),
    ("house", 2, "people", "a few", "number_not_whole"),
    ("areas", 4, "kind", "icy", "word_unknown"),
    ("areas", 3, "min_c", "cold", "temperature_unreadable"),
    ("areas", 3, "max_c", "-1", "limits_upside_down"),
    ("items", 3, "base_unit", "kg", "word_unknown"),
    ("items", 3, "area", "Attic", "area_unknown"),
    ("items", 3, "counted", "perhaps", "yes_or_no"),
    ("items", 3, "density_g_per_ml", "light", "number_unreadable"),
    ("items", 3, "density_g_per_ml", "0", "number_nothing"),
    ("items", 3, "piece_weight_g", "1,500", "number_ambiguous"),
    ("items", 4, "piece_weight_g", "-50", "number_unreadable"),
    ("items", 2, "opened_life_days", "0", "number_not_whole"),
    ("items", 2, "thawed_life_hours", "1.5", "number_not_whole"),
    ("items", 2, "frozen_life_days", "3 months", "number_not_whole"),
    ("items", 2, "high_risk", "very", "yes_or_no"),
    ("items", 6, "whole", "yes", "piece_unknown"),
    ("items", 5, "contains", "none; milk", "nothing_and_more"),
    ("items", 2, "gtin", "5012345678901", "wrong_check_digit"),
    ("items", 2, "gtin", "50123456789", "wrong_number_of_digits"),
    ("items", 3, "gtin", "5012345678900", "gtin_taken"),
    ("items", 2, "floor", "20 dollops", "unit_unknown"),
    ("items", 2, "floor", "7 l", "par_upside_down"),
    ("items", 8, "floor", "1 kg", "density_missing"),
    ("suppliers", 3, "minimum", "$20", "money_of_another_currency"),
    ("suppliers", 3, "charge", "4.505", "number_ambiguous"),
    ("suppliers", 3, "charge", "4.5055", "money_too_precise"),
    ("suppliers", 3, "charge", "free", "money_unreadable"),
    ("suppliers", 2, "send_minutes", "ten", "number_not_whole"),
    ("suppliers", 2, "may_fail", "sometimes", "yes_or_no"),
    ("deliveries", 2, "supplier", "Bay Diary", "supplier_unknown"),
    ("deliveries", 2, "weekday", "Moonday", "weekday_unreadable"),
    ("deliveries", 2, "time", "25:00", "wall_time_unreadable"),
    ("deliveries", 2, "cutoff_days_before", "-1", "number_not_whole"),
    ("deliveries", 2, "cutoff_time", "noon", "wall_time_unreadable"),
    ("closures", 2, "date", "17 March", "date_unreadable"),
    ("closures", 3, "what", "holiday", "word_unknown"),
    ("closures", 2, "instead", "2027-02-30", "date_unreadable"),
    ("suppliers", 2, "country", "Atlantis", "country_unknown"),
    ("suppliers", 2, "on_holiday", "later", "word_unknown"),
    ("suppliers", 2, "time_zone", "Bay", "zone_unknown"),
    ("suppliers", 2, "fails_percent", "101", "number_not_whole"),
    ("closures", 2, "to", "2026-01-01", "closure_ends_first"),
    ("packs", 2, "item", "Whole mylk", "item_unknown"),
    ("packs", 7, "quantity", "5 l", "pack_disagrees"),
    ("packs", 7, "quantity", "3 x 1.5 l", "pack_disagrees"),
    ("packs", 2, "quantity", "one litreish", "unit_unknown"),
    ("packs", 2, "quantity", "0 l", "quantity_nothing"),
    ("packs", 2, "price", "", "cell_missing"),
    ("packs", 3, "gtin", "1234", "wrong_number_of_digits"),
    ("packs", 2, "life_on_arrival_days", "0", "number_not_whole"),
    ("batches", 2, "item", "Goat milk", "item_unknown"),
    ("batches", 2, "item", "Salt", "item_not_counted"),
    ("batches", 2, "quantity", "", "cell_missing"),
    ("batches", 2, "quantity", "1,500 ml", "number_ambiguous"),
    ("batches", 7, "quantity", "2 kg", "density_missing"),
    ("batches", 2, "area", "Shed", "area_unknown"),
    ("batches", 2, "date_kind", "sell by", "word_unknown"),
    ("batches", 2, "date", "", "cell_missing"),
    ("batches", 2, "date", "14/03/2027", "date_mark_unreadable"),
    ("batches", 2, "date", "14 Mar", "date_mark_unreadable"),
    ("batches", 2, "date", "2027-03", "day_needed"),
    ("batches", 7, "date", "2027-03-14", "date_mark_unreadable"),
    ("batches", 2, "state", "fresh", "word_unknown"),
    ("batches", 3, "state_date", "", "cell_missing"),
    ("batches", 3, "state_date", "yesterday", "date_unreadable"),
    ("batches", 3, "state_date", "2027-03-09T25:00", "instant_unreadable"),
    ("batches", 6, "state_date", "2027-03-03", "frozen_too_late"),
    ("batches", 2, "cost", "£2.60", "money_of_another_currency"),
    ("batches", 2, "supplier", "The shop", "supplier_unknown"),
    ("batches", 3, "label", "m-1", "name_twice"),
    ("recipes", 3, "kind", "pudding", "word_unknown"),
    ("recipes", 3, "yield", "4 kg", "yield_not_portions"),
    ("recipes", 3, "yield", "plenty", "number_unreadable"),
    ("recipes", 2, "yield", "2 trays", "yield_not_measured"),
    ("recipes", 3, "dates", "baked", "word_unknown"),
    ("recipes", 3, "life_days", "0", "number_not_whole"),
    ("recipes", 4, "lead", "1 month", "span_unreadable"),
    ("recipes", 2, "full_recipes", "half", "yes_or_no"),
    ("recipes", 2, "area", "Attic", "area_unknown"),
    ("recipes", 4, "season_from", "13-01", "month_day_unreadable"),
    ("recipes", 4, "season_to", "", "cell_missing"),
    ("recipes", 4, "unit_system", "roman", "word_unknown"),
    ("ingredients", 2, "recipe", "Crepe batter", "recipe_unknown"),
    ("ingredients", 2, "ingredient", "Oat milk", "item_unknown"),
    ("ingredients", 2, "amount", "", "cell_missing"),
    ("ingredients", 2, "amount", "1 gillish", "unit_unknown"),
    ("ingredients", 2, "amount", "1 clove", "word_size_missing"),
    ("ingredients", 7, "amount", "1 cup", "density_missing"),
    ("ingredients", 7, "amount", "3", "piece_weight_missing"),
    ("ingredients", 8, "as", "peeled", "word_unknown"),
    ("ingredients", 8, "trimming_yield", "", "cell_missing"),
    ("ingredients", 8, "trimming_yield", "0", "number_nothing"),
    ("ingredients", 8, "as", "", "cell_missing"),
    ("ingredients", 8, "scaling", "double", "word_unknown"),
    ("variants", 2, "change", "remove", "word_unknown"),
    ("variants", 2, "ingredient", "Eggs", "variant_line_missing"),
    ("variants", 2, "amount", "5 g", "variant_unclear"),
    ("variants", 3, "with", "Maple syrup", "item_unknown"),
    ("variants", 3, "amount", "", "cell_missing"),  # 60 g of walnuts are no 60 ml of juice
    ("variants", 4, "ingredient", "Rhubarb", "cell_missing"),
    ("substitutes", 2, "substitute", "Grape juice", "item_unknown"),
    ("substitutes", 2, "substitute", "Red wine", "substitute_of_itself"),
    ("substitutes", 2, "ratio", "half of it", "number_unreadable"),
    ("tables", 2, "rank", "first", "number_not_whole"),
    ("constraints", 2, "table", "Visitors", "table_unknown"),
    ("constraints", 2, "to", "2027-02-01", "days_upside_down"),
    ("services", 2, "date", "2027-3-9", "date_unreadable"),
    ("services", 2, "time", "half past", "wall_time_unreadable"),
    ("services", 5, "table", "Garden", "table_unknown"),
    ("services", 3, "covers", "-2", "number_not_whole"),
    ("services", 3, "state", "eaten", "word_unknown"),
    ("choices", 3, "dish", "Hake stew", "recipe_unknown"),
    ("choices", 3, "dish", "Pancake batter", "dish_not_a_dish"),
    ("choices", 3, "dish", "Rhubarb fool", "recipe_unapproved"),
    ("choices", 5, "variant", "vegan", "variant_not_there"),
    ("choices", 5, "portions", "0", "number_not_whole"),
    ("choices", 3, "chosen", "by Una", "yes_or_no"),
    ("choices", 3, "date", "2027-04-10", "service_unknown"),
    ("orders", 2, "supplier", "Bay", "supplier_unknown"),
    ("orders", 4, "delivery_date", "2027-03-12", "no_delivery_then"),
    ("orders", 2, "pack", "churn", "pack_unknown"),
    ("orders", 3, "item", "Eggs", "pack_unknown"),
    ("orders", 2, "packs", "0", "number_not_whole"),
    ("harvest", 2, "item", "Marrows", "item_unknown"),
    ("harvest", 2, "to", "2027-03-01", "days_upside_down"),
    ("harvest", 2, "quantity", "3 baskets", "word_size_missing"),
    ("people", 3, "role", "butler", "word_unknown"),
]


def test_the_book_itself_has_no_fault():
    assert faults(body()) == ()


@pytest.mark.parametrize(("sheet", "row", "column", "value", "code"), CELLS)
def test_a_faulty_cell_is_the_only_fault(sheet, row, column, value, code):
    found = faults(changed(sheet, row, column, value))
    place = _place(sheet, row, column, value, code)
    assert [(each.file, each.row, each.column, each.code) for each in found] == [place]
    assert found[0].value == (value if place[2] == column else body()[sheet][row - 2][place[2]])
    assert found[0].code in CODES
    assert found[0].problem.endswith(".")
    assert found[0].todo.endswith(".")


def _place(sheet, row, column, value, code):
    """Where the fault is said to stand: for some, in another cell of the row."""
    elsewhere = {
        "piece_unknown": "piece_weight_g",
        "limits_upside_down": "max_c",
        "par_upside_down": "order_up_to",
        "variant_unclear": "amount",
    }
    if (sheet, row, code) == ("variants", 4, "cell_missing"):
        return sheet, row, "amount", code
    if (sheet, column, value) == ("orders", "item", "Eggs"):
        return sheet, row, "pack", code
    return sheet, row, elsewhere.get(code, column), code
