import { useComputed, useSignal } from "@preact/signals";
import { ActBar, Button } from "../../../parts/button";
import { Place } from "../../../parts/frame";
import { useInHand } from "../../../parts/in_hand";
import { go, Link } from "../../../parts/router";
import { inAll, packsOf } from "./amounts";
import { KeyedFields } from "./keyed_fields";
import { type Area, toCompare, toLine } from "./one_area";
import { type Draft, type Line, nextLine, written, writtenAgain } from "./sheet";
import { batchWords, much } from "./words";

interface LineKeysProps {
  here: Area;
  draft: Draft;
  line: Line;
  /** Whether it is counted a second time, since the first count differed. */
  again: boolean;
}

/** One line in hand: how much is there, with large keys. It does not say what the books have. */
export function LineKeys({ here, draft, line, again }: LineKeysProps) {
  useInHand();
  const packs = packsOf(line.item);
  const state = {
    pack: useSignal(packs[0]?.id ?? ""),
    packs: useSignal(""),
    loose: useSignal(""),
    inLarger: useSignal(false),
    pieces: useSignal(""),
  };
  const found = useComputed(() => {
    const pack = packs.find(({ id }) => id === state.pack.value);
    const [packed, loose] = [state.packs.value, state.loose.value];
    return inAll({ packs: packed, loose, inLarger: state.inLarger.value }, line.item, pack);
  });
  const back = again ? toCompare(here) : here.path;
  const write = (value: string, pieces: string) => {
    const put = again ? writtenAgain : written;
    const after = put(draft, line, value, pieces);
    here.kept.change(after);
    const next = again ? undefined : nextLine(here.asked, after, line.key);
    go(next ? toLine(here, next.key) : back, { replace: true });
  };
  const pieces = /^\d*$/.test(state.pieces.value) ? state.pieces.value : "";
  return (
    <>
      <Place title={line.item.item} under={underOf(here, line, again)}>
        <form
          id="line"
          class="narrow stack"
          onSubmit={(event) => {
            event.preventDefault();
            if (found.value !== null) write(found.value, pieces);
          }}
        >
          <KeyedFields item={line.item} packs={packs} state={state}>
            <p class="figure" role="status">
              {found.value === null ? "" : `${much(found.value, line)} in all`}
            </p>
          </KeyedFields>
          <p>
            <Link class="touch" to={back}>
              {again ? "Back without counting again" : `All lines of ${here.row.area}`}
            </Link>
          </p>
        </form>
      </Place>
      <ActBar>
        <Button onClick={() => write("0", "")}>Not here</Button>
        <Button kind="main" type="submit" form="line" disabled={found.value === null}>
          Write down
        </Button>
      </ActBar>
    </>
  );
}

function underOf(here: Area, line: Line, again: boolean): string {
  const at = here.asked.indexOf(line) + 1;
  const where = at > 0 ? `${here.row.area}, ${at} of ${here.asked.length}` : here.row.area;
  const what = [line.label, batchWords(line)].filter(Boolean).join(", ") || where;
  return again ? `The second count · ${what}` : what;
}
