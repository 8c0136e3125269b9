import "../../look/menus.css";
import { type Signal, useSignal } from "@preact/signals";
import { isGiven } from "../../door/command";
import { useReport } from "../../door/reports";
import type { DishRow, HouseRow, MenuRow, ServedRow } from "../../door/rows";
import { BegunBefore } from "../../parts/begun";
import { ActBar, Button } from "../../parts/button";
import { useDraft } from "../../parts/draft";
import { Select } from "../../parts/fields";
import { Place } from "../../parts/frame";
import { useGivingEach } from "../../parts/giving_each";
import { useInHand } from "../../parts/in_hand";
import { Link } from "../../parts/router";
import { Nothing, Said, Waiting, Wrong } from "../../parts/said";
import { many } from "../../words/amounts";
import { STATES, serviceTitle } from "../../words/menus";
import { dayName } from "../../words/time";
import { beginsOf, useSaidOn } from "./begins";
import {
  block,
  daysFrom,
  dishesIn,
  firstOpen,
  isFree,
  keyOf,
  type Usual,
  usualMeals,
  weekBefore,
} from "./block";
import { BlockMeal } from "./block_meal";
import { type Draft, type MealOf, proposal, standsAt } from "./draft";
import { daysAhead } from "./draft_days";
import { isWhole } from "./stepper";

const COUNTS = [3, 5, 7];

/** Several days at once, meal by meal and table by table. */
export function ProposeBlock() {
  const house = useReport<HouseRow>("house");
  const menus = useReport<MenuRow>("menus");
  const dishes = useReport<DishRow>("dishes");
  const problem = house.problem.value ?? menus.problem.value ?? dishes.problem.value;
  const known = house.said.value?.rows[0];
  const rows = menus.said.value;
  const recipes = dishes.said.value?.rows;
  if (known && rows && recipes) {
    return <Block house={known} menus={rows.rows} dishes={recipes} zone={rows.zone} />;
  }
  return (
    <Place title="Propose several days">
      {problem ? <Wrong problem={problem} /> : <Waiting what="Fetching tables and dishes" />}
    </Place>
  );
}

interface WhichProps {
  days: { value: string; label: string }[];
  first: Signal<string>;
  count: Signal<number>;
  usual: Usual[];
  /** The meals that are left out, by their titles. */
  left: Signal<string[]>;
}

/** From which day, for how many, and which meals of which tables. */
function Which({ days, first, count, usual, left }: WhichProps) {
  return (
    <div class="columns">
      <div class="stack">
        <Select label="From" value={first} options={days} />
        <fieldset class="keys">
          <legend class="legend">How many days</legend>
          {COUNTS.map((each) => (
            <Button
              key={each}
              pressed={count.value === each}
              onClick={() => {
                count.value = each;
              }}
            >
              {each}
            </Button>
          ))}
        </fieldset>
      </div>
      <fieldset class="keys">
        <legend class="legend">Which meals</legend>
        {usual.map(({ meal, table }) => {
          const title = serviceTitle(meal, table);
          const isLeft = left.value.includes(title);
          return (
            <Button
              key={title}
              pressed={!isLeft}
              onClick={() => {
                left.value = isLeft
                  ? left.value.filter((each) => each !== title)
                  : [...left.value, title];
              }}
            >
              {title}
            </Button>
          );
        })}
      </fieldset>
    </div>
  );
}

/** A menu that stands there already. */
function Stands({ row }: { row: MenuRow | undefined }) {
  if (!row) return null;
  return (
    <li>
      <Link class="touch" to={`/menus/${row.service}`}>
        {serviceTitle(row.meal, row.table)}: {STATES[row.state]}
      </Link>
    </li>
  );
}

interface BlockProps {
  house: HouseRow;
  menus: MenuRow[];
  dishes: DishRow[];
  zone: string;
}

function Block({ house, menus, dishes, zone }: BlockProps) {
  const ahead = daysAhead(zone);
  const usual = usualMeals(menus, zone);
  const first = useSignal(
    firstOpen(
      ahead.map(({ value }) => value),
      usual,
      menus,
    ),
  );
  const count = useSignal(COUNTS[0] ?? 1);
  const left = useSignal<string[]>([]);
  const begun = useSignal<Record<string, Draft>>({});
  const open = useSignal<string | null>(null);
  const draft = useDraft("several days", { first, count, left, begun }, useSignal([]), false);
  const { progress, answers, decideEach } = useGivingEach();
  useInHand();
  const days = daysFrom(first.value, count.value);
  const served = useReport<ServedRow>("served", {
    from: weekBefore(days[0] ?? first.value),
    to: weekBefore(days.at(-1) ?? first.value),
  });
  const meals = usual.filter((each) => !left.value.includes(serviceTitle(each.meal, each.table)));
  const said = useSaidOn(
    first.value,
    count.value,
    usual.map(({ meal }) => meal),
  );
  const begins = (meal: MealOf) => beginsOf(said ?? [], house, meal);
  const drafts = block(days, meals, (meal) => begins(meal).covers, begun.value);
  const written = drafts.filter((each) => isFree(menus, each) && dishesIn(each) > 0);
  const isReady = progress.value === null && written.length > 0;
  const isWritten = written.every(({ covers }) => isWhole(covers) && Number(covers) > 0);
  const set = (next: Draft) => {
    begun.value = { ...begun.value, [keyOf(next)]: next };
  };
  const propose = async () => {
    open.value = null;
    await decideEach(
      written.map((each) => ({
        key: keyOf(each),
        kind: "propose" as const,
        body: proposal(each, house),
        base: standsAt(menus, each)?.version,
        words: `${serviceTitle(each.meal, each.table)}, ${dayName(each.date)}`,
      })),
    );
    const given = Object.entries(answers.value).filter(([, answer]) => isGiven(answer));
    const done = new Set(given.map(([key]) => key));
    begun.value = Object.fromEntries(Object.entries(begun.value).filter(([key]) => !done.has(key)));
  };
  return (
    <>
      <Place title="Propose several days">
        <BegunBefore draft={draft} />
        <Which days={ahead} first={first} count={count} usual={usual} left={left} />
        {usual.length === 0 && (
          <Nothing>
            No meal stands on a menu yet. Propose one first; its meal and table are offered here.
          </Nothing>
        )}
        {days.map((day) => (
          <section key={day} class="stack tight" aria-label={dayName(day, true)}>
            <h2>{dayName(day, true)}</h2>
            <ul class="lines">
              {drafts
                .filter(({ date }) => date === day)
                .map((each) => {
                  const key = keyOf(each);
                  const answer = answers.value[key];
                  if (!isFree(menus, each)) {
                    return <Stands key={key} row={standsAt(menus, each)} />;
                  }
                  if (answer && isGiven(answer)) {
                    return (
                      <li key={key}>
                        <Said kind="done">{serviceTitle(each.meal, each.table)}: proposed.</Said>
                      </li>
                    );
                  }
                  return (
                    <BlockMeal
                      key={key}
                      draft={each}
                      begins={begins(each)}
                      served={served.said.value?.rows ?? []}
                      isOpen={open.value === key}
                      onOpen={(isOpen) => {
                        open.value = isOpen ? key : null;
                      }}
                      onChange={set}
                      {...{ dishes, menus, zone, answer }}
                    />
                  );
                })}
            </ul>
          </section>
        ))}
      </Place>
      <ActBar>
        <div class="changes">
          {progress.value && (
            <label class="stack tight">
              Proposing {progress.value.done + 1} of {progress.value.of}
              <progress max={progress.value.of} value={progress.value.done} />
            </label>
          )}
          <Button kind="main" disabled={!isReady || !isWritten} onClick={() => void propose()}>
            {written.length === 0
              ? "Propose: at least one dish first"
              : `Propose ${many(written.length, "menu")}`}
          </Button>
        </div>
      </ActBar>
    </>
  );
}
