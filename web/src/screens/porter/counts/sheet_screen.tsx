import { useSignal } from "@preact/signals";
import { readCode } from "../../../door/codes";
import type { ItemRow } from "../../../door/rows";
import { ActBar, Button } from "../../../parts/button";
import { Place } from "../../../parts/frame";
import { go, Link } from "../../../parts/router";
import { CarriedByNothing } from "../carried_by_nothing";
import { Finder } from "../finder";
import type { Heard } from "../heard";
import { carriedBy } from "../hearing";
import { Levels } from "./levels";
import { type Area, toCompare, toLine } from "./one_area";
import { Paper } from "./paper";
import { type Draft, isDue, lineFor, nextLine } from "./sheet";
import { batchWords, entryWords, nameOf, WHY } from "./words";

interface SheetProps {
  here: Area;
  draft: Draft;
}

/** The sheet of one storage area, in the order of its shelves; what the books have is not said. */
export function Sheet({ here, draft }: SheetProps) {
  const { row, asked } = here;
  const next = nextLine(asked, draft);
  const done = draft.entries.length;
  return (
    <>
      <Place title={row.area} under={`${done} of ${asked.length} counted, in the order they stand`}>
        <div class="on-screen stack">
          <Find here={here} draft={draft} />
          <div class="columns main-first">
            <div class="stack tight">
              <HowMuch here={here} draft={draft} />
              <Lines here={here} draft={draft} />
            </div>
            <Levels row={row} />
          </div>
          <div class="row">
            <Button onClick={() => print()}>Print the sheet</Button>
            {done > 0 && <Drop here={here} />}
          </div>
          <p>
            <Link class="touch" to="/counts">
              To every storage area
            </Link>
          </p>
        </div>
        <Paper here={here} />
      </Place>
      {(next || done > 0) && (
        <ActBar>
          {done > 0 && (
            <Button kind={next ? "plain" : "main"} onClick={() => go(toCompare(here))}>
              Compare with the books
            </Button>
          )}
          {next && (
            <Button kind="main" onClick={() => go(toLine(here, next.key))}>
              {done > 0 ? `Next: ${next.item.item}` : `Begin: ${next.item.item}`}
            </Button>
          )}
        </ActBar>
      )}
    </>
  );
}

/** A code or three letters open the line they mean; what is not expected here is added to the sheet. */
function Find({ here, draft }: SheetProps) {
  const nothing = useSignal("");
  const take = (item: string, batch?: string) => {
    const line = lineFor(here.lines, item, batch);
    if (!line) here.kept.change({ ...draft, added: [...draft.added, item] });
    go(toLine(here, line?.key ?? item));
  };
  const takeCode = async (text: string): Promise<Heard> => {
    nothing.value = "";
    try {
      const match = carriedBy(await readCode(text));
      if (match) {
        take(match.item_id, match.kind === "batch" ? match.id : undefined);
        return { kind: "known", words: match.item };
      }
    } catch {
      // it is said below, with what to do, whatever was wrong with it
    }
    nothing.value = text;
    return { kind: "unknown", words: "Not known here" };
  };
  return (
    <>
      <Finder
        label="Something more here: code or item"
        onCode={takeCode}
        onItem={(item: ItemRow) => take(item.id)}
        onTyping={() => {
          nothing.value = "";
        }}
      />
      {nothing.value && <CarriedByNothing code={nothing.value} />}
    </>
  );
}

/** Whether all of the area is counted, or what is due alone. */
function HowMuch({ here, draft }: SheetProps) {
  if (!here.lines.some(isDue)) return null;
  return (
    <div>
      <Button pressed={!draft.all} onClick={() => here.kept.change({ ...draft, all: !draft.all })}>
        Only what is due
      </Button>
    </div>
  );
}

function Lines({ here, draft }: SheetProps) {
  return (
    <ol class="lines" aria-label="To be counted">
      {here.asked.map((line) => {
        const entry = draft.entries.find(({ key }) => key === line.key);
        const why = line.of?.why;
        return (
          <li key={line.key}>
            <Link to={toLine(here, line.key)}>
              <span class="row ends base">
                <strong>{nameOf(line)}</strong>
                <span class="figure">{entry ? entryWords(entry, line) : "to be counted"}</span>
              </span>
              <span class="row ends base small">
                <span class="soft">{batchWords(line)}</span>
                {why && !entry && <span>{WHY[why]}</span>}
              </span>
            </Link>
          </li>
        );
      })}
    </ol>
  );
}

/** The way out of a count that was begun by mistake, in two taps. */
function Drop({ here }: { here: Area }) {
  const sure = useSignal(false);
  const drop = () => {
    if (sure.value) here.kept.forget();
    sure.value = !sure.value;
  };
  return (
    <Button kind="quiet" onClick={drop}>
      {sure.value ? "Yes, throw away what I counted here" : "Begin anew"}
    </Button>
  );
}
