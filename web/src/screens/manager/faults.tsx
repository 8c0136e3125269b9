import type { Fault } from "../../door/problem";

/** Everything that is wrong with a house book, by sheet and row, and what to do about each. */
export function Faults({ faults }: { faults: Fault[] }) {
  const sheets = [...new Set(faults.map((fault) => fault.file))];
  return (
    <div class="stack">
      {sheets.map((sheet) => (
        <section key={sheet} class="stack tight" aria-label={sheet}>
          <h3>{sheet}</h3>
          <ul class="lines">
            {faults
              .filter((fault) => fault.file === sheet)
              .map((fault) => (
                <li key={JSON.stringify(fault)} class="stack tight">
                  <span>
                    <strong>row {fault.row}</strong>
                    {fault.column && <strong>, {fault.column}</strong>}
                    {fault.value && (
                      <>
                        : <q>{fault.value}</q>
                      </>
                    )}
                  </span>
                  <span>{fault.problem}</span>
                  <span class="soft">{fault.todo}</span>
                </li>
              ))}
          </ul>
        </section>
      ))}
    </div>
  );
}
