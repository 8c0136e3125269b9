import { useSignal } from "@preact/signals";
import { now } from "../../door/clock";
import { mayGive } from "../../door/session";
import { Button } from "../../parts/button";
import { Said } from "../../parts/said";
import { moment } from "../../words/time";
import { ChangeCovers } from "./change_covers";
import type { KnownProps } from "./service_head";

/** Another number was said than the menu stands at: who said it, and the change one tap away. */
export function CoversSaid({ row, zone }: KnownProps) {
  const open = useSignal(false);
  const said = row.said;
  const close = () => {
    open.value = false;
  };
  return (
    <>
      {said && (
        <Said kind="due">
          <strong>
            {said.covers}, not {row.covers}
          </strong>
          <span>
            Said by {said.said_by} {moment(said.said_at, zone, now.value)}
          </span>
          {mayGive("change_covers") && (
            <div>
              <Button
                onClick={() => {
                  open.value = true;
                }}
              >
                Change to {said.covers}
              </Button>
            </div>
          )}
        </Said>
      )}
      {open.value && (
        <ChangeCovers row={row} to={said?.covers} zone={zone} onChanged={close} onClose={close} />
      )}
    </>
  );
}
