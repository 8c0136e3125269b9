"""The first screen, the first manager, and whether the server works."""

from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlalchemy import text

from pantry import __version__
from pantry.records.database import open_database, reading
from pantry.records.rows import every
from pantry.records.schema import bring_up_to_date
from pantry.records.tables import HouseRow, JournalRow, PersonRow
from pantry.records.verify import disagreements
from tests.commands.larkfield import CHEF, MANAGER, PORTER
from tests.http.site import PASSWORD, SECRET, Site, code, cookie_in, events

HOUSE = {
    "name": "Corrie House",
    "time_zone": "Europe/London",
    "currency": "GBP",
    "unit_system": "metric",
    "notice": "48 h",
}
CUT = text("SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = :of")
ISLA = {"secret": SECRET, "name": "Isla Munro", "password": PASSWORD}


@pytest.fixture
def empty_site(sqlite_database):
    """A server of an empty database."""
    opened = Site(sqlite_database)
    yield opened
    opened.close()


def test_the_server_says_that_it_works(quiet_site):
    answer = quiet_site.nobody.get("/api/health")
    assert answer.json() == {"status": "ok", "schema": 1, "version": __version__}


def test_an_empty_database_needs_a_house(empty_site):
    told = empty_site.nobody.get("/api/front").json()
    assert told == {"schema": 1, "needs": "house", "houses": [], "now": "2027-03-08T07:00:00Z"}


def test_a_house_in_which_nobody_can_sign_in_needs_a_first_manager_then_one_signs_in(site):
    assert site.nobody.get("/api/front").json()["needs"] == "first_manager"
    site.gives_password(MANAGER)
    told = site.nobody.get("/api/front").json()
    assert (told["needs"], told["houses"]) == ("sign_in", ["Larkfield Lodge"])


def test_the_first_manager_of_an_empty_database_founds_the_house_and_is_signed_in(empty_site):
    site = empty_site
    answer = site.nobody.post("/api/first-manager", json=ISLA | {"house": HOUSE})
    assert answer.status_code == 200
    told = answer.json()
    assert told["person"] == {"id": "isla-munro", "name": "Isla Munro", "role": "manager"}
    assert told["house"] == {
        "id": "corrie-house",
        "name": "Corrie House",
        "zone": "Europe/London",
        "currency": "GBP",
        "unit_system": "metric",
        "decimal_mark": ".",
        "notice": "PT48H",
        "sends_mail": False,
    }
    token, attributes = cookie_in(answer)
    assert "httponly" in attributes
    asking = {"cookie": f"__Host-chooseby={token}"}
    assert site.nobody.get("/api/me", headers=asking).json() == told
    (entry,) = site.rows(JournalRow)
    assert (entry.kind, entry.outcome) == ("import_book", "applied")
    assert PASSWORD not in entry.envelope
    assert SECRET not in entry.envelope
    with reading(site.engine) as connection:
        assert disagreements(connection, "corrie-house") == []
    assert site.nobody.get("/api/front").json()["needs"] == "sign_in"
    assert site.signs_in("isla munro").status_code == 200


def test_what_is_not_said_of_a_new_house_is_as_most_houses_have_it(empty_site):
    said = {name: HOUSE[name] for name in ("name", "time_zone", "currency", "unit_system")}
    told = empty_site.nobody.post("/api/first-manager", json=ISLA | {"house": said}).json()
    assert told["house"]["notice"] == "PT72H"
    (row,) = empty_site.rows(HouseRow)
    assert (row.policy, row.allergen_list) == ("uk", "eu14")


def test_the_secret_is_used_up(empty_site):
    answer = empty_site.nobody.post("/api/first-manager", json=ISLA | {"house": HOUSE})
    assert answer.status_code == 200
    again = empty_site.nobody.post("/api/first-manager", json=ISLA | {"name": "Somebody Else"})
    assert code(again) == (409, "first_manager_there")
    assert [row.name for row in empty_site.rows(PersonRow)] == ["Isla Munro"]


@pytest.mark.parametrize("secret", ["", "wrong", SECRET.upper(), SECRET + " "])
def test_another_secret_opens_nothing(empty_site, secret):
    answer = empty_site.nobody.post(
        "/api/first-manager", json=ISLA | {"house": HOUSE, "secret": secret}
    )
    assert code(answer) == (401, "secret_wrong")
    assert empty_site.rows(HouseRow) == []


def test_a_server_without_a_secret_takes_none(open_site):
    site = open_site(secret="")
    assert code(site.nobody.post("/api/first-manager", json=ISLA | {"secret": ""})) == (
        401,
        "secret_wrong",
    )


def test_guesses_at_the_secret_are_slowed_down(site):
    guess = ISLA | {"secret": "guess"}
    codes = [site.nobody.post("/api/first-manager", json=guess).status_code for _ in range(8)]
    assert codes == [401] * 6 + [429] * 2


@pytest.mark.parametrize(
    ("change", "column"),
    [
        ({"time_zone": "Europe/Atlantis"}, "time_zone"),
        ({"currency": "doubloons"}, "currency"),
        ({"unit_system": "ancient"}, "unit_system"),
        ({"notice": "soon"}, "notice"),
        ({"policy": "none"}, "policy"),
        ({"name": "  "}, "name"),
    ],
)
def test_a_house_that_is_described_wrongly_is_refused_and_nothing_is_founded(
    empty_site, change, column
):
    answer = empty_site.nobody.post("/api/first-manager", json=ISLA | {"house": HOUSE | change})
    assert code(answer) == (422, "book_faulty")
    assert [fault["column"] for fault in answer.json()["faults"]] == [column]
    assert empty_site.rows(HouseRow) == []
    assert empty_site.nobody.get("/api/front").json()["needs"] == "house"


def test_where_there_is_no_house_one_must_be_described(empty_site):
    answer = empty_site.nobody.post("/api/first-manager", json=ISLA)
    assert code(answer) == (422, "house_to_found")


def test_the_first_manager_of_a_house_that_is_there_is_one_of_its_managers(site):
    answer = site.nobody.post("/api/first-manager", json=ISLA | {"name": "mara quill"})
    assert answer.json()["person"]["name"] == MANAGER
    assert site.rows(JournalRow) == [], "the house has not changed"


def test_or_somebody_new(site):
    answer = site.nobody.post("/api/first-manager", json=ISLA)
    assert answer.json()["person"]["role"] == "manager"
    assert {row.name for row in site.rows(PersonRow)} > {"Isla Munro", MANAGER, CHEF, PORTER}


def test_but_nobody_who_is_something_else_there(site):
    answer = site.nobody.post("/api/first-manager", json=ISLA | {"name": PORTER})
    assert code(answer) == (409, "name_not_a_managers")
    assert site.nobody.get("/api/front").json()["needs"] == "first_manager"


def test_a_weak_password_is_refused_first(empty_site):
    weak = ISLA | {"house": HOUSE, "password": SECRET}
    assert code(empty_site.nobody.post("/api/first-manager", json=weak)) == (
        422,
        "password_guessable",
    )


def test_two_at_once_and_one_of_them_is_the_first(empty_site):
    def come(name):
        body = ISLA | {"house": HOUSE, "name": name}
        return empty_site.nobody.post("/api/first-manager", json=body).status_code

    with ThreadPoolExecutor(2) as pool:
        assert sorted(pool.map(come, ["Isla Munro", "Ewan Munro"])) == [200, 409]
    assert len(empty_site.rows(PersonRow)) == 1
    assert len(empty_site.rows(HouseRow)) == 1


@pytest.mark.postgres
def test_two_servers_of_one_database_have_one_first_manager(postgres_database):
    """Without a house there is no row to lock, so that they hold the whole database."""
    sites = [Site(postgres_database) for _ in range(2)]
    try:

        def come(number):
            house = HOUSE | {"name": f"House {number}"}
            body = ISLA | {"house": house, "name": f"Manager {number}"}
            return sites[number].nobody.post("/api/first-manager", json=body).status_code

        with ThreadPoolExecutor(2) as pool:
            assert sorted(pool.map(come, range(2))) == [200, 409]
        assert len(sites[0].rows(HouseRow)) == 1
    finally:
        for site in sites:
            site.close()


@pytest.mark.postgres
def test_a_house_on_postgres_is_served_as_one_on_sqlite(postgres_database):
    """From the first manager to the first delivery, and the news of it."""
    site = Site(postgres_database)
    try:
        first = site.nobody.post("/api/first-manager", json=ISLA | {"house": HOUSE})
        assert first.status_code == 200
        isla = site.as_("Isla Munro")
        book = {
            "areas.csv": "area,kind\nPantry,ambient\n",
            "items.csv": "item,base_unit,area\nHoney,g,Pantry\n",
        }
        files = [("book", (name, text.encode(), "text/csv")) for name, text in book.items()]
        assert isla.post("/api/book", files=files).json()["applied"] is True
        with isla.stream("GET", "/api/news") as stream:
            told = events(stream)
            stands = next(told)[1]
            body = {"batch": "h", "item": "Honey", "quantity": "1 kg", "area": "Pantry"}
            body |= {"verdict": "accept", "date_mark": {"kind": "none"}}
            given = {"protocol": 1, "epoch": first.json()["epoch"], "cursor": stands["change"]}
            given["commands"] = [site.command("receive", body)]
            answer = isla.post("/api/exchange", json=given).json()
            assert answer["answers"][0]["outcome"] == "applied"
            assert next(told)[1] == {"position": 3, "change": answer["cursor"]}
        (row,) = isla.get("/api/reports/stock").json()["rows"]
        assert row["on_hand"] == {"value": "1000", "unit": "g"}
        assert isla.post("/api/exchange", json=given).json()["answers"] == answer["answers"]
        assert site.signs_in("isla munro").status_code == 200
        assert site.signs_in("isla munro", "wrong").status_code == 401
        assert isla.post("/api/sign-out").status_code == 204
        assert code(isla.get("/api/me")) == (401, "not_signed_in")
    finally:
        site.close()


@pytest.mark.postgres
def test_while_the_database_is_away_the_server_says_so_and_then_goes_on(new_postgres_database):
    """Its connections are cut and no new ones let in, as when it is started anew."""
    with new_postgres_database() as url:
        engine = open_database(url)
        bring_up_to_date(engine)
        site = Site(engine)
        try:
            assert site.nobody.get("/api/health").status_code == 200
            other = open_database(url.set(database="postgres"))
            with other.connect().execution_options(isolation_level="AUTOCOMMIT") as tell:
                tell.exec_driver_sql(f"ALTER DATABASE {url.database} ALLOW_CONNECTIONS false")
                tell.execute(CUT, {"of": url.database})
                answer = site.nobody.get("/api/health")
                assert code(answer) == (503, "database_away")
                assert answer.headers["retry-after"] == "5"
                assert code(site.nobody.get("/api/front")) == (503, "database_away")
                body = {"name": "x", "password": "y"}
                assert code(site.nobody.post("/api/sign-in", json=body)) == (503, "database_away")
                tell.exec_driver_sql(f"ALTER DATABASE {url.database} ALLOW_CONNECTIONS true")
            other.dispose()
            assert site.nobody.get("/api/health").status_code == 200
            answer = site.nobody.post("/api/first-manager", json=ISLA | {"house": HOUSE})
            assert answer.status_code == 200
        finally:
            site.close()
            engine.dispose()


def test_one_house_alone_can_be_served(open_site):
    from pantry.records.database import writing
    from tests.hazel_court import found

    site = open_site(only="Larkfield Lodge")
    with writing(site.engine) as connection:
        found(connection)
        assert len(every(connection, HouseRow)) == 2
    assert site.nobody.get("/api/front").json()["houses"] == ["Larkfield Lodge"]
    site.gives_password(CHEF)
    assert site.signs_in(CHEF).status_code == 200
    assert code(site.signs_in(CHEF, house="Hazel Court")) == (401, "sign_in_failed")
