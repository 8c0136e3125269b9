import { busy } from "../door/busy";
import { newer, takeNewer } from "../door/program";
import { Button } from "./button";

/** That a newer version is here and can be taken with one key, unless something is in hand. */
export function Newer() {
  if (!newer.value || busy.value) return null;
  return (
    <div class="said plain" role="status">
      <div>
        <Button onClick={() => void takeNewer()}>Take the newer version</Button>
      </div>
    </div>
  );
}
