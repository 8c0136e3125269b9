import "../../look/menus.css";
import { useComputed, useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { now } from "../../door/clock";
import { isGiven } from "../../door/command";
import type { Problem } from "../../door/problem";
import type { CoverageRow, MenuRow } from "../../door/rows";
import { mayGive } from "../../door/session";
import { serviceName } from "../../parts/day_words";
import { Place } from "../../parts/frame";
import { useGiving } from "../../parts/giving";
import { Link } from "../../parts/router";
import { CAUTION, sentence } from "../../words/menus";
import { AnswerSaid } from "./answer_said";
import { CannotEat } from "./cannot_eat";
import { beginning, type Choice, chosenDishes, turned } from "./choice";
import { ConfirmBar } from "./confirm_bar";
import { CourseChoice } from "./course_choice";
import { Moved } from "./moved";
import { Outcome } from "./outcome";
import { outcomeOf } from "./outcomes";
import { Under } from "./service_head";
import { isWhole, Stepper } from "./stepper";

interface ChoosingProps {
  row: MenuRow;
  zone: string;
  coverage: CoverageRow[] | null;
  head: ComponentChildren;
  onConfirmed: () => void;
  onLookAgain: () => void;
}

/** A proposed menu: what the household chose is picked, seen through, and confirmed. */
export function Choosing({ row, zone, coverage, head, onConfirmed, onLookAgain }: ChoosingProps) {
  const choice = useSignal<Choice>(beginning(row, now.value));
  const covers = useSignal(choice.value.covers);
  const refused = useSignal<Problem | null>(null);
  // whose constraint is set aside knowingly; each was named by hand
  const named = useSignal<string[]>([]);
  const { busy, answer, decide } = useGiving();
  const picks = useComputed(() => choice.value.picks);
  const { seen } = choice.value;
  const isDone = answer.value !== null && isGiven(answer.value);
  // what one decided oneself may stand before it is known that it does
  const isOwn = isDone || busy.value;
  const hasMoved = !isOwn && (seen.version !== row.version || answer.value?.outcome === "conflict");
  const set = (next: Choice["picks"]) => {
    choice.value = { ...choice.value, picks: next };
  };
  const confirm = async () => {
    const overrides = named.value;
    const body = {
      service: row.service,
      dishes: chosenDishes(picks.value),
      covers: Number(covers.value),
      ...(overrides.length > 0 ? { overrides } : {}),
    };
    refused.value = null;
    const given = await decide("confirm", body, seen.version);
    if (isGiven(given)) onConfirmed();
    else if (given.outcome !== "conflict") refused.value = given.problem ?? null;
  };
  const begin = () => {
    choice.value = beginning(row, now.value);
    covers.value = choice.value.covers;
  };
  const lookAgain = () => {
    begin();
    answer.value = null;
    refused.value = null;
    named.value = [];
    onLookAgain();
    scrollTo(0, 0);
  };
  const isConflict = refused.value?.code === "allergen_conflict";
  const outcome = coverage && outcomeOf(coverage, picks.value, now.value);
  if (hasMoved) {
    return (
      <Place title={sentence(serviceName(row.service))} under={<Under row={row} zone={zone} />}>
        <Moved seen={seen} stands={row} onLook={lookAgain} />
      </Place>
    );
  }
  return (
    <>
      <Place title={sentence(serviceName(row.service))} under={<Under row={row} zone={zone} />}>
        {head}
        <AnswerSaid
          row={row}
          zone={zone}
          isNew={!isDone && row.answer?.id !== seen.answer?.id}
          onTake={begin}
        />
        <div class="courses">
          {row.courses.map(({ course, dishes }) => (
            <CourseChoice
              key={course}
              row={row}
              course={course}
              dishes={dishes}
              zone={zone}
              coverage={coverage}
              picks={picks.value}
              covers={covers.value}
              onPicks={set}
              onTurn={(dish) => set(turned(picks.value, course, dish))}
            />
          ))}
        </div>
        <p class="soft">{CAUTION}</p>
        <Stepper label="Covers" value={covers} />
        {outcome && (
          <Outcome
            outcome={outcome}
            zone={zone}
            isFor={seen.covers}
            covers={covers.value}
            picks={picks.value}
          />
        )}
        {mayGive("propose") && (
          <Link class="touch" to={`/menus/propose/${row.service}`}>
            Change what is proposed
          </Link>
        )}
      </Place>
      <ConfirmBar
        row={row}
        picks={picks.value}
        outcome={outcome}
        zone={zone}
        covers={covers.value}
        busy={busy.value || isDone}
        ready={isWhole(covers.value)}
        problem={isConflict ? null : refused.value}
        onConfirm={() => void confirm()}
      />
      {isConflict && refused.value && (
        <CannotEat
          problem={refused.value}
          row={row}
          picks={picks.value}
          covers={covers.value}
          onSafe={(next) => {
            set(next);
            refused.value = null;
          }}
          onOverride={(person) => {
            named.value = [...named.value, person];
            void confirm();
          }}
          onClose={() => {
            refused.value = null;
          }}
        />
      )}
    </>
  );
}
