"""From a menu to ingredients (RQ1, RQ2)."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.refusals import MissingFact, NotThere, UnreadableInput
from pantry.rules.allocation import Need
from pantry.rules.house_time import Span
from pantry.rules.menu import (
    Change,
    DiningTable,
    Ingredient,
    Recipe,
    RecipeKind,
    Scaling,
    Service,
    ServiceState,
    Serving,
    VariantChange,
)
from pantry.rules.recipes import direct_needs, levels, needs_of_making, piece_of
from pantry.rules.stock import BaseUnit, Item

LONDON = ZoneInfo("Europe/London")
AT = datetime(2027, 3, 13, 19, tzinfo=UTC)
TABLES = {"family": DiningTable("family", "Family", 1), "staff": DiningTable("staff", "Staff", 3)}


def gram(name: str, **facts) -> Item:
    return Item(name, name, BaseUnit.G, **facts)


def each(name: str, **facts) -> Item:
    return Item(name, name, BaseUnit.EACH, **facts)


def items(*known: Item) -> dict[str, Item]:
    return {item.id: item for item in known}


def dish(name: str, *lines: Ingredient, yields: int = 4, **facts) -> Recipe:
    return Recipe(name, name.capitalize(), RecipeKind.DISH, Fraction(yields), lines, **facts)


def preparation(makes: str, *lines: Ingredient, yields: int = 1000, **facts) -> Recipe:
    return Recipe(
        f"make {makes}",
        makes,
        RecipeKind.PREPARATION,
        Fraction(yields),
        lines,
        makes=makes,
        **facts,
    )


def service(*servings: Serving, covers: int = 8, table: str = "family", at=AT) -> Service:
    return Service(
        f"2027-03-13/dinner/{table}",
        date(2027, 3, 13),
        "dinner",
        table,
        at,
        covers,
        ServiceState.CONFIRMED,
        servings,
    )


def needs(of: Service, recipes: list[Recipe], known: dict[str, Item]) -> list[Need]:
    return direct_needs(of, {recipe.id: recipe for recipe in recipes}, known, TABLES, LONDON)


def quantities(found: list[Need]) -> dict[str, int]:
    return {need.id: need.quantity for need in found}


def test_RQ1_a_need_is_portions_over_yield_times_the_amount():
    lamb = dish("lamb", Ingredient("shoulder", Fraction(1200)), yields=6)
    (need,) = needs(service(Serving("main", "lamb")), [lamb], items(gram("shoulder")))
    assert need == Need(
        id="2027-03-13/dinner/family|main|lamb|shoulder",
        service="2027-03-13/dinner/family",
        dish="lamb",
        item="shoulder",
        quantity=1_600_000,
        wanted_by=AT,
        until=AT,
        rank=1,
    )


def test_RQ1_portions_of_one_dish_may_differ_from_covers_and_be_smaller():
    lamb = dish(
        "lamb",
        Ingredient("shoulder", Fraction(1000)),
        Ingredient("oil", Fraction(30), Scaling.FIXED),
    )
    served = service(
        Serving("main", "lamb", portions=2),
        Serving("main", "lamb", portions=3, portion_factor=Fraction(1, 2)),
    )
    found = needs(served, [lamb], items(gram("shoulder"), gram("oil")))
    assert [need.quantity for need in found] == [875_000, 30_000]  # 3.5 of 4 portions; oil once


def test_RQ1_a_trimmed_amount_is_divided_by_its_yield_and_a_fixed_one_does_not_grow():
    soup = dish(
        "soup",
        Ingredient("leek", Fraction(1000), trimming_yield=Fraction(44, 100)),
        Ingredient("oil", Fraction(500), Scaling.FIXED),
    )
    found = needs(service(Serving("first", "soup")), [soup], items(gram("leek"), gram("oil")))
    assert [need.quantity for need in found] == [4_545_455, 500_000]


def test_RQ1_a_yield_above_one_is_not_cut_down():
    beans = dish(
        "beans", Ingredient("beans", Fraction(24692, 10), trimming_yield=Fraction(24692, 10000))
    )
    (need,) = needs(service(Serving("main", "beans"), covers=4), [beans], items(gram("beans")))
    assert need.quantity == 1_000_000


def test_RQ1_a_fixed_line_needs_nothing_where_no_portion_is_cooked():
    soup = dish("soup", Ingredient("oil", Fraction(500), Scaling.FIXED))
    assert needs(service(Serving("first", "soup", portions=0)), [soup], items(gram("oil"))) == []


def test_MS1_a_need_is_rounded_half_even_once_after_its_lines_are_summed():
    lines = (Ingredient("saffron", Fraction(5, 10_000)), Ingredient("saffron", Fraction(1, 1000)))
    paella = dish("paella", *lines, yields=1)
    known = items(gram("saffron"))
    (need,) = needs(service(Serving("main", "paella"), covers=1), [paella], known)
    assert need.quantity == 2  # 1.5 mg
    (need,) = needs(
        service(Serving("main", "half"), covers=5), [dish("half", lines[0], yields=1)], known
    )
    assert need.quantity == 2  # 2.5 mg
    assert (
        needs(service(Serving("main", "half"), covers=1), [dish("half", lines[0], yields=1)], known)
        == []
    )


def test_MS3_what_is_not_counted_gives_no_need_and_blocks_nothing():
    soup = dish("soup", Ingredient("parsley", Fraction(1)), Ingredient("leek", Fraction(100)))
    known = items(
        gram("leek"), Item("parsley", "Parsley", BaseUnit.EACH, measured=False, whole=True)
    )
    assert [need.item for need in needs(service(Serving("first", "soup")), [soup], known)] == [
        "leek"
    ]


def test_RQ1_whole_pieces_are_summed_over_the_service_before_they_are_rounded_up():
    sole = dish("sole", Ingredient("lemon", Fraction(1, 2)), yields=1)
    tart = dish("tart", Ingredient("lemon", Fraction(3, 4)), yields=1)
    served = service(Serving("main", "sole"), Serving("sweet", "tart"), covers=1)
    found = quantities(needs(served, [sole, tart], items(each("lemon", whole=True))))
    assert found == {
        "2027-03-13/dinner/family|main|sole|lemon": 500,
        "2027-03-13/dinner/family|sweet|tart|lemon": 1500,
    }


def test_RQ1_three_needs_of_two_thirds_are_two_pieces_not_three():
    dishes = [dish(name, Ingredient("lemon", Fraction(2, 3)), yields=1) for name in "abc"]
    served = service(*(Serving("main", each.id) for each in dishes), covers=1)
    found = needs(served, dishes, items(each("lemon", whole=True)))
    assert [need.quantity for need in found] == [666, 667, 667]  # the first id takes the rest


def test_RQ1_a_bird_that_is_weighed_comes_whole():
    roast = dish("roast", Ingredient("chicken", Fraction(1400)), yields=4)
    known = items(gram("chicken", whole=True, piece_weight=Fraction(1600)))
    (need,) = needs(service(Serving("main", "roast"), covers=6), [roast], known)
    assert need.quantity == 3_200_000  # 2.1 kg is nobody's chicken: two of 1.6 kg


def test_MS3_a_whole_item_without_its_piece_weight_is_refused_by_name():
    with pytest.raises(MissingFact) as refused:
        piece_of(gram("chicken", whole=True))
    assert refused.value.code == "piece_unknown"
    assert refused.value.value == "chicken"
    bottle = Item("bottle", "Bottle", BaseUnit.ML, whole=True, piece_weight=Fraction(750))
    with pytest.raises(MissingFact):
        piece_of(bottle)
    assert piece_of(replace(bottle, density=Fraction(3, 4))) == 1_000_000
    assert piece_of(each("egg", whole=True)) == 1000
    assert piece_of(each("egg")) == 0


def test_RQ2_ingredients_are_wanted_the_lead_before_the_service_and_usable_until_it():
    ham = dish("ham", Ingredient("gammon", Fraction(1000)), lead=Span(days=2))
    after_the_change = datetime(
        2027, 3, 29, 18, tzinfo=UTC
    )  # 19:00 BST; clocks went on on the 28th
    (need,) = needs(
        service(Serving("main", "ham"), at=after_the_change), [ham], items(gram("gammon"))
    )
    assert need.wanted_by == datetime(2027, 3, 27, 19, tzinfo=UTC)  # 19:00 GMT
    assert need.until == after_the_change


def test_RQ1_every_need_of_a_service_has_its_own_id():
    without = ("without alcohol", (VariantChange(Change.LEAVE_OUT, "wine"),))
    stew = dish(
        "stew",
        Ingredient("beef", Fraction(800)),
        Ingredient("wine", Fraction(200)),
        variants=(without,),
    )
    served = service(
        Serving("first", "stew", portions=1),
        Serving("main", "stew", portions=4),
        Serving("main", "stew", variant="without alcohol", portions=3),
        Serving("main", "stew", portions=1),
    )
    found = quantities(needs(served, [stew], items(gram("beef"), gram("wine"))))
    start = "2027-03-13/dinner/family"
    assert found == {
        f"{start}|first|stew|beef": 200_000,
        f"{start}|first|stew|wine": 50_000,
        f"{start}|main|stew|beef": 1_000_000,
        f"{start}|main|stew|wine": 250_000,
        f"{start}|main|stew|beef|without alcohol": 600_000,
    }


def test_RQ1_what_is_not_there_is_refused_by_name():
    soup = dish("soup", Ingredient("leek", Fraction(100)))
    cases = [
        (service(Serving("first", "soup"), table="garden"), [soup], "table_missing", "garden"),
        (service(Serving("first", "bisque")), [soup], "recipe_missing", "bisque"),
        (service(Serving("first", "soup")), [soup], "ingredient_unknown", "leek"),
        (service(Serving("first", "soup", variant="thin")), [soup], "variant_unknown", "thin"),
    ]
    for served, recipes, code, value in cases:
        with pytest.raises(NotThere) as refused:
            needs(served, recipes, {})
        assert (refused.value.code, refused.value.value) == (code, value)


@pytest.mark.parametrize(
    "soup",
    [
        dish("soup", Ingredient("leek", Fraction(100)), yields=0),
        dish("soup", Ingredient("leek", Fraction(100), trimming_yield=Fraction(0))),
    ],
)
def test_RQ1_a_recipe_that_yields_nothing_is_refused_by_name(soup):
    with pytest.raises(UnreadableInput) as refused:
        needs(service(Serving("first", "soup")), [soup], items(gram("leek")))
    assert (refused.value.code, refused.value.value) == ("yield_missing", "Soup")


def test_RQ1_a_making_needs_its_ingredients_for_what_it_makes():
    stock = preparation(
        "stock",
        Ingredient("bones", Fraction(1500)),
        Ingredient("leek", Fraction(100), trimming_yield=Fraction(1, 2)),
        Ingredient("egg", Fraction(1, 2)),
        Ingredient("cloth", Fraction(1), Scaling.FIXED),
        yields=2000,
    )
    known = items(gram("bones"), gram("leek"), each("egg", whole=True), each("cloth"))
    like = Need("make|stock|2027-03-13", "s", "soup", "stock", 0, AT, AT, 2, "stock")
    found = needs_of_making(stock, 3_000_000, known, like)
    assert [(need.item, need.quantity) for need in found] == [
        ("bones", 2_250_000),
        ("leek", 300_000),
        ("egg", 1000),
        ("cloth", 1000),
    ]
    assert found[0] == replace(
        like, id="make|stock|2027-03-13|bones", item="bones", quantity=2_250_000
    )


amounts = st.fractions(min_value=Fraction(1, 12), max_value=500, max_denominator=12)
yields = st.fractions(min_value=Fraction(1, 5), max_value=3, max_denominator=20)


@st.composite
def menus(draw):
    """A service of a few dishes over a few items, some whole, some not counted."""
    known = items(
        gram("flour"),
        each("lemon", whole=True),
        gram("bird", whole=True, piece_weight=Fraction(1234, 7)),
        gram("salt", measured=False),
    )
    lines = st.builds(
        Ingredient, st.sampled_from(sorted(known)), amounts, st.sampled_from(Scaling), yields
    )
    dishes = [
        dish(name, *draw(st.lists(lines, max_size=5)), yields=draw(st.integers(1, 8)))
        for name in ("soup", "roast", "tart")
    ]
    servings = st.builds(
        Serving,
        st.sampled_from(["first", "main"]),
        st.sampled_from([recipe.id for recipe in dishes]),
        portions=st.none() | st.integers(0, 9),
        portion_factor=st.sampled_from([Fraction(1), Fraction(1, 2), Fraction(2, 3)]),
    )
    served = service(*draw(st.lists(servings, max_size=6)), covers=draw(st.integers(0, 12)))
    return served, dishes, known


def by_hand(served: Service, dishes: list[Recipe]) -> dict[str, Fraction]:
    """Exact thousandths of each item, worked out line by line from the definition."""
    recipes = {recipe.id: recipe for recipe in dishes}
    total: dict[str, Fraction] = {}
    for course, name in sorted({(each.course, each.dish) for each in served.servings}):
        portions = Fraction(0)
        for serving in served.servings:
            if (serving.course, serving.dish) == (course, name):
                count = served.covers if serving.portions is None else serving.portions
                portions += count * serving.portion_factor
        for line in recipes[name].ingredients if portions else ():
            grown = 1 if line.scaling is Scaling.FIXED else portions / recipes[name].yields
            amount = 1000 * line.amount * grown / line.trimming_yield
            total[line.item] = total.get(line.item, Fraction(0)) + amount
    return total


@given(menus())
def test_RQ1_the_needs_of_a_service_add_up_to_what_the_definition_says(menu):
    served, dishes, known = menu
    found = needs(served, dishes, known)
    assert len({need.id for need in found}) == len(found)
    assert all(need.quantity > 0 for need in found)
    exact = by_hand(served, dishes)
    for item in known.values():
        mine = [need.quantity for need in found if need.item == item.id]
        wanted = exact.get(item.id, Fraction(0))
        if not item.measured:
            assert mine == []
        elif item.whole:
            piece = piece_of(item)
            assert sum(mine) % piece == 0
            assert 0 <= sum(mine) - wanted < piece
        else:
            assert abs(sum(mine) - wanted) <= Fraction(6, 2)  # half a thousandth for each need


def test_RQ1_an_ingredient_stands_below_everything_it_goes_into():
    found = levels(
        {
            "glaze": preparation(
                "glaze", Ingredient("stock", Fraction(1)), Ingredient("wine", Fraction(1))
            ),
            "stock": preparation(
                "stock", Ingredient("bones", Fraction(1)), Ingredient("leek", Fraction(1))
            ),
            "soup base": preparation(
                "soup base", Ingredient("leek", Fraction(1)), Ingredient("stock", Fraction(1))
            ),
            "sauce": preparation(
                "sauce", Ingredient("glaze", Fraction(1)), Ingredient("bones", Fraction(1))
            ),
        }
    )
    assert found == {
        "sauce": 0,
        "soup base": 0,
        "glaze": 1,
        "stock": 2,
        "wine": 2,
        "bones": 3,
        "leek": 3,
    }


def test_RQ1_a_cycle_is_refused_naming_its_chain_and_nothing_else():
    with pytest.raises(UnreadableInput) as refused:
        levels(
            {
                "A stew": preparation("A stew", Ingredient("stock", Fraction(1))),
                "stock": preparation("stock", Ingredient("glaze", Fraction(1))),
                "glaze": preparation("glaze", Ingredient("jelly", Fraction(1))),
                "jelly": preparation(
                    "jelly", Ingredient("stock", Fraction(1)), Ingredient("bones", Fraction(1))
                ),
                "broth": preparation("broth", Ingredient("jelly", Fraction(1))),
            }
        )
    assert refused.value.code == "recipe_cycle"
    chain = refused.value.value.split(" → ")
    assert chain[0] == chain[-1]
    assert set(chain) == {"stock", "glaze", "jelly"}
    uses = {("stock", "glaze"), ("glaze", "jelly"), ("jelly", "stock")}
    assert set(pairwise(chain)) == uses


def test_RQ1_a_preparation_made_of_itself_is_refused():
    with pytest.raises(UnreadableInput, match="sourdough → sourdough"):
        levels({"sourdough": preparation("sourdough", Ingredient("sourdough", Fraction(1)))})


def test_RQ1_a_chain_of_preparations_may_be_very_long():
    chain = {
        f"step {n}": preparation(f"step {n}", Ingredient(f"step {n + 1}", Fraction(1)))
        for n in range(3000)
    }
    assert levels(chain)["step 3000"] == 3000


@given(st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), max_size=25), st.booleans())
def test_RQ1_levels_exist_exactly_where_nothing_is_made_of_itself(pairs, downward):
    edges = {(min(pair), max(pair)) if downward else pair for pair in pairs}
    if downward:
        edges = {(made, part) for made, part in edges if made != part}
    book: dict[str, list[Ingredient]] = {}
    for made, part in sorted(edges):
        book.setdefault(str(made), []).append(Ingredient(str(part), Fraction(1)))
    preparations = {made: preparation(made, *lines) for made, lines in book.items()}
    try:
        found = levels(preparations)
    except UnreadableInput as refused:
        chain = [int(name) for name in refused.value.split(" → ")]
        assert not downward
        assert chain[0] == chain[-1]
        assert set(pairwise(chain)) <= edges
    else:
        assert all(found[str(made)] < found[str(part)] for made, part in edges)
        assert set(found) == {str(n) for edge in edges for n in edge}


def test_RQ2_a_lead_in_hours_is_exact():
    bread = dish("bread", Ingredient("flour", Fraction(500)), lead=Span(exact=timedelta(hours=20)))
    (need,) = needs(service(Serving("first", "bread")), [bread], items(gram("flour")))
    assert need.wanted_by == AT - timedelta(hours=20)
