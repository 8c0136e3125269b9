import { effect } from "@preact/signals";
import type { Answer, Command, Kind } from "../command";
import { answering } from "../line";
import type { Problem } from "../problem";
import type { Entry } from "../store";
import { entries } from "./entries";
import { save } from "./saving";
import { send } from "./sending";

/** What happened has happened, and what undoes it too: nobody waits for the house to say so. */
const AT_ONCE: ReadonlySet<Kind> = new Set<Kind>([
  "ask_for",
  "bind_label",
  "close_delivery",
  "correct",
  "count",
  "decant",
  "freeze",
  "harvest",
  "left_over",
  "make",
  "move",
  "open",
  "print_labels",
  "receive",
  "run_out",
  "send_out",
  "serve",
  "set_level",
  "shop_run",
  "take_out",
  "thaw",
  "use",
  "vacuum_pack",
  "waste",
  "waste_without_batch",
]);

/** How long a decision waits for the house's answer, in milliseconds; then it is only saved. */
const PATIENCE = 5_000;

const NOT_SAVED: Problem = {
  type: "about:blank",
  title: "not saved",
  status: 507,
  detail: "This device could not save the record: nothing of it is kept.",
  code: "not_saved",
  todo: "Make room on the device and record it again, or write it down on paper until then.",
};

/** Save a command on this device; a decision is answered by the house, where it answers soon. */
export async function giveFrom(device: string, command: Command, words: string): Promise<Answer> {
  const entry = await saved(command, device, words);
  if (!entry) return { id: command.id, outcome: "refused", position: null, problem: NOT_SAVED };
  void send();
  const told: Answer = { id: entry.id, outcome: "saved", position: null };
  if (AT_ONCE.has(command.kind)) return told;
  return (await answerOf(entry)) ?? told;
}

/** The command as it is saved; null where the browser keeps nothing here, which its own error tells. */
async function saved(command: Command, device: string, words: string): Promise<Entry | null> {
  try {
    return await save(command, device, words);
  } catch (error) {
    if (error instanceof DOMException) return null;
    throw error;
  }
}

function answerOf(entry: Entry): Promise<Answer | null> {
  return new Promise((answer) => {
    const timer = setTimeout(() => done(null), PATIENCE);
    const stop = effect(() => {
      const found = entries.value.find(({ id }) => id === entry.id);
      if (found?.answered) queueMicrotask(() => done(found.answered?.answer ?? null));
      else if (!found || !answering.value) queueMicrotask(() => done(null));
    });
    const done = (told: Answer | null) => {
      clearTimeout(timer);
      stop();
      answer(told);
    };
  });
}
