import "../../look/menus.css";
import { useSignal } from "@preact/signals";
import { isGiven } from "../../door/command";
import type { MenuRow } from "../../door/rows";
import { mayGive } from "../../door/session";
import { ActBar, Button } from "../../parts/button";
import { useGiving } from "../../parts/giving";
import { Said, Wrong } from "../../parts/said";
import { ChangeCovers } from "./change_covers";
import { MoveMeal } from "./move_meal";
import { TakeOff } from "./take_off";

/** What can still be changed of a confirmed menu: how many eat, when and where, and whether it takes place. */
export function Changes({ row, zone }: { row: MenuRow; zone: string }) {
  const open = useSignal<"covers" | "move" | "off" | null>(null);
  const before = useSignal<number | null>(null);
  const { busy, answer, decide } = useGiving();
  const close = () => {
    open.value = null;
  };
  const undo = async (covers: number) => {
    const body = { service: row.service, covers };
    const given = await decide("change_covers", body, row.version);
    if (isGiven(given)) before.value = null;
  };
  return (
    <>
      <ActBar>
        <div class="changes">
          {answer.value?.problem && <Wrong problem={answer.value.problem} />}
          {before.value !== null && before.value !== row.covers && (
            <Said kind="done">
              <strong>
                It is for {row.covers} now, not {before.value}. What it needs has followed.
              </strong>
              <Button disabled={busy.value} onClick={() => void undo(before.value ?? row.covers)}>
                Undo: for {before.value} again
              </Button>
            </Said>
          )}
          <div class="row">
            {mayGive("change_covers") && (
              <Button
                kind="main"
                onClick={() => {
                  open.value = "covers";
                }}
              >
                Change covers
              </Button>
            )}
            {mayGive("move_service") && (
              <Button
                onClick={() => {
                  open.value = "move";
                }}
              >
                Move
              </Button>
            )}
            {mayGive("take_off") && (
              <Button
                onClick={() => {
                  open.value = "off";
                }}
              >
                Take off
              </Button>
            )}
          </div>
        </div>
      </ActBar>
      {open.value === "covers" && (
        <ChangeCovers
          row={row}
          zone={zone}
          onClose={close}
          onChanged={(was) => {
            before.value = was;
          }}
        />
      )}
      {open.value === "move" && <MoveMeal row={row} zone={zone} onClose={close} />}
      {open.value === "off" && <TakeOff row={row} zone={zone} onClose={close} />}
    </>
  );
}
