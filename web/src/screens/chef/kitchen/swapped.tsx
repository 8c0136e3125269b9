import { useSignal } from "@preact/signals";
import { isGiven } from "../../../door/command";
import type { MenuDish, MenuRow } from "../../../door/rows";
import { Button } from "../../../parts/button";
import { useGiving } from "../../../parts/giving";
import { Said, Wrong } from "../../../parts/said";
import { listed } from "../../../words/amounts";
import { dishName } from "../../../words/menus";
import { SwapDish } from "./swap_dish";

/** What was swapped last on this screen: the dish as it was, and the id of the one in its place. */
export interface Swap {
  was: MenuDish;
  by: string;
}

interface SwapKeyProps {
  row: MenuRow;
  course: string;
  dish: MenuDish;
  onSwapped: (swap: Swap) => void;
}

/** The key that opens the other dishes for one of a confirmed menu. */
export function SwapKey({ row, course, dish, onSwapped }: SwapKeyProps) {
  const open = useSignal(false);
  return (
    <div>
      <Button
        kind="quiet"
        onClick={() => {
          open.value = true;
        }}
      >
        Another dish<span class="unseen"> instead of {dishName(dish)}</span>
      </Button>
      {open.value && (
        <SwapDish
          row={row}
          course={course}
          dish={dish}
          onSwapped={(by) => onSwapped({ was: dish, by })}
          onClose={() => {
            open.value = false;
          }}
        />
      )}
    </div>
  );
}

/** What came of it, with what is short now, and the way back. */
export function Swapped({ row, swap, onUndone }: SwappedProps) {
  const { busy, answer, decide } = useGiving();
  const now = row.courses.flatMap(({ dishes }) => dishes).find(({ dish }) => dish === swap.by);
  if (!now) return null;
  const { was } = swap;
  const undo = async () => {
    const by = { dish: was.dish, ...(was.variant ? { variant: was.variant } : {}) };
    const body = { service: row.service, dish: swap.by, by };
    if (isGiven(await decide("swap_dish", body, row.version))) onUndone();
  };
  return (
    <>
      {answer.value?.problem && <Wrong problem={answer.value.problem} />}
      <Said kind={now.short.length > 0 ? "due" : "done"}>
        <strong>
          {dishName(now)} instead of {dishName(was)}.
        </strong>
        <span>
          {now.short.length > 0
            ? `It lacks ${listed(now.short)}: see below by when that can be ordered.`
            : "All it needs is set aside or on its way."}{" "}
          What {was.name} held is free for other menus.
        </span>
        <div>
          <Button disabled={busy.value} onClick={() => void undo()}>
            Undo: {was.name} again
          </Button>
        </div>
      </Said>
    </>
  );
}

interface SwappedProps {
  row: MenuRow;
  swap: Swap;
  onUndone: () => void;
}
