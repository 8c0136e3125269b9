import { useSignal } from "@preact/signals";
import { give, newCommand } from "../../../door/command";
import type { Problem } from "../../../door/problem";
import { renew } from "../../../door/reports";
import { Button } from "../../../parts/button";
import { Field } from "../../../parts/fields";
import { Form } from "../../../parts/form";
import { Place } from "../../../parts/frame";
import { Link } from "../../../parts/router";
import { Said } from "../../../parts/said";
import { many } from "../../../words/amounts";
import { PaperFields, paperOf, startAt, usePaper } from "./on_paper";
import { pdf } from "./paper";
import { printedOn } from "./remembered";

const MOST = 1000;

const NOT_NOW: Problem = {
  type: "about:blank",
  title: "not reserved",
  status: 0,
  detail: "The house does not answer, and only the house knows which numbers are free.",
  code: "not_reserved",
  todo: "Reserve them again when it answers.",
};

/** Numbers to be printed beforehand: the house gives each of them once. */
export function Numbers() {
  const on = usePaper();
  const count = useSignal("");
  const reserved = useSignal<{ href: string; count: number } | null>(null);
  const wanted = count.value === "" ? (paperOf(on)?.onPage ?? 1) : Number(count.value);
  const isCount = Number.isInteger(wanted) && wanted >= 1 && wanted <= MOST;
  const reserve = async () => {
    const [paper, start] = [paperOf(on), startAt(on)];
    if (!paper || !start || !isCount) return null;
    const command = newCommand("reserve_labels", { count: wanted });
    const answer = await give(command, many(wanted, "number"));
    if (answer.outcome !== "applied") return answer.problem ?? NOT_NOW;
    reserved.value = { href: pdf(paper, start, [["numbers", command.id]]), count: wanted };
    printedOn(paper, start, wanted);
    // so that this device knows them at once, whatever becomes of the line
    await renew("house", {});
    return null;
  };
  return (
    <Place title="Print numbers" under="Labels with a number, put on a batch later by one scan">
      <div class="narrow stack">
        {reserved.value ? (
          <>
            <Said kind="done">
              <strong>
                {many(reserved.value.count, "number")} are yours; nobody else prints them.
              </strong>
            </Said>
            <a class="button main" href={reserved.value.href} target="_blank" rel="noreferrer">
              Open the labels
            </a>
            <Button
              onClick={() => {
                reserved.value = null;
              }}
            >
              More numbers
            </Button>
          </>
        ) : (
          <Form send={reserve} does={`Reserve ${isCount ? many(wanted, "number") : "numbers"}`}>
            <PaperFields on={on} />
            <Field
              label="How many"
              value={count}
              inputMode="numeric"
              hint="Left empty: one page of them."
              wrong={isCount ? undefined : `A number from 1 to ${MOST}.`}
            />
          </Form>
        )}
        <p>
          <Link class="touch" to="/labels">
            To all labels
          </Link>
        </p>
      </div>
    </Place>
  );
}
