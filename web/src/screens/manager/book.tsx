import { useSignal } from "@preact/signals";
import { useId } from "preact/hooks";
import { type Problem, problemOf } from "../../door/problem";
import { ask } from "../../door/request";
import type { Wire } from "../../door/wire";
import { Button } from "../../parts/button";
import { Place } from "../../parts/frame";
import { Said, Wrong } from "../../parts/said";
import { many } from "../../words/amounts";
import { Faults } from "./faults";

/** Bring in a house book: its sheets are read whole, and taken in whole or not at all. */
export function Book() {
  const files = useSignal<File[]>([]);
  const taken = useSignal<Wire["BookTaken"] | null>(null);
  const problem = useSignal<Problem | null>(null);
  const busy = useSignal("");
  const id = useId();
  const send = async (check: boolean) => {
    busy.value = check ? "Reading every row" : "Taking it in";
    problem.value = null;
    const form = new FormData();
    for (const file of files.value) form.append("files", file, file.name);
    try {
      taken.value = await ask<Wire["BookTaken"]>(`/api/book?check=${check}`, form);
    } catch (error) {
      taken.value = null;
      problem.value = problemOf(error);
    } finally {
      busy.value = "";
    }
  };
  const said = taken.value;
  return (
    <Place
      title="House book"
      under="Your own sheets: one workbook, or a CSV file for each sheet, named as the sheets are"
    >
      <div class="stack narrow">
        <div class="field">
          <label for={id}>The book</label>
          <input
            id={id}
            type="file"
            multiple
            accept=".xlsx,.csv"
            onChange={(event) => {
              files.value = [...(event.currentTarget.files ?? [])];
              taken.value = null;
              if (files.value.length) void send(true);
            }}
          />
          <span class="hint">
            It is read first, and nothing is changed. What it names takes the place of what had the
            same name; batches, services and orders in it are new.
          </span>
        </div>
        {busy.value && (
          <p role="status">
            {busy.value} <progress aria-label={busy.value} />
          </p>
        )}
        {problem.value && <Wrong problem={problem.value} />}
        {said && said.faults.length > 0 && (
          <>
            <Said kind="due">
              <strong>{many(said.faults.length, "fault")}; nothing was taken in.</strong>
              <span>Put them right in the sheets, then choose the files again.</span>
            </Said>
            <Faults faults={said.faults} />
          </>
        )}
        {said?.faults.length === 0 && !said.applied && (
          <>
            <Said kind="done">
              <strong>The book has no fault.</strong>
            </Said>
            <Button kind="main" onClick={() => void send(false)} disabled={busy.value !== ""}>
              Take all of it in
            </Button>
          </>
        )}
        {said?.applied && (
          <Said kind="done">
            <strong>All of it was taken in.</strong>
          </Said>
        )}
      </div>
    </Place>
  );
}
