import type { ComponentChildren } from "preact";
import type { Asked } from "../door/reports";
import { AsOf } from "./as_of";
import { Waiting, Wrong } from "./said";

interface ShownProps<Row> {
  report: Asked<Row>;
  what: string;
  children: (rows: Row[], zone: string) => ComponentChildren;
}

/** A report once it has answered; what it said before stays while it is asked again or cannot be. */
export function Shown<Row>({ report, what, children }: ShownProps<Row>) {
  const said = report.said.value;
  return (
    <>
      {said && report.copied.value ? (
        <AsOf at={said.as_of} zone={said.zone} />
      ) : (
        report.problem.value && <Wrong problem={report.problem.value} />
      )}
      {said ? children(said.rows, said.zone) : !report.problem.value && <Waiting what={what} />}
    </>
  );
}
