import { useId } from "preact/hooks";
import { isGiven } from "../../door/command";
import { useReport } from "../../door/reports";
import type { HouseRow, PersonRow } from "../../door/rows";
import { useGiving } from "../../parts/giving";
import { Wrong } from "../../parts/said";

interface AnswersForProps {
  row: PersonRow;
  again: () => Promise<void>;
}

/** Which table somebody of the household answers for: they are told of nobody else who cannot eat something. */
export function AnswersFor({ row, again }: AnswersForProps) {
  const id = useId();
  const tables = useReport<HouseRow>("house").said.value?.rows[0]?.tables ?? [];
  const { busy, answer, decide } = useGiving();
  const choose = async (table: string) => {
    const body = { person: row.id, table: table || null };
    if (isGiven(await decide("set_answers_for", body))) await again();
  };
  return (
    <div class="field">
      <label for={id}>{row.name} answers for</label>
      <select
        id={id}
        value={row.answers_for ?? ""}
        disabled={busy.value}
        onChange={(event) => void choose(event.currentTarget.value)}
      >
        <option value="">all tables</option>
        {tables.map(({ table }) => (
          <option key={table} value={table}>
            the {table} table
          </option>
        ))}
      </select>
      <span class="hint">Who cannot eat what is told only of who eats there.</span>
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
    </div>
  );
}
