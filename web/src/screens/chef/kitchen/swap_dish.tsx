import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import { useReport } from "../../../door/reports";
import type { InsteadRow, MenuDish, MenuRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { Choice, Field } from "../../../parts/fields";
import { useGiving } from "../../../parts/giving";
import { Panel } from "../../../parts/panel";
import { Nothing } from "../../../parts/said";
import { Shown } from "../../../parts/shown";
import { listed } from "../../../words/amounts";
import { notFor } from "../../../words/conflicts";
import { answersTo, plain } from "../../../words/find";
import { CAUTION, dishName } from "../../../words/menus";
import { dayName } from "../../../words/time";
import { Answered } from "../answered";

const LETTERS = 3;
const SHOWN = 8;

interface SwapDishProps {
  row: MenuRow;
  course: string;
  dish: MenuDish;
  onSwapped: (by: string) => void;
  onClose: () => void;
}

/** Another dish in the place of one: what everybody at the table can eat stands first. */
export function SwapDish({ row, course, dish, onSwapped, onClose }: SwapDishProps) {
  const seen = useSignal(row);
  const report = useReport<InsteadRow>("instead", { service: row.service });
  const typed = useSignal("");
  const chosen = useSignal<InsteadRow | null>(null);
  const variant = useSignal("");
  const { busy, answer, decide } = useGiving();
  const swap = async (by: InsteadRow) => {
    const body = {
      service: row.service,
      dish: dish.dish,
      by: { dish: by.dish, ...(variant.value ? { variant: variant.value } : {}) },
    };
    const words = `${by.name} instead of ${dishName(dish)}`;
    const given = await decide("swap_dish", body, seen.value.version, words);
    if (!isGiven(given)) return;
    onSwapped(by.dish);
    onClose();
  };
  return (
    <Panel title={`Instead of ${dishName(dish)}`} onClose={onClose}>
      <Answered answer={answer} seen={seen.value} stands={row} onLook={onClose} />
      {chosen.value ? (
        <div class="stack">
          <p>
            <strong>{chosen.value.name}</strong> <About row={chosen.value} />
          </p>
          {chosen.value.variants.length > 0 && (
            <Choice
              legend="In which variant"
              value={variant}
              options={["", ...chosen.value.variants].map((name) => ({
                value: name,
                label: name || "as it is",
              }))}
            />
          )}
          <p class="soft">
            What {dish.name} held is free at once, and what {chosen.value.name} needs is set aside;
            what of it is short is said then. {CAUTION}
          </p>
          <Button
            kind="main"
            onClick={() => chosen.value && void swap(chosen.value)}
            disabled={busy.value}
          >
            Serve {chosen.value.name}
          </Button>
          <Button
            onClick={() => {
              chosen.value = null;
              variant.value = "";
            }}
          >
            Another one
          </Button>
        </div>
      ) : (
        <div class="stack">
          <Field label="Find a dish" hint="Three letters of its name." value={typed} />
          <Shown report={report} what="Looking at what could be served">
            {(rows) => {
              const found = matching(rows, typed.value, course);
              if (found.length === 0)
                return <Nothing>No other approved dish is called so.</Nothing>;
              return (
                <ul class="lines" aria-label="Dishes">
                  {found.map((each) => (
                    <li key={each.dish} class="row ends">
                      <span class="stack tight what">
                        <strong>{each.name}</strong>
                        <About row={each} />
                      </span>
                      <Button
                        onClick={() => {
                          chosen.value = each;
                        }}
                      >
                        This one<span class="unseen"> {each.name}</span>
                      </Button>
                    </li>
                  ))}
                </ul>
              );
            }}
          </Shown>
        </div>
      )}
    </Panel>
  );
}

/** Without letters the first few, those that are safe and were in that course before all others. */
function matching(rows: InsteadRow[], typed: string, course: string): InsteadRow[] {
  if (plain(typed).length >= LETTERS) {
    return rows.filter((row) => answersTo(row.name, typed) !== null);
  }
  const isFit = (row: InsteadRow) => row.courses.includes(course) && row.against.length === 0;
  return [...rows.filter(isFit), ...rows.filter((row) => !isFit(row))].slice(0, SHOWN);
}

/** Who cannot eat it, whether that is known, its season, and when that table last had it. */
function About({ row }: { row: InsteadRow }) {
  const against = row.against.map((each) => notFor(each, row.name));
  return (
    <span class="stack tight">
      {against.length > 0 && <span class="warned">{listed(against)}</span>}
      {row.unknown && <span>not everything in it has declared its allergens</span>}
      {!row.in_season && <span>out of season</span>}
      <span class="soft">
        {row.last_served
          ? `last here ${dayName(row.last_served)} ${row.last_served.slice(0, 4)}`
          : "not served here yet"}
      </span>
    </span>
  );
}
