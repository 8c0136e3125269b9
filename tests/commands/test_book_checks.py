"""What is checked across rows and sheets of a house book, and that one mistake is one fault."""

from datetime import UTC, datetime

from pantry.commands.book.check import check_book
from pantry.commands.book.sheets import SHEETS, from_body
from tests.commands.cottage import body, changed, faults, places, row_of, with_row


def test_all_faults_of_all_sheets_come_at_once_in_the_order_of_the_book():
    sheets = body()
    sheets["areas"][1]["kind"] = "cool"
    sheets["items"][0]["gtin"] = "123"
    sheets["items"][0]["floor"] = "lots"
    sheets["batches"][1]["quantity"] = "some"
    sheets["people"][0]["role"] = "owner"
    assert places(sheets) == [
        ("areas", 3, "kind", "word_unknown"),
        ("items", 2, "gtin", "wrong_number_of_digits"),
        ("items", 2, "floor", "number_unreadable"),
        ("batches", 3, "quantity", "number_unreadable"),
        ("people", 2, "role", "word_unknown"),
    ]


def test_all_faults_of_one_row_come_at_once():
    sheets = body()
    sheets["batches"][0] |= {"item": "Oat milk", "area": "Shed", "cost": "much", "label": ""}
    assert [each[2] for each in places(sheets)] == ["label", "item", "area", "cost"]


def test_an_unknown_sheet_or_column_is_a_fault_of_row_1():
    sheets = body()
    sheets["wines"] = [{"wine": "Claret"}]
    sheets["tables"][0]["colour"] = "blue"
    assert places(sheets) == [
        ("tables", 1, "colour", "column_unknown"),
        ("wines", 1, "", "sheet_unknown"),
    ]


def test_a_missing_column_is_one_fault_and_the_other_cells_are_still_checked():
    sheets = body()
    for row in sheets["packs"]:
        del row["price"]
    sheets["packs"][2]["life_on_arrival_days"] = "long"
    assert places(sheets) == [
        ("packs", 1, "price", "column_missing"),
        ("packs", 4, "life_on_arrival_days", "number_not_whole"),
    ]


def test_names_are_not_looked_up_in_a_sheet_whose_names_cannot_be_read():
    sheets = body()
    for row in sheets["items"]:
        row["article"] = row.pop("item")
    assert places(sheets) == [
        ("items", 1, "article", "column_unknown"),
        ("items", 1, "item", "column_missing"),
    ]


def test_optional_sheets_and_columns_may_be_missing():
    sheets = body()
    for name in set(sheets) - {"house"}:
        del sheets[name]
    for column in ("warning", "last_call", "receiving_margin", "people"):
        del sheets["house"][0][column]
    assert faults(sheets) == ()


def test_a_book_without_its_house_is_of_no_house():
    sheets = body()
    del sheets["house"]
    assert places(sheets) == [("house", 1, "", "house_missing")]


def test_a_book_is_of_one_house():
    assert places(with_row("house", **body()["house"][0])) == [("house", 3, "", "name_twice")]


def test_every_sheet_of_the_book_is_checked():
    # A sheet that nobody read would take any nonsense.
    for name in SHEETS:
        sheets = body()
        sheets[name][0] = dict.fromkeys(sheets[name][0], "§")
        assert any(each.file == name and each.row == 2 for each in faults(sheets)), name


def test_names_that_differ_in_accents_case_or_punctuation_alone_are_one_name():
    sheets = with_row("items", item="creme-FRAICHE", base_unit="ml")
    (fault,) = faults(sheets)
    assert (fault.row, fault.column, fault.code) == (12, "item", "name_twice")
    assert "Row 10" in fault.problem


def test_a_name_has_a_letter_or_digit_of_whatever_script():
    (fault,) = faults(with_row("tables", table="***", rank="3"))
    assert (fault.column, fault.code) == ("table", "name_without_letters")
    assert faults(with_row("tables", table="厨房", rank="3")) == ()


def test_what_refers_to_a_name_that_was_misspelt_says_so_too():
    # The area itself may well be called so: nobody can tell which of the two is wrong.
    found = places(changed("areas", 2, "area", "Lardre"))
    assert {each[3] for each in found} == {"area_unknown"}
    assert ("batches", row_of("batches", "label", "F-1"), "area", "area_unknown") in found


def test_references_do_not_depend_on_case_accents_or_spacing():
    assert faults(changed("packs", 4, "item", "CREME  fraiche")) == ()
    assert faults(changed("choices", 3, "dish", "hake-in-milk")) == ()
    assert faults(changed("choices", 5, "variant", "WITHOUT NUTS")) == ()


def test_a_faulty_fact_of_an_item_is_not_a_second_fault_wherever_it_is_used():
    # A pint of milk is no weight; the density that would make it one is a fault already.
    sheets = changed("items", 2, "density_g_per_ml", "abt 1")
    sheets["ingredients"][0]["amount"] = "1 lb"
    assert [each[:3] for each in places(sheets)] == [("items", 2, "density_g_per_ml")]


def test_MS3_a_missing_fact_is_refused_by_name_at_the_row_that_needs_it():
    (fault,) = faults(changed("ingredients", 7, "amount", "1 cup"))
    assert fault.column == "amount"
    assert "density of Walnuts" in fault.problem


def test_MS3_an_item_that_is_not_counted_never_blocks_anything():
    assert faults(changed("ingredients", 5, "amount", "as it pleases the cook")) == ()
    assert faults(changed("packs", 9, "quantity", "1 bucket")) == ()


def test_MS2_amounts_follow_the_recipe_s_own_unit_system_else_the_house_s():
    # A pint has no size in the metric system, which the hake declares and the batter does not.
    assert places(changed("ingredients", 9, "amount", "1/2 pint")) == [
        ("ingredients", 9, "amount", "unit_not_in_system")
    ]
    assert faults(changed("ingredients", 2, "amount", "1/2 pint")) == ()


def test_a_tin_or_bag_is_as_large_as_the_packs_of_the_item_say():
    assert faults(changed("ingredients", 7, "amount", "1/2 bag")) == ()
    two_sizes = with_row(
        "packs", supplier="Bay Dairy", item="Walnuts", pack="1 kg bag", quantity="1 kg", price="9"
    )
    two_sizes["ingredients"][5]["amount"] = "1/2 bag"
    assert places(two_sizes) == [("ingredients", 7, "amount", "word_size_missing")]


def test_a_trimming_yield_may_exceed_1():
    assert faults(changed("ingredients", 8, "trimming_yield", "2.5")) == ()


def test_RQ1_a_preparation_made_from_itself_is_refused_by_name_once():
    sheets = body()
    common = {"kind": "preparation", "yield": "1 l", "dates": "cooked"}
    blank = dict.fromkeys(sheets["recipes"][0], "")
    for name in ("Stock", "Sauce", "Glaze"):
        sheets["recipes"].append(blank | common | {"recipe": name})
    first = len(sheets["ingredients"]) + 2
    blank = dict.fromkeys(sheets["ingredients"][0], "")
    for recipe, ingredient in (("Stock", "Sauce"), ("Sauce", "Glaze"), ("Glaze", "stock")):
        line = {"recipe": recipe, "ingredient": ingredient, "amount": "1 pint"}
        sheets["ingredients"].append(blank | line)
    (fault,) = faults(sheets)
    assert (fault.file, fault.row, fault.column) == ("ingredients", first, "ingredient")
    assert fault.code == "recipe_cycle"
    assert "Stock → Sauce → Glaze → Stock" in fault.problem


def test_RQ1_a_preparation_of_itself_alone_is_a_circle_too():
    sheets = with_row("ingredients", recipe="Pancake batter", ingredient="Pancake batter")
    sheets["ingredients"][-1]["amount"] = "100 ml"
    (fault,) = faults(sheets)
    assert "Pancake batter → Pancake batter" in fault.problem


def test_two_rows_about_the_same_are_a_fault_of_the_second():
    for sheet, column in (
        ("deliveries", ""),
        ("closures", ""),
        ("packs", "pack"),
        ("substitutes", "substitute"),
        ("orders", "pack"),
        ("harvest", "from"),
        ("services", ""),
        ("people", "name"),
        ("recipes", "recipe"),
        ("suppliers", "supplier"),
        ("areas", "area"),
    ):
        first = body()[sheet][0]
        last = len(body()[sheet]) + 2
        assert places(with_row(sheet, **first)) == [(sheet, last, column, "name_twice")], sheet


def test_the_ladder_of_a_pack_agrees_with_its_name_or_is_a_fault():
    (fault,) = faults(changed("packs", 7, "quantity", "5 l"))
    assert "'case of 6 x 750 ml'" in fault.problem
    assert "'5 l'" in fault.problem
    assert faults(changed("packs", 7, "quantity", "6 x 750 ml")) == ()
    assert faults(changed("packs", 7, "pack", "the red one") | {"orders": []}) == ()
    # A pound is 453.59237 g exactly (NIST Handbook 44, appendix C); labels round.
    assert faults(changed("packs", 5, "pack", "1 lb bag") | _flour("454 g")) == ()
    assert len(faults(changed("packs", 5, "pack", "1 lb bag") | _flour("400 g"))) == 1


def _flour(quantity):
    packs = body()["packs"]
    packs[3] |= {"pack": "1 lb bag", "quantity": quantity}
    return {"packs": packs}


def test_an_order_for_a_day_without_delivery_names_the_next_ones():
    # 17 March is closed, its delivery comes on the 18th.
    (fault,) = faults(changed("orders", 4, "supplier", "Bay Dairy") | _order("2027-03-17"))
    assert fault.code == "no_delivery_then"
    assert "Thu 2027-03-18, Fri 2027-03-19, Mon 2027-03-22" in fault.todo


def _order(day):
    return {
        "orders": [
            {
                "supplier": "Bay Dairy",
                "delivery_date": day,
                "item": "Whole milk",
                "pack": "1 l carton",
                "packs": "1",
            }
        ]
    }


def test_an_order_is_not_at_fault_where_the_calendar_is():
    sheets = changed("deliveries", 2, "weekday", "Moonday") | _order("2027-03-15")
    assert places(sheets) == [("deliveries", 2, "weekday", "weekday_unreadable")]


def test_a_choice_is_not_at_fault_where_its_service_is():
    sheets = changed("services", 4, "table", "Kitchen")
    assert places(sheets) == [("services", 4, "table", "table_unknown")]


def test_SL3_food_frozen_after_its_use_by_must_not_be_used():
    (fault,) = faults(changed("batches", 6, "state_date", "2027-03-03"))
    assert (fault.column, fault.code) == ("state_date", "frozen_too_late")
    assert "must not be used" in fault.todo
    # Without a day it would be frozen now, on the 10th, and its use-by was the 2nd.
    (fault,) = faults(changed("batches", 6, "state_date", ""))
    assert (fault.column, fault.code) == ("date", "frozen_too_late")


def test_checking_takes_no_time_of_its_own():
    other = datetime(2031, 7, 1, 7, tzinfo=UTC)
    assert check_book(from_body(body()), at=other) == ()


def test_PL2_a_cut_off_later_than_its_delivery_is_a_fault_of_its_cell():
    sheets = changed("deliveries", 2, "cutoff_days_before", "0")
    (fault,) = faults(sheets)
    assert (fault.file, fault.row, fault.column) == ("deliveries", 2, "cutoff_time")
    assert (fault.code, fault.value) == ("cutoff_after_delivery", "17:00")
    sheets["deliveries"][0]["cutoff_time"] = "6:30"
    assert faults(sheets) == ()
