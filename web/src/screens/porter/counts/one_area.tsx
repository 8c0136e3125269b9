import { useReport } from "../../../door/reports";
import type { CountsRow, ItemRow, StockRow } from "../../../door/rows";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Nothing, Waiting, Wrong } from "../../../parts/said";
import { Comparing } from "./comparing_screen";
import { type KeptDraft, useKeptDraft } from "./kept";
import { LineKeys } from "./line_keys";
import { asked, type Line, linesOf } from "./sheet";
import { Sheet } from "./sheet_screen";

/** The steps of a count in the path: one line, the same a second time, and holding it against the books. */
const LINE = "line";
const AGAIN = "again";
const COMPARE = "compare";

/** One storage area that is being counted: what is known of it, and the draft. */
export interface Area {
  row: CountsRow;
  lines: Line[];
  /** The lines that are being counted now. */
  asked: Line[];
  kept: KeptDraft;
  zone: string;
  /** Of when the books are that it is held against, where only a copy of them is at hand; else null. */
  asOf: string | null;
  /** Where its sheet is. */
  path: string;
}

export function toLine(here: Area, key: string): string {
  return `${here.path}/${LINE}/${encodeURIComponent(key)}`;
}

export function toSecond(here: Area, key: string): string {
  return `${here.path}/${AGAIN}/${encodeURIComponent(key)}`;
}

export function toCompare(here: Area): string {
  return `${here.path}/${COMPARE}`;
}

interface OneAreaProps {
  area: string;
  step: string | undefined;
  /** The line that the step is of. */
  of: string | undefined;
}

/** One storage area: its sheet, one line of it, or the count held against the books. */
export function OneArea({ area, step, of }: OneAreaProps) {
  const counts = useReport<CountsRow>("counts");
  const stock = useReport<StockRow>("stock");
  const items = useReport<ItemRow>("items");
  const kept = useKeptDraft(area);
  const [told, standing, known] = [counts.said.value, stock.said.value, items.said.value];
  const draft = kept.draft.value;
  const wrong = counts.problem.value ?? stock.problem.value ?? items.problem.value;
  if (!told || !standing || !known || !draft) {
    return (
      <Place title="A count">
        {wrong ? <Wrong problem={wrong} /> : <Waiting what="Looking at the sheet" />}
      </Place>
    );
  }
  const row = told.rows.find(({ area_id }) => area_id === area);
  if (!row) return <NoSuch what="There is no such storage area." to="/counts" />;
  const path = `/counts/${encodeURIComponent(area)}`;
  const lines = linesOf(row, standing.rows, known.rows, draft);
  const asOf = stock.copied.value ? standing.as_of : null;
  const here = { row, lines, asked: asked(lines, draft), kept, zone: told.zone, asOf, path };
  if (!step) return <Sheet here={here} draft={draft} />;
  if (step === COMPARE) return <Comparing here={here} draft={draft} />;
  const line = lines.find(({ key }) => key === of);
  if (!line) return <NoSuch what="There is no such line on this sheet." to={path} />;
  return <LineKeys key={of} here={here} draft={draft} line={line} again={step === AGAIN} />;
}

function NoSuch({ what, to }: { what: string; to: string }) {
  return (
    <Place title="A count">
      <Nothing>{what}</Nothing>
      <Link class="touch" to={to}>
        Back
      </Link>
    </Place>
  );
}
