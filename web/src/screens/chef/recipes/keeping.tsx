import type { Problem } from "../../../door/problem";
import { Pick, Text, Tick } from "./text";
import { type Draft, wrongIn } from "./writing";

interface KeepingProps {
  draft: Draft;
  change: (part: Partial<Draft>) => void;
  problem: Problem | null;
}

/** When it is begun, how long it keeps, where, in what season: what most recipes leave as it is. */
export function Keeping({ draft, change, problem }: KeepingProps) {
  const wrong = (column: string) => wrongIn(problem, column);
  const isWrong = ["lead", "life_days", "area", "season_from", "season_to"].some(wrong);
  return (
    <details open={isWrong}>
      <summary class="touch">When it is begun, how long it keeps, its season</summary>
      <div class="stack">
        <Text
          label="Begun how long before"
          value={draft.lead}
          onInput={(lead) => change({ lead })}
          hint="such as 3 h or 1 day"
          wrong={wrong("lead")}
        />
        <Pick
          label="How what it makes is dated"
          value={draft.dates}
          options={[
            ["cooked", "cooked: its own life from the day it is made"],
            ["preserved", "preserved: its own life from the day it is made"],
            ["assembled", "assembled: the earliest of what goes in, and its own life"],
          ]}
          onPick={(dates) => change({ dates: dates as Draft["dates"] })}
        />
        <Text
          label="Keeps for days, the day of making being the first"
          value={draft.lifeDays}
          inputMode="numeric"
          onInput={(typed) => change({ lifeDays: typed.replace(/\D/g, "") })}
          wrong={wrong("life_days")}
        />
        {draft.kind === "preparation" && (
          <>
            <Text
              label="Kept in"
              value={draft.area}
              onInput={(area) => change({ area })}
              wrong={wrong("area")}
            />
            <Tick
              label="Only made whole: one tray, one pan"
              checked={draft.fullRecipes}
              onTick={(fullRecipes) => change({ fullRecipes })}
            />
          </>
        )}
        <div class="pair from-top">
          <Text
            label="In season from"
            value={draft.seasonFrom}
            onInput={(seasonFrom) => change({ seasonFrom })}
            hint="month and day, such as 04-15"
            wrong={wrong("season_from")}
          />
          <Text
            label="to"
            value={draft.seasonTo}
            onInput={(seasonTo) => change({ seasonTo })}
            hint="such as 06-24"
            wrong={wrong("season_to")}
          />
        </div>
      </div>
    </details>
  );
}
